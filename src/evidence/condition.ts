/**
 * Evaluates the conditions of `norms/` in Kleene's strong three-valued logic: what is not recorded is `unknown`, never `no`.
 * Pathways, red flags, factors, caps and start rules all go through `evaluate`.
 */
import type { Standing } from '../assessment.ts';
import type { FieldValue } from '../session.ts';
import type { Condition, FieldCondition, TestCondition } from './schema/condition.ts';

export type Truth = 'yes' | 'no' | 'unknown';

/** One test as conditions see it: the worse side, in the test's own unit. */
export interface TestFact {
  /** `unable` includes a test left out because the balance was not good enough for it. */
  readonly outcome: 'measured' | 'unable' | 'unsafe_medical' | 'not_tested';
  /** Result of the worse side in the test's unit; null where nothing was measured. */
  readonly worst: number | null;
  readonly better: 'higher' | 'lower';
  /** The watch was stopped at its ceiling: the true value is `worst` or more. */
  readonly atLeast: boolean;
  readonly standing: Standing | null;
  /** Whether any cut-point that counts is met; null where there is none to judge by. */
  readonly flagged: boolean | null;
  /** Only one side has a result: why the other has none. What the one can do says nothing of the other. */
  readonly otherSide?: 'unsafe_medical' | 'not_tested';
  /** Cut-points that are not met but lie inside the measurement error. */
  readonly nearlyMet?: readonly string[];
}

/** What is known about a client. Absent means not recorded. */
export interface Facts {
  field(path: string): FieldValue | undefined;
  test(id: string): TestFact | undefined;
  /** Values that a pathway item may still have. */
  item?(id: string): readonly string[];
}

interface Bounds {
  readonly at_least?: number | undefined;
  readonly above?: number | undefined;
  readonly at_most?: number | undefined;
  readonly below?: number | undefined;
}
export type BoundKind = 'at_least' | 'above' | 'at_most' | 'below';
const BOUND_KINDS: readonly BoundKind[] = ['at_least', 'above', 'at_most', 'below'];

const truth = (value: boolean): Truth => (value ? 'yes' : 'no');

/** Kleene conjunction; of nothing, `yes`. */
function allOf(truths: readonly Truth[]): Truth {
  if (truths.includes('no')) return 'no';
  return truths.includes('unknown') ? 'unknown' : 'yes';
}

/** Kleene disjunction; of nothing, `no`. */
function anyOf(truths: readonly Truth[]): Truth {
  if (truths.includes('yes')) return 'yes';
  return truths.includes('unknown') ? 'unknown' : 'no';
}

/** Kleene negation. */
function negate(value: Truth): Truth {
  if (value === 'unknown') return 'unknown';
  return value === 'yes' ? 'no' : 'yes';
}

/** Several instruments for one question: `yes` when any says yes, `unknown` only when none is recorded, else `no`. */
function anyRecorded(truths: readonly Truth[]): Truth {
  if (truths.includes('yes')) return 'yes';
  return truths.includes('no') ? 'no' : 'unknown';
}

/** A field counts as recorded when it holds an answer other than `unknown`. */
export function isRecorded(value: FieldValue | undefined): value is FieldValue {
  return value !== undefined && value !== 'unknown';
}

function holds(kind: BoundKind, bound: number, value: number): boolean {
  switch (kind) {
    case 'at_least':
      return value >= bound;
    case 'above':
      return value > bound;
    case 'at_most':
      return value <= bound;
    case 'below':
      return value < bound;
  }
}

/** The bounds that a condition states, in a fixed order. */
export function boundsOf(condition: Bounds): readonly { kind: BoundKind; bound: number }[] {
  const stated: { kind: BoundKind; bound: number }[] = [];
  for (const kind of BOUND_KINDS) {
    const bound = condition[kind];
    if (bound !== undefined) stated.push({ kind, bound });
  }
  return stated;
}

function evaluateField(condition: FieldCondition, facts: Facts): Truth {
  const value = facts.field(condition.field);
  const parts: Truth[] = [];
  if (condition.recorded !== undefined) parts.push(truth(isRecorded(value) === condition.recorded));
  if (condition.is !== undefined) parts.push(isRecorded(value) ? truth(matches(condition.is, value)) : 'unknown');
  for (const { kind, bound } of boundsOf(condition)) {
    // a word where a number is expected says nothing about the number
    parts.push(typeof value === 'number' ? truth(holds(kind, bound, value)) : 'unknown');
  }
  return parts.length === 0 ? truth(isRecorded(value)) : allOf(parts);
}

function matches(wanted: string | number | readonly string[], value: FieldValue): boolean {
  return Array.isArray(wanted) ? wanted.includes(String(value)) : wanted === value;
}

