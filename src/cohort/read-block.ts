/** The bytes of a block -> its rows. Blocks with quotes go through csv-parse; without any quote a line is a row as it stands. */
import { isUtf8 } from 'node:buffer';
import { CsvError, parse } from 'csv-parse/sync';
import { type Block, recordsOf } from './splitter.ts';

/** Called for every row of a block, in order; rows are not kept, so that a block costs no more than its bytes. */
export interface RowVisitor {
  /** `raw`: the line as it stood, where no cell of it is in quotes. */
  row(cells: readonly string[], raw?: string): void;
  /** Its quotes or its letters cannot be read. */
  unreadable(raw: string, because: string): void;
}

const UNREADABLE = 'a letter in it cannot be read; save the file as UTF-8, or name its encoding with --encoding';
const BAD_QUOTES = 'the quotes in it do not pair up; put the whole cell in quotes and double every quote inside it';

/** Cells of the line from `start` to `end`. Cut by hand: `split` takes twice as long, and this is the one loop over every cell. */
function cellsBetween(text: string, start: number, end: number, delimiter: string): string[] {
  const cells: string[] = [];
  let from = start;
  for (;;) {
    const at = text.indexOf(delimiter, from);
    if (at === -1 || at >= end) {
      cells.push(text.slice(from, end));
      return cells;
    }
    cells.push(text.slice(from, at));
    from = at + 1;
  }
}

/**
 * Goes through a text without quotes: one record a line, an empty line is one empty cell. One step a line, because the engine
 * compiles what is called often and may leave a long loop that is entered seldom to its interpreter.
 */
class PlainReader {
  readonly #text: string;
  readonly #delimiter: string;
  readonly #returns: boolean;
  #start = 0;

  constructor(text: string, delimiter: string) {
    this.#text = text;
    this.#delimiter = delimiter;
    this.#returns = text.includes('\r');
  }

  /** Reads one line; false behind the last. */
  step(visitor: RowVisitor): boolean {
    const text = this.#text;
    const start = this.#start;
    if (start >= text.length) return false;
    const found = text.indexOf('\n', start);
    const line = found === -1 ? text.length : found;
    const end = this.#returns && found > start && text[found - 1] === '\r' ? found - 1 : line;
    this.#start = line + 1;
    visitor.row(cellsBetween(text, start, end, this.#delimiter), text.slice(start, end));
    return true;
  }
}

function readPlain(text: string, delimiter: string, visitor: RowVisitor): void {
  const reader = new PlainReader(text, delimiter);
  while (reader.step(visitor));
}

function readQuoted(bytes: Buffer, delimiter: string): string[][] {
  return parse(bytes, { delimiter, record_delimiter: ['\n', '\r\n'], relax_column_count: true });
}

const withoutBreak = (text: string): string => text.replace(/\r?\n$/, '');

/** A record at a time, so that one that cannot be read takes no other with it. */
function readSingly(bytes: Buffer, delimiter: string, visitor: RowVisitor): void {
  for (const { start, end } of recordsOf(bytes, delimiter)) {
    const record = bytes.subarray(start, end);
    const raw = withoutBreak(record.toString('utf8'));
    const rows = isUtf8(record) ? tryQuoted(record, delimiter) : null;
    const [cells] = rows ?? [];
    if (rows?.length === 1 && cells !== undefined) visitor.row(cells);
    else visitor.unreadable(raw, isUtf8(record) ? BAD_QUOTES : UNREADABLE);
  }
}

/** null where csv-parse refuses it. */
function tryQuoted(bytes: Buffer, delimiter: string): string[][] | null {
  try {
    return readQuoted(bytes, delimiter);
  } catch (error) {
    if (error instanceof CsvError) return null;
    throw error;
  }
}

/** As many rows as the splitter counted, in order. */
export function readBlock({ bytes, plain, records }: Block, delimiter: string, visitor: RowVisitor): void {
  if (isUtf8(bytes) && plain) {
    readPlain(bytes.toString('utf8'), delimiter, visitor);
    return;
  }
  const rows = isUtf8(bytes) ? tryQuoted(bytes, delimiter) : null;
  if (rows?.length === records) for (const cells of rows) visitor.row(cells);
  else readSingly(bytes, delimiter, visitor);
}
