/** Slopes and days by themselves. */
import { describe, expect, it } from 'vitest';
import { dayLater, daysBetween } from '../../src/change/days.ts';
import { theilSenSlope, trendOf } from '../../src/change/trend.ts';

describe('Theil-Sen', () => {
  it('leaves out pairs of one date, and has no slope where there is no other', () => {
    expect(
      theilSenSlope([
        { x: 0, y: 1 },
        { x: 0, y: 9 },
        { x: 2, y: 5 },
      ]),
    ).toBe(0);
    expect(
      theilSenSlope([
        { x: 1, y: 1 },
        { x: 1, y: 3 },
      ]),
    ).toBeNull();
    expect(theilSenSlope([])).toBeNull();
  });
});

describe('a trend', () => {
  const dates = ['2026-01-01', '2026-01-11', '2026-01-21'];
  const of = (values: readonly number[], better: 'higher' | 'lower' = 'higher', on = dates) =>
    trendOf(
      values.map((value, index) => ({ assessed: on[index] ?? '', value })),
      better,
    );
  it('is per month of a twelfth of 365.25 days, rounded to four decimals', () =>
    // 1 in 10 days: 365.25 / 12 / 10
    expect(of([1, 2, 3])).toEqual({ per_month: 3.0438, direction: 'better', visits: 3, days: 20 }));
  it('has the direction of performance', () => {
    expect(of([3, 2, 1])?.direction).toBe('worse');
    expect(of([3, 2, 1], 'lower')?.direction).toBe('better');
    expect(of([2, 2, 2])?.direction).toBe('same');
    expect(of([2, 2, 2], 'lower')?.direction).toBe('same');
  });
  it('needs three dates, not three values', () => {
    expect(of([1, 2, 3], 'higher', ['2026-01-01', '2026-01-11', '2026-01-11'])).toBeNull();
    expect(of([1, 2])).toBeNull();
    expect(of([])).toBeNull();
    expect(of([1, 2, 3, 4], 'higher', [...dates, '2026-01-21'])).toMatchObject({ visits: 4, days: 20 });
  });
});

describe('days', () => {
  it('a date that does not exist is refused by name', () => {
    for (const wrong of ['2026-02-30x', '', '11/05/2026']) {
      expect(() => daysBetween(wrong, '2026-01-01')).toThrow(`not a date: ${wrong}`);
      expect(() => daysBetween('2026-01-01', wrong)).toThrow(RangeError);
      expect(() => dayLater(wrong, 1)).toThrow(RangeError);
    }
  });
  it('go back too', () => {
    expect(dayLater('2026-03-01', -1)).toBe('2026-02-28');
    expect(dayLater('2026-03-01', 0)).toBe('2026-03-01');
    expect(daysBetween('2026-03-01', '2026-03-01')).toBe(0);
  });
});
