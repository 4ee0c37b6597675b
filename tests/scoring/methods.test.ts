/** What one row can say about one value, by each method; every expected number is worked out beside it. */
import { describe, expect, it } from 'vitest';
import { bellIsPossible } from '../../src/scoring/distribution.ts';
import { score } from './one-row.ts';

describe('which method a row allows', () => {
  it('the richest of what it prints', () => {
    const rich = { percentiles: { p25: 8, p75: 12 }, shares: { marks: [10], percents: [40, 60] }, mean: 10, sd: 2, median: 9 };
    expect(score(rich).method).toBe('percentile_points');
    expect(score({ ...rich, percentiles: undefined }).method).toBe('cumulative_share');
    expect(score({ mean: 10, sd: 2, median: 9 }).method).toBe('mean_sd');
    expect(score({ mean: 10, median: 9 }).method).toBe('mean_only');
    expect(score({ mean: 10, mean_ci95: [9, 11] }).method).toBe('mean_ci');
    expect(score({ median: 9 }).method).toBe('median_only');
    expect(score({ worse_than_average: { below: 9 } }).method).toBe('mean_only');
  });
  it('one point alone is used unless it is the median, which is only a centre', () => {
    expect(score({ percentiles: { p25: 8 } }).method).toBe('percentile_points');
    expect(score({ performance_percentiles: { p25: 8 } }).method).toBe('percentile_points');
    expect(score({ percentiles: { p50: 8 } })).toMatchObject({ method: 'median_only', expected: 8 });
    expect(score({ performance_percentiles: { p50: 9 } })).toMatchObject({ method: 'median_only', expected: 9 });
    expect(score({ percentiles: { p50: 8 }, performance_percentiles: { p25: 7 } }).method).toBe('percentile_points');
    expect(score({ percentiles: { p50: 8 }, mean: 10, sd: 2 }).method).toBe('mean_sd');
    expect(score({ median: 7, percentiles: { p50: 8 } }).expected).toBe(7);
  });
});

describe('printed points', () => {
  it('name the median as what is expected, and print themselves', () => {
    expect(score({ percentiles: { p25: 8, p50: 10, p75: 12 } })).toMatchObject({
      percentile: 50,
      bound: 'exact',
      expected: 10,
      approximate: false,
      z: null,
      noneBecause: null,
      formula: 'performance percentiles printed: 8 s = 25 %, 10 s = 50 %, 12 s = 75 %; between them z is linear in the value',
    });
    expect(score({ performance_percentiles: { p25: 8, p50: 10 } }).expected).toBe(10);
    expect(score({ percentiles: { p25: 8, p75: 12 }, median: 9 }).expected).toBe(9);
    expect(score({ percentiles: { p25: 8, p75: 12 } }).expected).toBeNull();
  });
  it('a lower-is-better test has its printed values, worst first', () => {
    expect(score({ percentiles: { p25: 8, p75: 12 } }, { better: 'lower' }).formula).toContain('12 s = 25 %, 8 s = 75 %');
  });
  it('unable is at most the worst point', () => {
    for (const better of ['higher', 'lower'] as const)
      expect(score({ percentiles: { p25: 8, p75: 12 } }, { value: null, better })).toMatchObject({
        percentile: 25,
        bound: 'at_most',
      });
  });
  it('points of 0 or 100 % alone can say nothing', () => {
    const none = score({ shares: { marks: [10], percents: [0, 100] } });
    expect(none).toMatchObject({
      percentile: null,
      bound: null,
      noneBecause: 'every printed share is 0 or 100 %',
      formula: 'no usable point',
    });
  });
});

describe('one mark', () => {
  const marked = (at_mark: string, value: number, better: 'higher' | 'lower' = 'higher') =>
    score({ shares: { marks: [10], percents: [40, 60], at_mark }, median: 12 }, { value, better });
  it('tells its two sides apart; the mark itself belongs to the side that the source says', () => {
    expect(marked('better', 10)).toMatchObject({ percentile: 40, bound: 'at_least', expected: 12 });
    expect(marked('worse', 10).bound).toBe('at_most');
    expect(marked('better', 9.9).bound).toBe('at_most');
    expect(marked('worse', 10.1).bound).toBe('at_least');
    expect(score({ percentiles: { p25: 10 } })).toMatchObject({ percentile: 25, bound: 'at_least' });
    expect(marked('better', 10.1, 'lower').bound).toBe('at_most');
    expect(marked('better', 9.9, 'lower').bound).toBe('at_least');
  });
});

