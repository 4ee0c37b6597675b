/** Reference: the stdlib project's normal distribution (Cephes / AS 241), an independent implementation. */
import referenceCdf from '@stdlib/stats-base-dists-normal-cdf';
import referenceQuantile from '@stdlib/stats-base-dists-normal-quantile';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile } from '../../src/statistics/normal.ts';

describe('normal distribution against an independent library', () => {
  const grid = Array.from({ length: 16_001 }, (_, index) => -8 + index / 1000);

  it('CDF agrees to 1e-9, and in the tails relatively, over z in [-8, 8]', () => {
    for (const z of grid) {
      const reference = referenceCdf(z, 0, 1);
      expect(Math.abs(normalCdf(z) - reference)).toBeLessThan(1e-9);
      expect(Math.abs(normalCdf(z) / reference - 1)).toBeLessThan(1e-9);
    }
  });

  it('quantile agrees to 1e-9 over z in [-5.5, 4]', () => {
    for (const z of grid.filter((each) => each >= -5.5 && each <= 4)) {
      const p = referenceCdf(z, 0, 1);
      expect(Math.abs(normalQuantile(p) - referenceQuantile(p, 0, 1))).toBeLessThan(1e-9);
    }
  });

  it('quantile agrees to 1e-9 over z in [-8, 5] with the inverse of the reference CDF (its own quantile is off by 0.002 at -8)', () => {
    for (const z of grid.filter((each) => each <= 4))
      expect(Math.abs(normalQuantile(referenceCdf(z, 0, 1)) - z)).toBeLessThan(1e-9);
  });

  it('quantile undoes the CDF', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 5, noNaN: true }), (z) => {
        expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 8);
      }),
    );
  });

  it('ends and nonsense', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(1.1)).toBeNaN();
    expect(normalQuantile(Number.NaN)).toBeNaN();
    expect(normalCdf(-40)).toBe(0);
  });
});
