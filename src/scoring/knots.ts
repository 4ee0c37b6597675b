/**
 * Percentile of a value from published points. Points become knots (performance value, percentile); between knots z is
 * linear in the value; outside the outermost knot the answer is a bound and never an extrapolation; tied knots, as at a
 * ceiling, give the mid-percentile of the tie. The method is described in DEVELOPERS.md under "Methods".
 */
import { percentOf } from '../evidence/percent.ts';
import type { Row, Shares } from '../evidence/schema/table.ts';
import { normalCdf, normalQuantile } from '../statistics/normal.ts';
import { type Better, performanceOf, performancePercentile } from './performance.ts';

export interface Knot {
  /** On the performance axis (lower-is-better values negated). */
  readonly performance: number;
  /** Performance percentile, strictly between 0 and 100. */
  readonly percentile: number;
}

export interface PercentileResult {
  readonly percentile: number;
  readonly bound: 'exact' | 'at_most' | 'at_least';
}

const usable = (knot: Knot): boolean => knot.percentile > 0 && knot.percentile < 100;
const rising = (a: Knot, b: Knot): number => a.performance - b.performance || a.percentile - b.percentile;

/** Knots of printed percentile points, of the raw number or of performance. */
export function knotsOfPoints(row: Row, better: Better): Knot[] {
  const raw = Object.entries(row.percentiles ?? {}).map(([key, value]) => ({
    performance: performanceOf(value, better),
    percentile: performancePercentile(percentOf(key), better),
  }));
  const performance = Object.entries(row.performance_percentiles ?? {}).map(([key, value]) => ({
    performance: performanceOf(value, better),
    percentile: percentOf(key),
  }));
  return [...raw, ...performance].filter(usable).sort(rising);
}

/** People in each printed cell, worst group first, those in no cell counted to the worst. */
export function cellsOf(shares: Shares): number[] {
  const [worst = 0, ...others] = shares.counts ?? shares.percents ?? [];
  return [worst + shares.missing_to_worst, ...others];
}

/**
 * Knots of counts between marks: the percentile at a mark is the share of people worse than it, the unable included.
 * Example (women 75-79, chair stands, counts 15 unable, 22, 48, 105, 164): at 16.7 s 37/354 = 10.5.
 */
export function knotsOfShares(shares: Shares, better: Better): Knot[] {
  const cells = cellsOf(shares);
  const total = cells.reduce((sum, cell) => sum + cell, 0);
  const firstMark = shares.unable_first ? 2 : 1;
  return shares.marks
    .map((mark, index) => ({
      performance: performanceOf(mark, better),
      percentile: (100 * cells.slice(0, firstMark + index).reduce((sum, cell) => sum + cell, 0)) / total,
    }))
    .filter(usable)
    .sort(rising);
}

/** null where there is no knot at all. */
export function percentileFromKnots(knots: readonly Knot[], performance: number): PercentileResult | null {
  const first = knots[0];
  const last = knots.at(-1);
  if (first === undefined || last === undefined) return null;
  if (performance < first.performance) return { percentile: first.percentile, bound: 'at_most' };
  if (performance > last.performance) return { percentile: last.percentile, bound: 'at_least' };
  const tied = knots.filter((knot) => knot.performance === performance);
  const lowestTie = tied[0];
  const highestTie = tied.at(-1);
  if (lowestTie !== undefined && highestTie !== undefined)
    return { percentile: (lowestTie.percentile + highestTie.percentile) / 2, bound: 'exact' };
  const below = knots.findLast((knot) => knot.performance < performance) ?? first;
  const above = knots.find((knot) => knot.performance > performance) ?? last;
  const share = (performance - below.performance) / (above.performance - below.performance);
  const zBelow = normalQuantile(below.percentile / 100);
  const zAbove = normalQuantile(above.percentile / 100);
  return { percentile: 100 * normalCdf(zBelow + share * (zAbove - zBelow)), bound: 'exact' };
}

/** One printed mark tells two groups apart and nothing more. */
export function percentileFromOneMark(knot: Knot, performance: number, markIsBetter: boolean): PercentileResult {
  const reached = markIsBetter ? performance >= knot.performance : performance > knot.performance;
  return { percentile: knot.percentile, bound: reached ? 'at_least' : 'at_most' };
}
