/** The raw values between which the middle half of the reference group lies, for the chart: the table's own numbers turned round. */
import type { Comparison, TestResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Row } from '../evidence/schema/table.ts';
import { bandOf } from '../scoring/compare.ts';
import { type Question, scoreAgainstRow } from '../scoring/methods.ts';
import { roundTo } from '../scoring/performance.ts';
import type { Client } from '../session.ts';
import type { NormBand } from './types.ts';

const sameBand = (row: Row, comparison: Comparison): boolean => JSON.stringify(bandOf(row)) === JSON.stringify(comparison.band);

function rowOf(evidence: Evidence, test: string, comparison: Comparison) {
  const table = evidence.tablesByTest
    .get(test)
    ?.find((each) => each.source === comparison.source && each.parts.some((part) => part.id === comparison.part));
  const row = table?.parts.find((part) => part.id === comparison.part)?.rows.find((each) => sameBand(each, comparison));
  return table === undefined || row === undefined ? null : { table, row };
}

const HALVINGS = 60;

/**
 * The raw value at a performance percentile, by halving the range of possible values; null where the table only says
 * "more than" or "less than" there.
 */
function valueAtPercentile(row: Row, question: Omit<Question, 'value'>, percentile: number, test: TestDefinition): number | null {
  const score = (value: number) => scoreAgainstRow(row, { ...question, value });
  const rises = test.better === 'higher';
  let [low, high] = [Math.max(test.impossible.below ?? 0, 1e-6), test.impossible.above ?? 1000];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    const found = score(middle).percentile;
    if (found === null) return null;
    if (found < percentile === rises) low = middle;
    else high = middle;
  }
  // Only where the table speaks exactly on both sides of the mark is the mark inside it.
  const exact = [low, high].some((value) => {
    const { bound, percentile: found } = score(value);
    return bound === 'exact' && found !== null && Math.abs(found - percentile) < 0.5;
  });
  return exact ? roundTo((low + high) / 2, test.decimals + 1) : null;
}

/** null where no table may place the client. */
export function normBand(evidence: Evidence, test: TestDefinition, result: TestResult | null, client: Client): NormBand | null {
  const comparison = result?.comparisons.find((each) => each.primary);
  if (comparison === undefined) return null;
  const found = rowOf(evidence, test.id, comparison);
  const { below_under: lower, above_over: upper } = evidence.defaults.standing;
  const base = { centre: comparison.expected, band: comparison.band, source: comparison.source, status: comparison.status };
  if (found === null || comparison.percentile === null) return { ...base, low: null, high: null };
  const question: Omit<Question, 'value'> = {
    better: test.better,
    isTime: test.kind === 'time',
    range: { lowest: 0, highest: found.table.protocol.ceiling ?? Number.POSITIVE_INFINITY },
    client: { age: client.age, sex: client.sex, heightCm: client.heightCm, weightKg: client.weightKg },
    unit: test.unit_text,
  };
  const [atLower, atUpper] = [lower, upper].map((percentile) => valueAtPercentile(found.row, question, percentile, test));
  const ends = [atLower ?? null, atUpper ?? null];
  const [low, high] = test.better === 'higher' ? ends : [...ends].reverse();
  return { ...base, low: low ?? null, high: high ?? null };
}
