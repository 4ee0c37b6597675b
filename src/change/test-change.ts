/** One test of one side over all visits: first against last, and beside it the previous visit, the best one and the trend. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { chartMarks, crossedMarks } from './crossed.ts';
import { concernsClient, errorsFor, errorUsed, type Likeness } from './errors.ts';
import { importantFor, reachesImportant } from './important.ts';
import { normBand } from './norm-band.ts';
import { notesOf, reviewOf } from './notes.ts';
import { type DoneTest, kindOf, protocolConflicts, resultAt, type Visit } from './readings.ts';
import { reasonInWords } from './reasons.ts';
import { trendOf } from './trend.ts';
import type { Compared, ErrorUsed, ImportantChange, OtherError, TestChange, Verdict } from './types.ts';
import { type Decided, decide, largestRoom, type RawChange, rawChange, scaleOf, type ValueAt } from './verdict.ts';

export interface TestContext extends Likeness {
  readonly test: TestDefinition;
  readonly latest: Visit;
}

/** Everything that two results of one test say. */
export interface Pair {
  readonly compared: Compared;
  readonly raw: RawChange | null;
  readonly error: ErrorUsed | null;
  readonly others: readonly OtherError[];
  readonly conflicts: readonly string[];
}

const valueAt = (done: DoneTest): ValueAt | null =>
  kindOf(done) === 'value' && done.result !== null && done.result.value !== null
    ? { value: done.result.value, atLeast: done.result.at_least }
    : null;

const REAL = { improved: 'yes', worsened: 'yes', within_error: 'no', cannot_tell: 'unknown' } as const;

function pairOf(
  before: DoneTest,
  after: DoneTest,
  rest: Omit<Pair, 'compared'>,
  decided: Omit<Compared, 'from' | 'to' | 'real' | 'before' | 'after' | 'comparable'>,
): Pair {
  const dates = { from: before.assessed, to: after.assessed };
  const values = { before: valueAt(before)?.value ?? null, after: valueAt(after)?.value ?? null };
  const comparable = decided.direction !== null && rest.conflicts.length === 0;
  return { ...rest, compared: { ...dates, ...values, ...decided, comparable, real: REAL[decided.verdict] } };
}

/** Unable at one visit and a value at the other is a real change without a number; unable twice, or a test missing, tells nothing. */
function pairWithoutNumber(before: DoneTest, after: DoneTest, context: Omit<TestContext, 'latest'>): Pair {
  const kinds = [kindOf(before), kindOf(after)] as const;
  const missing = kinds.includes('missing');
  const same = kinds[0] === kinds[1];
  const verdict: Verdict = missing || same ? 'cannot_tell' : kinds[0] === 'unable' ? 'improved' : 'worsened';
  const direction = missing ? null : same ? 'same' : kinds[0] === 'unable' ? 'better' : 'worse';
  const because = reasonInWords({ kind: 'no_number', before, after }, context.test);
  return pairOf(
    before,
    after,
    { raw: null, error: null, others: [], conflicts: [] },
    { change: null, change_bound: null, direction, verdict, mdc95: null, because },
  );
}

/** Compares two results of the same test and side. Swapping them mirrors the verdict. */
export function comparePair(before: DoneTest, after: DoneTest, context: Omit<TestContext, 'latest'>): Pair {
  const [first, second] = [valueAt(before), valueAt(after)];
  if (first === null || second === null) return pairWithoutNumber(before, after, context);
  const { evidence, test } = context;
  const raw = rawChange(first, second, test.better);
  const conflicts = protocolConflicts(before, after);
  const defaults = [before, after].map((done) => done.result?.measurement_error?.id ?? null);
  const held = errorsFor(evidence, test.id, defaults, first.value, second.value);
  const room = largestRoom(first.value, second.value, scaleOf(test, [before.ceiling, after.ceiling]));
  const judge = (mdc95: number | null): Decided => decide(raw, mdc95, room, test.better);
  const decided = judge(held.chosen?.mdc95 ?? null);
  const verdict = conflicts.length > 0 ? 'cannot_tell' : decided.verdict;
  const others = held.others.map(
    ({ error, mdc95 }): OtherError => ({
      ...errorUsed(error, mdc95),
      concerns_client: concernsClient(error, context),
      verdict: conflicts.length > 0 ? 'cannot_tell' : judge(mdc95).verdict,
    }),
  );
  const mdc95 = held.chosen?.mdc95 ?? null;
  const because = reasonInWords(
    conflicts.length > 0 ? { kind: 'conflict', conflicts } : { kind: 'decided', reason: decided.reason, raw, mdc95 },
    test,
  );
  const error = held.chosen === null ? null : errorUsed(held.chosen.error, held.chosen.mdc95);
  const numbers = { change: raw.change, change_bound: raw.bound, direction: raw.direction, mdc95 };
  return pairOf(before, after, { raw, error, others, conflicts }, { ...numbers, verdict, because });
}

