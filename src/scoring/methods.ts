/**
 * What one row of a table can say about one value: one function a method, each giving numbers or the reason for none.
 * Which method a row allows follows from what it prints; the richest comes first.
 */
import type { Method, PercentileBound, Standing } from '../assessment.ts';
import type { Equation, Row } from '../evidence/schema/table.ts';
import {
  bellIsPossible,
  logNormalPercentile,
  normalPercentile,
  type PossibleRange,
  type Predictors,
  performanceZ,
  predict,
} from './distribution.ts';
import { type Knot, knotsOfPoints, knotsOfShares, percentileFromKnots, percentileFromOneMark } from './knots.ts';
import { type Better, isWorse, performanceOf, roundTo, VALUE_DECIMALS } from './performance.ts';

export interface Scored {
  readonly method: Method;
  readonly percentile: number | null;
  readonly bound: PercentileBound | null;
  readonly approximate: boolean;
  readonly z: number | null;
  readonly expected: number | null;
  readonly againstMean: 'worse' | 'not_worse' | null;
  readonly notes: readonly string[];
  /** Why no percentile is given, where none is. */
  readonly noneBecause: string | null;
  readonly formula: string;
  /** A standing that holds though no percentile can be given (SD printed too coarsely). */
  readonly agreedStanding?: Standing | null;
}

export interface Question {
  /** null = unable: worse than every value. */
  readonly value: number | null;
  readonly better: Better;
  /** Times spread log-normally, other measures normally, where only mean and SD are printed. */
  readonly isTime: boolean;
  readonly range: PossibleRange;
  readonly client: Predictors;
  readonly unit: string;
}

const nothing = { percentile: null, bound: null, approximate: false, z: null, againstMean: null, notes: [] } as const;
const show = (value: number): string => String(roundTo(value, VALUE_DECIMALS));

/** The order in which methods are tried; the first that the row allows is used. */
export function scoreAgainstRow(row: Row, question: Question): Scored {
  const points = Object.keys(row.percentiles ?? {}).length + Object.keys(row.performance_percentiles ?? {}).length;
  if (points > 1 || (points === 1 && row.percentiles?.p50 === undefined && row.performance_percentiles?.p50 === undefined))
    return byPoints(row, question);
  if (row.shares !== undefined) return byShares(row, row.shares.at_mark === 'better', question);
  if (row.equation !== undefined) return byEquation(row.equation, question);
  if (row.mean !== undefined && row.sd !== undefined) return byMeanAndSd(row, row.mean, row.sd, question);
  const median = row.median ?? row.percentiles?.p50 ?? row.performance_percentiles?.p50;
  if (row.mean === undefined && median !== undefined) return againstCentre('median_only', 'median', median, row, question);
  const { mean } = row;
  if (mean === undefined) return againstLimitOnly(row, question);
  return row.mean_ci95 === undefined
    ? againstCentre('mean_only', 'mean', mean, row, question)
    : againstCentre('mean_ci', 'mean', mean, row, question);
}

interface Printed {
  readonly knots: readonly Knot[];
  readonly formula: string;
}

/** A row is of one test, so its knots are the same for every value. */
const printedOf = new WeakMap<Row, Printed>();

function printedKnots(row: Row, knotsOf: () => readonly Knot[], { better, unit }: Question): Printed {
  const known = printedOf.get(row);
  if (known !== undefined) return known;
  const knots = knotsOf();
  const printed = knots.map(
    ({ performance, percentile }) =>
      `${show(performanceOf(performance, better))} ${unit} = ${show(Math.round(percentile * 10) / 10)} %`,
  );
  const made = {
    knots,
    formula: `performance percentiles printed: ${printed.join(', ')}; between them z is linear in the value`,
  };
  printedOf.set(row, made);
  return made;
}

function fromKnots(
  { knots, formula }: Printed,
  method: Method,
  expected: number | null,
  markIsBetter: boolean,
  question: Question,
): Scored {
  const first = knots[0];
  if (first === undefined)
    return { ...nothing, method, expected, noneBecause: 'every printed share is 0 or 100 %', formula: 'no usable point' };
  const result =
    question.value === null
      ? { percentile: first.percentile, bound: 'at_most' as const }
      : knots.length === 1
        ? percentileFromOneMark(first, performanceOf(question.value, question.better), markIsBetter)
        : percentileFromKnots(knots, performanceOf(question.value, question.better));
  return {
    ...nothing,
    method,
    expected,
    percentile: result?.percentile ?? null,
    bound: result?.bound ?? null,
    noneBecause: null,
    formula,
  };
}

function byPoints(row: Row, question: Question): Scored {
  const expected = row.percentiles?.p50 ?? row.performance_percentiles?.p50 ?? row.median ?? null;
  const printed = printedKnots(row, () => knotsOfPoints(row, question.better), question);
  return fromKnots(printed, 'percentile_points', expected, true, question);
}

function byShares(row: Row, markIsBetter: boolean, question: Question): Scored {
  const { shares } = row;
  const printed = printedKnots(row, () => (shares === undefined ? [] : knotsOfShares(shares, question.better)), question);
  return fromKnots(printed, 'cumulative_share', row.median ?? null, markIsBetter, question);
}

