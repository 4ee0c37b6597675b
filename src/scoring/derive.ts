/**
 * Results worked out from other recorded tests by the rules of `norms/derived.yaml`. A missing part is never zero points:
 * without it the result "cannot be formed", and the range that is still possible is given.
 */
import type { TestResult } from '../assessment.ts';
import type {
  PointBand,
  PointItem,
  PointPart,
  PointTotal,
  RelativeCost,
  SequenceRules,
  StageLadder,
} from '../evidence/schema/derived.ts';
import type { Course, RecordedTest } from '../session.ts';
import { type Better, bestOf, worstOf } from './performance.ts';

/** What a rule needs to know of one recorded test: the worse and better side's value, or unable. */
export interface Recorded {
  /** null = unable or unsafe for balance. */
  readonly worse: number | null;
  readonly better: number | null;
  readonly course: Course | undefined;
  /** Where the watch was stopped at a ceiling: which way the worse side's true result may lie (a hold may be better, a time worse). */
  readonly open?: 'better' | 'worse' | undefined;
  /** With `open`: the other side was timed to its end, so the worse side is no better than this. */
  readonly limit?: number | undefined;
}
export type RecordedLookup = (test: string) => Recorded | undefined;

export type Derived =
  | {
      readonly kind: 'formed';
      readonly test: string;
      readonly value: number;
      readonly from: TestResult['derived_from'];
      readonly notes: readonly string[];
    }
  | {
      readonly kind: 'cannot_be_formed';
      readonly test: string;
      readonly missing: readonly string[];
      /** Those of the missing that were recorded, but as another test (a walk over another course) or stopped too early. */
      readonly unusable: readonly string[];
      /** Those of the missing that could not be done, where that gives no number. */
      readonly unable?: readonly string[];
      /** With `high`, what is still possible; absent where the result has no ends. */
      readonly low?: number;
      readonly high?: number;
    };

/** Points that an item can still have; one number when it is known. */
interface PointRange {
  readonly low: number;
  readonly high: number;
}
const exactly = (points: number): PointRange => ({ low: points, high: points });

function marks(band: PointBand, value: number): boolean {
  if (band.at_least !== undefined) return value >= band.at_least;
  if (band.above !== undefined) return value > band.above;
  if (band.at_most !== undefined) return value <= band.at_most;
  if (band.below !== undefined) return value < band.below;
  return true;
}

/** The number the bands speak of, or null where the recorded walk is another test. */
function readValue(item: PointItem, value: number, course: Course | undefined): number | null {
  const { reading } = item;
  if (reading.kind === 'value') return value;
  if (course?.distanceM === undefined && reading.course_not_recorded === 'no_points') return null;
  if (course?.distanceM !== undefined && course.distanceM !== reading.course_m) return null;
  if (course?.start !== undefined && course.start !== reading.start) return null;
  return reading.course_m / value;
}

const rounded = (value: number, step: number | undefined): number =>
  step === undefined || !Number.isFinite(value) ? value : Math.round(Number((value / step).toPrecision(12))) * step;

const mostPoints = (item: PointItem): number => item.bands[0]?.points ?? 0;

/** Known points of one item, or null where it was not recorded (or as another test, or stopped before they were decided). */
function pointsOf(item: PointItem, recorded: Recorded | undefined): number | null {
  if (recorded === undefined) return null;
  if (recorded.worse === null) return item.unable.points;
  const value = readValue(item, recorded.worse, recorded.course);
  if (value === null) return null;
  // Rounding to the printed step leaves binary dust (620 x 0.01); compare as printed.
  const printed = Number(rounded(value, item.round_to).toPrecision(12));
  const points = item.bands.find((band) => marks(band, printed))?.points ?? 0;
  if (recorded.open === undefined) return points;
  return points === (recorded.open === 'better' ? mostPoints(item) : 0) ? points : null;
}

/** Fills in what the order of a sequence implies: nothing after a failure, the easier below a held harder stance. */
function fillSequence<Step extends { readonly test: string }>(
  steps: readonly Step[],
  held: readonly (boolean | null)[],
  rules: SequenceRules | undefined,
): (boolean | null)[] {
  return held.map((own, index) => {
    if (own !== null) return own;
    if (rules?.not_tried_after_failure !== undefined && held.slice(0, index).includes(false)) return false;
    const implied = steps.some(
      (step, other) => other > index && held[other] === true && (rules?.implied_by_harder?.by.includes(step.test) ?? false),
    );
    return implied ? true : null;
  });
}

function partRange(part: PointPart, lookup: RecordedLookup): { readonly range: PointRange; readonly missing: readonly string[] } {
  const known = part.items.map((item) => pointsOf(item, lookup(item.test)));
  const held = known.map((points, index) => {
    const item = part.items[index];
    return points === null || item === undefined ? null : points === mostPoints(item);
  });
  const filled = fillSequence(part.items, held, part.sequence);
  const ranges = part.items.map((item, index): PointRange => {
    const points = known[index] ?? null;
    if (points !== null) return exactly(points);
    const implied = filled[index] ?? null;
    if (implied === null) return { low: 0, high: mostPoints(item) };
    return exactly(implied ? mostPoints(item) : 0);
  });
  const missing = part.items.filter((_item, index) => (filled[index] ?? null) === null).map((item) => item.test);
  const sum = (end: keyof PointRange): number => ranges.reduce((total, range) => total + range[end], 0);
  return { range: { low: sum('low'), high: sum('high') }, missing };
}

const inputsOf = (tests: readonly string[], lookup: RecordedLookup): TestResult['derived_from'] =>
  tests.flatMap((test) => {
    const recorded = lookup(test);
    return recorded === undefined ? [] : [{ test, value: recorded.worse }];
  });

