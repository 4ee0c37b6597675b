/** From bytes to rows: any cutting of the bytes gives the same rows, and no row is lost, whatever the bytes are. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBlock } from '../../src/cohort/read-block.ts';
import { asUtf8, readHeader, takeHeader } from '../../src/cohort/source.ts';
import { LONGEST_RECORD, recordsOf, Splitter } from '../../src/cohort/splitter.ts';

type Read = { readonly cells: readonly string[] } | { readonly unreadable: string };

function readAll(bytes: Buffer, pieces: readonly number[], delimiter = ','): { rows: Read[]; numbers: number[] } {
  const splitter = new Splitter(delimiter, 2);
  const rows: Read[] = [];
  const numbers: number[] = [];
  const blocks = [];
  let from = 0;
  for (const piece of pieces) {
    blocks.push(...splitter.push(bytes.subarray(from, from + piece)));
    from += piece;
  }
  if (from < bytes.length) blocks.push(...splitter.push(bytes.subarray(from)));
  blocks.push(...splitter.end());
  for (const block of blocks) {
    numbers.push(block.first);
    readBlock(block, delimiter, {
      row: (cells) => void rows.push({ cells: [...cells] }),
      unreadable: (raw) => void rows.push({ unreadable: raw }),
    });
  }
  return { rows, numbers };
}

const pieces = fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 30 });
/** What breaks readers of CSV: quotes in every place, line ends of every kind, letters of more than one byte. */
const csvish = fc
  .array(fc.constantFrom(',', ',', '\n', '\r\n', '"', '""', 'a', 'bc', '1.5', 'é', '😀', ' ', ';', '\r'), { maxLength: 60 })
  .map((parts) => parts.join(''));
const wellFormedCell = fc
  .array(fc.constantFrom('a', ',', '"', '\n', ' ', '7', 'ü'), { maxLength: 6 })
  .map((parts) => parts.join(''));
const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;

