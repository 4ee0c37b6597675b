/** The bytes of a file or pipe as UTF-8 without a mark at the start, and the header with its delimiter. */
import { isUtf8 } from 'node:buffer';
import { parse } from 'csv-parse/sync';
import { firstRecordEnd, LONGEST_RECORD } from './splitter.ts';

export type Bytes = AsyncIterable<Uint8Array>;
type Decoder = InstanceType<typeof TextDecoder>;

/** Something about the whole input stops the work; the message says what to do. */
export class CohortStop extends Error {
  override readonly name = 'CohortStop';
}

const MARKS: readonly (readonly [string, string])[] = [
  ['efbbbf', 'utf-8'],
  ['fffe', 'utf-16le'],
  ['feff', 'utf-16be'],
];

/** By the mark at the start, or the zero bytes of Latin letters in UTF-16; else as named, UTF-8 where nothing is. */
function encodingOf(start: Buffer, named: string | undefined): string {
  const begins = start.toString('hex', 0, 3);
  const mark = MARKS.find(([bytes]) => begins.startsWith(bytes));
  if (mark !== undefined) return mark[1];
  if (named !== undefined) return named;
  if (start.length >= 4 && start[1] === 0 && start[3] === 0) return 'utf-16le';
  return start.length >= 4 && start[0] === 0 && start[2] === 0 ? 'utf-16be' : 'utf-8';
}

function decoderFor(encoding: string): Decoder {
  try {
    return new TextDecoder(encoding);
  } catch {
    throw new CohortStop(
      `the encoding "${encoding}" is not known; known are utf-8, utf-16le, windows-1252, iso-8859-1 and others of the Encoding Standard`,
    );
  }
}

/** What a decoder puts where it could not read a letter. */
const LOST = '\ufffd';
/** A byte that UTF-8 never has: the row with it is refused instead of being passed on with a letter that nobody typed. */
const UNREADABLE = Buffer.from([0xff]);

function encoded(text: string): Buffer {
  const [first = '', ...others] = text.split(LOST);
  if (others.length === 0) return Buffer.from(first);
  return Buffer.concat([Buffer.from(first), ...others.flatMap((part) => [UNREADABLE, Buffer.from(part)])]);
}

/** UTF-8 bytes of any input; the byte order mark is gone. A file that is UTF-8 already is passed on as it is. */
export async function* asUtf8(source: Bytes, named?: string): AsyncGenerator<Buffer> {
  let decoder: Decoder | null = null;
  let begun = false;
  let held = Buffer.alloc(0);
  for await (const piece of source) {
    let chunk = Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength);
    if (!begun) {
      held = Buffer.concat([held, chunk]);
      if (held.length < 4) continue;
      chunk = held;
      begun = true;
      ({ decoder, chunk } = begin(chunk, named));
    }
    yield decoder === null ? chunk : encoded(decoder.decode(chunk, { stream: true }));
  }
  if (!begun && held.length > 0) {
    const { decoder: late, chunk } = begin(held, named);
    yield late === null ? chunk : encoded(late.decode(chunk, { stream: true }) + late.decode());
  } else if (decoder !== null) yield encoded(decoder.decode());
}

function begin(chunk: Buffer, named: string | undefined): { decoder: Decoder | null; chunk: Buffer } {
  const encoding = encodingOf(chunk, named);
  const decoder = decoderFor(encoding);
  if (decoder.encoding !== 'utf-8') return { decoder, chunk };
  const marked = chunk.subarray(0, 3).toString('hex') === 'efbbbf';
  return { decoder: null, chunk: marked ? chunk.subarray(3) : chunk };
}

const DELIMITERS = [',', ';', '\t', '|'] as const;

export interface Header {
  readonly headings: readonly string[];
  readonly delimiter: string;
}

/** The splitter looks for one byte, and numbers and words of the output have none of the others in them. */
const canPart = (character: string): boolean => /^(?![\w.\-"\r\n])[\u0001-\u007e]$/.test(character);

function checkLine(line: Buffer, stated: string | undefined): void {
  if (stated !== undefined && !canPart(stated))
    throw new CohortStop(`"${stated}" cannot part the cells; write a sign such as , or ; or | or tab`);
  if (!isUtf8(line))
    throw new CohortStop('a letter in the header cannot be read; save the file as UTF-8, or name its encoding with --encoding');
  if (/\r(?!\n|$)/.test(line.toString('utf8')) && !line.includes('"'))
    throw new CohortStop('its lines end with a bare carriage return; save it with line ends of Windows or Unix');
}

/** `known` counts the headings that mean something, so that a comma inside a heading does not win over a semicolon. */
export function readHeader(line: Buffer, stated: string | undefined, known: (headings: readonly string[]) => number): Header {
  checkLine(line, stated);
  const readings = (stated === undefined ? DELIMITERS : [stated]).flatMap((delimiter): Header[] => {
    try {
      const records = parse(line, { delimiter, record_delimiter: ['\n', '\r\n'], relax_column_count: true }) as string[][];
      const [headings] = records;
      if (headings === undefined || records.length > 1) return [];
      return [{ headings: headings.map((heading) => heading.trim()), delimiter }];
    } catch {
      return [];
    }
  });
  const best = readings.sort((a, b) => known(b.headings) - known(a.headings) || b.headings.length - a.headings.length)[0];
  if (best === undefined) throw new CohortStop('the header cannot be read: its quotes do not pair up');
  return best;
}

/** A line before the header with which a spreadsheet states what parts the cells, and which it does not show as a row. */
const STATED = /^"?sep=([^\r\n])"?\s*$/i;

interface TakenHeader {
  readonly line: Buffer;
  /** As stated by the caller or in the file. */
  readonly delimiter: string | undefined;
  /** What was read beyond it. */
  readonly rest: Buffer;
  /** Blank lines before it. */
  readonly blank: number;
}

interface Search {
  readonly held: Buffer;
  /** Where the next line begins. */
  readonly start: number;
  readonly blank: number;
  readonly stated: string | undefined;
}

/** Passes by what stands before the header; the header, or how far the search came. */
function search({ held, ...came }: Search, last: boolean): TakenHeader | Search {
  let { start, blank, stated } = came;
  for (;;) {
    const end = firstRecordEnd(held, start, stated === undefined ? DELIMITERS : [stated], last);
    if (end === null || end === start) return { held, start, blank, stated };
    const text = held.toString('utf8', start, end).trim();
    const [, sign] = STATED.exec(text) ?? [];
    if (text !== '' && sign === undefined)
      return { line: held.subarray(start, end), rest: held.subarray(end), blank, delimiter: stated };
    if (sign === undefined) blank += 1;
    stated ??= sign;
    start = end;
  }
}

/** Splits off the first record that is not blank. `stated`: what parts the cells. */
export async function takeHeader(source: AsyncIterator<Buffer>, stated?: string): Promise<TakenHeader> {
  let came: Search = { held: Buffer.alloc(0), start: 0, blank: 0, stated };
  for (;;) {
    const { value, done } = await source.next();
    const held = done === true ? came.held : Buffer.concat([came.held, value]);
    const found = search({ ...came, held }, done === true);
    if ('line' in found) return found;
    came = found;
    if (done === true) throw new CohortStop('there is nothing in it: a cohort begins with a line of headings');
    if (held.length - came.start > LONGEST_RECORD)
      throw new CohortStop('the first line is longer than a megabyte: a cohort begins with a line of headings');
  }
}
