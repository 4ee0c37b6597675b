/** One row against one result: what a ceiling, a stopped watch, a coarse print or an unable client leave to say. Invented tables. */
import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../src/assessment.ts';
import type { Reading } from '../../src/session.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { definition, evidence, hold, score, table, tenSeconds, walk } from './invented.ts';

const BAND = { sex: 'all', age_min: 70, age_max: 79 };
const points = { percentiles: { p5: 4, p25: 8, p75: 12, p95: 16 } };

function compared(
  row: object,
  reading: Reading | number,
  { test = hold, over = {}, protocol = {} }: { test?: typeof walk; over?: object; protocol?: object } = {},
): Comparison {
  const held = evidence(
    { tests: [test], tables: [table({ test: test.id, ...over }, [{ ...BAND, ...row }], protocol)] },
    { [test.id]: [{ source: 'alpha-2020' }] },
  );
  const [found] = score(held, recorded(test.id, reading)).comparisons;
  if (found === undefined) throw new Error('no comparison');
  return found;
}

describe('the band in words', () => {
  const words = (band: object) => compared({ ...points, ...band }, 10).working.row;
  it('names sex and ages', () => {
    expect(words({ sex: 'female' })).toBe('alpha-2020, Table 1, women 70-79');
    expect(words({})).toBe('alpha-2020, Table 1, both sexes 70-79');
    expect(words({ age_max: null })).toBe('alpha-2020, Table 1, both sexes 70 and over');
    expect(words({ age_min: null })).toBe('alpha-2020, Table 1, both sexes up to 79');
    expect(words({ age_min: null, age_max: null })).toBe('alpha-2020, Table 1, both sexes all ages');
  });
  it('men are men', () => {
    const held = evidence({ tables: [table({}, [{ ...BAND, ...points, sex: 'male' }])] }, { walk: [{ source: 'alpha-2020' }] });
    expect(score(held, recorded('walk', 10), { sex: 'male' }).comparisons[0]?.working.row).toBe('alpha-2020, Table 1, men 70-79');
  });
  it('a stratum beside age and sex stands in the band, and nothing that the row does not say', () => {
    expect(compared({ ...points, language: 'en' }, 10).band).toEqual({ ...BAND, language: 'en' });
    expect(Object.keys(compared(points, 10).band)).toEqual(['sex', 'age_min', 'age_max']);
  });
});

describe('a client who was unable', () => {
  it('is well below wherever the row has a spread', () => {
    for (const row of [points, { mean: 10, sd: 2 }, { shares: { marks: [5, 10], counts: [10, 20, 70] } }]) {
      const found = compared(row, unable);
      expect(found).toMatchObject({ standing: 'well_below', value: null, no_standing_because: null });
      expect(found.notes).toEqual(['unable counts as the worst result']);
    }
  });
  it('of a single mark it is said that the client lies beyond it, as far as that goes', () => {
    const one = (share: number) => compared({ shares: { marks: [10], percents: [share, 100 - share] } }, unable);
    expect(one(4)).toMatchObject({ standing: 'well_below', percentile: 4, percentile_bound: 'at_most' });
    expect(one(20)).toMatchObject({ standing: 'below', no_standing_because: null });
    expect(one(60)).toMatchObject({ standing: null });
    expect(one(60).no_standing_because).toContain('worse than the worst published mark (60 % of people are below it)');
  });
  it('has no standing where the row has no spread', () => {
    expect(compared({ mean: 10 }, unable)).toMatchObject({ standing: null, percentile: null, against_mean: 'worse' });
    expect(compared({ mean: 10 }, unable).no_standing_because).toContain('without the spread');
  });
});

