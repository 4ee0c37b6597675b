/** What the rules for derived results are told of a test: both sides, the course, and where the watch was stopped. */
import { describe, expect, it } from 'vitest';
import { lookupOf } from '../../src/scoring/derive.ts';
import type { RecordedTest } from '../../src/session.ts';
import { measured, recorded, unable } from '../support/client.ts';

describe('both sides of a recorded test', () => {
  const value = (each: RecordedTest) =>
    each.reading.outcome === 'measured'
      ? Math.max(...each.reading.trials)
      : each.reading.outcome === 'declined'
        ? undefined
        : null;
  const looked = (tests: RecordedTest[], better: 'higher' | 'lower' = 'higher') => lookupOf(tests, value, () => better)('a');
  const sides = (right: RecordedTest['reading'] | number, left: RecordedTest['reading'] | number) => [
    recorded('a', right, 'right'),
    recorded('a', left, 'left'),
  ];
  it('give a worse and a better one, in the direction of the test', () => {
    expect(looked(sides(9, 7))).toMatchObject({ worse: 7, better: 9 });
    expect(looked(sides(9, 7), 'lower')).toMatchObject({ worse: 9, better: 7 });
    expect(looked([recorded('a', 9)])).toEqual({ worse: 9, better: 9, course: undefined, open: undefined });
  });
  it('one that could not be done is the worse, whichever comes first', () => {
    for (const tests of [sides(unable, 7), sides(7, unable)]) {
      expect(looked(tests)).toMatchObject({ worse: null, better: 7 });
      expect(looked(tests, 'lower')).toMatchObject({ worse: null, better: 7 });
    }
    expect(looked(sides(unable, unable))).toMatchObject({ worse: null, better: null });
    expect(looked([recorded('a', unable)])).toMatchObject({ worse: null, better: null, open: undefined });
  });
  it('one that was not tested leaves the other', () => {
    expect(looked(sides({ outcome: 'declined', reason: 'x' }, 7))).toMatchObject({ worse: 7, better: 7 });
    expect(looked([recorded('a', { outcome: 'declined', reason: 'x' })])).toBeUndefined();
    expect(looked([recorded('b', 9)])).toBeUndefined();
  });
  it('keep the course', () => {
    expect(looked([recorded('a', measured(1, { course: { distanceM: 4 } }))])?.course).toEqual({ distanceM: 4 });
  });
});

describe('where the watch was stopped', () => {
  const opened = (trials: number | number[], ceiling: number | undefined, value: number, better: 'higher' | 'lower' = 'higher') =>
    lookupOf(
      [recorded('a', measured(trials, ceiling === undefined ? {} : { ceiling }))],
      () => value,
      () => better,
    )('a')?.open;
  it('a hold may have been longer, a walk as well and so worse', () => {
    expect(opened(30, 30, 30)).toBe('better');
    expect(opened(30, 30, 30, 'lower')).toBe('worse');
    expect(opened(31, 30, 31)).toBe('better');
  });
  it('not below it, nor where there was none', () => {
    expect(opened(29, 30, 29)).toBeUndefined();
    expect(opened(30, undefined, 30)).toBeUndefined();
  });
  it('a stopped trial that does not decide leaves nothing open; one in a mean does', () => {
    expect(opened([20, 30], 30, 20)).toBeUndefined();
    expect(opened([20, 30], 30, 30)).toBe('better');
    expect(opened([20, 30], 30, 25)).toBe('better');
    expect(opened([20, 29], 30, 24.5)).toBeUndefined();
  });
  it('of both sides: open while the stopped one decides, with the one timed to its end as the limit', () => {
    const legs = (right: number, left: number, ceiling: number) =>
      lookupOf(
        [recorded('a', measured(right, { ceiling }), 'right'), recorded('a', left, 'left')],
        (each) => (each.reading.outcome === 'measured' ? each.reading.trials[0] : null),
        () => 'higher',
      )('a');
    expect(legs(5, 7, 5)).toMatchObject({ worse: 5, better: 7, open: 'better', limit: 7 });
    expect(legs(5, 5, 5)).toMatchObject({ worse: 5, open: undefined, limit: 5 });
    expect(legs(5, 3, 5)).toMatchObject({ worse: 3, open: undefined, limit: 3 });
    const both = lookupOf(
      [recorded('a', measured(5, { ceiling: 5 }), 'right'), recorded('a', measured(6, { ceiling: 6 }), 'left')],
      (each) => (each.reading.outcome === 'measured' ? each.reading.trials[0] : null),
      () => 'higher',
    )('a');
    expect(both).toMatchObject({ worse: 5, better: 6, open: 'better', limit: undefined });
  });
});
