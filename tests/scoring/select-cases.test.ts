/** Which rows hold a client and which of them is taken, case by case; and the conditions of an entry of the defaults. Invented. */
import { describe, expect, it } from 'vitest';
import type { Row } from '../../src/evidence/schema/table.ts';
import { askedOf } from '../../src/scoring/score-test.ts';
import { candidatesFor, holdsHeight, holdsSexAndSetting, holdsSide } from '../../src/scoring/select.ts';
import type { Client, Measured } from '../../src/session.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { choice, people, ROW } from './choice.ts';
import { evidence, table } from './invented.ts';

const row = (over: object): Row => {
  const [part] = table({}, [{ ...ROW, ...over }]).parts;
  const [first] = part?.rows ?? [];
  if (first === undefined) throw new Error('no row');
  return first;
};

describe('whom a row holds', () => {
  it('a mixed setting holds everybody, another only its own', () => {
    for (const setting of ['community', 'residential_care', 'hospital'] as const) {
      expect(holdsSexAndSetting(row({ setting: 'mixed' }), client({ setting }))).toBe(true);
      expect(holdsSexAndSetting(row({ setting: 'hospital' }), client({ setting }))).toBe(setting === 'hospital');
    }
  });
  it('a stronger side only where one is known', () => {
    const stronger = row({ side: 'stronger' });
    expect(holdsSide(stronger, null, null)).toBe(false);
    expect(holdsSide(stronger, 'left', null)).toBe(false);
    expect(holdsSide(stronger, null, 'left')).toBe(false);
    expect(holdsSide(stronger, 'left', 'left')).toBe(true);
    expect(holdsSide(row({}), null, null)).toBe(true);
  });
  it('a band of height nobody whose height is not recorded, open to either end or not', () => {
    const bands = [{ height_min_cm: 150 }, { height_max_cm: 160 }, { height_min_cm: 150, height_max_cm: 160 }, {}];
    const held = (heightCm: number | undefined) => bands.map((band) => holdsHeight(row(band), heightCm));
    expect(held(undefined)).toEqual([false, false, false, true]);
    expect(held(149)).toEqual([false, true, false, true]);
    expect(held(150)).toEqual([true, true, true, true]);
    expect(held(160)).toEqual([true, true, true, true]);
    expect(held(161)).toEqual([true, false, false, true]);
  });
  it('a row of another stance or group is compared with nobody', () => {
    for (const stratum of [{ stance: 'wide' }, { group: 'fallers' }])
      expect(choice([table({}, [{ ...ROW, ...stratum }])]).comparisons).toEqual([]);
  });
});

describe('which of several rows of a part', () => {
  const bands = (rows: object[], who: Partial<Client> = {}) =>
    choice(
      [
        table(
          {},
          rows.map((each) => ({ ...ROW, ...each })),
        ),
      ],
      { who },
    ).comparisons.map(({ band }) => `${band.sex} ${band.age_min}-${band.age_max}`);
  it('the narrowest, wherever it stands, by the years between its ends', () => {
    const [wide, narrow] = [{ age_min: 60, age_max: 99 }, {}];
    expect(bands([wide, narrow])).toEqual(['female 70-79']);
    expect(bands([narrow, wide])).toEqual(['female 70-79']);
    // 70 to 79 is nine years, 74 to 90 sixteen, though 79 is the earlier end
    expect(bands([{ age_min: 74, age_max: 90 }, narrow])).toEqual(['female 70-79']);
    expect(bands([{ sex: 'all', ...narrow }, wide])).toEqual(['all 70-79']);
  });
  it('an open end is far off: 70 and over is narrower than no limits, wider than 70 to 79', () => {
    expect(bands([{ age_min: null, age_max: null }, { age_max: null }])).toEqual(['female 70-null']);
    expect(bands([{ age_max: null }, {}])).toEqual(['female 70-79']);
    expect(bands([{ age_min: null }, {}])).toEqual(['female 70-79']);
  });
  it('of two of the same width and sex the first', () => {
    expect(bands([{}, { age_min: 72, age_max: 81 }])).toEqual(['female 70-79']);
    expect(bands([{ sex: 'all' }, { sex: 'all', age_min: 72, age_max: 81 }])).toEqual(['all 70-79']);
  });
  it('with sex not recorded one of each sex', () => {
    const both = [{}, { sex: 'male' }, { age_min: 72, age_max: 81 }];
    expect(bands(both, { sex: 'not recorded' })).toEqual(['female 70-79', 'male 70-79']);
    expect(bands([{}, { sex: 'all' }], { sex: 'not recorded' }).sort()).toEqual(['all 70-79', 'female 70-79']);
  });
});