describe("the test's own ceiling", () => {
  const full = (row: object) => compared(row, 10, { test: tenSeconds });
  const NOTE = (share: string) => `stopped at the test's own ceiling: ${share}, the test cannot tell them apart`;
  it('is expected, with the share that reaches it as far as it is known', () => {
    // 20 of 10 + 20 + 20 people, and one in no cell
    const counted = full({ shares: { marks: [3, 10], counts: [10, 20, 20] } });
    expect(counted).toMatchObject({ standing: 'expected' });
    expect(counted.notes).toEqual([NOTE('40 % of the group reach it')]);
    expect(full({ ...points, percent_at_ceiling: 83 }).notes).toEqual([NOTE('83 % of the group reach it')]);
    expect(full(points).notes).toEqual([NOTE('many people reach it')]);
  });
  it('is above only where the table says so', () => {
    expect(full({ percentiles: { p25: 3, p75: 6, p95: 8 } }).standing).toBe('above');
    expect(full(points).standing).toBe('expected');
    expect(full({ percentiles: { p5: 9.9, p25: 12 } }).standing).toBe('expected');
  });
  it('one step below it is an ordinary result', () => {
    const found = compared(points, 9.9, { test: tenSeconds });
    expect(found).toMatchObject({ percentile_bound: 'exact', standing: 'expected' });
    expect(found.notes).toEqual([]);
  });
  it('ends no walk: slower than a limit is not the best', () => {
    const limited = definition({ id: 'ten', ceiling: 10 });
    const found = compared(points, 10, { test: limited });
    expect(found.notes.join()).not.toContain('own ceiling');
  });
  it('a count at a printed mark becomes "at least", a printed point does not', () => {
    const bare = definition({ id: 'ten', better: 'higher', ceiling: 10, kind: 'count' });
    const at = (row: object) => compared(row, measured(10, { ceiling: 99 }), { test: bare }).percentile_bound;
    expect(at({ shares: { marks: [3, 10], counts: [10, 20, 20] } })).toBe('at_least');
    expect(at(points)).toBe('exact');
  });
});

describe('a watch stopped early', () => {
  const stopped = (row: object, seconds: number, test = hold) => compared(row, measured(seconds, { ceiling: seconds }), { test });
  it('a hold is at least this good', () => {
    expect(stopped(points, 10)).toMatchObject({ percentile: 50, percentile_bound: 'at_least', standing: 'expected' });
    expect(stopped(points, 13)).toMatchObject({ percentile_bound: 'at_least', standing: 'above' });
    expect(stopped(points, 6)).toMatchObject({ percentile_bound: 'at_least', standing: null });
    expect(stopped(points, 6).no_standing_because).toContain('not among the lowest');
    expect(stopped(points, 20)).toMatchObject({ percentile: 95, percentile_bound: 'at_least', standing: 'above' });
  });
  it('a walk is at most this good', () => {
    expect(stopped(points, 10, walk)).toMatchObject({ percentile_bound: 'at_most', standing: null });
    expect(stopped(points, 14, walk)).toMatchObject({ percentile_bound: 'at_most', standing: 'below' });
    expect(stopped(points, 20, walk)).toMatchObject({ percentile: 5, percentile_bound: 'at_most', standing: 'well_below' });
  });
  it('beyond the printed marks on the open side nothing is left to say', () => {
    const nothing = {
      percentile: null,
      percentile_bound: null,
      standing: null,
      no_standing_because: 'the watch was stopped before the worst published mark',
    };
    expect(stopped(points, 3)).toMatchObject(nothing);
    expect(stopped(points, 3, walk)).toMatchObject(nothing);
  });
  it('leaves the side of the mean open where more time could change it', () => {
    const mean = { mean: 10 };
    expect(stopped(mean, 9).against_mean).toBeNull();
    expect(stopped(mean, 11).against_mean).toBe('not_worse');
    expect(stopped(mean, 9, walk).against_mean).toBeNull();
    expect(stopped(mean, 11, walk).against_mean).toBe('worse');
    expect(compared(mean, 9).against_mean).toBe('worse');
    expect(stopped(mean, 9).percentile).toBeNull();
    expect(stopped(mean, 9).no_standing_because).toContain('without the spread');
  });
});

