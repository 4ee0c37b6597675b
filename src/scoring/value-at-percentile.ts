/** A table read the other way round: the raw value at a percentile, for charts and for limits printed beside a value. */
import type { Comparison } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Row, TableFile } from '../evidence/schema/table.ts';
import type { Client } from '../session.ts';
import { bandOf, question } from './compare.ts';
import { scoreAgainstRow } from './methods.ts';
import { roundTo } from './performance.ts';

const HALVINGS = 60;

export interface RowUsed {
  readonly table: TableFile;
  readonly row: Row;
}

/** The row that a comparison used; null where the evidence at hand does not have it. */
export function rowUsed(evidence: Evidence, test: string, comparison: Comparison): RowUsed | null {
  const band = JSON.stringify(comparison.band);
  const table = evidence.tablesByTest
    .get(test)
    ?.find((each) => each.source === comparison.source && each.parts.some((part) => part.id === comparison.part));
  const part = table?.parts.find((each) => each.id === comparison.part);
  const row = part?.rows.find((each) => JSON.stringify(bandOf(each)) === band);
  return table && row ? { table, row } : null;
}

/**
 * The raw value at a performance percentile (0-100, higher is better), by halving the range of possible values; null where
 * the table says only "more than" or "less than" there.
 */
export function valueAtPercentile(
  { table, row }: RowUsed,
  percentile: number,
  about: { readonly test: TestDefinition; readonly client: Client },
): number | null {
  const { test } = about;
  const score = (value: number) => scoreAgainstRow(row, question(table, about, value));
  const rises = test.better === 'higher';
  let [low, high] = [Math.max(test.impossible.below ?? 0, 1e-6), test.impossible.above ?? 1000];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    const { percentile: found, bound } = score(middle);
    if (found === null) return null;
    // Beyond the worst printed mark the table says "at most": worse than the mark, though the number is the same.
    const isWorse = found < percentile || (found === percentile && bound === 'at_most');
    if (isWorse === rises) low = middle;
    else high = middle;
  }
  // Only where the table speaks exactly on both sides of the mark is the mark inside it.
  const exact = [low, high].some((value) => {
    const { bound, percentile: found } = score(value);
    return bound === 'exact' && Math.abs((found ?? Number.NaN) - percentile) < 0.5;
  });
  return exact ? roundTo((low + high) / 2, test.decimals + 1) : null;
}
