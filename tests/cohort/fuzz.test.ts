/**
 * Mangled cohorts through the whole command: no crash, no lost row, no output row that scoring the visit alone would not give.
 * The rows are counted a second time by csv-reference.ts. `FOOTING_FUZZ_COHORT` is the number of cases, `FOOTING_FUZZ_SEED` the
 * first case; a failure names its number, which alone makes it again.
 */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { memoryIo } from '../hardening/memory-io.ts';
import { type ReferenceRow, referenceRows, referenceText } from './csv-reference.ts';
import { type CohortCase, cohortCase } from './fuzz-cases.ts';
import { type SingleVisits, singleVisits } from './single-visit.ts';

const CASES = Number(process.env.FOOTING_FUZZ_COHORT ?? 10_000);
const FIRST = Number(process.env.FOOTING_FUZZ_SEED ?? 1);

interface Ran {
  readonly code: number;
  readonly said: string;
  readonly out: string | undefined;
  readonly refused: string | undefined;
}

async function* inPieces(bytes: Buffer, size: number): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

async function run({ argv, bytes, map, piece }: CohortCase): Promise<Ran> {
  const io = memoryIo({ files: { 'in.csv': bytes, ...(map === null ? {} : { map }) } });
  const size = bytes.length > 10_000 ? 65_536 : piece;
  const streams = async () => {
    const usual = await io.streams();
    return { ...usual, read: () => inPieces(bytes, size), stdin: () => inPieces(bytes, size) };
  };
  const code = await main(argv, { ...io, streams });
  return { code, said: io.err(), out: io.files.get('out')?.toString(), refused: io.files.get('refused')?.toString() };
}

const tableOf = (text: string, delimiter: string): string[][] =>
  parse(text, { delimiter, record_delimiter: '\n', relax_column_count: true, relax_quotes: false });

/** Of the output: stated, or told by the headings that the program itself writes. */
function delimiterOf({ delimiter, format }: CohortCase, { out, refused }: Ran): string {
  if (delimiter !== null) return delimiter;
  const told = refused === undefined ? /risk_level(.)missing(.)notes\n/.exec(out ?? '') : /^row(.)reasons/.exec(refused);
  if (told?.[1] === undefined) throw new Error(`no delimiter is told in ${format}`);
  return told[1];
}

/** The one change to a cell of the input: what a spreadsheet would run is shown instead. */
const shownCell = (cell: string): string => {
  const formula = /^[=@\t\r]/.test(cell) || (/^[+-]/.test(cell) && /[^\d., ()/-]/.test(cell.slice(1)));
  return formula ? `'${cell}` : cell;
};

interface OutputRow {
  readonly own: readonly string[];
  /** What the program added, by heading. */
  readonly added: ReadonlyMap<string, string>;
}

const asCell = (value: unknown): string => (Array.isArray(value) ? value.join('; ') : String(value ?? ''));

function outputRows({ format }: CohortCase, { out = '' }: Ran, delimiter: string, headings: readonly string[]): OutputRow[] {
  if (format === 'ndjson')
    return out
      .split('\n')
      .slice(0, -1)
      .map((line) => {
        const pairs = Object.entries(JSON.parse(line) as Record<string, unknown>);
        const value = (heading: string): unknown => pairs.find(([key]) => key === heading)?.[1];
        const added = pairs
          .filter(([key]) => !headings.includes(key))
          .map(([key, cell]): [string, string] => [key, asCell(cell)]);
        return { own: headings.map((heading) => String(value(heading))), added: new Map(added) };
      });
  const [first = [], ...rows] = tableOf(out, delimiter);
  expect(first.slice(0, headings.length)).toEqual(headings.map(shownCell));
  return rows.map((cells) => {
    expect(cells).toHaveLength(first.length);
    const added = first
      .slice(headings.length)
      .map((name, index): [string, string] => [name, cells[headings.length + index] ?? '']);
    return { own: cells.slice(0, headings.length), added: new Map(added) };
  });
}

/** Row number and cells of each refused row. */
function refusedRows({ refused, said }: Ran, delimiter: string): Map<number, readonly string[] | null> {
  if (refused !== undefined) {
    const rows = tableOf(refused, delimiter).slice(1);
    for (const [, reasons] of rows) expect(reasons).not.toBe('');
    expect(new Set(rows.map(([number]) => number)).size).toBe(rows.length);
    return new Map(rows.map(([number, , ...cells]) => [Number(number), cells]));
  }
  return new Map([...said.matchAll(/^(?:in\.csv|standard input):row (\d+): ./gm)].map((found) => [Number(found[1]), null]));
}

/** The header and the rows that are not blank, as the reference reads them. */
function expectedRows(chosen: CohortCase, delimiter: string): { headings: string[]; rows: ReferenceRow[] } {
  const { text, readable } = referenceText(chosen.bytes, chosen.encoding);
  const records = referenceRows(text, delimiter, readable);
  const isBlank = ({ cells }: ReferenceRow): boolean => cells?.length === 1 && cells[0] === '';
  if (chosen.header !== null) {
    const headings = chosen.header.split(delimiter);
    return { headings, rows: records.filter((row) => headings.length === 1 || !isBlank(row)) };
  }
  const top = records.findIndex(({ cells }) => cells?.length !== 1 || cells[0]?.trim() !== '');
  const headings = records[top]?.cells?.map((cell) => cell.trim()) ?? [];
  return { headings, rows: records.slice(top + 1).filter((row) => headings.length === 1 || !isBlank(row)) };
}

