/** How we got there: for every test the row used, the formula with this client's numbers, the fit, and what stands beside it. */
import type { Comparison, CutPointResult, MeasurementErrorResult, TestResult } from '../../assessment.ts';
import { besideLines } from './beside.ts';
import { type Citations, withMark } from './citations.ts';
import { exactPercentile, plainNumber, roundFor, valueWithUnit } from './numbers.ts';
import { isNotTested, primaryOf } from './standing.ts';
import { labelOf } from './tests.ts';
import type { BasisEntry } from './types.ts';

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

/** Why this row: what put it first; tables without a row for this client stand in the JSON record. */
function chosenLines({ selection, comparisons }: TestResult): Line[] {
  if (selection === undefined || comparisons.length === 0) return [];
  return [{ label: 'Chosen', text: selection.because }];
}

function primaryLines(comparison: Comparison, test: TestResult, seen: Set<string>, citations: Citations): Line[] {
  const outcome = outcomeWords(comparison, test);
  return [
    { label: 'Row', text: withMark(`${comparison.working.row} (${comparison.population})`, markOf(comparison, citations)) },
    ...chosenLines(test),
    { label: 'Formula', text: comparison.working.formula },
    ...(outcome === '' ? [] : [{ label: 'Gives', text: outcome }]),
    ...fresh(comparison.mismatches, seen).map((text) => ({ label: 'Fit', text })),
    ...fresh(comparison.notes, seen).map((text) => ({ label: 'Note', text })),
  ];
}

function countingLine(cut: CutPointResult, citations: Citations): string {
  const accuracy = [
    ...(cut.sensitivity === null ? [] : [`sensitivity ${plainNumber(cut.sensitivity)}`]),
    ...(cut.specificity === null ? [] : [`specificity ${plainNumber(cut.specificity)}`]),
  ];
  const detail = [cut.outcome, cut.population, cut.location, ...accuracy].join('; ');
  return withMark(
    `"${cut.rule}" ${metWords(cut)} (${detail})${cut.note === null ? '' : `. ${cut.note}`}`,
    markOf(cut, citations),
  );
}

const metWords = (cut: CutPointResult): string => (cut.met === null ? 'cannot be decided' : cut.met ? 'met' : 'not met');

/** Marks that count in full; of the others, which say nothing about falls in people like these, those not ruled out. */
function cutLines(cuts: readonly CutPointResult[], citations: Citations): string[] {
  const others = cuts.filter((cut) => !cut.counts);
  const shown = others
    .filter((cut) => cut.met !== false)
    .map((cut) => withMark(`"${cut.rule}" ${metWords(cut)} (${cut.outcome})`, markOf(cut, citations)));
  const notMet = others.length - shown.length;
  const rest = notMet === 0 ? [] : [`${notMet} not met`];
  return [
    ...cuts.filter((cut) => cut.counts).map((cut) => countingLine(cut, citations)),
    ...(others.length === 0 ? [] : [`shown, not counted for falls: ${[...shown, ...rest].join('; ')}`]),
  ];
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

function rowLines(test: TestResult, primary: Comparison | null, seen: Set<string>, citations: Citations): Line[] {
  if (primary !== null) return primaryLines(primary, test, seen, citations);
  return [{ label: 'Row', text: test.no_comparison_because ?? 'no table may place this client' }];
}

function basisOfTest(test: TestResult, seen: Set<string>, citations: Citations): BasisEntry {
  const primary = primaryOf(test);
  const others = test.comparisons.filter((comparison) => comparison !== primary);
  const labelled = (label: string, texts: readonly string[]): Line[] => fresh(texts, seen).map((text) => ({ label, text }));
  const { measurement_error: error, unit } = test;
  return {
    label: labelOf(test),
    lines: [
      ...rowLines(test, primary, seen, citations),
      ...labelled('Beside it', besideLines(others, primary, unit, citations)),
      ...labelled('Mark', cutLines(test.cut_points, citations)),
      ...labelled('Error', error === null ? [] : [errorLine(error, unit, citations)]),
    ],
  };
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