describe('rows of a CSV', () => {
  it('without quotes are those that csv-parse reads', () => {
    fc.assert(
      fc.property(
        csvish.map((text) => text.replaceAll('"', '').replace(/\r(?!\n)/g, '')),
        (text) => {
          const { rows } = readAll(Buffer.from(text), []);
          const expected = parse(text, { record_delimiter: ['\n', '\r\n'], relax_column_count: true }) as string[][];
          expect(rows).toEqual(expected.map((cells) => ({ cells })));
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('with quotes are those that were written', () => {
    fc.assert(
      fc.property(fc.array(fc.array(wellFormedCell, { minLength: 2, maxLength: 4 }), { maxLength: 8 }), pieces, (table, cuts) => {
        const text = table.map((row) => row.map(quoted).join(',')).join('\r\n');
        expect(readAll(Buffer.from(text), cuts).rows).toEqual(table.map((cells) => ({ cells })));
      }),
      { numRuns: 1000 },
    );
  });

  it('are the same however the bytes arrive, and as many as there are records', () => {
    fc.assert(
      fc.property(csvish, pieces, (text, cuts) => {
        const bytes = Buffer.from(text);
        const whole = readAll(bytes, []);
        expect(readAll(bytes, cuts).rows).toEqual(whole.rows);
        // Half a line end at the very end is no row.
        expect(whole.rows).toHaveLength(recordsOf(Buffer.from(text.replace(/\r$/, '')), ',').length);
      }),
      { numRuns: 3000 },
    );
  });

  it('over many blocks keep their numbers', () => {
    const line = 'M-1,female,74,"a ""quoted"" cell",12.8\n';
    const bytes = Buffer.from(line.repeat(30_000));
    const { rows, numbers } = readAll(
      bytes,
      Array.from({ length: 20 }, () => 60_000),
    );
    expect(rows).toHaveLength(30_000);
    expect(numbers.length).toBeGreaterThan(2);
    expect(new Set(rows.map((row) => JSON.stringify(row))).size).toBe(1);
  });

  it('a quote that never closes costs its own line and no other', () => {
    const bytes = Buffer.from('1,"open\n2,b\n3,c\n');
    expect(readAll(bytes, []).rows).toEqual([{ unreadable: '1,"open' }, { cells: ['2', 'b'] }, { cells: ['3', 'c'] }]);
    const long = Buffer.from(`1,"open\n${'2,b\n'.repeat(LONGEST_RECORD / 2)}`);
    const { rows } = readAll(
      long,
      Array.from({ length: 40 }, () => 65_536),
    );
    expect(rows).toHaveLength(1 + LONGEST_RECORD / 2);
    expect(rows[0]).toEqual({ unreadable: '1,"open' });
  });

  it('a quote inside a cell, text behind a closing quote and a letter that is not UTF-8 cost one row each', () => {
    const bytes = Buffer.concat([Buffer.from('1,5" high\n2,"a"b\n3,'), Buffer.from([0xe9]), Buffer.from('\n4,fine\n')]);
    expect(readAll(bytes, []).rows.map((row) => 'unreadable' in row)).toEqual([true, true, true, false]);
  });
});

async function* chunks(...parts: readonly Uint8Array[]): AsyncGenerator<Uint8Array> {
  for (const part of parts) yield part;
}

async function decoded(source: AsyncIterable<Uint8Array>, named?: string): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of asUtf8(source, named)) parts.push(part);
  return Buffer.concat(parts).toString('utf8');
}

describe('encodings', () => {
  const text = 'ref,näme\nM-1,Ünal 😀\n';
  const bytewise = (bytes: Buffer): Uint8Array[] => [...bytes].map((byte) => Uint8Array.of(byte));
  it.each([
    ['UTF-8', Buffer.from(text), undefined],
    ['UTF-8 with a mark', Buffer.from(`\ufeff${text}`), undefined],
    ['UTF-16 little end first, with a mark', Buffer.from(`\ufeff${text}`, 'utf16le'), undefined],
    ['UTF-16 little end first', Buffer.from(text, 'utf16le'), undefined],
    ['UTF-16 big end first, with a mark', Buffer.from(`\ufeff${text}`, 'utf16le').swap16(), undefined],
    ['UTF-16 big end first', Buffer.from(text, 'utf16le').swap16(), undefined],
  ])('%s', async (_name, bytes, named) => {
    expect(await decoded(chunks(bytes), named)).toBe(text);
    expect(await decoded(chunks(...bytewise(bytes)), named)).toBe(text);
  });

  it('one that is named', async () => {
    expect(await decoded(chunks(Buffer.from([0x6e, 0xe4, 0x6d, 0x65, 0x0a])), 'windows-1252')).toBe('näme\n');
    await expect(decoded(chunks(Buffer.from('a')), 'klingon')).rejects.toThrow('not known');
  });

  it('an input shorter than any mark is read too', async () => {
    expect(await decoded(chunks(Buffer.from('a')))).toBe('a');
    expect(await decoded(chunks())).toBe('');
  });
});

describe('the header', () => {
  const known = (headings: readonly string[]): number =>
    headings.filter((heading) => ['ref', 'age', 'sex'].includes(heading)).length;
  it.each([',', ';', '\t', '|'])('parted by %j is found', (delimiter) => {
    const { headings, delimiter: found } = readHeader(
      Buffer.from(['ref', 'age', 'a, b; c'].map((cell) => `"${cell}"`).join(delimiter)),
      undefined,
      known,
    );
    expect(found).toBe(delimiter);
    expect(headings).toEqual(['ref', 'age', 'a, b; c']);
  });

  it('may have line breaks in quotes and blank lines before it, however the bytes arrive', async () => {
    const bytes = Buffer.from('\n\r\n"ref\nno",age\nM-1,74\n');
    async function* one(): AsyncGenerator<Buffer> {
      for (const byte of bytes) yield Buffer.from([byte]);
    }
    const source = one();
    const { line, rest, blank } = await takeHeader(source);
    expect(line.toString()).toBe('"ref\nno",age\n');
    expect(blank).toBe(2);
    const more: Buffer[] = [rest];
    for await (const part of source) more.push(part);
    expect(Buffer.concat(more).toString()).toBe('M-1,74\n');
  });

  it('parted by semicolons may have line breaks in quotes too', async () => {
    const { line } = await takeHeader(
      (async function* (): AsyncGenerator<Buffer> {
        yield Buffer.from('"a\nb";age\n1;2\n');
      })(),
    );
    expect(readHeader(line, undefined, known).headings).toEqual(['a\nb', 'age']);
  });

  it('is missing in words', async () => {
    await expect(takeHeader((async function* (): AsyncGenerator<Buffer> {})())).rejects.toThrow('nothing in it');
  });
});
