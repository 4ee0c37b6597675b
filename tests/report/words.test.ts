import { describe, expect, test } from 'vitest';
import {
  dateWords,
  dayAfter,
  ordinal,
  percentileWords,
  plainNumber,
  roundFor,
  valueWithUnit,
} from '../../src/report/view/numbers.ts';
import { bandWords, clientWords, peersWords, statusWords } from '../../src/report/view/words.ts';
import { comparison } from './parts.ts';

describe('numbers for people', () => {
  test.each([
    [1, '1st'],
    [2, '2nd'],
    [3, '3rd'],
    [11, '11th'],
    [12, '12th'],
    [13, '13th'],
    [21, '21st'],
    [82, '82nd'],
    [93, '93rd'],
  ])('%d is %s', (value, words) => expect(ordinal(value)).toBe(words));

  test.each([
    [{ percentile: 18.3 }, 'about the 18th percentile'],
    [{ percentile: 18.3, approximate: true }, 'about the 18th percentile (approximate)'],
    [{ percentile: 5, percentile_bound: 'at_most' }, 'at most the 5th percentile'],
    [{ percentile: 75, percentile_bound: 'at_least' }, 'at least the 75th percentile'],
    [{ percentile: 0.4 }, 'below the 1st percentile'],
    [{ percentile: 99.6 }, 'above the 99th percentile'],
    [{ percentile: null, percentile_bound: null }, null],
  ] as const)('%o reads %s', (given, words) => expect(percentileWords(comparison(given))).toBe(words));

  test('a bound is never rounded towards the better claim', () => {
    expect(percentileWords(comparison({ percentile: 4.2, percentile_bound: 'at_most' }))).toBe('at most the 5th percentile');
    expect(percentileWords(comparison({ percentile: 24.8, percentile_bound: 'at_least' }))).toBe('at least the 24th percentile');
    expect(percentileWords(comparison({ percentile: 0.3, percentile_bound: 'at_least' }))).toBe('above the worst published mark');
    expect(percentileWords(comparison({ percentile: 99.7, percentile_bound: 'at_most' }))).toBe('below the best published mark');
  });

  test('values keep what was entered and carry their unit in words', () => {
    expect(valueWithUnit(12.8, 's')).toBe('12.8 s');
    expect(valueWithUnit(9, '{#}/(30.s)')).toBe('9 stands');
    expect(valueWithUnit(1, '{repetitions}')).toBe('1 repetition');
    expect(valueWithUnit(31, 'kgf')).toBe('31 kg');
    expect(plainNumber(4.7666666, 's')).toBe('4.77');
    expect(plainNumber(0.804, 'm/s')).toBe('0.804');
  });

  test('what is no number never becomes text', () => {
    expect(() => roundFor(Number.NaN, 1)).toThrow(RangeError);
    expect(() => plainNumber(Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(Object.is(roundFor(-0.001, 1), 0)).toBe(true);
  });

  test('dates in words', () => {
    expect(dateWords('2026-05-11')).toBe('11 May 2026');
    expect(dateWords('soon')).toBe('soon');
    expect(dayAfter('2026-05-11', 90)).toBe('9 August 2026');
    expect(dayAfter('2027-12-31', 60)).toBe('29 February 2028');
    expect(dayAfter('soon', 3)).toBeNull();
  });
});

describe('words for ids', () => {
  test('every status but full text has a mark', () => {
    expect(statusWords('full-text')).toBeNull();
    expect(statusWords('memory')).toBe('recalled, not checked against the paper');
    expect(statusWords('computed')).toBe('computed from public survey data');
    expect(statusWords('secondary')).toBe('read in another publication that cites it');
  });

  test('bands, open at either end, with strata', () => {
    expect(bandWords({ sex: 'female', age_min: 75, age_max: 79 })).toBe('women 75-79');
    expect(bandWords({ sex: 'male', age_min: 80, age_max: null, side: 'right' })).toBe('men 80 and over, right side');
    expect(bandWords({ sex: 'all', age_min: null, age_max: 60, height_min_cm: 160, height_max_cm: null })).toBe(
      'both sexes up to 60, height 160 cm and over',
    );
    expect(bandWords({ sex: 'all', age_min: null, age_max: null, stance: 'arms free', setting: 'residential_care' })).toBe(
      'both sexes all ages, residential care, arms free',
    );
  });

  test('a pooled row never claims to compare by sex', () => {
    expect(peersWords({ sex: 'all', age_min: 71, age_max: 75 })).toBe('age');
    expect(peersWords({ sex: 'male', age_min: 71, age_max: 75 })).toBe('age and sex');
    expect(peersWords({ sex: 'female', age_min: null, age_max: null })).toBe('sex, all ages together');
  });

  test('the client line says what was assumed and what is not recorded', () => {
    expect(
      clientWords({ ref: 'x', sex: 'not recorded', age: 70, setting: 'community', setting_assumed: true, lung_condition: null }),
    ).toBe('sex not recorded, 70 years, lung condition not recorded, lives in the community (assumed: not recorded)');
  });
});
