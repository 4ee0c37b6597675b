/** A straight trend over three or more visits that one odd result cannot turn. */
import { median } from 'simple-statistics';
import { type Better, performanceOf, roundTo } from '../scoring/performance.ts';
import { daysBetween } from './days.ts';
import type { Trend } from './types.ts';

export interface DatedValue {
  readonly assessed: string;
  readonly value: number;
}

const DAYS_PER_MONTH = 365.25 / 12;
const FEWEST_VISITS = 3;

/** Theil-Sen: the median of the slopes of all pairs of points with different dates; null where there is no such pair. */
export function theilSenSlope(points: readonly { readonly x: number; readonly y: number }[]): number | null {
  const slopes = points.flatMap((a, index) =>
    points.slice(index + 1).flatMap((b) => (a.x === b.x ? [] : [(b.y - a.y) / (b.x - a.x)])),
  );
  return slopes.length === 0 ? null : median(slopes);
}

/** Raw number a month; null with fewer than three measured dates. */
export function trendOf(values: readonly DatedValue[], better: Better): Trend | null {
  const first = values[0];
  const last = values.at(-1);
  if (first === undefined || last === undefined || new Set(values.map((each) => each.assessed)).size < FEWEST_VISITS) return null;
  const slope = theilSenSlope(values.map((each) => ({ x: daysBetween(first.assessed, each.assessed), y: each.value })));
  if (slope === null) return null;
  const perMonth = roundTo(slope * DAYS_PER_MONTH, 4);
  const performance = performanceOf(perMonth, better);
  return {
    per_month: perMonth,
    direction: performance === 0 ? 'same' : performance > 0 ? 'better' : 'worse',
    visits: values.length,
    days: daysBetween(first.assessed, last.assessed),
  };
}
