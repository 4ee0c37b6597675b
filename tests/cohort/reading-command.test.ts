/** What a spreadsheet may hand over, through the command: read, or refused with row and column. */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { runInMemory } from '../hardening/memory-io.ts';

async function cohort(bytes: string | Uint8Array, ...more: readonly string[]) {
  const { code, io } = await runInMemory(['cohort', 'in.csv', ...more], { files: { 'in.csv': bytes } });
  return { code, out: io.out(), said: io.err() };
}
const refsOf = (out: string, delimiter = ','): unknown[] =>
  (parse(out, { columns: true, delimiter }) as Record<string, string>[]).map(({ ref }) => ref);

const TABLE = 'ref,age,timed_up_and_go\nÄ-1,74,12.8\nM-2,81,9.4\n';

describe('an input that is read', () => {
  it.each([
    ['parted by semicolons', TABLE.replaceAll(',', ';'), ';'],
    ['parted by tabs', TABLE.replaceAll(',', '\t'), '\t'],
    ['parted by bars', TABLE.replaceAll(',', '|'), '|'],
    ['with line ends of Windows', TABLE.replaceAll('\n', '\r\n'), ','],
    ['with mixed line ends and none at the end', 'ref,age,timed_up_and_go\r\nÄ-1,74,12.8\nM-2,81,9.4', ','],
    ['cut off in the middle of a line end', TABLE.replaceAll('\n', '\r\n').slice(0, -1), ','],
    ['with blank lines', `\n${TABLE.replaceAll('\n', '\n\n')}`, ','],
    ['with a byte order mark', `\ufeff${TABLE}`, ','],
    ['in quotes', TABLE.replace('Ä-1', '"Ä-1"').replace('ref', '"ref"'), ','],
  ])('%s', async (_name, text, delimiter) => {
    const { code, out, said } = await cohort(text);
    expect(said).toContain('2 rows read, 2 accepted, 0 refused');
    expect(code).toBe(0);
    expect(refsOf(out, delimiter)).toEqual(['Ä-1', 'M-2']);
  });

  it('with a line of a spreadsheet that states what parts the cells', async () => {
    const { out, said } = await cohort(
      `sep=;\r\nref;age;TUG (s), timed_up_and_go;timed_up_and_go\nÄ-1;74;x;12.8\n;;;;\nM-2;old;;9\n`,
    );
    expect(refsOf(out, ';')).toEqual(['Ä-1']);
    // The spreadsheet does not show that line: the header is row 1.
    expect(said).toContain('row 4: column "age"');
  });
  it('behind thirty thousand blank lines', async () => {
    expect((await cohort(`${'\n'.repeat(30_000)}${TABLE}`)).code).toBe(0);
  });

  it.each([
    ['UTF-16, little end first', Buffer.from(`\ufeff${TABLE}`, 'utf16le'), []],
    ['UTF-16, big end first', Buffer.from(`\ufeff${TABLE}`, 'utf16le').swap16(), []],
    ['an encoding that is named', Buffer.from(TABLE, 'latin1'), ['--encoding', 'windows-1252']],
  ])('%s', async (_name, bytes, more) => {
    expect(refsOf((await cohort(bytes, ...more)).out)).toEqual(['Ä-1', 'M-2']);
  });

  it('line breaks and signs in quotes stay in their cell, and rows count as in a spreadsheet', async () => {
    const { out, said } = await cohort('ref,age,"my\nremark"\nA,74,"two\nlines, ""quoted"""\nB,old,x\n');
    const [row] = parse(out, { columns: true }) as Record<string, string>[];
    expect(row?.['my\nremark']).toBe('two\nlines, "quoted"');
    expect(said).toMatch(/^in\.csv:row 3: column "age": /m);
  });

  it('from a pipe, as one JSON object a line', async () => {
    const { code, io } = await runInMemory(['cohort', '-', '--format', 'ndjson'], { stdin: `${TABLE}M-3,,5\n` });
    const rows = io
      .out()
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(rows.map(({ ref, age, timed_up_and_go_value }) => [ref, age, timed_up_and_go_value])).toEqual([
      ['Ä-1', '74', 12.8],
      ['M-2', '81', 9.4],
    ]);
    expect(io.err()).toMatch(/^standard input:row 4: .*age/m);
    expect(code).toBe(1);
  });
});

