/** Higher is always better: the one place where lower-is-better measures are flipped. */

export type Better = 'higher' | 'lower';

/** A raw value on the performance axis, in the test's unit; applying it twice gives the raw value back. */
export const performanceOf = (raw: number, better: Better): number => (better === 'higher' ? raw : -raw);

/** A percentile of the raw number as a percentile of performance, 0-100. */
export const performancePercentile = (rawPercentile: number, better: Better): number =>
  better === 'higher' ? rawPercentile : 100 - rawPercentile;

/** Is `a` a worse result than `b`? */
export const isWorse = (a: number, b: number, better: Better): boolean => performanceOf(a, better) < performanceOf(b, better);

/** Of raw values of one test; infinite where there are none. */
export const worstOf = (values: readonly number[], better: Better): number =>
  better === 'higher' ? Math.min(...values) : Math.max(...values);
/** Of raw values of one test; infinite where there are none. */
export const bestOf = (values: readonly number[], better: Better): number =>
  better === 'higher' ? Math.max(...values) : Math.min(...values);

/** Decimals of a value in the test's unit wherever it is shown or judged: finer than anybody can time. */
export const VALUE_DECIMALS = 3;
/** Decimals of a percentile (0-100) wherever it is shown or judged. */
export const PERCENTILE_DECIMALS = 1;
/** Decimals of a z wherever it is shown. */
export const Z_DECIMALS = 2;
/** Decimals of a detectable change in the test's unit wherever it is shown or judged. */
export const MDC_DECIMALS = 2;

/** Rounds to this many decimals, halves away from zero, after removing the binary dust of a printed decimal. */
export function roundTo(value: number, decimals: number): number {
  const factor = 10 ** decimals;
  const scaled = Number((Math.abs(value) * factor).toPrecision(14));
  const rounded = Math.round(scaled) / factor;
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}