function byMeanAndSd(row: Row, mean: number, sd: number, question: Question): Scored {
  const { value, better, unit } = question;
  const base = { ...nothing, method: 'mean_sd' as const, expected: mean, againstMean: worseThanCentre(mean, row, question) };
  const formula = `mean ${show(mean)}, SD ${show(sd)} ${unit}`;
  if (!bellIsPossible(mean, sd, question.range))
    return {
      ...base,
      noneBecause: `mean ${show(mean)} and SD ${show(sd)} ${unit} cannot be a bell curve here (mean ± 2 SD leaves the possible range), so no percentile is given`,
      formula,
    };
  if (value === null) return { ...base, noneBecause: null, formula: `${formula}; unable is worse than every value` };
  const z = performanceZ(value, mean, sd, better);
  const normal = normalPercentile(z);
  const percentile = question.isTime ? logNormalPercentile(value, mean, sd, better) : normal;
  const notes = question.isTime
    ? [`if the times spread normally instead of log-normally the percentile would be ${normal.toFixed(1)}`]
    : [];
  if (row.range !== undefined && mean - 2 * sd < row.range[0])
    notes.push(
      `mean - 2 SD lies outside the range of the sample (${row.range[0]} to ${row.range[1]} ${unit}): the spread is skewed`,
    );
  return {
    ...base,
    percentile,
    bound: 'exact',
    approximate: true,
    z,
    notes,
    noneBecause: null,
    formula: `z = ${better === 'lower' ? '-' : ''}(${show(value)} - ${show(mean)}) / ${show(sd)} = ${z.toFixed(2)}`,
  };
}

/** Spread around the prediction: one figure, or a line on age where the source prints that. */
function residualSd({ residual_sd, residual_sd_by_age: byAge }: Equation, age: number): number | null {
  return residual_sd ?? (byAge === undefined ? null : byAge.intercept + byAge.per_year * age);
}

function byEquation(equation: Equation, question: Question): Scored {
  const { value, better, unit, client } = question;
  const predicted = predict(equation, client);
  const terms = equation.terms.map(
    ({ term, coefficient }) => `${coefficient < 0 ? '-' : '+'} ${show(Math.abs(coefficient))} × ${term.replaceAll('_', ' ')}`,
  );
  const line = `predicted = ${show(equation.intercept)} ${terms.join(' ')}`;
  const base = { ...nothing, method: 'equation' as const, expected: predicted };
  if (predicted === null)
    return { ...base, noneBecause: 'the equation needs sex, height or weight, which is not recorded', formula: line };
  const formula = `${line} = ${predicted.toFixed(1)} ${unit}`;
  const againstMean = value === null || isWorse(value, predicted, better) ? 'worse' : 'not_worse';
  const sd = residualSd(equation, client.age);
  if (sd === null) return { ...base, againstMean, noneBecause: 'the source prints no residual spread for its equation', formula };
  const lower = equation.lower_limit;
  const notes = lower === null ? [] : [`lower limit of normal by the source: ${(predicted - lower).toFixed(1)} ${unit}`];
  const spread = `${formula}; residual SD ${sd.toFixed(2)}`;
  if (!bellIsPossible(predicted, sd, question.range)) {
    const noneBecause = 'the predicted value ± 2 SD leaves the possible range, so no percentile is given';
    return { ...base, againstMean, notes, noneBecause, formula: spread };
  }
  if (value === null) return { ...base, notes, noneBecause: null, formula: spread };
  const z = performanceZ(value, predicted, sd, better);
  return {
    ...base,
    percentile: normalPercentile(z),
    bound: 'exact',
    approximate: true,
    z,
    notes,
    noneBecause: null,
    formula: spread,
  };
}

/** Some rows print nothing but the limit of "worse than average". */
function againstLimitOnly(row: Row, question: Question): Scored {
  const limit = row.worse_than_average?.above ?? row.worse_than_average?.below;
  return {
    ...nothing,
    method: 'mean_only',
    expected: null,
    againstMean:
      limit === undefined
        ? null
        : question.value === null || isWorse(question.value, limit, question.better)
          ? 'worse'
          : 'not_worse',
    noneBecause: 'the source prints only its limit of worse than average, so no percentile can be given',
    formula: limit === undefined ? 'no number' : `the source calls beyond ${show(limit)} ${question.unit} worse than average`,
  };
}

/** Beyond the source's own limit where it prints one, else beyond the mean or median itself. */
function worseThanCentre(centre: number, row: Row, { value, better }: Question): 'worse' | 'not_worse' {
  if (value === null) return 'worse';
  const limit = row.worse_than_average?.above ?? row.worse_than_average?.below ?? centre;
  return isWorse(value, limit, better) ? 'worse' : 'not_worse';
}

function againstCentre(method: Method, word: 'mean' | 'median', centre: number, row: Row, question: Question): Scored {
  const limit = row.worse_than_average?.above ?? row.worse_than_average?.below;
  const interval = row.mean_ci95 === undefined ? '' : ` (95 % interval of the mean ${row.mean_ci95[0]} to ${row.mean_ci95[1]})`;
  return {
    ...nothing,
    method,
    expected: centre,
    againstMean: worseThanCentre(centre, row, question),
    noneBecause: `the source prints a ${word} without the spread of people, so no percentile can be given`,
    formula: `${word} ${show(centre)} ${question.unit}${interval}${limit === undefined ? '' : `; the source calls beyond ${show(limit)} worse than average`}`,
  };
}
