/** The bytes of a file or pipe as UTF-8 without a mark at the start, and the header with its delimiter. */
import { parse } from 'csv-parse/sync';
import { LONGEST_RECORD, recordsOf } from './splitter.ts';

export type Bytes = AsyncIterable<Uint8Array>;
type Decoder = InstanceType<typeof TextDecoder>;

/** Something about the whole input stops the work; the message says what to do. */
export class CohortStop extends Error {
  override readonly name = 'CohortStop';
}

const UTF16_MARKS: Readonly<Record<string, string>> = { fffe: 'utf-16le', feff: 'utf-16be' };

/** By the mark at the start, or the zero bytes of Latin letters in UTF-16; else as named, UTF-8 where nothing is. */
function encodingOf(start: Buffer, named: string | undefined): string {
  const mark = UTF16_MARKS[start.subarray(0, 2).toString('hex')];
  if (mark !== undefined) return mark;
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
    yield decoder === null ? chunk : Buffer.from(decoder.decode(chunk, { stream: true }));
  }
  if (!begun && held.length > 0) {
    const { decoder: late, chunk } = begin(held, named);
    yield late === null ? chunk : Buffer.from(late.decode(chunk));
  } else if (decoder !== null) yield Buffer.from(decoder.decode());
}

function begin(chunk: Buffer, named: string | undefined): { decoder: Decoder | null; chunk: Buffer } {
  const encoding = encodingOf(chunk, named);
  const decoder = decoderFor(encoding);
  if (decoder.encoding !== 'utf-8') return { decoder, chunk };
  const marked = chunk.subarray(0, 3).toString('hex') === 'efbbbf';
  return { decoder: null, chunk: marked ? chunk.subarray(3) : chunk };
}

export const DELIMITERS = [',', ';', '\t', '|'] as const;

export interface Header {
  readonly headings: readonly string[];
  readonly delimiter: string;
}

/** `known` counts the headings that mean something, so that a comma inside a heading does not win over a semicolon. */
export function readHeader(line: Buffer, stated: string | undefined, known: (headings: readonly string[]) => number): Header {
  const readings = (stated === undefined ? DELIMITERS : [stated]).flatMap((delimiter): Header[] => {
    try {
      const [headings] = parse(line, { delimiter, record_delimiter: ['\n', '\r\n'], relax_column_count: true }) as string[][];
      return headings === undefined ? [] : [{ headings: headings.map((heading) => heading.trim()), delimiter }];
    } catch {
      return [];
    }
  });
  const best = readings.sort((a, b) => known(b.headings) - known(a.headings) || b.headings.length - a.headings.length)[0];
  if (best === undefined) throw new CohortStop('the header cannot be read: its quotes do not pair up');
  return best;
}

/** Splits off the first record that is not blank. */
export async function takeHeader(source: AsyncIterator<Buffer>): Promise<{ line: Buffer; rest: Buffer; blank: number }> {
  let held = Buffer.alloc(0);
  for (;;) {
    const { value, done } = await source.next();
    if (done !== true) held = Buffer.concat([held, value]);
    const spans = held.includes(0x0a) || done === true ? recordsOf(held, ',') : [];
    const first = spans.findIndex(({ start, end }) => held.toString('utf8', start, end).trim() !== '');
    const span = spans[first];
    // The last record of what is held may go on in the next chunk.
    if (span !== undefined && (first < spans.length - 1 || held[span.end - 1] === 0x0a || done === true))
      return { line: held.subarray(span.start, span.end), rest: held.subarray(span.end), blank: first };
    if (done === true) throw new CohortStop('there is nothing in it: a cohort begins with a line of headings');
    if (held.length > LONGEST_RECORD)
      throw new CohortStop('the first line is longer than a megabyte: a cohort begins with a line of headings');
  }
}
