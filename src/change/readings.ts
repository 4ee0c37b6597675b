/** One test of one visit as change sees it: the result, and how it was done, so that unlike tests are never subtracted. */
import type { Assessment, TestResult } from '../assessment.ts';
import type { Course, Measured, Session, Side } from '../session.ts';
import type { ResultAt } from './types.ts';

export interface Visit {
  readonly session: Session;
  readonly assessment: Assessment;
}

/** As much of a visit as a single test needs. */
export interface ScoredVisit {
  readonly session: Session;
  readonly assessment: Pick<Assessment, 'assessed' | 'tests'>;
}

/** A result with what of the protocol was written down. */
export interface DoneTest {
  readonly assessed: string;
  /** null where the test does not stand in the file at all. */
  readonly result: TestResult | null;
  readonly aid: string | null;
  readonly chairCm: number | null;
  readonly ceiling: number | null;
  readonly course: Course | null;
}

export const isUnable = (result: TestResult): boolean =>
  result.outcome === 'unable' || (result.outcome === 'unsafe' && result.why === 'balance');

/** `value`: a number; `unable`: the worst result; `missing`: not tested, declined or not in the file. */
export type Kind = 'value' | 'unable' | 'missing';

/** Declined, stopped for another reason than balance and not recorded are all `missing`. */
export function kindOf({ result }: DoneTest): Kind {
  if (result === null) return 'missing';
  if (isUnable(result)) return 'unable';
  return result.outcome === 'measured' && result.value !== null ? 'value' : 'missing';
}

const tidy = (text: string): string => text.trim().toLowerCase();

/** How a test was done: as recorded, or for a result worked out from others as those were done. */
function howDone(visit: ScoredVisit, test: string, side: Side | null, result: TestResult | null): Partial<Measured> {
  const ids = result === null || result.derived_from.length === 0 ? [test] : result.derived_from.map((part) => part.test);
  const readings = visit.session.tests.filter((each) => ids.includes(each.test) && (each.test !== test || each.side === side));
  const measured = readings.flatMap(({ reading }) => (reading.outcome === 'measured' ? [reading] : []));
  // What any part says counts for the whole; of several the first.
  return Object.assign({}, ...measured.reverse());
}

/** The result of one test and side at a visit, with how it was done; the result is null where the file has none. */
export function doneTest(visit: ScoredVisit, test: string, side: Side | null): DoneTest {
  const result = visit.assessment.tests.find((each) => each.test === test && each.side === side) ?? null;
  const measured = howDone(visit, test, side, result);
  return {
    assessed: visit.assessment.assessed,
    result,
    aid: measured.aid === undefined ? null : tidy(measured.aid),
    chairCm: measured.chairCm ?? null,
    ceiling: result?.derived_from.length === 0 ? (measured.ceiling ?? null) : null,
    course: measured.course ?? null,
  };
}

/** Without a word on an aid none is taken to have been used, as the tables take it. */
const aidOf = (done: DoneTest): string => done.aid ?? 'none';

function courseConflicts(before: Course | null, after: Course | null): string[] {
  const found: string[] = [];
  if (before?.distanceM !== undefined && after?.distanceM !== undefined && before.distanceM !== after.distanceM)
    found.push(`walked over ${before.distanceM} m before and ${after.distanceM} m now`);
  if (before?.start !== undefined && after?.start !== undefined && before.start !== after.start)
    found.push(`${before.start} start before and ${after.start} start now`);
  return found;
}

/** Why two results of one test must not be subtracted; empty where nothing recorded speaks against it. */
export function protocolConflicts(before: DoneTest, after: DoneTest): string[] {
  if (kindOf(before) !== 'value' || kindOf(after) !== 'value') return [];
  const [aidBefore, aidAfter] = [aidOf(before), aidOf(after)];
  const aids = aidBefore === aidAfter ? [] : [`done with another aid (${aidBefore} before, ${aidAfter} now)`];
  const chairs =
    before.chairCm !== null && after.chairCm !== null && before.chairCm !== after.chairCm
      ? [`done from another chair (seat ${before.chairCm} cm before, ${after.chairCm} cm now)`]
      : [];
  return [...aids, ...chairs, ...courseConflicts(before.course, after.course)];
}

/** Differences that do not forbid the comparison but belong beside it. */
export function protocolRemarks(before: DoneTest, after: DoneTest): string[] {
  if (kindOf(before) !== 'value' || kindOf(after) !== 'value') return [];
  const [first, second] = [before.result?.trials.length ?? 0, after.result?.trials.length ?? 0];
  const trials =
    first === second
      ? []
      : [`${first} ${first === 1 ? 'trial' : 'trials'} before and ${second} now: more trials favour the better value`];
  const onlyOne = (before.course?.distanceM === undefined) !== (after.course?.distanceM === undefined);
  return onlyOne ? [...trials, 'the course walked is recorded at one of the two visits only'] : trials;
}

/** The result as the output shows it. */
export function resultAt(done: DoneTest): ResultAt {
  const { result } = done;
  const primary = result?.comparisons.find((comparison) => comparison.primary) ?? null;
  return {
    assessed: done.assessed,
    outcome: result?.outcome ?? 'not_recorded',
    value: result?.value ?? null,
    at_least: result?.at_least ?? false,
    aid: done.aid,
    reason: result?.reason ?? null,
    standing: primary?.standing ?? null,
    percentile: primary?.percentile ?? null,
    band: primary?.band ?? null,
    norm_source: primary?.source ?? null,
  };
}
