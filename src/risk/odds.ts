/**
 * Probability and odds. Post-test odds = pre-test odds x likelihood ratio (Fletcher, Fletcher and Fletcher, Clinical
 * Epidemiology: The Essentials, figure 8.9). Intervals are carried by the delta method on the log scale.
 */
import { normalQuantile } from '../statistics/normal.ts';

/** A figure with its 95 % interval. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Half the width of a 95 % interval in standard errors. */
const Z_95 = normalQuantile(0.975);

/** Odds of a probability strictly between 0 and 1. */
export const oddsOf = (probability: number): number => probability / (1 - probability);

/** Probability of odds above 0. */
export const probabilityOf = (odds: number): number => odds / (1 + odds);

/** Likelihood ratio of a positive and of a negative result from sensitivity and specificity, both 0 to 1. */
export function likelihoodRatios(
  sensitivity: number,
  specificity: number,
): { readonly positive: number; readonly negative: number } {
  return { positive: sensitivity / (1 - specificity), negative: (1 - sensitivity) / specificity };
}

/** Standard error on the log scale from a 95 % interval of a figure above 0. */
const logError = (low: number, high: number): number => (Math.log(high) - Math.log(low)) / (2 * Z_95);

/**
 * Probability after one or more likelihood ratios, with a 95 % interval. The log odds and the log ratios add up, and so do
 * their variances (delta method), the parts taken as independent of each other. `before` lies strictly between 0 and 1 with
 * its interval; ratios are above 0.
 */
export function afterRatios(before: Estimate, ratios: readonly Estimate[]): Estimate {
  const centre = ratios.reduce((sum, ratio) => sum + Math.log(ratio.value), Math.log(oddsOf(before.value)));
  const errors = [logError(oddsOf(before.low), oddsOf(before.high)), ...ratios.map((ratio) => logError(ratio.low, ratio.high))];
  const half = Z_95 * Math.hypot(...errors);
  const at = (logOdds: number): number => probabilityOf(Math.exp(logOdds));
  return { value: at(centre), low: at(centre - half), high: at(centre + half) };
}
