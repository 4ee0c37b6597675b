/** Scores from a mean with its SD and from a prediction equation. */
import type { Equation } from '../evidence/schema/table.ts';
import { normalCdf } from '../statistics/normal.ts';
import { type Better, performanceOf } from './performance.ts';

export interface PossibleRange {
  readonly lowest: number;
  readonly highest: number;
}

/**
 * A mean and SD describe a bell only while mean +/- 2 SD stays inside what is possible (not below 0, not above the
 * ceiling). Stance times usually fail this, and then no z, percentile or standing is given.
 */
export function bellIsPossible(mean: number, sd: number, range: PossibleRange): boolean {
  return mean - 2 * sd >= range.lowest && mean + 2 * sd <= range.highest;
}

/** z = (value - mean) / SD, positive = better. */
export const performanceZ = (value: number, mean: number, sd: number, better: Better): number =>
  performanceOf(value - mean, better) / sd;

/** Performance percentile (0-100) if values spread normally. */
export const normalPercentile = (z: number): number => 100 * normalCdf(z);

/**
 * Performance percentile (0-100) if times spread log-normally with this mean and SD:
 * sigma^2 = ln(1 + SD^2/mean^2), mu = ln(mean) - sigma^2/2.
 */
export function logNormalPercentile(value: number, mean: number, sd: number, better: Better): number {
  const variance = Math.log(1 + (sd * sd) / (mean * mean));
  const centre = Math.log(mean) - variance / 2;
  return 100 * normalCdf(performanceOf((Math.log(value) - centre) / Math.sqrt(variance), better));
}

export interface Predictors {
  readonly age: number;
  readonly sex: 'female' | 'male' | 'not recorded';
  readonly heightCm?: number | undefined;
  readonly weightKg?: number | undefined;
}

function termValue(term: Equation['terms'][number]['term'], client: Predictors): number | null {
  switch (term) {
    case 'age_years':
      return client.age;
    case 'age_years_squared':
      return client.age ** 2;
    case 'male':
    case 'female':
      return client.sex === 'not recorded' ? null : Number(client.sex === term);
    case 'height_cm':
      return client.heightCm ?? null;
    case 'weight_kg':
      return client.weightKg ?? null;
    case 'bmi':
      return client.heightCm === undefined || client.weightKg === undefined
        ? null
        : client.weightKg / (client.heightCm / 100) ** 2;
  }
}

/** Predicted value in the test's unit, or null where the client's record lacks a term of the equation. */
export function predict(equation: Equation, client: Predictors): number | null {
  let sum = equation.intercept;
  for (const { term, coefficient } of equation.terms) {
    const value = termValue(term, client);
    if (value === null) return null;
    sum += coefficient * value;
  }
  return sum;
}
