/**
 * Is a change more than measurement error? One decision, symmetrical: swapping the two results mirrors it, and a larger
 * change never gets a weaker answer. Formula: beyond error when |later - earlier| is strictly larger than MDC95
 * (MDC95 = 1.96 x root 2 x SEM).
 */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { type Better, performanceOf, roundTo } from '../scoring/performance.ts';
import type { ChangeBound, Direction, Verdict } from './types.ts';

/** A value, and whether the watch was stopped there, so that the true value is this or more. */
export interface ValueAt {
  readonly value: number;
  readonly atLeast: boolean;
}

export interface RawChange {
  /** Later minus earlier in the test's unit, without binary dust. */
  readonly change: number;
  readonly bound: ChangeBound;
  readonly direction: Direction;
}

/** Six decimals are finer than any test and coarser than the dust of binary fractions. */
const DUST = 6;

/** Both values in the test's unit. A watch stopped before bounds the change from above, one stopped after from below. */
export function rawChange(before: ValueAt, after: ValueAt, better: Better): RawChange {
  const change = roundTo(after.value - before.value, DUST);
  const bound = before.atLeast ? (after.atLeast ? 'unknown' : 'at_most') : after.atLeast ? 'at_least' : 'exact';
  const performance = performanceOf(change, better);
  return { change, bound, direction: performance === 0 ? 'same' : performance > 0 ? 'better' : 'worse' };
}

/** Top and bottom of the scale in the raw number; a watch that was not stopped has no top. */
export interface Scale {
  readonly bottom: number;
  readonly top: number;
}

/** A score, stage or per cent ends where its points end; a timed hold ends where the watch was stopped. */
export function scaleOf(test: TestDefinition, ceilings: readonly (number | null)[]): Scale {
  const total = test.kind === 'score' || test.kind === 'stage' || test.kind === 'percent';
  if (total) return { bottom: test.impossible.below ?? 0, top: test.impossible.above ?? Number.POSITIVE_INFINITY };
  const stated = ceilings.filter((ceiling) => ceiling !== null);
  return { bottom: 0, top: stated.length > 0 ? Math.max(...stated) : (test.ceiling ?? Number.POSITIVE_INFINITY) };
}

/** The larger of the rooms that the scale leaves upwards from the lower and downwards from the higher value. */
export function largestRoom(before: number, after: number, scale: Scale): number {
  return Math.max(scale.top - Math.min(before, after), Math.max(before, after) - scale.bottom);
}

export type Reason = 'beyond' | 'within' | 'no_error' | 'no_room' | 'both_stopped' | 'stopped';

export interface Decided {
  readonly verdict: Verdict;
  readonly reason: Reason;
}

/** The largest change in performance that the stopped watches leave possible, and the smallest. */
function possibleChange({ change, bound }: RawChange, better: Better): { readonly low: number; readonly high: number } {
  const low = bound === 'exact' || bound === 'at_least' ? change : Number.NEGATIVE_INFINITY;
  const high = bound === 'exact' || bound === 'at_most' ? change : Number.POSITIVE_INFINITY;
  return better === 'higher' ? { low, high } : { low: -high, high: -low };
}

/**
 * `mdc95` in the test's unit, null where none is published. Where the error exceeds every room that the scale leaves, no
 * result could have been beyond it: `cannot_tell`, never "no change".
 */
export function decide(change: RawChange, mdc95: number | null, room: number, better: Better): Decided {
  if (mdc95 === null) return { verdict: 'cannot_tell', reason: 'no_error' };
  const { low, high } = possibleChange(change, better);
  if (low > mdc95) return { verdict: 'improved', reason: 'beyond' };
  if (high < -mdc95) return { verdict: 'worsened', reason: 'beyond' };
  if (change.bound === 'unknown') return { verdict: 'cannot_tell', reason: 'both_stopped' };
  if (change.bound !== 'exact') return { verdict: 'cannot_tell', reason: 'stopped' };
  return mdc95 > room ? { verdict: 'cannot_tell', reason: 'no_room' } : { verdict: 'within_error', reason: 'within' };
}
