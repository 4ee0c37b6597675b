/** Every criterion of the order of fit by itself: what it prefers, and what is said of a table that does not match. */
import { describe, expect, it } from 'vitest';
import type { TableFile } from '../../src/evidence/schema/table.ts';
import { ORDER_OF_FIT } from '../../src/scoring/order-of-fit.ts';
import type { Reading } from '../../src/session.ts';
import { measured, unable } from '../support/client.ts';
import { A, choice, type Given, outside, pair, people, ROW, Z } from './choice.ts';
import { table } from './invented.ts';

describe('the better fit comes first', () => {
  it.each<[string, TableFile[], Given]>([
    ['one that is not for orientation only', pair(people('at_risk', { setting: 'mixed' }), {}), outside],
    [
      'one that does not depend on a sex that is not recorded',
      pair({}, {}, { better: { sex: 'all' } }),
      { ...outside, who: { sex: 'not recorded' } },
    ],
    ['a default table', pair({}, {}), { defaults: [Z] }],
    [
      'the protocol that agrees',
      pair({}, {}, {}, { worse: { distance_m: 4 }, better: { distance_m: 6 } }),
      { ...outside, reading: measured(9, { course: { distanceM: 6 } }) },
    ],
    [
      'the preferred country',
      pair(people('general', { country: ['US'] }), people('general', { country: ['NO'] })),
      { ...outside, country: 'NO' },
    ],
    ['the order of the defaults', pair({}, {}), { defaults: [Z, A] }],
    ['the narrower band', pair({}, {}, { worse: { age_max: 80 } }), outside],
    ['a row of the own sex', pair({}, {}, { worse: { sex: 'all' } }), outside],
    ['the general population', pair(people('healthy'), {}), outside],
    ['what was read more closely', pair({ status: 'abstract' }, { status: 'full-text' }), outside],
    [
      'a row that was read more closely than its table',
      pair({ status: 'abstract' }, { status: 'memory' }, { better: { status: 'full-text' } }),
      outside,
    ],
    ['more people', pair({ n: 100 }, { n: 101 }), outside],
    ['more people in the row', pair({ n: 500 }, { n: 50 }, { worse: { n: 10 }, better: { n: 11 } }), outside],
    ['some people rather than an unknown number', pair({ n: null }, { n: 1 }), outside],
  ])('%s', (_what, tables, given) => {
    expect(choice(tables, given).order).toEqual([Z, A]);
    expect(choice([...tables].reverse(), given).order).toEqual([Z, A]);
  });
  it('the id decides where nothing else does', () => {
    const [first, second] = pair({}, {});
    expect(choice([second, first] as TableFile[], outside).order).toEqual([A, Z]);
  });
});

it('every criterion says why the one goes before the other, and what the other lacks', () => {
  for (const { words, behind } of ORDER_OF_FIT) {
    expect(words).toMatch(/^(it|its|only|more|nothing|the) .{10}/);
    expect(behind).toMatch(/\w.{10}/);
  }
  const said = ORDER_OF_FIT.flatMap(({ words, behind }) => [words, behind]);
  expect(new Set(said).size).toBe(said.length);
});

describe('a start, a ceiling and a chair other than those of the table', () => {
  const said = (protocol: object, reading: Reading) =>
    choice([table({}, [ROW], protocol)], { reading }).comparisons[0]?.mismatches;
  it('are said, and nothing where they agree or are not known', () => {
    expect(said({ start: 'standing' }, measured(9, { course: { start: 'moving' } }))).toEqual([
      'table used a standing start, this client a moving start',
    ]);
    expect(said({ start: 'moving' }, measured(9, { course: { start: 'moving' } }))).toEqual([]);
    expect(said({ start: 'moving' }, measured(9))).toEqual([]);
    expect(said({ ceiling: 45 }, measured(9, { ceiling: 30 }))).toEqual(['watch stopped at 30 s, the table goes on to 45 s']);
    expect(said({ ceiling: 30 }, measured(9, { ceiling: 30 }))).toEqual([]);
    expect(said({ chair_cm: 43 }, measured(9, { chairCm: 46 }))).toEqual([
      'table used a seat of 43 cm, this client one of 46 cm',
    ]);
    expect(said({ chair_cm: 43 }, measured(9, { chairCm: 43 }))).toEqual([]);
    expect(said({ chair_cm: 43 }, measured(9))).toEqual([]);
    expect(said({}, measured(9, { chairCm: 43 }))).toEqual([]);
    expect(said({ trials: 2, trials_rule: 'best' }, measured([9, 9]))).toEqual([]);
    expect(said({ trials: 3, trials_rule: 'best' }, measured([9, 9]))).toEqual(['table takes the best of 3, recorded here: 2']);
    expect(said({ trials: 3 }, measured([9, 9]))).toEqual([]);
    expect(said({ trials: 3, trials_rule: 'best' }, unable)).toEqual([]);
  });
  it('2.4 and 2.44 m are the same walk (8 feet), 2.4 and 2.5 m are not', () => {
    expect(said({ distance_m: 2.44 }, measured(9, { course: { distanceM: 2.4 } }))).toEqual([]);
    expect(said({ distance_m: 2.5 }, measured(9, { course: { distanceM: 2.4 } }))).toEqual([
      'table walked 2.5 m, this client 2.4 m',
    ]);
  });
  it('another ceiling weighs only where the watch reached it, another chair never', () => {
    const tables = pair({}, {}, {}, { worse: { ceiling: 45 }, better: { ceiling: 20 } });
    expect(choice(tables, { ...outside, reading: measured([9, 30], { ceiling: 30 }) }).order).toEqual([Z, A]);
    expect(choice(tables, { ...outside, reading: measured([9, 29], { ceiling: 30 }) }).order).toEqual([A, Z]);
    const chairs = pair({}, {}, {}, { worse: { chair_cm: 43 }, better: { chair_cm: 46 } });
    expect(choice(chairs, { ...outside, reading: measured(9, { chairCm: 46 }) }).order).toEqual([A, Z]);
  });
});

