/**
 * What the records of a CSV are, told a second time and in another way than the program does it: by one regular expression for a
 * whole record, over the whole text. A record that does not fit the grammar ends at its first line break.
 */

export interface ReferenceRow {
  /** As a spreadsheet counts; the first record of the text is number 1. */
  readonly number: number;
  /** null where its quotes or its letters cannot be read. */
  readonly cells: readonly string[] | null;
}

/** A cell in quotes that reaches further than this from the start of its record has lost its closing quote. */
const LONGEST = 1024 * 1024;

const escaped = (character: string): string => character.replace(/[\\^$.*+?()[\]{}|/-]/g, '\\$&');

interface Grammar {
  readonly record: RegExp;
  readonly cell: RegExp;
}

function grammarOf(delimiter: string): Grammar {
  const part = escaped(delimiter);
  const quoted = `"(?:[^"]|"")*"(?=${part}|\\r?\\n|$)`;
  const bare = `(?!")[^${part}\\n]*`;
  return {
    record: new RegExp(`(?:${quoted}|${bare})(?:${part}(?:${quoted}|${bare}))*(?:\\r?\\n|$)`, 'y'),
    cell: new RegExp(`(${quoted}|${bare})(?:${part}|$)`, 'y'),
  };
}

/** Cells of a record without its line end; null where a quote stands inside a cell without quotes. */
function cellsOf(record: string, { cell }: Grammar): string[] | null {
  const cells: string[] = [];
  cell.lastIndex = 0;
  for (;;) {
    const found = cell.exec(record);
    if (found === null) return null;
    const text = found[1] ?? '';
    if (text.startsWith('"')) cells.push(text.slice(1, -1).replaceAll('""', '"'));
    else if (text.includes('"')) return null;
    else cells.push(text);
    if ((found[0] ?? '').length === text.length && cell.lastIndex >= record.length) return cells;
  }
}

/** A quoted cell of the record closes too far from its start. */
const isTooLong = (record: string): boolean => record.length > LONGEST && record.lastIndexOf('"') >= LONGEST;

/** `readable` says of the text of a record whether all its letters could be read, and gives it in plain letters. */
export function referenceRows(whole: string, delimiter: string, readable: (record: string) => string | null): ReferenceRow[] {
  const grammar = grammarOf(delimiter);
  // A return at the very end is half a line end: the file was cut off there.
  const text = whole.replace(/\r$/, '');
  const rows: ReferenceRow[] = [];
  let at = 0;
  while (at < text.length) {
    grammar.record.lastIndex = at;
    const match = grammar.record.exec(text)?.[0];
    const fits = match !== undefined && !isTooLong(match);
    const line = text.indexOf('\n', at);
    const record = fits ? match : text.slice(at, line === -1 ? text.length : line + 1);
    const plain = readable(record.replace(/\r?\n$/, ''));
    rows.push({ number: rows.length + 1, cells: fits && plain !== null ? cellsOf(plain, grammar) : null });
    at += record.length;
  }
  return rows;
}

/** As a stream: read at once, some engines take windows-1252 for latin1. */
function decodedWhole(bytes: Buffer, named: string): string {
  const decoder = new TextDecoder(named);
  return decoder.decode(bytes, { stream: true }) + decoder.decode();
}

/** Bytes as text in which every record can be told, and how a record of it becomes letters. */
export function referenceText(
  bytes: Buffer,
  named: string | null,
): { readonly text: string; readonly readable: (record: string) => string | null } {
  const starts = (...wanted: readonly number[]): boolean => wanted.every((byte, index) => bytes[index] === byte);
  const wellFormed = (record: string): string | null => (!/\p{Surrogate}|\ufffd/u.test(record) ? record : null);
  const utf16 = (of: Buffer): string => of.toString('utf16le') + (of.length % 2 === 1 ? '\ud800' : '');
  const swapped = (of: Buffer): Buffer => {
    const even = Buffer.from(of.subarray(0, of.length - (of.length % 2))).swap16();
    return of.length % 2 === 1 ? Buffer.concat([even, Buffer.of(0)]) : even;
  };
  if (starts(0xff, 0xfe)) return { text: utf16(bytes.subarray(2)), readable: wellFormed };
  if (starts(0xfe, 0xff)) return { text: utf16(swapped(bytes.subarray(2))), readable: wellFormed };
  if (!starts(0xef, 0xbb, 0xbf)) {
    if (named !== null) return { text: decodedWhole(bytes, named), readable: wellFormed };
    if (bytes.length >= 4 && bytes[1] === 0 && bytes[3] === 0) return { text: utf16(bytes), readable: wellFormed };
    if (bytes.length >= 4 && bytes[0] === 0 && bytes[2] === 0) return { text: utf16(swapped(bytes)), readable: wellFormed };
  }
  const body = starts(0xef, 0xbb, 0xbf) ? bytes.subarray(3) : bytes;
  // One letter a byte, so that nothing is lost before the records are told; then each record is read as UTF-8.
  return {
    text: body.toString('latin1'),
    readable: (record) => {
      const original = Buffer.from(record, 'latin1');
      const read = original.toString('utf8');
      return Buffer.from(read, 'utf8').equals(original) ? read : null;
    },
  };
}
