/** Limits, typed numbers, dates and near words, each alone. */
import { describe, expect, test } from 'vitest';
import { checkLimits, completedYears, explainNumber, isPlainNumber, nearest, parseDate } from '../../src/intake/index.ts';
import { catalogue } from './catalogue.ts';

describe('limits', () => {
  const limited = {
    name: 'x',
    unit_text: 's',
    whole: false,
    impossible: { below: 1, above: 9, why: 'No.' },
    unusual: { below: 2, above: 8, why: 'Rare.' },
  };
  test.each([
    [0.99, 'impossible'],
    [1, 'unusual'],
    [2, 'ok'],
    [8, 'ok'],
    [8.01, 'unusual'],
    [9, 'unusual'],
    [9.01, 'impossible'],
    [Number.NaN, 'impossible'],
    [Number.POSITIVE_INFINITY, 'impossible'],
  ])('%d is %s', (value, verdict) => {
    expect(checkLimits(value, limited).verdict).toBe(verdict);
  });

  test('whole numbers only, where the definition says so', () => {
    expect(checkLimits(5.5, { ...limited, whole: true }).verdict).toBe('not_whole');
    expect(checkLimits(5, { ...limited, whole: true }).verdict).toBe('ok');
  });

  test.each([
    ['timed_up_and_go', 1.2, 'impossible'],
    ['five_times_sit_to_stand', 1.2, 'impossible'],
    ['gait_speed_usual', 0.1, 'unusual'],
    ['single_leg_stance_eyes_open', 0, 'ok'],
    ['thirty_second_chair_stand', 0, 'ok'],
  ])('%s %d is %s', (id, value, verdict) => {
    const definition = catalogue.tests.find((each) => each.id === id);
    expect(definition && checkLimits(value, definition).verdict).toBe(verdict);
  });

  test('unusual lies inside possible, for every test and field', () => {
    for (const { impossible, unusual } of [...catalogue.tests, ...catalogue.fields]) {
      if (unusual?.below !== undefined)
        expect(unusual.below).toBeGreaterThanOrEqual(impossible.below ?? Number.NEGATIVE_INFINITY);
      if (unusual?.above !== undefined) expect(unusual.above).toBeLessThanOrEqual(impossible.above ?? Number.POSITIVE_INFINITY);
    }
  });

  test('no heading means two tests', () => {
    const headings = catalogue.tests.flatMap((each) =>
      [each.id, ...each.headings].map((heading) => heading.toLowerCase().replace(/[^a-z0-9]/g, '')),
    );
    const owners = new Map<string, Set<string>>();
    for (const each of catalogue.tests)
      for (const heading of [each.id, ...each.headings]) {
        const key = heading.toLowerCase().replace(/[^a-z0-9]/g, '');
        owners.set(key, (owners.get(key) ?? new Set()).add(each.id));
      }
    expect(headings.filter((heading) => (owners.get(heading)?.size ?? 0) > 1)).toEqual([]);
  });
});

describe('numbers as typed', () => {
  test.each(['0', '12', '12.8', '-3', '0.05'])('%s is plain', (text) => expect(isPlainNumber(text)).toBe(true));
  test.each(['', '08', '1e3', '.5', '5.', '+5', '0x1F', '12,8', '1 000'])('%s is not', (text) =>
    expect(isPlainNumber(text)).toBe(false),
  );
  test.each([
    ['12,8', 'decimal_comma'],
    ['12.8s', 'unit_in_number'],
    ['12,8 s', 'unit_in_number'],
    ['94%', 'unit_in_number'],
    ['0.9 m/s', 'unit_in_number'],
    ['<5', 'inexact_number'],
    ['< 5', 'inexact_number'],
    ['>=30', 'inexact_number'],
    ['30+', 'inexact_number'],
    ['~12', 'inexact_number'],
    ['12-14', 'inexact_number'],
    ['12:30', 'clock_time'],
    ['12.8', 'quoted_number'],
    ['twelve', 'not_a_number'],
    ['', 'not_a_number'],
  ])('%s: %s', (text, code) => {
    expect(explainNumber(text).code).toBe(code);
  });
});

describe('dates', () => {
  test.each(['2024-02-29', '2000-02-29', '2026-12-31'])('%s exists', (text) => expect(parseDate(text)).not.toBeNull());
  test.each(['2025-02-29', '1900-02-29', '2026-04-31', '2026-13-01', '2026-00-10', '2026-1-1', '11/05/2026', ''])(
    '%s does not',
    (text) => expect(parseDate(text)).toBeNull(),
  );
  test('a visit before the birth gives a negative age', () => {
    expect(completedYears({ year: 2020, month: 5, day: 1 }, { year: 2019, month: 5, day: 2 })).toBe(-1);
  });
});

describe('near words', () => {
  test.each([
    ['oral_steriod', 'oral_steroid'],
    ['F', 'female'],
    ['m', 'male'],
    ['comunity', 'community'],
    ['zzz', undefined],
    ['', undefined],
    ['x'.repeat(5000), undefined],
  ])('%s -> %s', (typed, wanted) => {
    expect(nearest(typed, ['female', 'male', 'oral_steroid', 'community'])).toBe(wanted);
  });
});