describe('what is said of the people of a table', () => {
  const said = (row: object, given: Given = {}, population: object = people('general')) =>
    choice([table(population, [{ ...ROW, ...row }])], given).comparisons[0]?.mismatches;
  it('sex, age limits, lungs, setting and country', () => {
    expect(said({})).toEqual([]);
    expect(said({ sex: 'all' })).toEqual(['both sexes together']);
    expect(said({ sex: 'male' }, { who: { sex: 'not recorded' } })).toEqual(['sex not recorded; this row is of men']);
    expect(said({ sex: 'female' }, { who: { sex: 'not recorded' } })).toEqual(['sex not recorded; this row is of women']);
    expect(said({ sex: 'all' }, { who: { sex: 'not recorded' } })).toEqual([]);
    expect(said({ age_min: null, age_max: null })).toEqual(['the source states no age limits']);
    expect(said({ age_min: null })).toEqual([]);
    expect(said({ age_max: null })).toEqual([]);
    expect(said({}, { lungCondition: 'copd' })).toEqual(['not a sample of people with lung disease']);
    expect(said({}, { lungCondition: 'copd' }, people('clinical', { condition: 'copd' }))).toEqual([]);
    const care = people('general', { setting: 'residential_care' });
    expect(said({}, {}, care)).toEqual(['sample: residential care; client: community']);
    expect(said({}, { who: { setting: 'residential_care' } }, care)).toEqual([]);
    expect(said({ setting: 'community' }, {}, care)).toEqual([]);
    expect(said({}, { who: { setting: 'residential_care' } })).toEqual(['sample: community; client: residential care']);
    expect(said({}, {}, people('general', { setting: 'mixed' }))).toEqual([]);
    const abroad = people('general', { country: ['US', 'CA'] });
    expect(said({}, { who: { country: 'NO' } }, abroad)).toEqual(['sample from US, CA, not NO']);
    expect(said({}, { country: 'NO' }, abroad)).toEqual(['sample from US, CA, not NO']);
    expect(said({}, { who: { country: 'CA' } }, abroad)).toEqual([]);
    expect(said({}, { who: { country: 'NO' } }, people('general'))).toEqual([]);
    expect(said({}, {}, abroad)).toEqual([]);
  });
});

describe('whom a table concerns', () => {
  const shown = (population: object, given: Given = {}): number => choice([table(population, [ROW])], given).comparisons.length;
  it('an at-risk or clinical sample only people of its setting', () => {
    for (const kind of ['at_risk', 'clinical']) {
      expect(shown(people(kind, { setting: 'residential_care' }))).toBe(0);
      expect(shown(people(kind, { setting: 'residential_care' }), { who: { setting: 'residential_care' } })).toBe(1);
      expect(shown(people(kind, { setting: 'mixed' }))).toBe(1);
    }
    expect(shown(people('athletic', { setting: 'residential_care' }))).toBe(1);
  });
  it('athletes and clinical samples never decide; healthy volunteers may', () => {
    const standing = (kind: string) => choice([table(people(kind), [ROW])]).comparisons.some(({ primary }) => primary);
    expect(['general', 'healthy', 'clinical', 'at_risk', 'athletic'].map(standing)).toEqual([true, true, false, false, false]);
  });
});
