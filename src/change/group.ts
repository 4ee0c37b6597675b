/**
 * Change in a group: paired results of one test (and side, and protocol), each judged for its own client by `comparePair`.
 * Means, medians and quantiles come from maintained libraries. There is no control group in such data: an average gain is
 * not yet an effect, and being referred for poor scores favours improvement.
 */
import binomialQuantile from '@stdlib/stats-base-dists-binomial-quantile';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { mean, median, sampleStandardDeviation } from 'simple-statistics';
import { Z95 } from '../scoring/measurement-error.ts';
import { roundTo } from '../scoring/performance.ts';
import type { Verdict } from './types.ts';

/** One client's first and last result; null for a number that does not exist (unable) or is only a bound. */
export interface PairedResult {
  readonly before: number | null;
  readonly after: number | null;
  readonly verdict: Verdict;
}

export interface Estimate {
  readonly value: number;
  /** 95 % interval; null where there are too few pairs for one. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface Share {
  readonly n: number;
  /** 0 to 1. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

export interface GroupChange {
  /** All pairs judged. */
  readonly pairs: number;
  /** Pairs with two exact numbers, on which mean and median rest. */
  readonly measured: number;
  readonly mean_before: number | null;
  readonly mean_after: number | null;
  /** Later minus earlier, raw number. */
  readonly mean_change: Estimate | null;
  readonly median_change: Estimate | null;
  /** Mean change / SD of the changes; null with fewer than two measured pairs or where all changed alike. */
  readonly standardised_response_mean: number | null;
  readonly verdicts: Readonly<Record<Verdict, Share>>;
}

const CONFIDENCE = 0.95;
const UPPER_TAIL = 1 - (1 - CONFIDENCE) / 2;
/** Finer than any test, coarser than the dust of binary fractions. */
const DECIMALS = 6;

/** Mean with its t interval: mean ± t(n-1, 0.975) × SD / √n. Throws RangeError on an empty list. */
export function meanWithInterval(values: readonly number[]): Estimate {
  if (values.length === 0) throw new RangeError('a mean needs at least one value');
  const list = [...values];
  const value = mean(list);
  if (list.length < 2) return { value, low: null, high: null };
  const half = (tQuantile(UPPER_TAIL, list.length - 1) * sampleStandardDeviation(list)) / Math.sqrt(list.length);
  return { value, low: value - half, high: value + half };
}

/**
 * Median with the distribution-free interval of order statistics: from the k-th smallest to the k-th largest, where k is the
 * 2.5 % point of a binomial(n, 1/2), so that the cover is at least 95 % (W. J. Conover, Practical Nonparametric Statistics, ch. 3).
 * Fewer than six values allow no such interval. Throws RangeError on an empty list.
 */
export function medianWithInterval(values: readonly number[]): Estimate {
  if (values.length === 0) throw new RangeError('a median needs at least one value');
  const sorted = [...values].sort((a, b) => a - b);
  const rank = binomialQuantile(1 - UPPER_TAIL, sorted.length, 0.5);
  if (rank < 1) return { value: median(sorted), low: null, high: null };
  return { value: median(sorted), low: sorted[rank - 1] ?? null, high: sorted[sorted.length - rank] ?? null };
}

/**
 * Share with the Wilson score interval (E. B. Wilson 1927): the shares p for which |found - p| = 1.96 × √(p (1 - p) / n).
 * `count` of `total`, whole numbers with 0 <= count <= total and total > 0; throws RangeError otherwise.
 */
export function wilsonShare(count: number, total: number): Share {
  if (!(Number.isInteger(count) && Number.isInteger(total) && total > 0 && count >= 0 && count <= total))
    throw new RangeError(`${count} of ${total} is no share`);
  const share = count / total;
  const squared = Z95 * Z95;
  const centre = (share + squared / (2 * total)) / (1 + squared / total);
  const half = (Z95 * Math.sqrt((share * (1 - share)) / total + squared / (4 * total * total))) / (1 + squared / total);
  // At 0 and at all the bound is exact, which rounding would miss by a hair.
  return { n: count, share, low: count === 0 ? 0 : centre - half, high: count === total ? 1 : centre + half };
}

const rounded = (estimate: Estimate): Estimate => ({
  value: roundTo(estimate.value, DECIMALS),
  low: estimate.low === null ? null : roundTo(estimate.low, DECIMALS),
  high: estimate.high === null ? null : roundTo(estimate.high, DECIMALS),
});

/** Mean change over the SD of the changes; null where that SD is nought or cannot be formed. */
export function standardisedResponseMean(changes: readonly number[]): number | null {
  if (changes.length < 2) return null;
  const spread = sampleStandardDeviation([...changes]);
  // Rounded only to see that it is nought: divided by a rounded spread, a large ratio would be off in its third decimal.
  return roundTo(spread, DECIMALS) === 0 ? null : roundTo(mean([...changes]) / spread, 4);
}

/** null where there is no pair. Shares are of all pairs judged, so that what cannot be told is not hidden. */
export function groupChange(pairs: readonly PairedResult[]): GroupChange | null {
  if (pairs.length === 0) return null;
  const exact = pairs.flatMap(({ before, after }) => (before === null || after === null ? [] : [{ before, after }]));
  const changes = exact.map(({ before, after }) => roundTo(after - before, DECIMALS));
  const averageOf = (values: readonly number[]): number | null =>
    values.length === 0 ? null : roundTo(mean([...values]), DECIMALS);
  const share = (verdict: Verdict): Share => wilsonShare(pairs.filter((pair) => pair.verdict === verdict).length, pairs.length);
  return {
    pairs: pairs.length,
    measured: exact.length,
    mean_before: averageOf(exact.map((pair) => pair.before)),
    mean_after: averageOf(exact.map((pair) => pair.after)),
    mean_change: changes.length === 0 ? null : rounded(meanWithInterval(changes)),
    median_change: changes.length === 0 ? null : rounded(medianWithInterval(changes)),
    standardised_response_mean: standardisedResponseMean(changes),
    verdicts: {
      improved: share('improved'),
      worsened: share('worsened'),
      within_error: share('within_error'),
      cannot_tell: share('cannot_tell'),
    },
  };
}

/** The pair of a `TestChange`; a value at a stopped watch is a bound, and results got in different ways join no mean. */
export function pairedResult(change: {
  readonly before: number | null;
  readonly after: number | null;
  readonly change_bound: string | null;
  readonly comparable: boolean;
  readonly verdict: Verdict;
}): PairedResult {
  const exact = change.change_bound === 'exact' && change.comparable;
  return { before: exact ? change.before : null, after: exact ? change.after : null, verdict: change.verdict };
}