describe('an SD that is printed coarsely', () => {
  const coarse = (reading: Reading | number, test = hold, row: object = { mean: 1, sd: 0.2 }) =>
    compared(row, reading, { test: { ...test, kind: 'count' }, over: { sd_rounding: 0.05 } });
  const SAID = 'the SD is printed to 0.05 only, too coarse for a percentile';
  // mean 1, SD between 0.15 and 0.25. 0.87: z -0.87 or -0.52, percentile 19 or 30. 0.75: z -1.67 or -1, percentile 4.8 or 16
  it('gives a standing only where both ends of its rounding agree, and never a number', () => {
    const found = (value: number) => coarse(value);
    for (const [value, standing] of [
      [1, 'expected'],
      [0.87, null],
      [0.8, 'below'],
      [0.75, null],
      [0.5, 'well_below'],
      [1.14, null],
      [1.3, 'above'],
    ] as const) {
      expect(found(value)).toMatchObject({ standing, percentile: null, percentile_bound: null, z: null, notes: [SAID] });
      expect(found(value).no_standing_because).toBe(standing === null ? SAID : null);
    }
  });
  it('a spread that is no bell at one end of it gives none', () => {
    for (const value of [0.1, 0.45, 1]) expect(coarse(value, hold, { mean: 0.45, sd: 0.2 })).toMatchObject({ standing: null });
  });
  it('says nothing of a row without SD, and nothing new of the unable', () => {
    expect(coarse(1, hold, points).notes).toEqual([]);
    expect(coarse(10, hold, { ...points, mean: 10, sd: 2 })).toMatchObject({ percentile: 50, notes: [] });
    expect(coarse(10, hold, points)).toMatchObject({ percentile: 50, standing: 'expected' });
    expect(coarse(unable)).toMatchObject({ standing: 'well_below', notes: ['unable counts as the worst result'] });
    expect(coarse(1, hold, { mean: 1 }).no_standing_because).toContain('without the spread');
  });
  it('of a watch stopped early it gives only what more time could not take back', () => {
    const stopped = (value: number, test = hold) => coarse(measured(value, { ceiling: value }), test).standing;
    expect([0.5, 0.8, 1, 1.3].map((value) => stopped(value))).toEqual([null, null, 'expected', 'above']);
    expect([0.5, 1, 1.2, 1.5].map((value) => stopped(value, walk))).toEqual([null, null, 'below', 'well_below']);
    expect(coarse(measured(0.5, { ceiling: 0.5 })).notes).toEqual([SAID]);
    expect(coarse(measured(0.5, { ceiling: 0.5 })).no_standing_because).toBe(
      'the watch was stopped before the standing was decided',
    );
  });
});

describe('a part that its table declares to be for orientation only', () => {
  it('gives no number and says why', () => {
    const part = {
      id: 'main',
      location: 'Table 1',
      rows: [{ ...BAND, mean: 10, sd: 2 }],
      no_standing_because: 'adults of 21 to 80 together',
    };
    expect(compared({}, 10, { over: { parts: [part] } })).toMatchObject({
      percentile: null,
      percentile_bound: null,
      z: null,
      approximate: false,
      standing: null,
      no_standing_because: 'adults of 21 to 80 together',
      expected: 10,
    });
  });
});

describe('what else stands in a comparison', () => {
  it('the notes of table and row, the status of the row where it has its own', () => {
    const found = compared({ ...points, note: 'few men', status: 'abstract' }, 10, { over: { notes: ['volunteers'] } });
    expect(found).toMatchObject({ notes: ['volunteers', 'few men'], status: 'abstract', no_standing_because: null });
    expect(compared(points, 10)).toMatchObject({ notes: [], status: 'full-text' });
    const athletes = { population: { description: 'athletes', kind: 'athletic' } };
    expect(compared(points, 10, { over: athletes })).toMatchObject({ notes: [], standing: null });
  });
  it('the rule for trials, of the table where it says one, else of the catalogue', () => {
    expect(compared(points, measured([8, 12]), { protocol: { trials_rule: 'mean' } })).toMatchObject({
      value: 10,
      trials_rule: 'mean',
    });
    expect(compared(points, measured([8, 12]), { protocol: { trials_rule: 'first' } })).toMatchObject({
      value: 8,
      trials_rule: 'first',
    });
    expect(compared(points, measured([8, 12]))).toMatchObject({ value: 12, trials_rule: 'best' });
  });
});
