/** Notes that keep a reader from false comfort: the next age band, another source, and who is left out of both. Invented tables. */
import { describe, expect, it } from 'vitest';
import { anyMet } from '../../src/scoring/score-test.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { choice, outside, people, ROW } from './choice.ts';
import { evidence, score, table } from './invented.ts';

// Quicker is better: among these 12.5 s is below, among slower people it is expected.
const SLOWER = { ...ROW, percentiles: { p25: 12, p50: 14, p75: 16 } };
const SLOWEST = { ...ROW, percentiles: { p25: 20, p50: 24, p75: 28 } };

describe('the edge of an age band', () => {
  const notes = (age: number, others: object[], given: object = {}, own: object = {}) => {
    const held = evidence({ tables: [table({}, [{ ...ROW, ...own }, ...others])] }, { walk: [{ source: 'alpha-2020' }] });
    return score(held, recorded('walk', 12.5), { age, ...given }).notes;
  };
  const older = { ...SLOWER, age_min: 80, age_max: 89 };
  const younger = { ...SLOWER, age_min: 60, age_max: 69 };
  const said = (ages: string, standing = 'expected') =>
    `close to the edge of the age band: among women ${ages} the standing would be "${standing}"`;
  it('within a year of it the next band is named where it would change the standing', () => {
    expect([77, 78, 79].map((age) => notes(age, [older]).length)).toEqual([0, 0, 1]);
    expect([70, 71, 72].map((age) => notes(age, [younger]).length)).toEqual([1, 0, 0]);
    expect(notes(79, [older, younger])).toEqual([said('80-89')]);
    expect(notes(70, [older, younger])).toEqual([said('60-69')]);
    expect(notes(79, [{ ...SLOWEST, age_min: 80, age_max: null }])).toEqual([said('80 and over', 'above')]);
    expect(notes(70, [{ ...SLOWER, age_min: null, age_max: 69 }])).toEqual([said('up to 69')]);
  });
  it('with the words of the standing', () => {
    const quicker = { ...ROW, age_min: 80, age_max: 89, percentiles: { p5: 8, p50: 10, p95: 12 } };
    expect(notes(79, [quicker], {}, { percentiles: { p25: 12, p50: 14, p75: 16 } })).toEqual([said('80-89', 'well below')]);
  });
  it('not where the next band says the same, or nothing', () => {
    expect(notes(79, [{ ...ROW, age_min: 80, age_max: 89 }])).toEqual([]);
    expect(notes(79, [{ sex: 'female', age_min: 80, age_max: 89, mean: 20 }])).toEqual([]);
  });
  it('only among people of the same sex, setting and side', () => {
    expect(notes(79, [{ ...older, sex: 'male' }])).toEqual([]);
    expect(notes(79, [{ ...older, sex: 'all' }])).toEqual([]);
    expect(notes(79, [{ ...older, setting: 'hospital' }])).toEqual([]);
    expect(notes(79, [{ ...older, side: 'right' }])).toEqual([]);
  });
});

describe('another source that says otherwise', () => {
  const notes = (over: object, row: object = SLOWER, own: object = ROW) => {
    const held = evidence(
      { tables: [table({}, [own]), table({ source: 'zeta-2020', ...over }, [row])] },
      { walk: [{ source: 'alpha-2020' }] },
    );
    return score(held, recorded('walk', 12.5)).notes;
  };
  it('is named with its standing', () => {
    expect(notes({})).toEqual(['by zeta-2020 the standing would be "expected"']);
    const quick = { ...ROW, percentiles: { p5: 8, p50: 10, p95: 12 } };
    expect(notes({}, quick)).toEqual(['by zeta-2020 the standing would be "well below"']);
  });
  it('not where it agrees, gives no standing, was only recalled or is of other people', () => {
    expect(notes({}, ROW)).toEqual([]);
    expect(notes({}, { sex: 'all', age_min: 60, age_max: 90, mean: 20 })).toEqual([]);
    expect(notes({ status: 'memory' })).toEqual([]);
    expect(notes(people('athletic'))).toEqual([]);
  });
  it('nothing disagrees with a primary table that gives no standing', () => {
    expect(notes({}, SLOWER, { ...ROW, percentiles: undefined, mean: 10 })).toEqual([]);
  });
});

