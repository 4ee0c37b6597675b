/** The value at a percentile that the table itself prints is the printed value, at its worst mark as well. */
import { describe, expect, it } from 'vitest';
import { valueAtPercentile } from '../../src/scoring/value-at-percentile.ts';
import { client } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { hold } from './invented.ts';
import { valueAt } from './one-row.ts';

const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };

describe('an invented table', () => {
  it('gives its ends, whichever way is better', () => {
    expect([valueAt(points, 25, hold), valueAt(points, 75, hold), valueAt(points, 25), valueAt(points, 75)]).toEqual([
      8, 12, 12, 8,
    ]);
  });
  it('says nothing beyond them', () => {
    expect([valueAt(points, 24, hold), valueAt(points, 76, hold), valueAt(points, 24), valueAt(points, 76)]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(valueAt({ shares: { marks: [10], percents: [40, 60] } }, 40, hold)).toBeNull();
  });
});

/** Percentiles as printed in the source of each table (norms/tables, held against the papers by tests/published). */
const evidence = testEvidence();
const printed = evidence.tables.flatMap((held) =>
  held.parts.flatMap(({ rows }) =>
    rows.flatMap((row) =>
      Object.entries(row.percentiles ?? {}).flatMap(([name, value]) =>
        typeof value === 'number' ? [{ held, row, percentile: Number(name.slice(1).replace('_', '.')), value }] : [],
      ),
    ),
  ),
);

describe('every table with percentiles', () => {
  it('has some', () => {
    expect(printed.length).toBeGreaterThan(400);
  });
  it('gives each printed point back, unless another percentile of the row has the same value', () => {
    const wrong = printed.flatMap(({ held, row, percentile, value }) => {
      const test = evidence.testById.get(held.test);
      const twins = Object.values(row.percentiles ?? {}).filter((other) => other === value).length > 1;
      if (test === undefined || twins) return [];
      const sex = row.sex === 'male' ? 'male' : 'female';
      // Where slow times have the high percentiles in print, the percentile of the performance is what is left to 100.
      const [first = 0, last = 0] = [Object.values(row.percentiles ?? {}).at(0), Object.values(row.percentiles ?? {}).at(-1)];
      const asked = test.better === 'lower' && first < last ? 100 - percentile : percentile;
      const found = valueAtPercentile({ table: held, row }, asked, { test, client: client({ sex }) });
      return found !== null && Math.abs(found - value) < 1e-6 * Math.max(1, value)
        ? []
        : [`${held.source} ${row.sex} ${row.age_min}: p${percentile} ${value}, not ${found}`];
    });
    expect(wrong).toEqual([]);
  });
});
