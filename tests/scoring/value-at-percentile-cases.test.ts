/** A printed percentile asked for exactly, at the end of what is printed and where two of them share a value. Invented tables. */
import { describe, expect, it } from 'vitest';
import { hold } from './invented.ts';
import { valueAt } from './one-row.ts';

describe('the best percentile that is printed', () => {
  const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };
  it('has the value printed for it, though past it the table says only "at least"', () => {
    expect(valueAt(points, 75, hold)).toBe(12);
    // of a time the shortest is best: a quarter of the people take 8 s or less
    expect(valueAt(points, 75)).toBe(8);
  });
});

describe('two printed percentiles that share a value', () => {
  it('do not hide the value of the lower one, from which every better result goes on', () => {
    // half of the people hold less than 10 s, and a quarter exactly 10 s
    expect(valueAt({ percentiles: { p25: 8, p50: 10, p75: 10, p90: 14 } }, 50, hold)).toBe(10);
  });
});
