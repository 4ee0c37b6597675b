/** The stated order of fit, the wish for a country, and the words for both. Tables of two rows, invented. */
import { describe, expect, test } from 'vitest';
import { type Evidence, indexEvidence } from '../../src/evidence/data.ts';
import { TableFile } from '../../src/evidence/schema/table.ts';
import { scoreTest } from '../../src/scoring/score-test.ts';
import type { Subject } from '../../src/scoring/select.ts';
import type { Client, Measured } from '../../src/session.ts';
import { client, measured, recorded } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const base = testEvidence();
const TEST = 'gait_speed_usual';
type Over = Partial<Omit<TableFile, 'population' | 'protocol'>> & {
  readonly rows?: readonly object[];
  readonly population?: object;
  readonly protocol?: object;
};

const ROW = { sex: 'all', age_min: 60, age_max: 89, percentiles: { p5: 0.5, p25: 0.8, p50: 1, p75: 1.2, p95: 1.4 } };

function table(source: string, over: Over = {}): TableFile {
  const { rows, population, protocol, ...rest } = over;
  return TableFile.parse({
    source,
    test: TEST,
    unit: 'm/s',
    status: 'full-text',
    location: 'Table 1',
    n: 100,
    ...rest,
    population: { description: 'Invented people', kind: 'general', ...population },
    protocol: { ...protocol },
    parts: [{ id: 'rows', location: 'Table 1', rows: rows ?? [ROW] }],
  });
}

function evidenceOf(tables: readonly TableFile[], defaults = tables.map((each) => each.source)): Evidence {
  const entry = { tables: defaults.map((source) => ({ source })), error: [] };
  return indexEvidence({ ...base, tables, defaults: { ...base.defaults, tests: { [TEST]: entry } } });
}

function scored(
  evidence: Evidence,
  over: Partial<Subject> & { readonly who?: Partial<Client>; readonly reading?: Measured } = {},
) {
  const definition = evidence.testById.get(TEST);
  if (definition === undefined) throw new Error('no such test');
  const { who, reading, ...subject } = over;
  const result = scoreTest(recorded(TEST, reading ?? measured(0.9)), definition, {
    evidence,
    subject: { client: client(who), lungCondition: null, ...subject },
    applies: () => false,
  });
  if (result.selection === undefined) throw new Error('the choice is not explained');
  return { ...result, selection: result.selection };
}

describe('the first criterion that tells two tables apart decides', () => {
  const course = (distanceM: number): Measured => measured(0.9, { course: { distanceM } });

  test.each<[string, Evidence, Parameters<typeof scored>[1], string]>([
    [
      'protocol goes before the order of defaults',
      evidenceOf([table('first', { protocol: { distance_m: 4 } }), table('second', { protocol: { distance_m: 10 } })]),
      { reading: course(10) },
      'second',
    ],
    [
      'then the order of defaults',
      evidenceOf([table('first'), table('second', { rows: [{ ...ROW, age_min: 70, age_max: 79 }] })]),
      {},
      'first',
    ],
    [
      'a default before a table that fits better',
      evidenceOf(
        [table('better', { rows: [{ ...ROW, age_min: 74, age_max: 74, sex: 'female' }] }), table('default')],
        ['default'],
      ),
      {},
      'default',
    ],
    [
      'the preferred country before the order of defaults',
      evidenceOf([table('first', { population: { country: ['US'] } }), table('second', { population: { country: ['NO'] } })]),
      { preferredCountry: 'NO' },
      'second',
    ],
    [
      'but protocol before the country',
      evidenceOf([
        table('first', { protocol: { distance_m: 4 } }),
        table('second', { population: { country: ['NO'] }, protocol: { distance_m: 10 } }),
      ]),
      { preferredCountry: 'NO', reading: course(4) },
      'first',
    ],
    [
      'one that yields a standing before one that gives none',
      evidenceOf([table('mean', { rows: [{ sex: 'all', age_min: 60, age_max: 89, mean: 1 }] }), table('points')]),
      {},
      'points',
    ],
  ])('%s', (_what, evidence, over, chosen) => {
    expect(scored(evidence, over).selection.chosen).toBe(chosen);
  });

  test('clinical samples never decide, and concern only clients with the condition', () => {
    const copd = table('copd', { population: { kind: 'clinical', condition: 'copd' } });
    const evidence = evidenceOf([copd, table('general')]);
    expect(scored(evidence, { lungCondition: 'copd' }).selection).toMatchObject({
      chosen: 'general',
      also_fit: [{ source: 'copd', because: 'shown for orientation only: not a sample of the general population' }],
    });
    expect(scored(evidence).selection.do_not_fit).toEqual([
      { source: 'copd', part: null, because: 'a sample of other people: Invented people' },
    ]);
  });
});

