/** From the trials of one side to the one value a table's rule asks for. */
import { type Better, bestOf, roundTo } from './performance.ts';

export type TrialsRule = 'best' | 'mean' | 'first';

export interface TrialsValue {
  readonly value: number;
  /** The watch was stopped at the ceiling in a trial that decides the value: the true time is at least this. */
  readonly atLeast: boolean;
}

/**
 * Best, mean or first of the trials, each first cut to `cap` (a table's own ceiling, seconds) where one is given.
 * `ceiling` is where this client's watch was stopped. A mean with any stopped trial is itself "at least"; it goes to 0.000001,
 * so that binary dust never puts a mean of exactly a mark on one side of it.
 */
export function valueByRule(
  trials: readonly number[],
  rule: TrialsRule,
  better: Better,
  limits: { readonly ceiling?: number | undefined; readonly cap?: number | undefined } = {},
): TrialsValue {
  const cap = limits.cap ?? Number.POSITIVE_INFINITY;
  const cut = trials.map((trial) => Math.min(trial, cap));
  const stopped = (trial: number | undefined): boolean =>
    trial !== undefined && limits.ceiling !== undefined && trial >= limits.ceiling && limits.ceiling < cap;
  if (rule === 'mean') {
    const mean = cut.reduce((sum, trial) => sum + trial, 0) / cut.length;
    return { value: roundTo(mean, 6), atLeast: trials.some(stopped) };
  }
  const value = rule === 'first' ? (cut[0] ?? Number.NaN) : bestOf(cut, better);
  return { value, atLeast: stopped(value) };
}