/** Whether a bound lies on the worse side of the scale ("slower than", "fewer than"), which `unable` always satisfies. */
function isWorseSide(kind: BoundKind, better: TestFact['better']): boolean {
  const upwards = kind === 'at_least' || kind === 'above';
  return upwards === (better === 'lower');
}

function evaluateBound(kind: BoundKind, bound: number, fact: TestFact): Truth {
  if (fact.outcome === 'unable') return truth(isWorseSide(kind, fact.better));
  if (fact.outcome !== 'measured' || fact.worst === null) return 'unknown';
  const result = holds(kind, bound, fact.worst);
  if (!fact.atLeast) return truth(result);
  // the true value is `worst` or more: what already holds upwards, or already fails downwards, stays so
  const upwards = kind === 'at_least' || kind === 'above';
  return result === upwards ? truth(result) : 'unknown';
}

/**
 * `not_tested` and `unsafe_medical` are facts of the record, so they are never unknown, and one side is enough for them;
 * whether somebody not tested would have been able is not known.
 */
function evaluateOutcome(wanted: TestFact['outcome'], outcome: TestFact['outcome'], otherSide: TestFact['otherSide']): Truth {
  if (wanted === outcome || wanted === otherSide) return 'yes';
  if (wanted === 'not_tested' || wanted === 'unsafe_medical') return 'no';
  return outcome === 'not_tested' || outcome === 'unsafe_medical' ? 'unknown' : 'no';
}

function evaluateStanding(wanted: readonly Standing[], fact: TestFact | undefined): Truth {
  if (fact === undefined || fact.outcome === 'not_tested' || fact.outcome === 'unsafe_medical') return 'unknown';
  const standing = fact.standing ?? (fact.outcome === 'unable' ? 'well_below' : null);
  return standing === null ? 'unknown' : truth(wanted.includes(standing));
}

function evaluateFlagged(wanted: boolean, fact: TestFact | undefined): Truth {
  if (fact === undefined || fact.outcome === 'not_tested' || fact.outcome === 'unsafe_medical') return 'unknown';
  const flagged = fact.outcome === 'unable' ? true : fact.flagged;
  return flagged === null ? 'unknown' : truth(flagged === wanted);
}

function evaluateNear(wanted: readonly string[], fact: TestFact | undefined): Truth {
  if (fact === undefined || fact.outcome === 'not_tested' || fact.outcome === 'unsafe_medical') return 'unknown';
  return truth(wanted.some((id) => fact.nearlyMet?.includes(id) ?? false));
}

function evaluateTest(condition: TestCondition, facts: Facts): Truth {
  const fact = facts.test(condition.test);
  const outcome = fact?.outcome ?? 'not_tested';
  const parts: Truth[] = [];
  if (condition.outcome !== undefined) parts.push(evaluateOutcome(condition.outcome, outcome, fact?.otherSide));
  if (condition.standing !== undefined) parts.push(evaluateStanding(condition.standing, fact));
  if (condition.flagged !== undefined) parts.push(evaluateFlagged(condition.flagged, fact));
  if (condition.near !== undefined) parts.push(evaluateNear(condition.near, fact));
  for (const { kind, bound } of boundsOf(condition))
    parts.push(fact === undefined ? 'unknown' : evaluateBound(kind, bound, fact));
  if (parts.length > 0) return allOf(parts);
  return outcome === 'measured' || outcome === 'unable' ? 'yes' : 'unknown';
}

function evaluateItem(condition: { item: string; is?: string | string[] | undefined }, facts: Facts): Truth {
  const possible = facts.item?.(condition.item) ?? [];
  if (possible.length === 0) return 'unknown';
  const is = condition.is ?? 'yes';
  const wanted = typeof is === 'string' ? [is] : is;
  const matching = possible.filter((value) => wanted.includes(value)).length;
  if (matching === possible.length) return 'yes';
  return matching === 0 ? 'no' : 'unknown';
}

/**
 * Truth of a condition for a client, in Kleene's strong three-valued logic (S. C. Kleene, Introduction to Metamathematics,
 * section 64). Missing fields, `unknown` answers and tests not done give `unknown`. For tests the worse side counts: `unable`
 * satisfies every bound on the worse side and none on the better; a time stopped at its ceiling satisfies `at_least` up to
 * the ceiling, and a bound that only the time beyond the ceiling could decide is `unknown`.
 */
export function evaluate(condition: Condition, facts: Facts): Truth {
  if ('field' in condition) return evaluateField(condition, facts);
  if ('test' in condition) return evaluateTest(condition, facts);
  if ('item' in condition) return evaluateItem(condition, facts);
  if ('not' in condition) return negate(evaluate(condition.not, facts));
  const each = (conditions: readonly Condition[]): Truth[] => conditions.map((part) => evaluate(part, facts));
  if ('any' in condition) return anyOf(each(condition.any));
  if ('all' in condition) return allOf(each(condition.all));
  return anyRecorded(each(condition.any_recorded));
}
