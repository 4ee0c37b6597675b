/** Median and middle half of results that are held as counts; whoever was unable has the worst result. */

import { LEAST_FOR_MIDDLE, LEAST_FOR_QUARTILES } from './bands.ts';
import type { Counts } from './part.ts';
import type { Place, Spread } from './types.ts';

type Held = readonly (readonly [Place, number])[];

/** Two results between which a quantile falls -> what stands for it. */
type Middle = (first: Place, second: Place) => Place;

const mean: Middle = (a, b) => (a === 'unable' || b === 'unable' ? 'unable' : (a + b) / 2);
/** The worse of the two, which somebody had: half way between two results is a number that only some sizes of a group can give. */
const worse =
  (better: 'higher' | 'lower'): Middle =>
  (first, second) => {
    if (first === 'unable' || second === 'unable') return 'unable';
    return better === 'higher' ? first : second;
  };

/** The result below which `share` of the people lie: the smallest that this many do not exceed, the middle of two at a tie. */
function quantile(sorted: Held, total: number, share: number, middle: Middle): Place {
  const wanted = share * total;
  let passed = 0;
  for (const [index, [value, count]] of sorted.entries()) {
    passed += count;
    if (passed === wanted) return middle(value, sorted[index + 1]?.[0] ?? value);
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
  const middle = masked ? worse(better) : mean;
  const quartiles = !masked || total >= LEAST_FOR_QUARTILES;
  return {
    median: quantile(sorted, total, 0.5, middle),
    p25: quartiles ? quantile(sorted, total, 0.25, middle) : null,
    p75: quartiles ? quantile(sorted, total, 0.75, middle) : null,
  };
}

export const spreadOfAges = (ages: Counts, masked: boolean): Spread | null =>
  spreadOf({ values: ages, unable: 0, better: 'higher' }, masked);

export function countsOf(values: readonly (number | string)[]): Counts {
  const counts: Counts = {};
  for (const value of values) counts[String(value)] = (counts[String(value)] ?? 0) + 1;
  return counts;
}