describe('a row that is refused', () => {
  const HEADER = 'ref,age,timed_up_and_go\n';
  it.each([
    ['with a cell too few', 'A,74\n', 'row 2: it has 2 cells, the header has 3'],
    ['with a cell too many', 'A,74,12,8\n', 'row 2: it has 4 cells, the header has 3'],
    ['with a quote that never closes', 'A,74,"12\n', 'row 2: the quotes in it do not pair up'],
    ['with a quote inside a cell', '5" A,74,12\n', 'row 2: the quotes in it do not pair up'],
    ['with text behind a quote', '"A"b,74,12\n', 'row 2: the quotes in it do not pair up'],
    ['with a decimal comma in quotes', 'A,74,"12,8"\n', 'row 2: column "timed_up_and_go": '],
    ['after a blank line', '\nA,74,abc\n', 'row 3: column "timed_up_and_go": '],
  ])('%s is named with its place and costs no other', async (_name, row, words) => {
    const { code, out, said } = await cohort(`${HEADER}${row}B,81,9.4\n`);
    expect(said).toContain(`in.csv:${words}`);
    expect(said).toContain('2 rows read, 1 accepted, 1 refused');
    expect(refsOf(out)).toEqual(['B']);
    expect(code).toBe(1);
  });

  it.each([
    ['UTF-8', Buffer.concat([Buffer.from(`${HEADER}A`), Buffer.of(0xe9), Buffer.from(',74,12\nB,81,9.4\n')])],
    ['UTF-16', Buffer.from(`\ufeff${HEADER}A\ud800,74,12\nB,81,9.4\n`, 'utf16le')],
  ])('a letter that cannot be read is not passed on as another (%s)', async (_name, bytes) => {
    const { code, out, said } = await cohort(bytes);
    expect(said).toContain('in.csv:row 2: a letter in it cannot be read');
    expect(refsOf(out)).toEqual(['B']);
    expect(code).toBe(1);
  });
});

describe('a header that stops the work', () => {
  it.each([
    ['a heading twice', 'age,ref,age\n74,A,74\n', 'columns 1 and 3 have the same heading "age"'],
    ['no heading', 'age,,ref,\n74,A,1,\n', 'columns 2, 4 of the header have no heading'],
    ['two columns for one thing', 'age,TUG,timed_up_and_go\n74,1,1\n', 'are both read as timed_up_and_go'],
    ['no age', 'ref,sex\nA,f\n', 'no column holds the age or the date of birth'],
    ['quotes that do not pair up', 'ref,"age\nA,74\n', 'its quotes do not pair up'],
    ['lines that end in a bare return', 'age,ref\r74,A\r81,B\r', 'a bare carriage return'],
    ['nothing at all', '', 'there is nothing in it'],
    ['blank lines only', '\n\r\n \n', 'there is nothing in it'],
    ['a letter that cannot be read', Buffer.from('age,größe\n74,1\n', 'latin1'), 'a letter in the header cannot be read'],
  ])('%s', async (_name, bytes, words) => {
    const { code, out, said } = await cohort(bytes);
    expect(said).toContain(words);
    expect([code, out]).toEqual([2, '']);
  });

  it.each(['é', '.', 'a', '7', '_'])('%s cannot part the cells', async (delimiter) => {
    const { code, said } = await cohort(TABLE, '--delimiter', delimiter);
    expect(said).toContain('cannot part the cells');
    expect(code).toBe(2);
  });

  it('an encoding that is not known', async () => {
    const { code, said } = await cohort(TABLE, '--encoding', 'klingon');
    expect(said).toContain('the encoding "klingon" is not known');
    expect(code).toBe(2);
  });
});

describe('a map file', () => {
  it('whose cell stands for a group instead of a word stops with its place', async () => {
    const files = {
      'in.csv': 'Sex,Age\n1,74\n',
      'map.yaml': 'format: 1\ncolumns:\n  Sex: {to: sex, values: {"1": {toString: female}, "2": [male]}}\n  Age: age\n',
    };
    const { code, io } = await runInMemory(['cohort', 'in.csv', '--columns', 'map.yaml'], { files });
    expect(code).toBe(2);
    expect(io.err()).toMatch(/map\.yaml:3:\d+: .*a cell stands for one word/);
    expect(io.err()).not.toContain('fault of the program');
    expect(io.out()).toBe('');
  });
});
