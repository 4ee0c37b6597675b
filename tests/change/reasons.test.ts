/** The verdict's reason in a sentence, with the numbers and units of the client. */
import { describe, expect, it } from 'vitest';
import { amount, reasonInWords } from '../../src/change/reasons.ts';
import type { Reason } from '../../src/change/verdict.ts';
import { definition, done, doneResult, missingDone, unableDone } from './invented.ts';

const test = definition({ unit_text: 's', decimals: 1 });

describe('an amount', () => {
  it('is without sign, with one decimal more than results are read with, and its unit', () => {
    expect(amount(-3.456, test)).toBe('3.46 s');
    expect(amount(3, test)).toBe('3 s');
    expect(amount(2.345, definition({ decimals: 0, unit_text: 'stands' }))).toBe('2.3 stands');
    expect(amount(4, definition({ unit_text: '' }))).toBe('4');
    expect(amount(4, definition({ unit_text: '%' }))).toBe('4 percentage points');
  });
});

describe('without a number', () => {
  const words = (before: Parameters<typeof kind>[0], after: Parameters<typeof kind>[0]) =>
    reasonInWords({ kind: 'no_number', before: kind(before), after: kind(after) }, test);
  const kind = (given: 'value' | 'unable' | 'missing' | 'declined' | 'medical') =>
    ({
      value: done(3),
      unable: unableDone,
      missing: missingDone,
      declined: doneResult(null, { outcome: 'declined' }),
      medical: doneResult(null, { outcome: 'unsafe', why: 'medical' }),
    })[given];
  it.each([
    ['missing', 'value', 'not recorded at the first visit, so nothing can be compared'],
    ['value', 'declined', 'declined at the last visit, so nothing can be compared'],
    ['medical', 'unable', 'not tested at the first visit, so nothing can be compared'],
    ['declined', 'missing', 'declined at the first visit and not recorded at the last visit, so nothing can be compared'],
    ['unable', 'unable', 'unable at both visits'],
    ['unable', 'value', 'unable before and able now: a real change, though no number can be put to it'],
    ['value', 'unable', 'able before and unable now: a real change, though no number can be put to it'],
  ] as const)('%s, then %s', (before, after, expected) => expect(words(before, after)).toBe(expected));
});

it('a conflict names everything that differs', () =>
  expect(reasonInWords({ kind: 'conflict', conflicts: ['another aid', 'another chair'] }, test)).toBe(
    'not comparable: another aid; another chair',
  ));

describe('with a number', () => {
  const words = (reason: Reason, change: number, mdc95: number | null, bound: 'exact' | 'at_least' | 'at_most' = 'exact') =>
    reasonInWords({ kind: 'decided', reason, raw: { change, bound, direction: 'same' }, mdc95 }, test);
  it('beyond, within and the same', () => {
    expect(words('beyond', -5, 3)).toBe('a change of 5 s is larger than the measurement error of 3 s');
    expect(words('within', 2, 3)).toBe('a change of 2 s is not larger than the measurement error of 3 s');
    expect(words('within', 0, 3)).toBe('the same result at both visits');
  });
  it('a bound is a least change, whichever watch was stopped', () => {
    expect(words('beyond', 5, 3, 'at_least')).toBe('a change of at least 5 s is larger than the measurement error of 3 s');
    expect(words('beyond', -5, 3, 'at_most')).toBe('a change of at least 5 s is larger than the measurement error of 3 s');
  });
  it('why nothing can be told', () => {
    expect(words('no_error', 5, null)).toContain('no measurement error in this unit is published');
    expect(words('no_room', 5, 30)).toBe('the measurement error of 30 s is larger than any change the scale leaves room for');
    expect(words('both_stopped', 0, 3)).toContain('stopped at its ceiling at both visits: the test is too easy');
    expect(words('stopped', 2, 3)).toBe(
      'the watch was stopped at its ceiling at one visit: the true change may be larger or smaller than the 2 s seen, and the error is 3 s',
    );
  });
});