describe('what is said of how the test was done', () => {
  const said = (protocol: object, reading: Parameters<typeof recorded>[1]) =>
    candidatesFor(
      evidence({ tables: [table({}, [ROW], protocol)] }),
      { client: client(), lungCondition: null },
      askedOf(recorded('walk', reading), null),
    ).map(({ mismatches, protocolConflicts }) => [...mismatches, protocolConflicts]);
  it('nothing of what only one of the two says', () => {
    const all = { ceiling: 30, chair_cm: 43, start: 'standing', distance_m: 4 };
    expect(said(all, measured(9))).toEqual([[0]]);
    expect(said({}, measured(9, { ceiling: 30, chairCm: 43, course: { start: 'standing', distanceM: 4 } }))).toEqual([[0]]);
    expect(said({ trials_rule: 'best' }, measured(9))).toEqual([[0]]);
  });
  it('nothing of the number of trials where there was none', () => {
    const two = { trials: 2, trials_rule: 'best' };
    expect(said(two, unable)).toEqual([[0]]);
    expect(said(two, measured(9))).toEqual([['table takes the best of 2, recorded here: 1', 0]]);
  });
  it('another start counts against the table', () => {
    expect(said({ start: 'standing' }, measured(9, { course: { start: 'moving' } }))).toEqual([
      ['table used a standing start, this client a moving start', 1],
    ]);
  });
  it('settings are written as words', () => {
    const hospital = table(people('general', { setting: 'hospital' }), [ROW]);
    expect(choice([hospital], { who: { setting: 'residential_care' } }).comparisons[0]?.mismatches).toEqual([
      'sample: hospital; client: residential care',
    ]);
  });
});

describe('an entry of the defaults', () => {
  const rank = (entry: object, age = 74, course?: Measured['course']) => {
    const held = evidence(
      { tables: [table({}, [ROW])] },
      { walk: [{ source: 'other-2020' }, { source: 'alpha-2020', ...entry }] },
    );
    const asked = askedOf(recorded('walk', measured(9, course === undefined ? {} : { course })), null);
    return candidatesFor(held, { client: client({ age }), lungCondition: null }, asked)[0]?.defaultRank;
  };
  it('names its table, and a part of it', () => {
    expect(rank({})).toBe(1);
    expect(rank({ part: 'main' })).toBe(1);
    expect(rank({ part: 'older' })).toBe(Number.POSITIVE_INFINITY);
    expect(rank({ source: 'gamma-2022' })).toBe(Number.POSITIVE_INFINITY);
  });
  it('may hold from an age only, that age included', () => {
    expect([74, 75, 76].map((age) => rank({ age_min: 75 }, age))).toEqual([Number.POSITIVE_INFINITY, 1, 1]);
  });
  it('may hold for one course only, which must be recorded', () => {
    expect(rank({ distance_m: 4 }, 74, { distanceM: 4 })).toBe(1);
    expect(rank({ distance_m: 4 }, 74, { distanceM: 6 })).toBe(Number.POSITIVE_INFINITY);
    expect(rank({ distance_m: 4 }, 74, { start: 'standing' })).toBe(Number.POSITIVE_INFINITY);
    expect(rank({ distance_m: 4 })).toBe(Number.POSITIVE_INFINITY);
  });
  it('of a test without defaults there is none', () => {
    const asked = askedOf(recorded('walk', 9), null);
    const [only] = candidatesFor(evidence({ tables: [table({}, [ROW])] }), { client: client(), lungCondition: null }, asked);
    expect(only?.defaultRank).toBe(Number.POSITIVE_INFINITY);
  });
});
