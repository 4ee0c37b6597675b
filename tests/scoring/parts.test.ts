/** The small pieces of scoring: trials, standing, bell curves, equations, cut-points, measurement error, derived results. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutPoint, MeasurementError } from '../../src/evidence/schema/numbers.ts';
import { isMet } from '../../src/scoring/cut-points.ts';
import { bellIsPossible, logNormalPercentile, normalPercentile, performanceZ, predict } from '../../src/scoring/distribution.ts';
import { mdc95Of, semOf } from '../../src/scoring/measurement-error.ts';
import { performanceOf, roundTo } from '../../src/scoring/performance.ts';
import { cannotSay, standingOf } from '../../src/scoring/standing.ts';
import { valueByRule } from '../../src/scoring/trials.ts';

const bands = {
  well_below_under: 5,
  below_under: 25,
  above_over: 75,
  basis: { status: 'common-practice', note: 'test' },
} as const;

describe('trials', () => {
  it('best, mean and first, in the direction of the test', () => {
    expect(valueByRule([4.2, 6, 5.1], 'best', 'higher').value).toBe(6);
    expect(valueByRule([12.8, 11.9, 13], 'best', 'lower').value).toBe(11.9);
    expect(valueByRule([3, 4, 8], 'mean', 'higher').value).toBe(5);
    expect(valueByRule([3, 4, 8], 'first', 'higher').value).toBe(3);
  });
  it('a trial stopped at the ceiling makes the result "at least"', () => {
    expect(valueByRule([12, 30], 'best', 'higher', { ceiling: 30 })).toEqual({ value: 30, atLeast: true });
    expect(valueByRule([12, 29], 'best', 'higher', { ceiling: 30 })).toEqual({ value: 29, atLeast: false });
    expect(valueByRule([30, 12], 'mean', 'higher', { ceiling: 30 }).atLeast).toBe(true);
  });
  it("times beyond a table's ceiling are cut to it and are then exact for that table", () => {
    expect(valueByRule([52], 'best', 'higher', { ceiling: 60, cap: 45 })).toEqual({ value: 45, atLeast: false });
    expect(valueByRule([60], 'best', 'higher', { ceiling: 60, cap: 45 })).toEqual({ value: 45, atLeast: false });
    expect(valueByRule([30], 'best', 'higher', { ceiling: 30, cap: 45 })).toEqual({ value: 30, atLeast: true });
    expect(valueByRule([45], 'best', 'higher', { ceiling: 45, cap: 45 })).toEqual({ value: 45, atLeast: false });
    expect(valueByRule([60, 35], 'mean', 'higher', { ceiling: 60, cap: 45 })).toEqual({ value: 40, atLeast: false });
  });
});

describe('standing', () => {
  it.each([
    [4.9, 'exact', 'well_below'],
    [5, 'exact', 'below'],
    [24.9, 'exact', 'below'],
    [25, 'exact', 'expected'],
    [75, 'exact', 'expected'],
    [75.1, 'exact', 'above'],
    [5, 'at_most', 'well_below'],
    [25, 'at_most', 'below'],
    [25.1, 'at_most', null],
    [75, 'at_least', 'above'],
    [25, 'at_least', 'expected'],
    [24.9, 'at_least', null],
  ] as const)('percentile %s (%s) is %s', (percentile, bound, standing) => {
    expect(standingOf({ percentile, bound }, bands)).toBe(standing);
  });
  it('says why it cannot say', () => {
    expect(cannotSay({ percentile: 15.2, bound: 'at_least' })).toContain('not among the lowest 15 %');
    expect(cannotSay({ percentile: 30, bound: 'at_most' })).toContain('worse than the worst published mark');
  });
});

describe('mean and SD', () => {
  it('is a bell only while mean ± 2 SD stays in the possible range', () => {
    expect(bellIsPossible(9.5, 2.5, { lowest: 0, highest: Number.POSITIVE_INFINITY })).toBe(true);
    expect(bellIsPossible(10, 6, { lowest: 0, highest: Number.POSITIVE_INFINITY })).toBe(false);
    expect(bellIsPossible(40, 5, { lowest: 0, highest: 45 })).toBe(false);
  });
  it('z is positive for better', () => {
    expect(performanceZ(12, 9.5, 2.5, 'lower')).toBe(-1);
    expect(performanceZ(1.2, 1, 0.2, 'higher')).toBeCloseTo(1, 12);
  });
  it('log-normal by matching mean and SD: the median of a log-normal lies at mean / sqrt(1 + cv^2)', () => {
    // Closed form of the log-normal distribution (Johnson, Kotz, Balakrishnan, Continuous Univariate Distributions 1, ch. 14).
    const median = 9.5 / Math.sqrt(1 + (2.5 / 9.5) ** 2);
    expect(logNormalPercentile(median, 9.5, 2.5, 'lower')).toBeCloseTo(50, 10);
    expect(logNormalPercentile(20, 9.5, 2.5, 'lower')).toBeLessThan(1);
    expect(normalPercentile(-1)).toBeCloseTo(15.8655254, 6);
  });
});

describe('equation', () => {
  const equation = {
    intercept: 10,
    terms: [
      { term: 'age_years', coefficient: 0.1 },
      { term: 'male', coefficient: -1 },
    ],
    residual_sd: 1,
    lower_limit: null,
  } as const;
  it('adds intercept and terms', () => {
    expect(predict({ ...equation, terms: [...equation.terms] }, { age: 70, sex: 'male' })).toBeCloseTo(16, 12);
  });
  it('has no answer where a term is not recorded', () => {
    expect(predict({ ...equation, terms: [...equation.terms] }, { age: 70, sex: 'not recorded' })).toBeNull();
  });
});

describe('cut-points', () => {
  const cut = (met_when: CutPoint['met_when']): CutPoint => ({
    id: 'x',
    source: 'x',
    location: 'x',
    status: 'abstract',
    test: 'x',
    rule: 'x',
    met_when,
    sex: 'all',
    age_min: null,
    age_max: null,
    outcome: 'falls',
    counts: true,
    counts_because: 'x',
    applies_to: 'everyone',
    below_average: false,
    population: { description: 'x' },
  });
  const at = (value: number | null, atLeast = false) => ({ value, atLeast, better: 'higher' as const, halfInterval: null });
  it('each kind of mark, at the mark itself', () => {
    expect(isMet(cut({ at_least: 12 }), at(12))).toBe(true);
    expect(isMet(cut({ above: 15 }), at(15))).toBe(false);
    expect(isMet(cut({ at_most: 0.8 }), at(0.8))).toBe(true);
    expect(isMet(cut({ below: 10 }), at(10))).toBe(false);
  });
  it('unable meets every cut', () => {
    for (const rule of [{ at_least: 1 }, { above: 1 }, { at_most: 1 }, { below: 1 }])
      expect(isMet(cut(rule), at(null))).toBe(true);
  });
  it('a watch stopped early decides only what a longer time cannot change', () => {
    expect(isMet(cut({ below: 10 }), at(10, true))).toBe(false);
    expect(isMet(cut({ below: 30 }), at(20, true))).toBeNull();
    expect(isMet(cut({ at_least: 12 }), at(20, true))).toBe(true);
    expect(isMet(cut({ at_least: 40 }), at(20, true))).toBeNull();
  });
});

describe('measurement error', () => {
  const error = (over: Partial<MeasurementError>): MeasurementError => ({
    id: 'x',
    source: 'x',
    location: 'x',
    status: 'abstract',
    test: 'x',
    population: { description: 'x' },
    interval: null,
    interval_days: null,
    sem_converted: false,
    ...over,
  });
  it('MDC95 = 1.96 x root 2 x SEM, both ways', () => {
    // Goldberg A. J Geriatr Phys Ther 2012 abstract: SEM 0.9 s, MDC95 2.5 s for five chair stands.
    expect(mdc95Of(error({ sem: 0.9 }))).toBeCloseTo(2.4947, 3);
    expect(semOf(error({ mdc95: 2.5 }))).toBeCloseTo(0.902, 3);
  });
  it('MDC90 becomes MDC95 only through its own SEM', () => {
    const sem = semOf(error({ mdc90: 10 })) ?? 0;
    expect(sem).toBeCloseTo(10 / (1.6448536 * Math.SQRT2), 6);
    expect(mdc95Of(error({ mdc90: 10 }))).toBeCloseTo((10 * 1.959964) / 1.6448536, 5);
  });
  it('takes the error of the score where the source gives it by score', () => {
    const berg = error({
      by_score: [
        { min: 45, max: 56, mdc95: 4 },
        { min: 35, max: 44, mdc95: 5 },
      ],
    });
    expect(mdc95Of(berg, 50)).toBe(4);
    expect(mdc95Of(berg, 40)).toBe(5);
  });
});

describe('rounding and direction', () => {
  it('rounds halves away from zero as printed decimals, not as binary ones', () => {
    expect(roundTo(1.005, 2)).toBe(1.01);
    expect(roundTo(-2.25, 1)).toBe(-2.3);
    expect(roundTo(10.45, 1)).toBe(10.5);
    expect(Object.is(roundTo(-0.001, 1), -0)).toBe(false);
  });
  it('flipping twice gives the value back', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        (value) => performanceOf(performanceOf(value, 'lower'), 'lower') === value,
      ),
    );
  });
});
