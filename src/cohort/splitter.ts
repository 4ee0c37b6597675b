/**
 * Cuts the bytes of a CSV into blocks of whole records, so that blocks can be read on their own and on several cores. Quotes
 * count only at the start of a cell (RFC 4180). A record whose quotes do not close, or close in the middle of a cell, ends at
 * its first line break: the rows behind it are not swallowed.
 */
const NEWLINE = 0x0a;
const RETURN = 0x0d;
const QUOTE = 0x22;

/**
 * Bytes: large enough that the work per block is small, and small enough that the text of a block is an ordinary object, which
 * the engine forgets at once. From 128 KB on it would keep each for a long time, and memory would grow with the input.
 */
const BLOCK = 64 * 1024;
/** A cell in quotes that is longer has lost its closing quote. */
export const LONGEST_RECORD = 1024 * 1024;

export interface Block {
  readonly bytes: Buffer;
  /** Number of the first record in the file, the header being record 1. */
  readonly first: number;
  /** Blank lines among them. */
  readonly records: number;
  /** No quote in it: every line is a record and every delimiter parts two cells. */
  readonly plain: boolean;
}

export interface RecordSpan {
  readonly start: number;
  /** Behind the line break. */
  readonly end: number;
}

type Ended = { readonly kind: 'end'; readonly at: number } | { readonly kind: 'open' };

/** End of the first line from `start` on. */
function lineEnd(bytes: Buffer, start: number, last: boolean): Ended {
  const at = bytes.indexOf(NEWLINE, start);
  if (at !== -1) return { kind: 'end', at: at + 1 };
  return last ? { kind: 'end', at: bytes.length } : { kind: 'open' };
}

/** Does the cell end with the quote at `close`? `open` where more bytes are needed to tell. */
function closes(bytes: Buffer, close: number, delimiter: number, last: boolean): boolean | 'open' {
  const next = bytes[close + 1];
  if (next === undefined) return last ? true : 'open';
  if (next === delimiter || next === NEWLINE) return true;
  if (next !== RETURN) return false;
  const behind = bytes[close + 2];
  if (behind === undefined) return last ? false : 'open';
  return behind === NEWLINE;
}

/** Behind the closing quote of the cell that opens at `open`; null where there is none or text follows it. */
function quotedEnd(bytes: Buffer, open: number, limit: number, delimiter: number, last: boolean): number | null | 'open' {
  let from = open + 1;
  for (;;) {
    const close = bytes.indexOf(QUOTE, from);
    if (close === -1 || close >= limit) return bytes.length >= limit || last ? null : 'open';
    if (bytes[close + 1] !== QUOTE) {
      const closed = closes(bytes, close, delimiter, last);
      return closed === true ? close + 1 : closed || null;
    }
    from = close + 2;
  }
}

/** The first delimiter or line break from `start` on; the end of the bytes where there is none. */
function plainEnd(bytes: Buffer, start: number, delimiter: number): number {
  let at = start;
  while (at < bytes.length && bytes[at] !== delimiter && bytes[at] !== NEWLINE) at += 1;
  return at;
}

/** Where the record that starts at `start` ends; `open` where more bytes are needed to tell. */
function recordEnd(bytes: Buffer, start: number, delimiter: number, last: boolean): Ended {
  let at = start;
  while (at < bytes.length) {
    if (bytes[at] === QUOTE) {
      const end = quotedEnd(bytes, at, start + LONGEST_RECORD, delimiter, last);
      if (end === 'open') return { kind: 'open' };
      if (end === null) return lineEnd(bytes, start, last);
      at = end;
    }
    at = plainEnd(bytes, at, delimiter) + 1;
    if (bytes[at - 1] === NEWLINE) return { kind: 'end', at };
  }
  return last ? { kind: 'end', at: bytes.length } : { kind: 'open' };
}

/**
 * Where the record that starts at `start` ends, whichever of these parts its cells: with the wrong one a cell in quotes seems to
 * end early. null where more bytes are needed to tell.
 */
export function firstRecordEnd(bytes: Buffer, start: number, delimiters: readonly string[], last: boolean): number | null {
  let furthest = start;
  for (const delimiter of delimiters) {
    const ended = recordEnd(bytes, start, delimiter.charCodeAt(0), last);
    if (ended.kind === 'open') return null;
    furthest = Math.max(furthest, ended.at);
  }
  return furthest;
}

/** Every record of a block. */
export function recordsOf(bytes: Buffer, delimiter: string): RecordSpan[] {
  const spans: RecordSpan[] = [];
  let start = 0;
  while (start < bytes.length) {
    const ended = recordEnd(bytes, start, delimiter.charCodeAt(0), true);
    const end = ended.kind === 'end' ? ended.at : bytes.length;
    spans.push({ start, end });
    start = end;
  }
  return spans;
}

function countLines(bytes: Buffer): number {
  let lines = 0;
  for (let at = bytes.indexOf(NEWLINE); at !== -1; at = bytes.indexOf(NEWLINE, at + 1)) lines += 1;
  return bytes.length > 0 && bytes[bytes.length - 1] !== NEWLINE ? lines + 1 : lines;
}

export class Splitter {
  readonly #delimiter: number;
  #pending: Buffer[] = [];
  #size = 0;
  /** Bytes gathered before the next attempt: grows while one record fills them all. */
  #wanted = BLOCK;
  #first: number;

  /** `first`: number of the record that comes first. */
  constructor(delimiter: string, first: number) {
    this.#delimiter = delimiter.charCodeAt(0);
    this.#first = first;
  }

  push(chunk: Buffer): Block[] {
    this.#pending.push(chunk);
    this.#size += chunk.length;
    return this.#size >= this.#wanted ? this.#cut(false) : [];
  }

  end(): Block[] {
    return this.#size === 0 ? [] : this.#cut(true);
  }

  #cut(last: boolean): Block[] {
    const gathered =
      this.#pending.length === 1 && this.#pending[0] !== undefined ? this.#pending[0] : Buffer.concat(this.#pending);
    // Half a line end: the file was cut off between the two.
    const bytes = last && gathered[gathered.length - 1] === RETURN ? gathered.subarray(0, -1) : gathered;
    const { end, records, plain } = this.#whole(bytes, last);
    const rest = bytes.subarray(end);
    this.#pending = rest.length === 0 ? [] : [rest];
    this.#size = rest.length;
    this.#wanted = end === 0 ? Math.max(BLOCK, bytes.length * 2) : BLOCK;
    if (end === 0) return [];
    const block: Block = { bytes: bytes.subarray(0, end), first: this.#first, records, plain };
    this.#first += records;
    return [block];
  }

  /** How far the whole records reach. */
  #whole(bytes: Buffer, last: boolean): { end: number; records: number; plain: boolean } {
    const quote = bytes.indexOf(QUOTE);
    const lines = last ? bytes.length : bytes.lastIndexOf(NEWLINE) + 1;
    if (quote === -1 || quote >= lines) return { end: lines, records: countLines(bytes.subarray(0, lines)), plain: true };
    let [at, records] = [0, 0];
    while (at < bytes.length) {
      const ended = recordEnd(bytes, at, this.#delimiter, last);
      if (ended.kind === 'open') break;
      at = ended.at;
      records += 1;
    }
    return { end: at, records, plain: false };
  }
}
