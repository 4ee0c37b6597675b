/** One start rule at a time: marks, margins, stopped watches, one side only, and which of several tests decides. */
import { describe, expect, it } from 'vitest';
import type { StartByTest } from '../../src/evidence/schema/exercise.ts';
import { allowedBy, startRung } from '../../src/plan/start.ts';
import { exercise, fact, facts } from './invented.ts';

const rule = (over: Partial<StartByTest> = {}): StartByTest => ({
  test: 'walk',
  required: true,
  margin: 0.05,
  unable: 0,
  untested: 1,
  below_all: 1,
  steps: [
    { at_least: 0.6, rung: 2, because: 'sixty' },
    { at_least: 0.8, rung: 3, because: 'eighty' },
  ],
  ...over,
});
const timed = (over: Partial<StartByTest> = {}): StartByTest =>
  rule({
    margin: 1,
    steps: [
      { at_most: 20, rung: 2, because: 'twenty' },
      { at_most: 12, rung: 3, because: 'twelve' },
    ],
    ...over,
  });
const allowed = (given: StartByTest, found: Parameters<typeof allowedBy>[1]) => allowedBy(given, found, 'Walk');

describe('marks', () => {
  it.each([
    [0.64, 1],
    [0.65, 2],
    [0.84, 2],
    // 0.85 - 0.05 is a hair under 0.8 in binary fractions
    [0.85, 3],
    [2, 3],
  ])('a higher value is better: %d allows rung %d once it passes the mark by the margin', (worst, rung) =>
    expect(allowed(rule(), fact(worst))?.rung).toBe(rung),
  );
  it.each([
    [19.1, 1],
    [19, 2],
    [11.1, 2],
    [11, 3],
  ])('a lower value is better: %d allows rung %d once it is under the mark by the margin', (worst, rung) =>
    expect(allowed(timed(), fact(worst))?.rung).toBe(rung),
  );
  it('a step without a mark is reached by nobody', () => {
    const steps = [{ rung: 3, because: 'no mark' }];
    expect(allowed(rule({ steps }), fact(-1e9))?.rung).toBe(1);
    expect(allowed(rule({ steps }), fact(1e9))?.rung).toBe(1);
  });
  it('a stopped watch may have gone on past a mark that it should stay under, and has surely reached one', () => {
    expect(allowed(timed(), fact(5, { atLeast: true }))).toEqual({
      rung: 1,
      because: 'Walk at least 5: below the first mark of the start rule',
    });
    expect(allowed(rule(), fact(0.9, { atLeast: true }))).toEqual({ rung: 3, because: 'Walk at least 0.9: eighty' });
  });
  it('the value and the mark it reached are the reason', () => {
    expect(allowed(rule(), fact(0.7))).toEqual({ rung: 2, because: 'Walk 0.7: sixty' });
    expect(allowed(rule(), fact(0.1))).toEqual({ rung: 1, because: 'Walk 0.1: below the first mark of the start rule' });
  });
});

describe('without a value', () => {
  it('unable has its own rung, whether the test is required or not', () => {
    expect(allowed(rule(), fact(null, { outcome: 'unable' }))).toEqual({ rung: 0, because: 'Walk: unable' });
    expect(allowed(rule({ required: false, unable: 1 }), fact(null, { outcome: 'unable' }))?.rung).toBe(1);
  });
  it.each([undefined, fact(null, { outcome: 'not_tested' }), fact(null, { outcome: 'unsafe_medical' }), fact(null)])(
    'a required test that was not done starts with the most support; another says nothing (%#)',
    (found) => {
      expect(allowed(rule(), found)).toEqual({ rung: 1, because: 'Walk not tested: start with the most support' });
      expect(allowed(rule({ untested: 0 }), found)).toEqual({
        rung: 0,
        because: 'Walk not tested: start with the most support, seated',
      });
      expect(allowed(rule({ required: false }), found)).toBeNull();
    },
  );
});

