/** The raw values between which the middle half of the reference group lies, for the chart: the table's own numbers turned round. */
import type { TestResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { rowUsed, valueAtPercentile } from '../scoring/value-at-percentile.ts';
import type { Client } from '../session.ts';
import type { NormBand } from './types.ts';

/** null where no table may place the client. */
export function normBand(evidence: Evidence, test: TestDefinition, result: TestResult | null, client: Client): NormBand | null {
  const comparison = result?.comparisons.find((each) => each.primary);
  if (comparison === undefined) return null;
  const used = rowUsed(evidence, test.id, comparison);
  const { below_under: lower, above_over: upper } = evidence.defaults.standing;
  const base = { centre: comparison.expected, band: comparison.band, source: comparison.source, status: comparison.status };
  if (used === null || comparison.percentile === null) return { ...base, low: null, high: null };
  const [atLower, atUpper] = [lower, upper].map((percentile) => valueAtPercentile(used, percentile, { test, client }));
  const ends = [atLower ?? null, atUpper ?? null];
  const [low, high] = test.better === 'higher' ? ends : [...ends].reverse();
  return { ...base, low: low ?? null, high: high ?? null };
}
