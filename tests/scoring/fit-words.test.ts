/** Why a table was chosen and why another was not, in words. Invented tables. */
import { describe, expect, it } from 'vitest';
import type { TableFile } from '../../src/evidence/schema/table.ts';
import type { Client } from '../../src/session.ts';
import { A, choice, type Given, outside, pair, people, ROW, Z } from './choice.ts';
import { table } from './invented.ts';

describe('words for the choice', () => {
  const because = (tables: TableFile[], given?: Given) => choice(tables, given).selection?.because;
  it('alone, without any default, and with nothing at all', () => {
    const [one, two] = pair({}, {}) as [TableFile, TableFile];
    expect(because([one])).toBe('it is the only table that fits this client');
    expect(because([one], outside)).toBe('no default table fits this client');
    expect(choice([one, two], outside).selection?.also_fit.map((each) => each.because)).toEqual([
      'not a default table of this test',
      'not a default table of this test',
    ]);
    const risky = table(people('at_risk'), [ROW]);
    expect(choice([risky]).selection?.also_fit[0]?.because).toBe('a default table, but it can decide nothing here');
  });
  it('one that fits better and gives no standing is passed over, and said to be so', () => {
    const mean = table({ source: A }, [{ sex: 'female', age_min: 70, age_max: 79, mean: 10 }]);
    const { selection } = choice([mean, table({ source: Z }, [ROW])]);
    expect(selection).toMatchObject({
      chosen: Z,
      because: `it is the only one that gives a standing; ${A} fits better but gives no standing: the source prints a mean without the spread of people, so no percentile can be given`,
      also_fit: [{ source: A, because: 'fits better but gives no standing' }],
    });
  });
  it('a wish for a country that nothing can meet', () => {
    const [norway, other] = pair(people('general', { country: ['NO'] }), people('general', { country: ['US'] })) as [
      TableFile,
      TableFile,
    ];
    const third = table({ source: 'nu-2020', ...people('general', { country: ['NO'] }) }, [ROW]);
    const notes = (tables: TableFile[], given: Given) =>
      choice(tables, { country: 'NO', ...given }).notes.filter((note) => note.includes('from NO'));
    expect(notes([norway, other, third], { defaults: [Z] })).toEqual([
      `from NO there is ${A}, nu-2020, shown beside; not a default table with a standing here (your own defaults.yaml can make it one)`,
    ]);
    expect(notes([other], {})).toEqual(['no table from NO has a row for this client']);
    expect(choice([norway], { country: 'NO' }).notes).toEqual([]);
    expect(notes([other], { who: { age: 90 } })).toEqual([]);
  });
  it('a table of several parts is named with its part', () => {
    const parts = [
      { id: 'one', location: 'x', rows: [ROW] },
      { id: 'two', location: 'x', rows: [{ ...ROW, age_max: 80 }] },
    ];
    expect(because([table({ parts }, [])])).toBe(`before ${A} (two) because its age band is narrower`);
  });
  it('only what both protocols say and say differently keeps tables apart', () => {
    const differences = (worse: object, better: object) =>
      choice(pair({}, {}, {}, { worse, better }), { defaults: [Z] }).selection?.also_fit[0]?.because.split('; ')[1];
    const said = (words: string) => `not comparable with ${Z}: ${words}`;
    expect(differences({ ceiling: 30, pace: 'usual' }, { ceiling: 45, pace: 'usual', start: 'moving' })).toBe(
      said('ceiling (s) 30, there 45'),
    );
    expect(differences({ trials_rule: 'best' }, { trials_rule: 'unknown' })).toBeUndefined();
    expect(differences({ trials_rule: 'unknown' }, { trials_rule: 'best' })).toBeUndefined();
    expect(
      differences(
        {
          trials_rule: 'best',
          pace: 'usual',
          distance_m: 4,
          start: 'moving',
          arms: 'crossed',
          chair_cm: 43,
          watch_stop: 'sitting',
        },
        {
          trials_rule: 'mean',
          pace: 'fast',
          distance_m: 6,
          start: 'standing',
          arms: 'allowed',
          chair_cm: 46,
          watch_stop: 'standing',
        },
      ),
    ).toBe(
      said(
        'trial that counts best, there mean, pace usual, there fast, distance (m) 4, there 6, start moving, there standing, arms crossed, there allowed, chair height (cm) 43, there 46, stop of the watch sitting, there standing',
      ),
    );
  });
  it('rows that no part has for this client', () => {
    const why = (rows: object[], who: Partial<Client>) =>
      choice(
        [
          table(
            {},
            rows.map((row) => ({ ...ROW, ...row })),
          ),
        ],
        { who },
      ).selection?.do_not_fit[0]?.because;
    expect(why([{ age_min: 80, age_max: 80 }], { age: 70 })).toBe('it covers the ages 80');
    expect(why([{ age_min: null, age_max: 60 }], { age: 70 })).toBe('it covers the ages 0 to 60');
    expect(
      why(
        [
          { age_min: 60, age_max: 69 },
          { age_min: 80, age_max: 89 },
        ],
        { age: 74 },
      ),
    ).toBe('it has no row at age 74');
    expect(
      why(
        [
          { age_min: 60, age_max: 69 },
          { age_min: 80, age_max: null },
        ],
        { age: 74 },
      ),
    ).toBe('it has no row at age 74');
    expect(
      why(
        [
          { age_min: 60, age_max: 69 },
          { age_min: 80, age_max: 89 },
        ],
        { age: 90 },
      ),
    ).toBe('it covers the ages 60 to 89');
    expect(
      why(
        [
          { age_min: 80, age_max: 84 },
          { age_min: 85, age_max: null },
        ],
        { age: 74 },
      ),
    ).toBe('it covers the ages 80 and over');
    expect(why([{}], { sex: 'male' })).toBe('its rows are of women only');
    expect(why([{ stance: 'wide' }], {})).toBe('its rows are of groups or stances that are not recorded of the client');
    expect(why([{ height_min_cm: 150 }], { heightCm: 149 })).toBe('it has no row at this height');
    expect(why([{ height_min_cm: 150 }], { heightCm: 150 })).toBeUndefined();
    expect(why([{ height_max_cm: 150 }], { heightCm: 150 })).toBeUndefined();
    expect(why([{ height_max_cm: 150 }], { heightCm: 151 })).toBe('it has no row at this height');
  });
});
