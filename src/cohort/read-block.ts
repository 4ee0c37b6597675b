/** The bytes of a block -> its rows. Blocks with quotes go through csv-parse; without any quote a line is a row as it stands. */
import { isUtf8 } from 'node:buffer';
import { parse } from 'csv-parse/sync';
import { type Block, recordsOf } from './splitter.ts';

export type ReadRow =
  | { readonly kind: 'row'; readonly cells: readonly string[]; /** As it stood, where no cell is in quotes. */ readonly raw?: string }
  /** Its quotes or its letters cannot be read. */
  | { readonly kind: 'unreadable'; readonly raw: string; readonly because: string };

const NOT_UTF8 = 'a letter in it is not UTF-8 text; save the file as UTF-8, or name its encoding with --encoding';
const BAD_QUOTES = 'the quotes in it do not pair up; put the whole cell in quotes and double every quote inside it';

/** One record a line; an empty line is one empty cell. */
export function readPlain(text: string, delimiter: string): ReadRow[] {
  const lines = text.split('\n');
  if (lines.at(-1) === '') lines.pop();
  return lines.map((line) => {
    const raw = line.endsWith('\r') ? line.slice(0, -1) : line;
    return { kind: 'row', cells: raw.split(delimiter), raw };
  });
}

function readQuoted(bytes: Buffer, delimiter: string): string[][] {
  return parse(bytes, { delimiter, record_delimiter: ['\n', '\r\n'], relax_column_count: true });
}

const withoutBreak = (text: string): string => text.replace(/\r?\n$/, '');

/** A record at a time, so that one that cannot be read takes no other with it. */
function readSingly(bytes: Buffer, delimiter: string): ReadRow[] {
  return recordsOf(bytes, delimiter).map(({ start, end }) => {
    const record = bytes.subarray(start, end);
    const raw = withoutBreak(record.toString('utf8'));
    if (!isUtf8(record)) return { kind: 'unreadable', raw, because: NOT_UTF8 };
    try {
      const [cells, ...others] = readQuoted(record, delimiter);
      if (cells !== undefined && others.length === 0) return { kind: 'row', cells };
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && String(error.code).startsWith('CSV_'))) throw error;
    }
    return { kind: 'unreadable', raw, because: BAD_QUOTES };
  });
}

/** As many rows as the splitter counted, in order. */
export function readBlock({ bytes, plain, records }: Block, delimiter: string): ReadRow[] {
  if (!isUtf8(bytes)) return readSingly(bytes, delimiter);
  if (plain) return readPlain(bytes.toString('utf8'), delimiter);
  try {
    const rows = readQuoted(bytes, delimiter);
    if (rows.length === records) return rows.map((cells) => ({ kind: 'row', cells }));
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && String(error.code).startsWith('CSV_'))) throw error;
  }
  return readSingly(bytes, delimiter);
}
