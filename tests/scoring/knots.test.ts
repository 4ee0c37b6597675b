import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Row } from '../../src/evidence/schema/table.ts';
import { knotsOfPoints, knotsOfShares, percentileFromKnots, percentileFromOneMark } from '../../src/scoring/knots.ts';

const row = (over: Partial<Row>): Row => ({ sex: 'all', age_min: 60, age_max: 69, ...over });

describe('counts between printed marks', () => {
  // Bergland A, Strand BH. BMC Geriatr. 2019;19:216, Table 2, women 75-79, chair stands: 15 unable, 22, 48, 105, 164 of 354.
  const shares = {
    marks: [16.7, 13.7, 11.2],
    counts: [15, 22, 48, 105, 164],
    unable_first: true,
    at_mark: 'better',
    missing_to_worst: 0,
  } as const;
  const knots = knotsOfShares({ ...shares, marks: [...shares.marks], counts: [...shares.counts] }, 'lower');

  it('gives the shares worked out by hand from the printed counts: 37/354, 85/354, 190/354', () => {
    const at = (seconds: number) => percentileFromKnots(knots, -seconds);
    expect(at(16.7)?.percentile).toBeCloseTo((100 * 37) / 354, 10);
    expect(at(13.7)?.percentile).toBeCloseTo((100 * 85) / 354, 10);
    expect(at(11.2)?.percentile).toBeCloseTo((100 * 190) / 354, 10);
    expect([10.5, 24, 53.7]).toEqual([16.7, 13.7, 11.2].map((mark) => Math.round((at(mark)?.percentile ?? 0) * 10) / 10));
  });

  it('never goes beyond the outermost marks', () => {
    expect(percentileFromKnots(knots, -25)).toEqual({ percentile: (100 * 37) / 354, bound: 'at_most' });
    expect(percentileFromKnots(knots, -8)).toEqual({ percentile: (100 * 190) / 354, bound: 'at_least' });
  });

  it('counts people in no printed cell to the worst group', () => {
    // Same paper, men 60-69, walking: n 1460... an invented pair shows the arithmetic: 10 + 5 missing of 100.
    const few = knotsOfShares(
      { marks: [0.8], counts: [10, 85], unable_first: false, at_mark: 'better', missing_to_worst: 5 },
      'higher',
    );
    expect(few).toEqual([{ performance: 0.8, percentile: 15 }]);
  });

  it('a mark that everybody or nobody is worse than is no point', () => {
    const empty = { marks: [5, 10, 15], counts: [0, 50, 50, 0], unable_first: false, missing_to_worst: 0 };
    expect(knotsOfShares({ ...empty, at_mark: 'better' }, 'higher')).toEqual([{ performance: 10, percentile: 50 }]);
  });
});

describe('percentile points', () => {
  it('flips the raw percentile of a lower-is-better test once', () => {
    // Bischoff HA. Age Ageing. 2003;32:315-320, abstract: community women 65-85, 10th and 90th percentile 6.0 and 11.2 s.
    const knots = knotsOfPoints(row({ percentiles: { p10: 6, p90: 11.2 } }), 'lower');
    expect(percentileFromKnots(knots, -6)).toEqual({ percentile: 90, bound: 'exact' });
    expect(percentileFromKnots(knots, -11.2)).toEqual({ percentile: 10, bound: 'exact' });
    expect(percentileFromKnots(knots, -8.6)?.percentile).toBeCloseTo(50, 10);
    expect(percentileFromKnots(knots, -14)).toEqual({ percentile: 10, bound: 'at_most' });
  });

  it('takes performance percentiles as printed: p25 is the worse end', () => {
    // FRADEA, Aten Primaria 2012;44:162-171, abstract: quartiles 13.8, 11.4, 9.8 s from worst to best.
    const knots = knotsOfPoints(row({ performance_percentiles: { p25: 13.8, p50: 11.4, p75: 9.8 } }), 'lower');
    expect(percentileFromKnots(knots, -13.8)).toEqual({ percentile: 25, bound: 'exact' });
    expect(percentileFromKnots(knots, -9.8)).toEqual({ percentile: 75, bound: 'exact' });
  });

  it('drops 0 and 100 %', () => {
    expect(knotsOfPoints(row({ percentiles: { p0: 1, p50: 2 } }), 'higher')).toEqual([{ performance: 2, percentile: 50 }]);
  });

  it('gives the middle of a tie at a ceiling', () => {
    const knots = knotsOfPoints(row({ percentiles: { p25: 20, p50: 30, p75: 30, p90: 30 } }), 'higher');
    expect(percentileFromKnots(knots, 30)).toEqual({ percentile: 70, bound: 'exact' });
    expect(percentileFromKnots(knots, 29.999)?.percentile).toBeLessThan(50);
  });

  it('between a tie and the next point begins at the better end of the tie', () => {
    const knots = knotsOfPoints(row({ percentiles: { p10: 20, p50: 30, p75: 30 } }), 'lower');
    expect(percentileFromKnots(knots, -30)).toEqual({ percentile: 37.5, bound: 'exact' });
    expect(percentileFromKnots(knots, -29.999)?.percentile).toBeGreaterThan(50);
    expect(percentileFromKnots([], 1)).toBeNull();
  });

  it('is monotone and returns every printed point, whatever the points', () => {
    const points = fc
      .tuple(
        fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 2, maxLength: 8 }),
        fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { minLength: 8, maxLength: 8 }),
      )
      .map(([percents, values]) => {
        const sorted = [...values].sort((a, b) => a - b);
        return Object.fromEntries(
          [...percents].sort((a, b) => a - b).map((percent, index) => [`p${percent}`, sorted[index] ?? 0]),
        );
      });
    fc.assert(
      fc.property(
        points,
        fc.double({ min: 0, max: 70, noNaN: true }),
        fc.double({ min: 0, max: 70, noNaN: true }),
        (percentiles, a, b) => {
          const knots = knotsOfPoints(row({ percentiles }), 'higher');
          const [low, high] = a <= b ? [a, b] : [b, a];
          expect(percentileFromKnots(knots, low)?.percentile ?? 0).toBeLessThanOrEqual(
            (percentileFromKnots(knots, high)?.percentile ?? 100) + 1e-9,
          );
        },
      ),
    );
  });
});

describe('a single printed mark', () => {
  it('tells only which side of it, never a percentile of its own', () => {
    // Araujo CG. Br J Sports Med. 2022;56:975-980: 53.6 % of those of 71-75 could not hold 10 s.
    const mark = { performance: 10, percentile: 53.6 };
    expect(percentileFromOneMark(mark, 10, true)).toEqual({ percentile: 53.6, bound: 'at_least' });
    expect(percentileFromOneMark(mark, 9.9, true)).toEqual({ percentile: 53.6, bound: 'at_most' });
    expect(percentileFromOneMark(mark, 10, false)).toEqual({ percentile: 53.6, bound: 'at_most' });
  });
});
