/** The decision by itself: raw change and its bound, the room of the scale, and what is beyond error. */
import { describe, expect, it } from 'vitest';
import type { ChangeBound } from '../../src/change/types.ts';
import { decide, largestRoom, rawChange, scaleOf } from '../../src/change/verdict.ts';
import { definition } from './invented.ts';

const exact = (value: number) => ({ value, atLeast: false });
const stopped = (value: number) => ({ value, atLeast: true });

describe('raw change', () => {
  it('is later minus earlier, without binary dust, in the direction of performance', () => {
    expect(rawChange(exact(0.1), exact(0.3), 'higher')).toEqual({ change: 0.2, bound: 'exact', direction: 'better' });
    expect(rawChange(exact(0.1), exact(0.3), 'lower')).toEqual({ change: 0.2, bound: 'exact', direction: 'worse' });
    expect(rawChange(exact(15), exact(12), 'lower')).toEqual({ change: -3, bound: 'exact', direction: 'better' });
    expect(rawChange(exact(12), exact(12), 'lower').direction).toBe('same');
  });
  it('is a bound where a watch was stopped', () => {
    expect(rawChange(stopped(30), exact(12), 'higher').bound).toBe('at_most');
    expect(rawChange(exact(12), stopped(30), 'higher').bound).toBe('at_least');
    expect(rawChange(stopped(30), stopped(30), 'higher').bound).toBe('unknown');
  });
});

describe('the room of a scale', () => {
  it.each(['score', 'stage', 'percent'] as const)('a %s ends where its points end, whatever was timed', (kind) => {
    expect(scaleOf(definition({ kind, impossible: { below: 2, above: 56, why: 'x' }, ceiling: 10 }), [30])).toEqual({
      bottom: 2,
      top: 56,
    });
    expect(scaleOf(definition({ kind, impossible: { why: 'x' } }), [])).toEqual({ bottom: 0, top: Number.POSITIVE_INFINITY });
  });
  it('a timed hold ends at the longest ceiling in use, else at its usual one, else nowhere', () => {
    const hold = definition({ kind: 'time', ceiling: 10, impossible: { below: 2, above: 600, why: 'x' } });
    expect(scaleOf(hold, [null, 30])).toEqual({ bottom: 0, top: 30 });
    expect(scaleOf(hold, [45, 30])).toEqual({ bottom: 0, top: 45 });
    expect(scaleOf(hold, [null, null])).toEqual({ bottom: 0, top: 10 });
    expect(scaleOf(definition({ kind: 'count', ceiling: null }), [])).toEqual({ bottom: 0, top: Number.POSITIVE_INFINITY });
  });
  it('is the larger of upwards from the lower and downwards from the higher value', () => {
    const scale = { bottom: 0, top: 30 };
    expect(largestRoom(10, 12, scale)).toBe(20);
    expect(largestRoom(12, 10, scale)).toBe(20);
    expect(largestRoom(25, 28, scale)).toBe(28);
    expect(largestRoom(28, 25, { bottom: 4, top: 30 })).toBe(24);
  });
});

describe('decided', () => {
  const by = (change: number, bound: ChangeBound, mdc95: number | null, better: 'higher' | 'lower' = 'higher', room = 100) => {
    const { verdict, reason } = decide({ change, bound, direction: 'same' }, mdc95, room, better);
    return `${verdict}: ${reason}`;
  };
  it('beyond error only strictly, in both directions', () => {
    expect(by(5, 'exact', 5)).toBe('within_error: within');
    expect(by(-5, 'exact', 5)).toBe('within_error: within');
    expect(by(5.1, 'exact', 5)).toBe('improved: beyond');
    expect(by(-5.1, 'exact', 5)).toBe('worsened: beyond');
    expect(by(5.1, 'exact', 5, 'lower')).toBe('worsened: beyond');
    expect(by(-5.1, 'exact', 5, 'lower')).toBe('improved: beyond');
    expect(by(0, 'exact', 5)).toBe('within_error: within');
  });
  it('without a published error nothing can be told', () => expect(by(50, 'exact', null)).toBe('cannot_tell: no_error'));
  it('an error larger than the room tells nothing; one as large does', () => {
    expect(by(3, 'exact', 21, 'higher', 20)).toBe('cannot_tell: no_room');
    expect(by(3, 'exact', 20, 'higher', 20)).toBe('within_error: within');
  });
  it('a stopped watch decides only as far as it is sure', () => {
    expect(by(6, 'at_least', 5)).toBe('improved: beyond');
    expect(by(-6, 'at_least', 5)).toBe('cannot_tell: stopped');
    expect(by(6, 'at_least', 5, 'lower')).toBe('worsened: beyond');
    expect(by(-6, 'at_most', 5)).toBe('worsened: beyond');
    expect(by(6, 'at_most', 5)).toBe('cannot_tell: stopped');
    expect(by(-6, 'at_most', 5, 'lower')).toBe('improved: beyond');
    expect(by(3, 'at_least', 5)).toBe('cannot_tell: stopped');
    expect(by(60, 'unknown', 5)).toBe('cannot_tell: both_stopped');
    expect(by(-60, 'unknown', 5, 'lower')).toBe('cannot_tell: both_stopped');
  });
});
