/** Scored and refused rows as text: CSV with the input's own delimiter, or one JSON object a line. Both end with a newline. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Side } from '../session.ts';
import type { ScoredTest } from './parts.ts';
import type { Accepted } from './row-scorer.ts';
import type { Row } from './tree.ts';

export type Format = 'csv' | 'ndjson';

/** One result column group: a test, or one side of it. */
export interface Slot {
  readonly test: TestDefinition;
  readonly side: Side | null;
}

const MEASURES = ['value', 'percentile', 'bound', 'standing', 'flag'] as const;
const LAST = ['risk_level', 'missing', 'notes'] as const;

/** The sides that the output has columns for, by test. */
export type SlotsOf = (test: TestDefinition) => readonly (Side | null)[];

const nameOf = (slot: Slot, measure: string): string => `${slot.test.id}${slot.side === null ? '' : `_${slot.side}`}_${measure}`;

export const outputHeadings = (slots: readonly Slot[]): string[] => [
  ...slots.flatMap((slot) => MEASURES.map((measure) => nameOf(slot, measure))),
  ...LAST,
];

type Shown = Readonly<Record<(typeof MEASURES)[number], number | string | null>>;
const EMPTY: Shown = { value: null, percentile: null, bound: null, standing: null, flag: null };

function shown(results: ScoredTest['results'], side: Side | null): Shown {
  const brief = results.find((result) => result.side === side)?.brief;
  if (brief === undefined) return EMPTY;
  return {
    value: brief.value,
    percentile: brief.percentile,
    bound: brief.bound === 'exact' ? null : brief.bound,
    standing: brief.standing,
    flag: brief.flagged === null ? null : brief.flagged ? 'yes' : 'no',
  };
}

/** What a spreadsheet would run as a formula; a signed number is none. */
const FORMULA = /^[=@\t\r]|^[+-](?![\d., ()/-]*$)/;
/** A line that may hold one; where the delimiter is a letter, a digit or a blank any line may. */
const perhapsFormula = (delimiter: string): RegExp => (/[\w ]/.test(delimiter) ? /^/ : /(?:^|[^\w ])[=@\t\r+-]/);

/**
 * A cell that would break the row is put in quotes, and quotes in it are doubled (RFC 4180). One that a spreadsheet would run
 * as a formula gets an apostrophe in front, so that it is shown and not run.
 */
function csvCell(cell: string, delimiter: string): string {
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return text.includes('"') || text.includes('\n') || text.includes('\r') || text.includes(delimiter)
    ? `"${text.replaceAll('"', '""')}"`
    : text;
}

export function csvLine(cells: readonly string[], delimiter: string): string {
  const plain = cells.join(delimiter);
  // An empty line would be no row at all.
  if (plain === '') return '""\n';
  return cells.some((cell) => csvCell(cell, delimiter) !== cell)
    ? `${cells.map((cell) => csvCell(cell, delimiter)).join(delimiter)}\n`
    : `${plain}\n`;
}

export interface RowWriter {
  readonly heading: string;
  /** What stands in an output row for one test, whoever the client is; made once and remembered by the scorer. */
  readonly render: (test: TestDefinition, results: ScoredTest['results']) => string;
  /** `raw` is the line of a row as it stood in the input, where no cell of it is in quotes. */
  readonly row: (row: Row, scored: Accepted, raw?: string) => string;
}

function csvWriter(headings: readonly string[], slots: readonly Slot[], slotsOf: SlotsOf, delimiter: string): RowWriter {
  const suspect = perhapsFormula(delimiter);
  const missingOf = new Map<readonly string[], string>();
  const missing = (ids: readonly string[]): string => {
    const known = missingOf.get(ids);
    if (known !== undefined) return known;
    if (missingOf.size > 10_000) missingOf.clear();
    const text = csvCell(ids.join('; '), delimiter);
    missingOf.set(ids, text);
    return text;
  };
  return {
    heading: csvLine([...headings, ...outputHeadings(slots)], delimiter),
    render: (test, results) =>
      slotsOf(test)
        .map((side) => MEASURES.map((measure) => delimiter + String(shown(results, side)[measure] ?? '')).join(''))
        .join(''),
    row: (row, { tests, decided, notes }, raw) => {
      const asTyped = raw !== undefined && !suspect.test(raw) ? raw : undefined;
      let line = asTyped ?? row.map((cell) => csvCell(cell, delimiter)).join(delimiter);
      for (const test of tests) line += test.rendered;
      return `${line}${delimiter}${decided.level}${delimiter}${missing(decided.missing)}${delimiter}${notes === '' ? '' : csvCell(notes, delimiter)}\n`;
    },
  };
}

function ndjsonWriter(headings: readonly string[], slotsOf: SlotsOf): RowWriter {
  const keys = headings.map((heading) => JSON.stringify(heading));
  return {
    heading: '',
    render: (test, results) =>
      slotsOf(test)
        .map((side) => {
          const values = shown(results, side);
          return MEASURES.map((measure) => `,"${nameOf({ test, side }, measure)}":${JSON.stringify(values[measure])}`).join('');
        })
        .join(''),
    row: (row, { tests, decided, notes }) => {
      const own = keys.map((key, index) => `${key}:${JSON.stringify(row[index] ?? '')}`).join(',');
      const results = tests.map((test) => test.rendered).join('');
      return `{${own}${results},"risk_level":${JSON.stringify(decided.level)},"missing":${JSON.stringify(decided.missing)},"notes":${JSON.stringify(notes)}}\n`;
    },
  };
}

export function rowWriter(
  format: Format,
  {
    headings,
    slots,
    slotsOf,
    delimiter,
  }: { headings: readonly string[]; slots: readonly Slot[]; slotsOf: SlotsOf; delimiter: string },
): RowWriter {
  return format === 'csv' ? csvWriter(headings, slots, slotsOf, delimiter) : ndjsonWriter(headings, slotsOf);
}
