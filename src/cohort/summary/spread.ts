/** Median and middle half of results that are held as counts; whoever was unable has the worst result. */

import { LEAST_FOR_MIDDLE, LEAST_FOR_QUARTILES } from './bands.ts';
import type { Counts } from './part.ts';
import type { Place, Spread } from './types.ts';

type Held = readonly (readonly [Place, number])[];

function middleOf(a: Place, b: Place): Place {
  return a === 'unable' || b === 'unable' ? 'unable' : (a + b) / 2;
}

/** The result below which `share` of the people lie: the smallest that this many do not exceed, the mean of two at a tie. */
function quantile(sorted: Held, total: number, share: number): Place {
  const wanted = share * total;
  let passed = 0;
  for (const [index, [value, count]] of sorted.entries()) {
    passed += count;
    if (passed === wanted) return middleOf(value, sorted[index + 1]?.[0] ?? value);
    if (passed > wanted) return value;
  }
  return sorted.at(-1)?.[0] ?? 'unable';
}

export interface Results {
  readonly values: Counts;
  readonly unable: number;
  readonly better: 'higher' | 'lower';
}

/**
 * null where there are too few people for a masked page. The unable are in it because without them a group of which many could
 * not do the test would look better than it is.
 */
export function spreadOf({ values, unable, better }: Results, masked: boolean): Spread | null {
  const measured = Object.entries(values)
    .map(([value, count]) => [Number(value), count] as const)
    .sort(([a], [b]) => a - b);
  const worst: Held = unable === 0 ? [] : [['unable', unable]];
  const sorted: Held = better === 'higher' ? [...worst, ...measured] : [...measured, ...worst];
  const total = sorted.reduce((sum, [, count]) => sum + count, 0);
  if (total === 0 || (masked && total < LEAST_FOR_MIDDLE)) return null;
  const quartiles = !masked || total >= LEAST_FOR_QUARTILES;
  return {
    median: quantile(sorted, total, 0.5),
    p25: quartiles ? quantile(sorted, total, 0.25) : null,
    p75: quartiles ? quantile(sorted, total, 0.75) : null,
  };
}

export const spreadOfAges = (ages: Counts, masked: boolean): Spread | null =>
  spreadOf({ values: ages, unable: 0, better: 'higher' }, masked);

export function countsOf(values: readonly (number | string)[]): Counts {
  const counts: Counts = {};
  for (const value of values) counts[String(value)] = (counts[String(value)] ?? 0) + 1;
  return counts;
}
