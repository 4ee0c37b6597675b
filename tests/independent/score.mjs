/** The arithmetic of one row: knots, bell, equation, bounds, standing. */

import { shareBelow, zOfShare } from './normal.mjs';
import { norms } from './norms.mjs';
import { valueBy } from './visit.mjs';

/** Terms of an equation; null where the client's height or weight is not known. */
export function predicted(equation, client) {
  let sum = equation.intercept;
  for (const { term, coefficient } of equation.terms) {
    const amount = {
      age_years: client.age,
      age_years_squared: client.age ** 2,
      male: client.sex === 'male' ? 1 : 0,
      female: client.sex === 'female' ? 1 : 0,
      height_cm: client.height_cm,
      weight_kg: client.weight_kg,
    }[term];
    if (amount === undefined) return null;
    sum += coefficient * amount;
  }
  return sum;
}

/** Percentile knots [value, percent of people who do worse], best value last. */
export function knotsOf(row, better) {
  const knots = [];
  for (const [key, value] of Object.entries(row.percentiles ?? {})) {
    const percent = Number(key.slice(1).replace('_', '.'));
    knots.push([value, better === 'higher' ? percent : 100 - percent]);
  }
  for (const [key, value] of Object.entries(row.performance_percentiles ?? {}))
    knots.push([value, Number(key.slice(1).replace('_', '.'))]);
  if (row.shares !== undefined) {
    const { marks, counts, percents, unable_first, missing_to_worst = 0 } = row.shares;
    const cells = [...(counts ?? percents)];
    if (unable_first) cells.splice(0, 2, cells[0] + cells[1]);
    cells[0] += missing_to_worst;
    const all = cells.reduce((sum, cell) => sum + cell, 0);
    let worse = 0;
    marks.forEach((mark, index) => {
      worse += cells[index];
      knots.push([mark, (100 * worse) / all]);
    });
  }
  return knots.filter(([, percent]) => percent > 0 && percent < 100).sort((one, other) => one[1] - other[1]);
}

/** Where a value lies among knots. `step(a, b)` > 0 where a is better than b. */
export function among(knots, value, step, shares) {
  if (knots.length === 0) return { percentile: null, bound: null };
  const worst = knots[0];
  const best = knots[knots.length - 1];
  if (shares !== undefined && shares.marks.length === 1) {
    const good = step(value, best[0]) > 0 || (value === best[0] && shares.at_mark !== 'worse');
    return { percentile: best[1], bound: good ? 'at_least' : 'at_most' };
  }
  if (step(value, worst[0]) < 0) return { percentile: worst[1], bound: 'at_most' };
  if (step(value, best[0]) > 0) return { percentile: best[1], bound: 'at_least' };
  const tied = knots.filter((knot) => knot[0] === value);
  if (tied.length > 0) return { percentile: (tied[0][1] + tied[tied.length - 1][1]) / 2, bound: 'exact' };
  for (let index = 1; index < knots.length; index += 1) {
    const [lowValue, lowPercent] = knots[index - 1];
    const [highValue, highPercent] = knots[index];
    if (step(value, lowValue) > 0 && step(value, highValue) < 0) {
      const from = zOfShare(lowPercent / 100);
      const to = zOfShare(highPercent / 100);
      const z = from + ((to - from) * (value - lowValue)) / (highValue - lowValue);
      return { percentile: 100 * shareBelow(z), bound: 'exact' };
    }
  }
  return { percentile: null, bound: null };
}

/** Of the percentile to one decimal, as the reader sees it. */
export function standingOf(unrounded, bound) {
  const { well_below_under: low, below_under: under, above_over: over } = norms.defaults.standing;
  if (unrounded === null) return null;
  const percentile = Math.round(unrounded * 10) / 10;
  if (bound === 'exact') {
    if (percentile < low) return 'well_below';
    if (percentile < under) return 'below';
    return percentile > over ? 'above' : 'expected';
  }
  if (bound === 'at_most') {
    if (percentile <= low) return 'well_below';
    return percentile <= under ? 'below' : null;
  }
  if (percentile >= over) return 'above';
  return percentile >= under ? 'expected' : null;
}

/** Can people be spread so? mean +/- 2 SD must stay inside what the test can give. */
export function shapeFits(definition, ceiling, mean, sd) {
  const scale = ['score', 'percent', 'stage'].includes(definition.kind);
  const low = scale ? definition.impossible.below : 0;
  const high = scale ? definition.impossible.above : definition.kind === 'time' ? (ceiling ?? null) : null;
  return mean - 2 * sd >= low && (high === null || mean + 2 * sd <= high);
}

export function percentOfNormal(definition, value, mean, sd, sign) {
  if (definition.kind !== 'time') return 100 * shareBelow((sign * (value - mean)) / sd);
  if (value <= 0) return sign > 0 ? 0 : 100;
  const spread = Math.sqrt(Math.log(1 + (sd * sd) / (mean * mean)));
  const middle = Math.log(mean) - (spread * spread) / 2;
  return 100 * shareBelow((sign * (Math.log(value) - middle)) / spread);
}

export const methodOf = (row) => {
  if (row.percentiles !== undefined || row.performance_percentiles !== undefined) return 'percentile_points';
  if (row.shares !== undefined) return 'cumulative_share';
  if (row.equation !== undefined) return 'equation';
  if (row.mean !== undefined && row.sd !== undefined) return 'mean_sd';
  if (row.mean !== undefined && row.mean_ci95 !== undefined) return 'mean_ci';
  if (row.median !== undefined) return 'median_only';
  return 'mean_only';
};

export function worseThanMean(row, expected, value, sign) {
  const limit = row.worse_than_average;
  if (limit !== undefined) {
    const worse = limit.above !== undefined ? value > limit.above : value < limit.below;
    return worse ? 'worse' : 'not_worse';
  }
  if (expected === null) return null;
  return sign * (value - expected) < 0 ? 'worse' : 'not_worse';
}

/** The value that counts here, with every trial cut to the table's ceiling first; `own`: that ceiling was reached. */
export function cutTo(ceiling, rule, record, definition) {
  const { value, atLeast } = valueBy(rule, record);
  if (value === null || ceiling === null || definition.kind !== 'time') return { value, atLeast, own: false };
  const cut = valueBy(rule, { ...record, trials: record.trials.map((trial) => Math.min(trial, ceiling)) }).value;
  if (cut >= ceiling) return { value: cut, atLeast: false, own: true };
  return { value: cut, atLeast: record.ceiling !== null && record.ceiling < ceiling && atLeast, own: false };
}

/** A stopped watch: a holding time is that or better, a time to be quick in that or worse. */
export function stoppedAt(percentile, bound, atLeast, sign) {
  if (!atLeast || percentile === null) return { percentile, bound };
  const side = sign > 0 ? 'at_least' : 'at_most';
  return bound === 'exact' || bound === side ? { percentile, bound: side } : { percentile: null, bound: null };
}