describe('one side only', () => {
  const half = fact(0.9, { otherSide: 'not_tested' });
  it('of a required test: the side that was not tested decides', () => {
    expect(allowed(rule(), half)?.rung).toBe(1);
    expect(allowed(rule(), half)?.because).toContain('only one side tested');
  });
  it('a result that allows no more than untested would keeps its own reason', () => {
    expect(allowed(rule(), fact(0.1, { otherSide: 'not_tested' }))?.because).toContain('Walk 0.1');
    expect(allowed(rule({ untested: 3 }), half)?.because).toContain('Walk 0.9');
  });
  it('of a test that only limits: the side that was tested limits', () =>
    expect(allowed(rule({ required: false }), half)?.rung).toBe(3));
});

describe('several tests', () => {
  const stance = rule({ test: 'stand', required: false, margin: 0, steps: [{ at_least: 10, rung: 2, because: 'ten' }] });
  const ladder = (over: Partial<ReturnType<typeof exercise>['start']> = {}) =>
    exercise({ start: { basis: exercise().start.basis, by_test: [rule(), stance], also: [], ...over } });
  const start = (given: ReturnType<typeof exercise>, tests: Parameters<typeof facts>[1], fields = {}) =>
    startRung(given, facts(fields, tests), (test) => test.toUpperCase());

  it('the lowest counts, is named, and that others would allow more is said', () =>
    expect(start(ladder(), { walk: fact(1), stand: fact(12) })).toEqual({
      rung: 2,
      because: ['STAND 12: ten', 'other tests would allow more; the lowest counts'],
    }));
  it('where they agree every one is named and nothing is said of others', () =>
    expect(start(ladder(), { walk: fact(0.7), stand: fact(12) })).toEqual({
      rung: 2,
      because: ['WALK 0.7: sixty', 'STAND 12: ten'],
    }));
  it('a test that only limits and was not done is left out', () =>
    expect(start(ladder(), { walk: fact(1) })).toEqual({ rung: 3, because: ['WALK 1: eighty'] }));
  it('a condition lowers only where it holds, and the higher test is said', () => {
    const also = [{ when: { field: 'it', is: 'yes' }, rung: 1, because: 'it is so' }];
    const one = ladder({ by_test: [rule()], also });
    expect(start(one, { walk: fact(1) }, { it: 'yes' })).toEqual({
      rung: 1,
      because: ['it is so', 'other tests would allow more; the lowest counts'],
    });
    for (const fields of [{ it: 'no' }, {}]) expect(start(one, { walk: fact(1) }, fields).rung).toBe(3);
  });
  it('a condition that would allow more is no other test', () => {
    const also = [{ when: { field: 'it', is: 'yes' }, rung: 3, because: 'it is so' }];
    expect(start(ladder({ by_test: [rule()], also }), { walk: fact(0.1) }, { it: 'yes' }).because).toEqual([
      'WALK 0.1: below the first mark of the start rule',
    ]);
  });
  it('never above the ladder, and then no test is the reason', () => {
    const steps = [{ at_least: 0.6, rung: 9, because: 'nine' }];
    expect(start(ladder({ by_test: [rule({ steps })] }), { walk: fact(1) })).toEqual({ rung: 3, because: [] });
  });
  it('one reason given twice stands once', () => {
    const also = [1, 2].map(() => ({ when: { field: 'it', is: 'yes' }, rung: 0, because: 'it is so' }));
    expect(start(ladder({ by_test: [stance], also }), {}, { it: 'yes' })).toEqual({ rung: 0, because: ['it is so'] });
  });
  it('without any test that it goes by it is the most support, said once, and no other test is said to allow more', () => {
    const because = ['no test that the start goes by was recorded: start with the most support'];
    expect(start(ladder({ by_test: [stance] }), {})).toEqual({ rung: 1, because });
  });
});
