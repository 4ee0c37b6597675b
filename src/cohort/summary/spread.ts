/** Median and middle half of values that are held as counts. */

import { LEAST_SHOWN } from './mask.ts';
import type { Counts } from './part.ts';
import type { Spread } from './types.ts';

/** Groups from which a quartile is no longer the value of one of a handful of people. */
const LEAST_FOR_QUARTILES = 4 * LEAST_SHOWN;

/** The value below which `share` of the people lie: the smallest that this many do not exceed, the mean of two at a tie. */
function quantile(sorted: readonly (readonly [number, number])[], total: number, share: number): number {
  const wanted = share * total;
  let passed = 0;
  for (const [index, [value, count]] of sorted.entries()) {
    passed += count;
    if (passed === wanted) return (value + (sorted[index + 1]?.[0] ?? value)) / 2;
    if (passed > wanted) return value;
  }
  return sorted.at(-1)?.[0] ?? Number.NaN;
}

/** null where there are fewer people than are shown; `masked` false shows any number. */
export function spreadOf(counts: Counts, masked: boolean): Spread | null {
  const sorted = Object.entries(counts)
    .map(([value, count]) => [Number(value), count] as const)
    .sort(([a], [b]) => a - b);
  const total = sorted.reduce((sum, [, count]) => sum + count, 0);
  if (total === 0 || (masked && total < LEAST_SHOWN)) return null;
  const quartiles = !masked || total >= LEAST_FOR_QUARTILES;
  return {
    median: quantile(sorted, total, 0.5),
    p25: quartiles ? quantile(sorted, total, 0.25) : null,
    p75: quartiles ? quantile(sorted, total, 0.75) : null,
  };
}

export function countsOf(values: readonly (number | string)[]): Counts {
  const counts: Counts = {};
  for (const value of values) counts[String(value)] = (counts[String(value)] ?? 0) + 1;
  return counts;
}
