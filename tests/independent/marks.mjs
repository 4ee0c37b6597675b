/** Cut-points, measurement error and bands of one result. */
import { holds, markMet } from './logic.mjs';
import { rounded } from './normal.mjs';
import { norms } from './norms.mjs';

const ROOT2 = Math.SQRT2;

const CARRIES = ['sem', 'mdc95', 'mdc90', 'mdc_level_unstated', 'by_score'];

/** MDC95 as printed or by starting score, and the SEM: printed, or from the detectable change. */
function sizes(error, value) {
  const inBand = (band) => value !== null && value >= band.min && value <= band.max;
  const byScore = error.by_score?.find(inBand)?.mdc95;
  const mdc95 = byScore ?? error.mdc95 ?? error.mdc_level_unstated ?? null;
  let { sem = null } = error;
  if (sem === null && mdc95 !== null) sem = mdc95 / (1.96 * ROOT2);
  if (sem === null && error.mdc90 !== undefined) sem = error.mdc90 / (1.645 * ROOT2);
  return { sem, mdc95: mdc95 === null && sem !== null ? 1.96 * ROOT2 * sem : mdc95 };
}

/** The error taken by default: the first named that carries one and whose condition holds. */
export function errorOf(test, value, atLeast, facts) {
  const entry = (norms.defaults.tests[test]?.error ?? []).find(({ id, when }) => {
    const carries = CARRIES.some((key) => norms.errors[id][key] !== undefined);
    return carries && (when === undefined || holds(when, facts) === true);
  });
  if (entry === undefined) return null;
  const { sem, mdc95 } = sizes(norms.errors[entry.id], value);
  if (sem === null || value === null || atLeast) return { id: entry.id, sem, mdc95, low: null, high: null };
  return { id: entry.id, sem, mdc95, low: Math.max(value - 1.96 * sem, 0), high: value + 1.96 * sem };
}

/** Is the mark about a client like this one? Where the sex is not recorded, those of both are shown. */
function concerns(cut, client) {
  const { sex = 'all', age_min: from = null, age_max: to = null } = cut;
  if (sex !== 'all' && sex !== client.sex && client.sex !== 'not recorded') return false;
  return (from === null || client.age >= from) && (to === null || client.age <= to);
}

/** Only marks of a falls guideline or about falls count; a condition's only with it, a sex's only where it is recorded. */
function countsFor(cut, client, facts) {
  const { applies_to: about = 'everyone', sex = 'all' } = cut;
  if (sex !== 'all' && sex !== client.sex) return false;
  const copd = facts.fields['health.lung_condition'] === 'copd';
  return cut.counts && (about === 'everyone' || (about === 'copd' && copd));
}

/** Every published mark that is about a client like this one. */
export function cutPointsOf(test, result, client, facts, error) {
  return (norms.cuts[test] ?? [])
    .filter((cut) => concerns(cut, client))
    .map((cut) => {
      const [[name, mark]] = Object.entries(cut.met_when);
      const interval = error !== null && error.sem !== null && result.value !== null && !result.at_least;
      // To 0.001, as values are shown.
      const near = interval ? rounded(Math.abs(mark - result.value), 3) <= rounded(1.96 * error.sem, 3) : null;
      return {
        id: cut.id,
        met: markMet(name, mark, result, norms.catalogue[test].better),
        near,
        counts: countsFor(cut, client, facts),
        sensitivity: cut.accuracy?.sensitivity ?? null,
        specificity: cut.accuracy?.specificity ?? null,
      };
    });
}

export function categoryOf(test, value) {
  if (value === null) return null;
  return norms.catalogue[test].bands?.find((band) => value >= band.min && value <= band.max)?.category ?? null;
}

/** yes where a mark that counts is met; unknown where one that counts cannot be decided and none is met. */
export function flaggedBy(cuts, state) {
  if (state === 'unable') return true;
  const counting = cuts.filter((cut) => cut.counts).map((cut) => cut.met);
  if (counting.includes(true)) return true;
  return counting.includes(null) ? null : false;
}