/** null where no component at all was recorded. */
export function derivePoints(total: PointTotal, lookup: RecordedLookup): Derived | null {
  const tests = total.parts.flatMap((part) => part.items.map((item) => item.test));
  if (tests.every((test) => lookup(test) === undefined)) return null;
  const parts = total.parts.map((part) => partRange(part, lookup));
  const missing = parts.flatMap((part) => part.missing);
  const low = parts.reduce((sum, part) => sum + part.range.low, 0);
  const high = parts.reduce((sum, part) => sum + part.range.high, 0);
  if (missing.length > 0)
    return {
      kind: 'cannot_be_formed',
      test: total.test,
      missing,
      unusable: missing.filter((test) => lookup(test) !== undefined),
      low,
      high,
    };
  return { kind: 'formed', test: total.test, value: low, from: inputsOf(tests, lookup), notes: total.notes };
}

/** The number of stances held for the full time, counted up to the first that was not. */
export function deriveStages(ladder: StageLadder, lookup: RecordedLookup): Derived | null {
  if (ladder.stages.every((stage) => lookup(stage.test) === undefined)) return null;
  const held = ladder.stages.map((stage): boolean | null => {
    const recorded = lookup(stage.test);
    if (recorded === undefined) return null;
    const value = stage.side === 'better' ? recorded.better : recorded.worse;
    const long = value !== null && value >= ladder.hold_s;
    const undecided = !long && value !== null && recorded.open === 'better';
    return undecided && (recorded.limit ?? ladder.hold_s) >= ladder.hold_s ? null : long;
  });
  const filled = fillSequence(ladder.stages, held, ladder.sequence);
  const count = (assume: boolean): number => {
    const end = filled.findIndex((each) => !(each ?? assume));
    return end === -1 ? filled.length : end;
  };
  const [low, high] = [count(false), count(true)];
  const missing = ladder.stages.filter((_stage, index) => (filled[index] ?? null) === null).map((stage) => stage.test);
  const unusable = missing.filter((test) => lookup(test) !== undefined);
  if (low !== high) return { kind: 'cannot_be_formed', test: ladder.test, missing, unusable, low, high };
  return {
    kind: 'formed',
    test: ladder.test,
    value: low,
    from: inputsOf(
      ladder.stages.map((stage) => stage.test),
      lookup,
    ),
    notes: ladder.notes,
  };
}

/** Extra time with a second task, in per cent of the time without; needs both times. null where no second task was tried. */
export function deriveCost(cost: RelativeCost, lookup: RecordedLookup): Derived | null {
  const [alone, withTask] = [lookup(cost.single), lookup(cost.dual)];
  if (withTask === undefined) return null;
  const [single, dual] = [alone?.worse ?? null, withTask.worse];
  if (single === null || dual === null || single <= 0 || (alone?.open ?? withTask.open)) return noCost(cost, lookup);
  return {
    kind: 'formed',
    test: cost.test,
    value: (100 * (dual - single)) / single,
    from: inputsOf([cost.single, cost.dual], lookup),
    notes: cost.notes,
  };
}

function noCost(cost: RelativeCost, lookup: RecordedLookup): Derived {
  const tests = [cost.single, cost.dual];
  const unable = tests.filter((test) => lookup(test)?.worse === null);
  const unusable = tests.filter((test) => lookup(test)?.open !== undefined);
  const missing = tests.filter((test) => lookup(test) === undefined || unable.includes(test) || unusable.includes(test));
  return { kind: 'cannot_be_formed', test: cost.test, missing, unusable, unable };
}

/** Worse and better side of what was measured, from the recorded tests and their values by the catalogue's trials rule. */
export function lookupOf(
  recorded: readonly RecordedTest[],
  valueBy: (each: RecordedTest) => number | null | undefined,
  betterOf: (test: string) => Better,
): RecordedLookup {
  const byTest = new Map<string, Recorded>();
  for (const each of recorded) {
    const value = valueBy(each);
    if (value === undefined) continue;
    const before = byTest.get(each.test);
    const course = each.reading.outcome === 'measured' ? each.reading.course : undefined;
    const better = betterOf(each.test);
    const open = stoppedAt(each, value) ? (better === 'higher' ? 'better' : 'worse') : undefined;
    const side: Recorded = { worse: value, better: value, course, open };
    byTest.set(each.test, before === undefined ? side : bothSides(before, side, better));
  }
  return (test) => byTest.get(test);
}

/** Was the watch stopped in a trial that decides the value (in any, where the value is their mean)? */
function stoppedAt({ reading }: RecordedTest, value: number | null): boolean {
  if (reading.outcome !== 'measured' || reading.ceiling === undefined || value === null) return false;
  const { ceiling, trials } = reading;
  return trials.some((trial) => trial >= ceiling) && (value >= ceiling || !trials.includes(value));
}

function bothSides(before: Recorded, after: Recorded, better: Better): Recorded {
  const sides = [before, after];
  const known = sides.flatMap((side) => [side.worse, side.better]).filter((each) => each !== null);
  const { course } = before;
  const best = known.length === 0 ? null : bestOf(known, better);
  if (sides.some((side) => side.worse === null)) return { worse: null, better: best, course };
  const worse = worstOf(known, better);
  // A side that was timed to its end decides over one of the same value where the watch was stopped.
  const timed = sides.find((side) => side.open === undefined)?.worse ?? undefined;
  return { worse, better: best, course, open: timed === worse ? undefined : (before.open ?? after.open), limit: timed };
}
