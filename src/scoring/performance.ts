/** Higher is always better: the one place where lower-is-better measures are flipped. */

export type Better = 'higher' | 'lower';

/** A raw value on the performance axis, in the test's unit; applying it twice gives the raw value back. */
export const performanceOf = (raw: number, better: Better): number => (better === 'higher' ? raw : -raw);

/** A percentile of the raw number as a percentile of performance, 0-100. */
export const performancePercentile = (rawPercentile: number, better: Better): number =>
  better === 'higher' ? rawPercentile : 100 - rawPercentile;

/** Is `a` a worse result than `b`? */
export const isWorse = (a: number, b: number, better: Better): boolean => performanceOf(a, better) < performanceOf(b, better);

export const worstOf = (values: readonly number[], better: Better): number =>
  better === 'higher' ? Math.min(...values) : Math.max(...values);
export const bestOf = (values: readonly number[], better: Better): number =>
  better === 'higher' ? Math.max(...values) : Math.min(...values);

/** Percentiles go out to 0.1, z to 0.01; halves away from zero, after removing the binary dust of a printed decimal. */
export function roundTo(value: number, decimals: number): number {
  const factor = 10 ** decimals;
  const scaled = Number((Math.abs(value) * factor).toPrecision(14));
  const rounded = Math.round(scaled) / factor;
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}
