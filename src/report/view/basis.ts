/** How we got there: for every test the row used, the formula with this client's numbers, the fit, and what stands beside it. */
import type { Comparison, CutPointResult, MeasurementErrorResult, TestResult } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import { exactPercentile, percentileWords, plainNumber, roundFor, valueWithUnit } from './numbers.ts';
import { isNotTested, primaryOf } from './standing.ts';
import { centreWords, labelOf } from './tests.ts';
import type { BasisEntry } from './types.ts';
import { bandWords, plainId } from './words.ts';

type Line = BasisEntry['lines'][number];

const TRIAL_RULES: Readonly<Record<string, string>> = { best: 'best trial', mean: 'mean of the trials', first: 'first trial' };

const ruleWords = (comparison: Comparison, trials: number): string =>
  trials < 2 || TRIAL_RULES[comparison.trials_rule] === undefined ? '' : `, ${TRIAL_RULES[comparison.trials_rule]}`;

const markOf = (each: { source: string; status: Comparison['status'] }, citations: Citations): string =>
  citations.mark({ source: each.source, basis: each.status });

/** "percentile 18.3, z -0.90, compared value 12.8 s". */
function outcomeWords(comparison: Comparison, test: TestResult): string {
  const parts = [
    comparison.value === null
      ? null
      : `compared: ${valueWithUnit(comparison.value, test.unit)}${ruleWords(comparison, test.trials.length)}`,
    comparison.z === null ? null : `z ${roundFor(comparison.z, 2)} (positive is better)`,
    exactPercentile(comparison),
    comparison.approximate ? 'approximate' : null,
    comparison.no_standing_because,
  ];
  return parts.filter((part) => part !== null).join('; ');
}

/** Both sides of a test use the same rows: a remark already printed for this test is not printed again. */
function fresh(lines: readonly string[], seen: Set<string>): string[] {
  const unseen = lines.filter((line) => !seen.has(line));
  for (const line of unseen) seen.add(line);
  return unseen;
}

function primaryLines(comparison: Comparison, test: TestResult, seen: Set<string>, citations: Citations): Line[] {
  const outcome = outcomeWords(comparison, test);
  return [
    { label: 'Row', text: withMark(`${comparison.working.row} (${comparison.population})`, markOf(comparison, citations)) },
    { label: 'Formula', text: comparison.working.formula },
    ...(outcome === '' ? [] : [{ label: 'Gives', text: outcome }]),
    ...fresh(comparison.mismatches, seen).map((text) => ({ label: 'Fit', text })),
    ...fresh(comparison.notes, seen).map((text) => ({ label: 'Note', text })),
  ];
}

const STANDINGS = {
  well_below: 'well below usual',
  below: 'below usual',
  expected: 'usual',
  above: 'better than usual',
} as const;

/** Another table, in one line. */
function besideWords(comparison: Comparison, test: TestResult, citations: Citations): string {
  const average =
    comparison.expected === null ? null : `${centreWords(comparison.method)} ${valueWithUnit(comparison.expected, test.unit)}`;
  const against =
    comparison.against_mean === null || comparison.standing !== null ? null : `${plainId(comparison.against_mean)} than that`;
  const parts = [
    percentileWords(comparison),
    comparison.standing === null ? null : STANDINGS[comparison.standing],
    average,
    average === null ? null : against,
    ...(comparison.percentile === null && comparison.expected === null ? [comparison.no_standing_because] : []),
    ...comparison.mismatches,
  ];
  const said = parts.filter((part) => part !== null).join('; ');
  const place = `${comparison.location}, ${bandWords(comparison.band)} (${comparison.population})`;
  return withMark(said === '' ? place : `${place}: ${said}`, markOf(comparison, citations));
}

function cutLine(cut: CutPointResult, citations: Citations): string {
  const accuracy = [
    ...(cut.sensitivity === null ? [] : [`sensitivity ${plainNumber(cut.sensitivity)}`]),
    ...(cut.specificity === null ? [] : [`specificity ${plainNumber(cut.specificity)}`]),
  ];
  const met = cut.met === null ? 'cannot be decided' : cut.met ? 'met' : 'not met';
  const counts = cut.counts ? '' : '; shown, does not count for falls';
  const detail = [`${cut.outcome}; ${cut.population}`, cut.location, ...accuracy].join('; ');
  return withMark(`"${cut.rule}" ${met}${counts} (${detail})${cut.note === null ? '' : `. ${cut.note}`}`, markOf(cut, citations));
}

function errorLine(error: MeasurementErrorResult, unit: string, citations: Citations): string {
  const numbers = [
    ...(error.sem === null ? [] : [`standard error ${valueWithUnit(error.sem, unit)}`]),
    ...(error.mdc95 === null ? [] : [`smallest real change (95 %) ${valueWithUnit(error.mdc95, unit)}`]),
  ];
  const who = [error.population, error.interval === null ? null : `measured again after: ${error.interval}`, error.location];
  const said = [numbers.join(', '), `(${who.filter((part) => part !== null).join('; ')})`]
    .filter((part) => part !== '')
    .join(' ');
  return withMark(`${said}${error.note === null ? '' : `. ${error.note}`}`, markOf(error, citations));
}

export function basisOfTest(test: TestResult, seen: Set<string>, citations: Citations): BasisEntry {
  const primary = primaryOf(test);
  const beside = test.comparisons.filter((comparison) => comparison !== primary);
  const lines: Line[] = [
    ...(primary === null
      ? [{ label: 'Row', text: test.no_comparison_because ?? 'no table may place this client' }]
      : primaryLines(primary, test, seen, citations)),
    ...fresh(
      beside.map((comparison) => besideWords(comparison, test, citations)),
      seen,
    ).map((text) => ({ label: 'Beside it', text })),
    ...fresh(
      test.cut_points.map((cut) => cutLine(cut, citations)),
      seen,
    ).map((text) => ({ label: 'Mark', text })),
    ...fresh(test.measurement_error === null ? [] : [errorLine(test.measurement_error, test.unit, citations)], seen).map(
      (text) => ({ label: 'Error', text }),
    ),
  ];
  return { label: labelOf(test), lines };
}

/** One entry a result; remarks common to both sides of a test stand under the first. */
export function basisView(tests: readonly TestResult[], citations: Citations): BasisEntry[] {
  const seenByTest = new Map<string, Set<string>>();
  return tests
    .filter((test) => !isNotTested(test))
    .map((test) => {
      const seen = seenByTest.get(test.test) ?? new Set<string>();
      seenByTest.set(test.test, seen);
      return basisOfTest(test, seen, citations);
    });
}