function checkAccepted(row: ReferenceRow, given: OutputRow | undefined, format: string, visits: SingleVisits): void {
  expect(given?.own).toEqual(format === 'csv' ? row.cells?.map(shownCell) : row.cells);
  const columns = [...(given?.added.keys() ?? [])];
  const alone = visits.score(row.cells ?? [], row.number, columns);
  if (alone === null) throw new Error(`row ${row.number} is refused alone: ${JSON.stringify(row.cells)}`);
  const different = [...new Set([...columns, ...alone.keys()])].flatMap((heading) => {
    const [here, there] = [given?.added.get(heading) ?? '', alone.get(heading) ?? ''];
    return here === there ? [] : [`row ${row.number}, ${heading}: "${here}" here, "${there}" alone`];
  });
  expect(different).toEqual([]);
}

/** What the reading of cells, which both paths share, must not do: take a number that is not plain, or another one. */
function checkNumbers({ cells }: ReferenceRow, given: OutputRow | undefined, { layout }: SingleVisits, withMap: boolean): void {
  const plain = withMap ? /^\d+([.,]\d+)?$/ : /^\d+(\.\d+)?$/;
  const results = layout.tests.flatMap(({ test, sides }) => sides.map((side) => ({ test, ...side })));
  for (const { test, side, columns } of results) {
    const typed = columns.map(({ index }) => (cells?.[index] ?? '').trim()).filter((cell) => /\p{Nd}/u.test(cell));
    for (const cell of typed) expect(cell).toMatch(plain);
    const [only] = typed;
    if (only === undefined || withMap || columns.length > 1) continue;
    // A millionth of a second is binary dust to the program, so that a mean lies on its mark; nobody times it.
    const value = String(Number(Number(only).toFixed(6)));
    expect(given?.added.get(`${test.id}${side === null ? '' : `_${side}`}_value`)).toBe(value);
  }
}

function checkRefused(row: ReferenceRow, cells: readonly string[] | null, visits: SingleVisits): void {
  const { headings } = visits.layout;
  if (row.cells !== null && cells !== null) expect(cells).toEqual(row.cells.map(shownCell));
  if (row.cells?.length === headings.length) expect(visits.score(row.cells, row.number, []), 'it is accepted alone').toBe(null);
}

const shownError = (error: unknown): string => {
  const { message, actual, expected } = error as { message?: string; actual?: unknown; expected?: unknown };
  return [message, ...(actual === undefined ? [] : [JSON.stringify(actual), JSON.stringify(expected)])].join('\n').slice(0, 1500);
};

/** With fewer cases all of them may by chance end the same way. */
const ENOUGH = 300;

interface Counts {
  accepted: number;
  refused: number;
  stopped: number;
}

function checkRows(chosen: CohortCase, ran: Ran, counts: Counts): void {
  const delimiter = delimiterOf(chosen, ran);
  const { headings, rows } = expectedRows(chosen, delimiter);
  const visits = singleVisits(headings, chosen.map);
  if (visits === null) throw new Error(`these headings cannot be used: ${headings.join(' | ')}`);
  const [read, accepted, refused] = (/: (\d+) rows? read, (\d+) accepted, (\d+) refused\n/.exec(ran.said) ?? [])
    .slice(1)
    .map(Number);
  const out = outputRows(chosen, ran, delimiter, headings);
  const rejects = refusedRows(ran, delimiter);
  expect([read, accepted, refused], 'rows read, accepted and refused').toEqual([rows.length, out.length, rejects.size]);
  expect(out.length + rejects.size).toBe(rows.length);
  expect([...rejects.keys()]).toEqual([...rejects.keys()].sort((a, b) => a - b));
  expect(ran.code).toBe(rejects.size > 0 ? 1 : 0);
  let next = 0;
  for (const row of rows) {
    const cells = rejects.get(row.number);
    if (cells !== undefined) checkRefused(row, cells, visits);
    else {
      expect(row.cells, `row ${row.number} cannot be read`).not.toBe(null);
      checkAccepted(row, out[next], chosen.format, visits);
      checkNumbers(row, out[next], visits, chosen.map !== null);
      next += 1;
    }
  }
  expect(next).toBe(out.length);
  counts.accepted += out.length;
  counts.refused += rejects.size;
}

async function check(seed: number, counts: Counts): Promise<void> {
  const chosen = cohortCase(seed);
  const ran = await run(chosen);
  expect(ran.said).not.toMatch(/fault of the program|\n\s+at .+:\d+:\d+/);
  expect(ran.said).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
  if (ran.code !== 2) return checkRows(chosen, ran, counts);
  counts.stopped += 1;
  expect(ran.said).toMatch(/^footing: .+/m);
  expect([ran.out, ran.refused]).toEqual([undefined, undefined]);
}

describe('mangled cohorts', () => {
  it(`${CASES} of them`, { timeout: Math.max(300_000, CASES * 100) }, async () => {
    const counts: Counts = { accepted: 0, refused: 0, stopped: 0 };
    const found: string[] = [];
    for (let seed = FIRST; seed < FIRST + CASES && found.length < 5; seed += 1)
      await check(seed, counts).catch((error: unknown) => found.push(`case ${seed}: ${shownError(error)}`));
    if (process.env.FOOTING_FUZZ_COHORT !== undefined) console.log(counts);
    expect(found).toEqual([]);
    // Else only the door was tried.
    if (CASES < ENOUGH) return;
    expect(counts.accepted).toBeGreaterThan(CASES / 2);
    expect(counts.refused).toBeGreaterThan(CASES / 2);
    expect(counts.stopped).toBeLessThan(CASES / 4);
  });
});
