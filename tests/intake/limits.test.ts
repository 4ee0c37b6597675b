/** Limits, dates and near words by themselves, on invented definitions. */
import { describe, expect, it } from 'vitest';
import { withUnit } from '../../src/evidence/describe.ts';
import { answerOf, futureDay } from '../../src/intake/answers.ts';
import { completedYears, parseDate } from '../../src/intake/dates.ts';
import { checkLimits } from '../../src/intake/limits.ts';
import { nearest, normalised } from '../../src/intake/near.ts';

describe('limits', () => {
  const limited = {
    name: 'Walk',
    unit_text: 's',
    whole: false,
    impossible: { below: 1, above: 9, why: 'Nobody. Ever.' },
    unusual: { below: 2, above: 8, why: 'Few do' },
  };
  it('say the value, its unit and why', () => {
    expect(checkLimits(0.5, limited)).toEqual({ verdict: 'impossible', message: 'Walk cannot be 0.5 s (Nobody. Ever)' });
    expect(checkLimits(9.5, limited)).toEqual({ verdict: 'impossible', message: 'Walk cannot be 9.5 s (Nobody. Ever)' });
    expect(checkLimits(1.5, limited)).toEqual({ verdict: 'unusual', message: 'Walk of 1.5 s is unusual (Few do)' });
    expect(checkLimits(8.5, limited)).toEqual({ verdict: 'unusual', message: 'Walk of 8.5 s is unusual (Few do)' });
    expect(checkLimits(5, limited)).toEqual({ verdict: 'ok' });
    expect(checkLimits(2.5, { ...limited, whole: true })).toEqual({
      verdict: 'not_whole',
      message: 'Walk is a whole number, not 2.5 s',
    });
  });
  it('a value that cannot be is told so before that it is not whole', () =>
    expect(checkLimits(0.5, { ...limited, whole: true }).verdict).toBe('impossible'));
  it('what has no limit is within it', () => {
    const open = { ...limited, impossible: { why: 'x' }, unusual: undefined };
    expect(checkLimits(-1e9, open).verdict).toBe('ok');
    expect(checkLimits(1e9, open).verdict).toBe('ok');
    expect(checkLimits(Number.NEGATIVE_INFINITY, open).verdict).toBe('impossible');
  });
  it('a bare score has no unit', () => {
    expect(withUnit(5, '')).toBe('5');
    expect(withUnit(5.5, '%')).toBe('5.5 %');
  });
});

describe('dates', () => {
  it.each([
    ['2026-01-31', 1, 31],
    ['2026-03-31', 3, 31],
    ['2026-04-30', 4, 30],
    ['2026-05-31', 5, 31],
    ['2026-06-30', 6, 30],
    ['2026-07-31', 7, 31],
    ['2026-08-31', 8, 31],
    ['2026-09-30', 9, 30],
    ['2026-10-31', 10, 31],
    ['2026-11-30', 11, 30],
    ['2026-12-31', 12, 31],
    ['2026-02-28', 2, 28],
    ['2026-02-01', 2, 1],
  ])('%s is a day, and the last of its month', (text, month, day) => expect(parseDate(text)).toEqual({ year: 2026, month, day }));
  it.each(['2026-01-32', '2026-02-29', '2026-04-31', '2026-06-31', '2026-09-31', '2026-11-31', '2026-12-00', '2026-00-01'])(
    '%s is none',
    (text) => expect(parseDate(text)).toBeNull(),
  );
  it.each(['x2026-05-11', '2026-05-11x', '2026-05-111', '12026-05-11', '2026-5-11', '2026-05-1', '2026/05/11'])(
    '%s is not written as one',
    (text) => expect(parseDate(text)).toBeNull(),
  );
  it('leap years: every fourth, but of the hundreds only every fourth', () => {
    const has29 = [1900, 2000, 2023, 2024, 2100, 2400].filter((year) => parseDate(`${year}-02-29`) !== null);
    expect(has29).toEqual([2000, 2024, 2400]);
    expect(parseDate('2024-02-30')).toBeNull();
    expect(parseDate('2024-03-31')).not.toBeNull();
    expect(parseDate('2024-04-31')).toBeNull();
  });
  it('years are completed on the day itself', () => {
    const born = { year: 1950, month: 6, day: 15 };
    const on = (month: number, day: number) => completedYears(born, { year: 2026, month, day });
    expect([on(6, 14), on(6, 15), on(6, 16)]).toEqual([75, 76, 76]);
    expect([on(5, 20), on(7, 10)]).toEqual([75, 76]);
  });
});

describe('near words', () => {
  it('compare letters and digits only', () => {
    expect(normalised('5x-STS (s)')).toBe('5xstss');
    expect(normalised('Ä_Z9!')).toBe('z9');
    expect(nearest('STICK', ['frame', 'stick'])).toBe('stick');
  });
  it('a short word may have one letter wrong, a longer one two, a long one a third', () => {
    expect(nearest('copx', ['copd'])).toBe('copd');
    expect(nearest('coxx', ['copd'])).toBeUndefined();
    expect(nearest('stxxk', ['stick'])).toBe('stick');
    expect(nearest('sxxxk', ['stick'])).toBeUndefined();
    // ten letters: three may be wrong
    expect(nearest('interstxxx', ['interstiti'])).toBe('interstiti');
    expect(nearest('intersxxxx', ['interstiti'])).toBeUndefined();
  });
  it('the nearest of several, and the first of equals', () => {
    expect(nearest('bat', ['cats', 'bats', 'hats'])).toBe('bats');
    expect(nearest('at', ['cat', 'hat'])).toBe('cat');
    expect(nearest('hats', ['cats', 'hats'])).toBe('hats');
  });
  it('the beginning of one word only', () => {
    expect(nearest('f', ['female', 'male'])).toBe('female');
    expect(nearest('resid', ['residential_care', 'community'])).toBe('residential_care');
    expect(nearest('fra', ['frame_walker', 'frailty_scale'])).toBeUndefined();
    expect(nearest('walker', ['frame_walker', 'stick'])).toBeUndefined();
  });
  it('nothing for nothing, nor for what is too long to be a slip', () => {
    expect(nearest('', ['a'])).toBeUndefined();
    expect(nearest('---', ['a'])).toBeUndefined();
    expect(nearest('x', [])).toBeUndefined();
    const long = 'a'.repeat(80);
    expect(nearest(long, [long])).toBe(long);
    expect(nearest(`${long}a`, [`${long}a`])).toBeUndefined();
  });
});

describe('answers', () => {
  it.each([
    [true, 'yes'],
    [false, 'no'],
    ['yes', 'yes'],
    ['No', 'no'],
    ['UNKNOWN', 'unknown'],
    ['maybe', undefined],
    ['', undefined],
    [1, undefined],
    [null, undefined],
    [undefined, undefined],
    [['yes'], undefined],
  ])('%j: %s', (value, expected) => expect(answerOf(value)).toBe(expected));
  it('a day in the future is named, with today', () =>
    expect(futureDay('2026-07-01', '2026-06-01', ['health', 'recent_surgery'])).toEqual({
      code: 'future_date',
      path: ['health', 'recent_surgery'],
      at: 'value',
      message: '2026-07-01 lies in the future (today is 2026-06-01)',
      hint: 'write the day on which it happened',
    }));
});
