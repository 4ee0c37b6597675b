/** A table read backwards: the value at a percentile is the value that has it. */
import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../src/assessment.ts';
import { compare } from '../../src/scoring/compare.ts';
import { scoreAgainstRow } from '../../src/scoring/methods.ts';
import { candidatesFor } from '../../src/scoring/select.ts';
import { type RowUsed, rowUsed, valueAtPercentile } from '../../src/scoring/value-at-percentile.ts';
import { client, measured, recorded } from '../support/client.ts';
import { definition, evidence, hold, score, table, tenSeconds, walk, women } from './invented.ts';

const at = (row: object, percentile: number, test = walk, protocol: object = {}): number | null => {
  const held = table({ test: test.id }, [{ sex: 'all', age_min: 70, age_max: 79, ...row }], protocol);
  const [part] = held.parts;
  const [first] = part?.rows ?? [];
  if (first === undefined) throw new Error('no row');
  return valueAtPercentile({ table: held, row: first }, percentile, { test, client: client({ heightCm: 160 }) });
};

describe('the value at a percentile', () => {
  it('is the printed value where the percentile is printed', () => {
    const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };
    expect(at(points, 50, hold)).toBe(10);
    // quicker is better: the worst quarter takes 12 s and more
    expect(at(points, 25.4)).toBeCloseTo(12, 1);
    expect(at(points, 74.6, hold)).toBeCloseTo(12, 1);
  });
  it('has that percentile, in between as well', () => {
    const points = { percentiles: { p10: 5, p50: 10, p90: 22 } };
    for (const percentile of [15, 30, 50, 80]) {
      const value = at(points, percentile, hold) ?? Number.NaN;
      const [part] = table({ test: 'hold' }, [{ sex: 'all', age_min: 70, age_max: 79, ...points }]).parts;
      const [row] = part?.rows ?? [];
      if (row === undefined) throw new Error('no row');
      const back = scoreAgainstRow(row, {
        value,
        better: 'higher',
        isTime: true,
        range: { lowest: 0, highest: 100 },
        client: { age: 74, sex: 'female' },
        unit: 's',
      });
      expect(back.percentile).toBeCloseTo(percentile, 0);
    }
  });
  it('a mean and its SD: 16 % of a log-normal time of 10 ± 2 s take longer than 11.9 s', () => {
    // sigma = sqrt(ln 1.04) = 0.19804, mu = ln 10 - 0.01961; exp(mu + sigma x 0.9945) = 11.94 at the 16th percentile
    expect(at({ mean: 10, sd: 2 }, 16)).toBeCloseTo(11.94, 1);
    expect(at({ mean: 10, sd: 2 }, 50, definition({ kind: 'count' }))).toBe(10);
  });
  it('is not given outside the printed points, nor where nothing is printed', () => {
    const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };
    expect(at(points, 10)).toBeNull();
    expect(at(points, 90)).toBeNull();
    expect(at(points, 10, hold)).toBeNull();
    expect(at({ mean: 10 }, 50)).toBeNull();
    expect(at({ shares: { marks: [10], percents: [40, 60] } }, 40, hold)).toBeNull();
  });
  it("takes the table's own ceiling for the end of what is possible", () => {
    expect(at({ mean: 10, sd: 2 }, 50, definition({ kind: 'count' }), { ceiling: 13 })).toBeNull();
    expect(at({ mean: 10, sd: 2 }, 50, definition({ kind: 'count' }), { ceiling: 14 })).toBe(10);
  });
  it('asks an equation for this client: 20 - 0.1 x 74 + 0.05 x 160 = 20.6', () => {
    const equation = {
      intercept: 20,
      terms: [
        { term: 'age_years', coefficient: -0.1 },
        { term: 'height_cm', coefficient: 0.05 },
      ],
      residual_sd: 2,
      lower_limit: null,
    };
    expect(at({ equation }, 50, definition({ kind: 'count' }))).toBeCloseTo(20.6, 1);
  });
  it('goes to one decimal more than the test is timed to', () => {
    const points = { percentiles: { p25: 8.123, p75: 12.123 } };
    expect(at(points, 50, definition({ decimals: 0 }))).toBe(10.1);
    expect(at(points, 50, definition({ decimals: 1 }))).toBe(10.12);
  });
  it('looks no further than what is possible', () => {
    const points = { percentiles: { p25: 8, p50: 10, p75: 12 } };
    expect(at(points, 50, definition({ impossible: { below: 0, above: 9, why: 'x' } }))).toBeNull();
    expect(at(points, 50, definition({ impossible: { below: 11, above: 60, why: 'x' } }))).toBeNull();
    expect(at({ percentiles: { p25: 80, p75: 1200 } }, 50, definition({ impossible: { why: 'x' } }))).toBe(640);
  });
});