const isBeyond = (verdict: Verdict): boolean => verdict === 'improved' || verdict === 'worsened';

/** An error that concerns the client puts the change on the other side: beyond error, or no longer beyond it. */
const isDisputed = ({ error, compared, others }: Pair): boolean =>
  error !== null && others.some((other) => other.concerns_client && isBeyond(other.verdict) !== isBeyond(compared.verdict));

/** The best measured result before the last visit, done in the same way as the last. */
function bestBefore(series: readonly DoneTest[], last: DoneTest, test: TestDefinition): DoneTest | null {
  const earlier = series.slice(0, -1).filter((done) => valueAt(done) !== null && protocolConflicts(done, last).length === 0);
  return earlier.reduce<DoneTest | null>((best, done) => {
    const [held, value] = [best === null ? null : valueAt(best), valueAt(done)];
    if (held === null || value === null) return done;
    return rawChange(held, value, test.better).direction === 'better' ? done : best;
  }, null);
}

function sourcesOf(pair: Pair, important: ImportantChange | null): string[] {
  const errors = [pair.error, ...pair.others].filter((error) => error !== null);
  return [...new Set([...errors.map((error) => error.source), ...(important === null ? [] : [important.source])])];
}

const isRecorded = (done: DoneTest): boolean => kindOf(done) !== 'missing';

/** `series`: one entry a visit in order of date; at least two. The earlier end is the first visit at which the test was done. */
export function changeOfTest(series: readonly DoneTest[], context: TestContext): TestChange | null {
  const { evidence, test, latest } = context;
  const last = series.at(-1);
  const first = series.find(isRecorded) ?? series[0];
  if (first === undefined || last === undefined) return null;
  const start = first === last ? (series[0] ?? first) : first;
  const pair = comparePair(start, last, context);
  const important = importantFor(test.id, context);
  const matters = pair.conflicts.length > 0 ? 'unknown' : reachesImportant(pair.raw, important.chosen, test.better);
  const crossed =
    start.result === null || last.result === null || !isRecorded(start) || !isRecorded(last)
      ? []
      : crossedMarks(start.result, last.result);
  const previous = series.slice(0, -1).findLast(isRecorded);
  const best = bestBefore(series, last, test);
  const bare = { pair, matters, important: important.chosen, crossed, start, last };
  const dated = series.flatMap((done) => {
    const value = valueAt(done);
    return value === null || value.atLeast || protocolConflicts(done, last).length > 0
      ? []
      : [{ assessed: done.assessed, value: value.value }];
  });
  return {
    test: test.id,
    side: start.result?.side ?? last.result?.side ?? null,
    name: test.name,
    unit: test.unit,
    better: test.better,
    ...pair.compared,
    matters,
    mcid: important.chosen?.most ?? null,
    crossed,
    disputed: isDisputed(pair),
    sources: sourcesOf(pair, important.chosen),
    before_result: resultAt(start),
    after_result: resultAt(last),
    error: pair.error,
    other_errors: pair.others,
    important: important.chosen,
    other_important: important.others,
    notes: notesOf(bare, context),
    review: reviewOf(bare, context),
    since_previous: previous !== undefined && previous !== start ? comparePair(previous, last, context).compared : null,
    against_best: best !== null && best !== start ? comparePair(best, last, context).compared : null,
    trend: trendOf(dated, test.better),
    series: series.map(resultAt),
    norm_band: normBand(evidence, test, last.result ?? start.result, latest.session.client),
    marks: chartMarks(last.result ?? start.result, evidence.cutPointsByTest.get(test.id) ?? []),
  };
}