describe('in words', () => {
  test('why it won and what else would have fitted', () => {
    const evidence = evidenceOf([
      table('first', { protocol: { distance_m: 4 } }),
      table('second', { protocol: { distance_m: 10 } }),
    ]);
    expect(scored(evidence).selection).toEqual({
      chosen: 'first',
      because: 'before second because it comes first in the order of defaults',
      also_fit: [
        {
          source: 'second',
          part: 'rows',
          because: 'comes later in the order of defaults; not comparable with first: distance (m) 10, there 4',
        },
      ],
      do_not_fit: [],
    });
  });

  test('a table passed over because it gives no standing is named', () => {
    const evidence = evidenceOf([table('mean', { rows: [{ sex: 'all', age_min: 60, age_max: 89, mean: 1 }] }), table('points')]);
    expect(scored(evidence).selection.because).toMatch(
      /^it is the only one that gives a standing; mean fits better but gives no standing: /,
    );
  });

  test.each<[string, object, Partial<Client>, string]>([
    ['older than the table', { ...ROW, age_max: 79 }, { age: 84 }, 'it covers the ages 60 to 79'],
    ['younger than the table', { ...ROW, age_min: 80, age_max: null }, { age: 70 }, 'it covers the ages 80 and over'],
    ['the other sex', { ...ROW, sex: 'male' }, { sex: 'female' }, 'its rows are of men only'],
    ['another setting', { ...ROW, setting: 'hospital' }, {}, 'its rows are of people who live in another setting'],
    ['a subgroup', { ...ROW, group: 'fallers' }, {}, 'its rows are of groups or stances that are not recorded of the client'],
    ['height needed', { ...ROW, height_min_cm: 150, height_max_cm: 160 }, {}, "it needs the client's height"],
    ['height outside', { ...ROW, height_min_cm: 150, height_max_cm: 160 }, { heightCm: 180 }, 'it has no row at this height'],
    ['a side', { ...ROW, side: 'dominant' }, {}, 'its rows are of the dominant or the stronger side, or of the other side'],
  ])('no row because of %s', (_what, row, who, because) => {
    const result = scored(evidenceOf([table('only', { rows: [row] })]), { who });
    expect(result.comparisons).toEqual([]);
    expect(result.selection.do_not_fit).toEqual([{ source: 'only', part: 'rows', because }]);
    expect(result.no_comparison_because).toContain(because);
  });

  test('a declared hole is given as the reason', () => {
    const holed = table('only', {
      rows: [
        { ...ROW, age_max: 69 },
        { ...ROW, age_min: 80 },
      ],
    });
    const part = holed.parts[0];
    if (part === undefined) throw new Error('no part');
    const evidence = evidenceOf([{ ...holed, parts: [{ ...part, gaps: ['70-79: cut off in the copy read'] }] }]);
    expect(scored(evidence).selection.do_not_fit[0]?.because).toBe('it has no row at age 74: 70-79: cut off in the copy read');
  });

  test('what does not match the client is said of the primary table', () => {
    const evidence = evidenceOf([
      table('only', {
        population: { country: ['US'], setting: 'hospital' },
        protocol: { distance_m: 4, trials_rule: 'mean', trials: 2 },
      }),
    ]);
    const result = scored(evidence, {
      lungCondition: 'copd',
      who: { country: 'NO' },
      reading: measured(0.9, { course: { distanceM: 10 } }),
    });
    expect(result.comparisons[0]?.mismatches).toEqual([
      'table walked 4 m, this client 10 m',
      'table takes the mean of 2, recorded here: 1',
      'both sexes together',
      'not a sample of people with lung disease',
      'sample: hospital; client: community',
      'sample from US, not NO',
    ]);
  });
});

describe('the wish for a country', () => {
  const norwegian = table('norwegian', { population: { country: ['NO'] } });
  const other = table('other', { population: { country: ['US'] } });

  test('a table from there that is no default is named, not taken', () => {
    const result = scored(evidenceOf([other, norwegian], ['other']), { preferredCountry: 'NO' });
    expect(result.selection.chosen).toBe('other');
    expect(result.notes.join()).toContain('from NO there is norwegian, shown beside');
  });

  test('that no table is from there is said', () => {
    expect(scored(evidenceOf([other]), { preferredCountry: 'NO' }).notes).toContain('no table from NO has a row for this client');
  });

  test('nothing is said without a wish, or where it is met', () => {
    expect(scored(evidenceOf([other])).notes.join()).not.toContain('table from');
    expect(scored(evidenceOf([other, norwegian]), { preferredCountry: 'NO' }).notes.join()).not.toContain('from NO');
  });
});