describe('a choice of rows in one part', () => {
  const bands = (rows: object[], who: object = {}) => {
    const held = evidence({ tables: [table({}, rows)] }, { walk: [{ source: 'alpha-2020' }] });
    return score(held, recorded('walk', 9), who).comparisons.map(({ band }) => `${band.sex} ${band.age_min}-${band.age_max}`);
  };
  it('the narrowest band, one row of the own sex, and both where the sex is not recorded', () => {
    const wide = { ...ROW, age_min: 60, age_max: 89 };
    const unknown = { sex: 'not recorded' };
    expect(bands([wide, ROW])).toEqual(['female 70-79']);
    expect(bands([ROW, ROW])).toEqual(['female 70-79']);
    expect(bands([ROW, { ...ROW, sex: 'male' }, wide], unknown)).toEqual(['female 70-79', 'male 70-79']);
    expect(bands([ROW, ROW, { ...ROW, sex: 'male' }], unknown)).toEqual(['female 70-79', 'male 70-79']);
    expect(bands([{ ...ROW, sex: 'all' }, ROW])).toEqual(['female 70-79']);
  });
  it('a row of a mixed setting holds everybody, one of a stance nobody', () => {
    expect(bands([{ ...ROW, setting: 'mixed' }])).toHaveLength(1);
    expect(bands([{ ...ROW, setting: 'hospital' }])).toHaveLength(0);
    expect(bands([{ ...ROW, stance: 'wide' }])).toHaveLength(0);
    expect(bands([{ ...ROW, group: 'fallers' }])).toHaveLength(0);
  });
  it('a row for a height holds nobody whose height is not known', () => {
    expect(bands([{ ...ROW, height_max_cm: 170 }])).toHaveLength(0);
    expect(bands([{ ...ROW, height_max_cm: 170 }], { heightCm: 160 })).toHaveLength(1);
  });
  it('a row of the stronger side holds no test without sides', () => {
    expect(bands([{ ...ROW, side: 'stronger' }])).toHaveLength(0);
  });
});

describe('which defaults are meant for a client', () => {
  const primary = (entry: object, age = 74, distanceM?: number) => {
    const held = evidence({ tables: [table({}, [ROW])] }, { walk: [{ source: 'alpha-2020', ...entry }] });
    const reading = measured(9, distanceM === undefined ? {} : { course: { distanceM } });
    return score(held, recorded('walk', reading), { age }).comparisons.some((each) => each.primary);
  };
  it('from an age on, the age itself included', () => {
    expect([73, 74, 75].map((age) => primary({ age_min: 74 }, age))).toEqual([false, true, true]);
  });
  it('for a course that was walked, or for any', () => {
    expect(primary({ distance_m: 4 }, 74, 4)).toBe(true);
    expect(primary({ distance_m: 4 }, 74, 6)).toBe(false);
    expect(primary({ distance_m: 4 })).toBe(false);
    expect(primary({}, 74, 6)).toBe(true);
  });
  it('for one part of a table, or for all of it', () => {
    expect(primary({ part: 'main' })).toBe(true);
    expect(primary({ part: 'other' })).toBe(false);
  });
  it('a test without defaults has no primary table', () => {
    expect(score(evidence({ tables: [table({}, [ROW])] }), recorded('walk', 9)).comparisons.map((each) => each.primary)).toEqual([
      false,
    ]);
  });
});

describe('what is left', () => {
  it('the reason of a default stands behind the choice', () => {
    const held = evidence(
      { tables: [table({}, [ROW])] },
      { walk: [{ source: 'alpha-2020', why: 'largest' } as { source: string }] },
    );
    expect(score(held, recorded('walk', 9)).selection?.because).toBe('it is the only table that fits this client; largest');
  });
  it('a flag is raised by any mark that is met, and is not known where none could be decided', () => {
    expect(anyMet([false, true, null])).toBe(true);
    expect(anyMet([false, null])).toBe(false);
    expect(anyMet([null, null])).toBeNull();
    expect(anyMet([])).toBeNull();
  });
  it('trials are shown to 0.001, none where the client was unable', () => {
    const held = evidence({});
    expect(score(held, recorded('walk', measured([9.12345, 10]))).trials).toEqual([9.123, 10]);
    expect(score(held, recorded('walk', unable)).trials).toEqual([]);
    expect(score(held, recorded('walk', unable))).toMatchObject({ at_least: false, outcome: 'unable', notes: [] });
  });
  it('a reason for no comparison stands only where there is none', () => {
    expect(score(evidence({ tables: [table({}, [ROW])] }), recorded('walk', 9)).no_comparison_because).toBeNull();
    expect(choice([table({}, [{ ...ROW, sex: 'male' }])], outside).no_comparison_because).toContain('a female client of 74');
    const two = [table({}, [{ ...ROW, sex: 'male' }]), table({ source: 'zeta-2020' }, [{ ...ROW, age_min: 80, age_max: 89 }])];
    expect(choice(two).no_comparison_because).toContain(
      '(alpha-2020: its rows are of men only; zeta-2020: it covers the ages 80 to 89)',
    );
    const unknown = choice([table({}, [{ ...ROW, age_min: 80, age_max: 89 }])], { who: client({ sex: 'not recorded' }) });
    expect(unknown.no_comparison_because).toContain('for age 74, sex not recorded (alpha-2020: it covers the ages 80 to 89)');
  });
  it('of both sexes none is named as the only one', () => {
    const rows = [
      { ...ROW, sex: 'male' },
      { ...ROW, sex: 'all', age_min: 80, age_max: 89 },
    ];
    expect(choice([table({}, rows)]).selection?.do_not_fit[0]?.because).toBe('it covers the ages 80 to 89');
  });
});
