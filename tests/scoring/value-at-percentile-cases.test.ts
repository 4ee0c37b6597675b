/** A printed percentile asked for exactly, at the end of what is printed and where two of them share a value. Invented tables. */
import { describe, expect, it } from 'vitest';
import { valueAtPercentile } from '../../src/scoring/value-at-percentile.ts';
import { client } from '../support/client.ts';
import { hold, table, walk } from './invented.ts';

const at = (row: object, percentile: number, test = walk): number | null => {
  const held = table({ test: test.id }, [{ sex: 'all', age_min: 70, age_max: 79, ...row }]);
  const [part] = held.parts;
  const [first] = part?.rows ?? [];
  if (first === undefined) throw new Error('no row');
  return valueAtPercentile({ table: held, row: first }, percentile, { test, client: client() });
};

describe('the best percentile that is printed', () => {
  const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };
  it('has the value printed for it, though past it the table says only "at least"', () => {
    expect(at(points, 75, hold)).toBe(12);
    // of a time the shortest is best: a quarter of the people take 8 s or less
    expect(at(points, 75)).toBe(8);
  });
});

describe('two printed percentiles that share a value', () => {
  it('do not hide the value of the lower one, from which every better result goes on', () => {
    // half of the people hold less than 10 s, and a quarter exactly 10 s
    expect(at({ percentiles: { p25: 8, p50: 10, p75: 10, p90: 14 } }, 50, hold)).toBe(10);
  });
});