describe('the row of a comparison', () => {
  const parts = [
    { id: 'by_sex', location: 'Table 1', rows: [women, { ...women, sex: 'male' }] },
    { id: 'older', location: 'Table 2', rows: [{ ...women, sex: 'all', age_min: 80, age_max: 99, side: 'right' }] },
  ];
  const held = evidence(
    { tables: [table({ source: 'beta-2021' }, [{ ...women, sex: 'all' }]), table({ parts }, [])] },
    { walk: [{ source: 'alpha-2020' }] },
  );
  const found = (comparison: Comparison | undefined, test = 'walk'): RowUsed | null =>
    comparison === undefined ? null : rowUsed(held, test, comparison);
  it('is that of its source, its part and its band', () => {
    const [own, other] = score(held, recorded('walk', 9)).comparisons;
    expect(found(own)).toMatchObject({ table: { source: 'alpha-2020' }, row: { sex: 'female', age_min: 70 } });
    expect(found(other)).toMatchObject({ table: { source: 'beta-2021' }, row: { sex: 'all' } });
    const [man] = score(held, recorded('walk', 9), { sex: 'male' }).comparisons;
    expect(found(man)?.row.sex).toBe('male');
    const [older] = score(held, recorded('walk', measured(9), 'right'), { age: 85 }).comparisons;
    expect(found(older)?.row.age_min).toBe(80);
  });
  it('of two tables of one source is that with the part', () => {
    const split = (id: string, sex: string) => table({ parts: [{ id, location: 'x', rows: [{ ...women, sex }] }] }, []);
    const two = evidence({ tables: [split('men', 'male'), split('women', 'female')] }, { walk: [{ source: 'alpha-2020' }] });
    const [own] = score(two, recorded('walk', 9)).comparisons;
    expect(own === undefined ? null : rowUsed(two, 'walk', own)?.row.sex).toBe('female');
  });
  it('is none where the evidence at hand has another', () => {
    const [own] = score(held, recorded('walk', 9)).comparisons;
    if (own === undefined) throw new Error('no comparison');
    expect(found(own, 'hold')).toBeNull();
    expect(found({ ...own, source: 'gamma-2022' })).toBeNull();
    expect(found({ ...own, part: 'older' })).toBeNull();
    expect(found({ ...own, part: 'gone' })).toBeNull();
    expect(found({ ...own, band: { ...own.band, age_max: 78 } })).toBeNull();
  });
});

describe('what a result can be', () => {
  const row = { sex: 'female', age_min: 70, age_max: 79, mean: 9, sd: 1 };
  const percentile = (test: typeof walk, more: object = {}): number | null => {
    const held = evidence(
      { tests: [test], tables: [table({ test: test.id }, [row], more)] },
      { [test.id]: [{ source: 'alpha-2020' }] },
    );
    const [candidate] = candidatesFor(
      held,
      { client: client(), lungCondition: null },
      {
        test: test.id,
        side: null,
        strongerSide: null,
        trials: 1,
        ceiling: undefined,
        ceilingReached: false,
        course: undefined,
      },
    );
    if (candidate === undefined) throw new Error('no candidate');
    return compare(candidate, { test, client: client(), bands: held.defaults.standing, measured: measured(9) }).percentile;
  };
  const limited = (kind: string) =>
    definition({ id: 'limited', kind, better: 'higher', impossible: { below: 0, above: 10, why: 'x' } });
  it('ends at the top of a scale of points or per cent, so that a mean near it is no bell', () => {
    for (const kind of ['score', 'percent', 'stage']) expect(percentile(limited(kind))).toBeNull();
    for (const kind of ['time', 'count']) expect(percentile(limited(kind))).not.toBeNull();
  });
  it("ends at the table's own ceiling", () => {
    expect(percentile(tenSeconds, { ceiling: 10 })).toBeNull();
    expect(percentile(tenSeconds, { ceiling: 12 })).not.toBeNull();
  });
});
