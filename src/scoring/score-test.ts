/** One recorded test of one side -> its result: comparisons with one primary, cut-points, measurement error, notes. */
import type { Comparison, CutPointResult, MeasurementErrorResult, TestResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import type { Measured, Reading, RecordedTest, Side } from '../session.ts';
import { bandInWords, type CompareContext, compare, standingOnly } from './compare.ts';
import { cutPointsFor } from './cut-points.ts';
import { errorFor, largerErrorNotes, Z95 } from './measurement-error.ts';
import { roundTo, VALUE_DECIMALS } from './performance.ts';
import { type Asked, type Candidate, candidatesFor, mayBePrimary, type Subject } from './select.ts';
import { type TrialsValue, valueByRule } from './trials.ts';
import { countryNotes, selectionOf, whyNoComparison } from './why.ts';

export interface ScoringContext {
  readonly evidence: Evidence;
  readonly subject: Subject;
  /** Is this condition of `norms/` true for the client? */
  readonly applies: (condition: Condition) => boolean;
}

/** Unable, and unsafe because of balance, count as the worst result; declined and medical reasons are not tested. */
export const countsAsUnable = (reading: Reading): boolean =>
  reading.outcome === 'unable' || (reading.outcome === 'unsafe' && reading.why === 'balance');

/** By the catalogue's trials rule; null = unable, undefined = not tested. */
export function catalogueValue(recorded: RecordedTest, test: TestDefinition): number | null | undefined {
  if (recorded.reading.outcome === 'measured') return valueByRule(recorded.reading.trials, test.trials, test.better).value;
  return countsAsUnable(recorded.reading) ? null : undefined;
}

/** First in order of fit that yields a standing, else the first that fits; only default tables of a known sex. */
function choosePrimary(candidates: readonly Candidate[], comparisons: readonly Comparison[]): number {
  const allowed = candidates.map(mayBePrimary);
  const withStanding = comparisons.findIndex((comparison, index) => allowed[index] === true && comparison.standing !== null);
  return withStanding === -1 ? allowed.indexOf(true) : withStanding;
}

/** "In the next age band the standing would be ...", where the client is within a year of it. */
function bandEdgeNotes(candidate: Candidate, primary: Comparison, context: CompareContext): string[] {
  const { age } = context.client;
  const { row, part } = candidate;
  const sameStratum = part.rows.filter(
    (other) => other.sex === row.sex && other.setting === row.setting && other.side === row.side,
  );
  const near = sameStratum.filter((other) => {
    const [low, high] = [other.age_min ?? 0, other.age_max ?? Number.POSITIVE_INFINITY];
    return (low > age && low - age <= 1) || (high < age && age - high <= 1);
  });
  return near.flatMap((other) => {
    const standing = standingOnly({ ...candidate, row: other }, context);
    return standing === primary.standing || standing === null
      ? []
      : [`close to the edge of the age band: among ${bandInWords(other)} the standing would be "${standing.replace('_', ' ')}"`];
  });
}

/** Only tables of the general population that were read may disagree; a recalled one is shown but raises no note. */
function disagreementNotes(primary: Comparison, comparisons: readonly Comparison[]): string[] {
  return comparisons.flatMap(({ source, status, standing }) =>
    status === 'memory' || standing === null || primary.standing === null || standing === primary.standing
      ? []
      : [`by ${source} the standing would be "${standing.replace('_', ' ')}"`],
  );
}

/** How one side of a test was done, as far as the choice of a table asks. */
export function askedOf(recorded: RecordedTest, strongerSide: Side | null): Asked {
  const measured = recorded.reading.outcome === 'measured' ? recorded.reading : null;
  return {
    test: recorded.test,
    side: recorded.side,
    strongerSide,
    trials: measured?.trials.length ?? 0,
    ceiling: measured?.ceiling,
    ceilingReached: measured?.ceiling !== undefined && Math.max(...measured.trials) >= measured.ceiling,
    course: measured?.course,
    chairCm: measured?.chairCm,
  };
}

function comparisonsFor(recorded: RecordedTest, strongerSide: Side | null, context: ScoringContext, test: TestDefinition) {
  const measured = recorded.reading.outcome === 'measured' ? recorded.reading : null;
  const asked = askedOf(recorded, strongerSide);
  const candidates = candidatesFor(context.evidence, context.subject, asked);
  const compareContext: CompareContext = {
    test,
    client: context.subject.client,
    bands: context.evidence.defaults.standing,
    measured,
  };
  const compared = candidates.map((candidate) => compare(candidate, compareContext));
  const chosen = choosePrimary(candidates, compared);
  const comparisons = compared.map((comparison, index) => (index === chosen ? { ...comparison, primary: true } : comparison));
  const primary = comparisons[chosen];
  const candidate = candidates[chosen];
  const notes =
    primary && candidate
      ? [...bandEdgeNotes(candidate, primary, compareContext), ...disagreementNotes(primary, comparisons)]
      : [];
  const fitting = { candidates, comparisons, chosen };
  return {
    comparisons,
    notes: [...notes, ...countryNotes(context.subject, fitting)],
    selection: selectionOf(context.evidence, context.subject, asked, fitting),
  };
}

function blurNote(cuts: readonly CutPointResult[], error: MeasurementErrorResult | null): string[] {
  return error?.low === 0 && cuts.length > 0 && cuts.every((cut) => cut.near === true)
    ? ['the measurement error of this test is so wide that nearly every mark lies within it; one result alone decides little']
    : [];
}

/** Flagged: a cut-point that counts is met. null where none could be decided. */
export function isFlagged(result: Pick<TestResult, 'cut_points'>): boolean | null {
  return anyMet(result.cut_points.filter((cut) => cut.counts).map((cut) => cut.met));
}

/** Of the cut-points that count: true where any is met, null where none could be decided. */
export function anyMet(met: readonly (boolean | null)[]): boolean | null {
  const decided = met.filter((each) => each !== null);
  return decided.length === 0 ? null : decided.includes(true);
}

function notTested(recorded: RecordedTest, test: TestDefinition, reading: Exclude<Reading, Measured>): TestResult {
  return {
    ...shell(recorded, test),
    no_comparison_because:
      reading.outcome === 'declined'
        ? 'not tested today: the client declined'
        : 'not tested today: stopped for another reason than balance',
    reason: reading.reason,
    why: reading.why ?? null,
  };
}

/** What the professional wrote beside the reading. */
const ownNote = (reading: Reading): string[] => (reading.note === undefined ? [] : [reading.note]);

const shell = (recorded: RecordedTest, test: TestDefinition): TestResult => ({
  test: test.id,
  name: test.name,
  side: recorded.side,
  outcome: recorded.reading.outcome,
  value: null,
  unit: test.unit,
  trials: [],
  at_least: false,
  category: null,
  comparisons: [],
  no_comparison_because: null,
  cut_points: [],
  measurement_error: null,
  notes: ownNote(recorded.reading),
  reason: null,
  why: null,
  derived_from: [],
});

function readingNotes(reading: Reading, test: TestDefinition): string[] {
  const notes = ownNote(reading);
  if (reading.outcome !== 'measured') return notes;
  if (reading.aid !== undefined && reading.aid !== 'none')
    notes.push(`done with an aid (${reading.aid}); most tables are of people without one`);
  if (test.course && reading.course?.distanceM === undefined)
    notes.push('the course walked is not recorded; the default table is used');
  return notes;
}

/** The value by the catalogue's trials rule to 0.001, as it is shown and judged everywhere; null where the client was unable. */
export function takenValue(measured: Measured | null, test: TestDefinition): TrialsValue | null {
  if (measured === null) return null;
  const taken = valueByRule(measured.trials, test.trials, test.better, {
    ceiling: measured.ceiling ?? test.ceiling ?? undefined,
  });
  return { ...taken, value: roundTo(taken.value, VALUE_DECIMALS) };
}

/** Measurement error around the value, and every cut-point with it. */
function errorAndCuts(taken: TrialsValue | null, test: TestDefinition, context: ScoringContext) {
  const value = taken?.value ?? null;
  const shown = errorFor(taken, test, context);
  const sem = shown?.sem ?? null;
  const cuts = cutPointsFor(context.evidence.cutPointsByTest.get(test.id) ?? [], context.subject, {
    value,
    atLeast: taken?.atLeast ?? false,
    better: test.better,
    // Around a time that was stopped at its ceiling there is no interval, so nothing is near.
    halfInterval: sem === null || taken?.atLeast === true ? null : sem * Z95,
  });
  return { measurement_error: shown, cut_points: cuts };
}

/** The whole result of one side of one test. */
export function scoreTest(
  recorded: RecordedTest,
  test: TestDefinition,
  context: ScoringContext,
  strongerSide: Side | null = null,
): TestResult {
  const { reading } = recorded;
  if (reading.outcome !== 'measured' && !countsAsUnable(reading)) return notTested(recorded, test, reading);
  const measured = reading.outcome === 'measured' ? reading : null;
  const taken = takenValue(measured, test);
  const { comparisons, notes, selection } = comparisonsFor(recorded, strongerSide, context, test);
  const judged = errorAndCuts(taken, test, context);
  return {
    ...shell(recorded, test),
    ...judged,
    value: taken?.value ?? null,
    trials: measured?.trials.map((trial) => roundTo(trial, VALUE_DECIMALS)) ?? [],
    at_least: taken?.atLeast ?? false,
    category: categoryOf(test, taken?.value ?? null),
    comparisons,
    no_comparison_because:
      comparisons.length === 0 ? whyNoComparison(test.id, context.evidence, context.subject, selection.do_not_fit) : null,
    selection,
    notes: [
      ...readingNotes(reading, test),
      ...notes,
      ...largerErrorNotes(judged.measurement_error, test),
      ...blurNote(judged.cut_points, judged.measurement_error),
    ],
    reason: reading.outcome === 'measured' ? null : reading.reason,
    why: reading.outcome === 'unsafe' ? (reading.why ?? null) : null,
  };
}

const categoryOf = (test: TestDefinition, value: number | null): string | null =>
  value === null ? null : (test.bands.find((band) => value >= band.min && value <= band.max)?.category ?? null);