describe('mean and SD', () => {
  it('(12 - 10) / 2 = 1, which 84.1 % of a normal spread lie below', () => {
    const found = score({ mean: 10, sd: 2 }, { value: 12 });
    expect(found).toMatchObject({ z: 1, bound: 'exact', approximate: true, againstMean: 'not_worse', expected: 10, notes: [] });
    expect(found.percentile).toBeCloseTo(84.13, 2);
    expect(found.formula).toBe('z = (12 - 10) / 2 = 1.00');
    const slower = score({ mean: 10, sd: 2 }, { value: 12, better: 'lower' });
    expect(slower).toMatchObject({ z: -1, againstMean: 'worse', formula: 'z = -(12 - 10) / 2 = -1.00' });
    expect(slower.percentile).toBeCloseTo(15.87, 2);
  });
  it('a time is taken as log-normal, with the normal figure beside it', () => {
    const found = score({ mean: 10, sd: 2 }, { value: 12, isTime: true });
    // sigma^2 = ln(1 + 4/100) = 0.0392207, mu = ln 10 - 0.0196104 = 2.2829747; z = (ln 12 - mu)/0.1980422 = 1.01964
    expect(found.percentile).toBeCloseTo(84.61, 1);
    expect(found.notes).toEqual(['if the times spread normally instead of log-normally the percentile would be 84.1']);
  });
  it('unable is worse than every value, and needs no percentile', () => {
    expect(score({ mean: 10, sd: 2 }, { value: null })).toMatchObject({
      percentile: null,
      againstMean: 'worse',
      noneBecause: null,
      formula: 'mean 10, SD 2 s; unable is worse than every value',
    });
  });
  it('a spread that leaves what is possible is no bell; its edge is', () => {
    expect(score({ mean: 10, sd: 6 })).toMatchObject({
      percentile: null,
      formula: 'mean 10, SD 6 s',
      noneBecause:
        'mean 10 and SD 6 s cannot be a bell curve here (mean ± 2 SD leaves the possible range), so no percentile is given',
    });
    expect(bellIsPossible(10, 5, { lowest: 0, highest: 20 })).toBe(true);
    expect(bellIsPossible(10, 5, { lowest: 0.1, highest: 20 })).toBe(false);
    expect(bellIsPossible(10, 5, { lowest: 0, highest: 19.9 })).toBe(false);
  });
  it('says where the sample never came so low as mean - 2 SD', () => {
    const noted = (range: [number, number]) => score({ mean: 10, sd: 2, range }).notes;
    expect(noted([7, 20])).toEqual(['mean - 2 SD lies outside the range of the sample (7 to 20 s): the spread is skewed']);
    expect(noted([6, 20])).toEqual([]);
    expect(noted([2, 20])).toEqual([]);
  });
});

describe('a centre without a spread', () => {
  it('says which side of it, and of the limit of the source where it prints one', () => {
    expect(score({ mean: 10 }, { value: 10 })).toMatchObject({
      againstMean: 'not_worse',
      expected: 10,
      percentile: null,
      formula: 'mean 10 s',
      noneBecause: 'the source prints a mean without the spread of people, so no percentile can be given',
    });
    expect(score({ mean: 10 }, { value: 9.9 }).againstMean).toBe('worse');
    for (const better of ['higher', 'lower'] as const)
      expect(score({ mean: 10 }, { value: null, better }).againstMean).toBe('worse');
    expect(score({ median: 10 }).noneBecause).toContain('prints a median without');
    const limited = { mean: 10, mean_ci95: [9, 11], worse_than_average: { above: 11 } };
    expect(score(limited, { value: 11, better: 'lower' })).toMatchObject({
      againstMean: 'not_worse',
      formula: 'mean 10 s (95 % interval of the mean 9 to 11); the source calls beyond 11 worse than average',
    });
    expect(score(limited, { value: 11.1, better: 'lower' }).againstMean).toBe('worse');
    expect(score({ mean: 10, sd: 2, worse_than_average: { below: 9 } }, { value: 9.5 }).againstMean).toBe('not_worse');
  });
  it('a limit alone says only whether it was passed', () => {
    const limit = { worse_than_average: { below: 9 } };
    expect(score(limit, { value: 9 })).toMatchObject({
      againstMean: 'not_worse',
      expected: null,
      noneBecause: 'the source prints only its limit of worse than average, so no percentile can be given',
      formula: 'the source calls beyond 9 s worse than average',
    });
    expect(score(limit, { value: 8.9 }).againstMean).toBe('worse');
    for (const better of ['higher', 'lower'] as const) expect(score(limit, { value: null, better }).againstMean).toBe('worse');
    expect(score({ worse_than_average: { above: 9 } }, { value: 9.1, better: 'lower' }).againstMean).toBe('worse');
    expect(score({})).toMatchObject({ againstMean: null, formula: 'no number' });
  });
});
