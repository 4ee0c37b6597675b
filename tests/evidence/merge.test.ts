/** A clinic's folder changes what it says and nothing else; a broken one is refused with the place of every fault. */
import { describe, expect, test } from 'vitest';
import { indexEvidence } from '../../src/evidence/data.ts';
import { withFolders } from '../../src/evidence/merge.ts';
import type { NormsFile } from '../../src/evidence/parse.ts';
import { scoreSession } from '../../src/scoring/score-session.ts';
import { recorded, session } from '../support/client.ts';
import { CLINIC_TABLE, clinicFiles, TABLE_PATH } from '../support/clinic.ts';
import { testEvidence } from '../support/evidence.ts';

const base = testEvidence();

function merged(files: readonly NormsFile[]) {
  const result = withFolders(base, [{ name: 'clinic', files }]);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return indexEvidence(result.data);
}

function problems(files: readonly NormsFile[]): string[] {
  const result = withFolders(base, [{ name: 'clinic', files }]);
  return 'problems' in result
    ? result.problems.map(({ file, line, column, message }) => `${file}:${line}:${column}: ${message}`)
    : [];
}

const visit = session([
  recorded('timed_up_and_go', 12.8),
  recorded('gait_speed_usual', 0.9),
  recorded('five_times_sit_to_stand', 14),
  recorded('thirty_second_chair_stand', 11),
  recorded('single_leg_stance_eyes_open', 5, 'right'),
  recorded('grip_strength', 20, 'left'),
  recorded('tandem_stance', 8),
  recorded('functional_reach', 25),
]);
const scored = (evidence: ReturnType<typeof merged>) =>
  scoreSession(visit, { evidence, subject: { client: visit.client, lungCondition: null }, applies: () => false }).tests;

describe('one extra table', () => {
  const evidence = merged(clinicFiles());

  test('is the default of its test, before the built-in ones', () => {
    const primary = scored(evidence)[0]?.comparisons.find((comparison) => comparison.primary);
    expect(primary).toMatchObject({ source: 'own-clinic-2026', percentile_bound: 'exact', standing: 'below' });
    const order = evidence.defaults.tests.timed_up_and_go?.tables.map((entry) => entry.source);
    expect(order).toEqual(['own-clinic-2026', ...(base.defaults.tests.timed_up_and_go?.tables ?? []).map((each) => each.source)]);
  });

  test('and nothing else changes', () => {
    expect(scored(evidence).slice(1)).toEqual(scored(base).slice(1));
    const { tests: _tests, ...rest } = evidence.defaults;
    const { tests: _baseTests, ...baseRest } = base.defaults;
    expect(rest).toEqual(baseRest);
    const { timed_up_and_go: _own, ...others } = evidence.defaults.tests;
    const { timed_up_and_go: _built, ...baseOthers } = base.defaults.tests;
    expect(others).toEqual(baseOthers);
    expect(evidence.tables.slice(0, -1)).toEqual(base.tables);
    expect(evidence.cutPoints).toEqual(base.cutPoints);
  });

  test('is only shown beside where defaults.yaml does not name it', () => {
    const beside = merged(clinicFiles({ 'defaults.yaml': null }));
    const comparisons = scored(beside)[0]?.comparisons ?? [];
    expect(comparisons.map((each) => each.source)).toContain('own-clinic-2026');
    expect(comparisons.find((each) => each.primary)?.source).toBe(
      scored(base)[0]?.comparisons.find((each) => each.primary)?.source,
    );
  });

  test('is named in the result, and the digest tells the evidence apart', () => {
    expect(evidence.folders).toEqual(['clinic']);
    expect(evidence.digest).not.toBe(base.digest);
    expect(merged(clinicFiles()).digest).toBe(evidence.digest);
    const changed = clinicFiles({ [TABLE_PATH]: CLINIC_TABLE.replace('p5: 6', 'p5: 6.5') });
    expect(merged(changed).digest).not.toBe(evidence.digest);
    expect(withFolders(base, [])).toEqual({ data: base });
  });
});

test('a table of the same source and test takes the place of the built-in one', () => {
  const [built] = base.tables.filter((table) => table.test === 'timed_up_and_go');
  if (built === undefined) throw new Error('no table of the timed up and go');
  const path = `tables/timed_up_and_go/${built.source}.yaml`;
  const evidence = merged([{ path, text: CLINIC_TABLE.replace('own-clinic-2026', built.source) }]);
  expect(evidence.tables).toHaveLength(base.tables.length);
  expect(evidence.tables.indexOf(evidence.tables.find((table) => table.source === built.source) ?? built)).toBe(
    base.tables.indexOf(base.tables.find((table) => table.source === built.source) ?? built),
  );
  expect(evidence.tables.find((table) => table.source === built.source && table.test === built.test)?.n).toBe(400);
});

describe('a fault is refused with its line', () => {
  const table = (from: string, to: string) => clinicFiles({ [TABLE_PATH]: CLINIC_TABLE.replace(from, to) });
  const at = `clinic/${TABLE_PATH}`;

  test.each([
    [
      'bands that overlap',
      table('age_min: 80', 'age_min: 78'),
      `${at}:14:29: by_age: both sexes, bands 60-79 and 78-open overlap; put one in a part of its own`,
    ],
    [
      'a hole',
      table('age_min: 80', 'age_min: 83'),
      `${at}:14:29: by_age: both sexes, no row for ages 80-82; declare the hole under gaps with its reason`,
    ],
    [
      'a band upside down',
      table('age_min: 60, age_max: 79', 'age_min: 79, age_max: 60'),
      `${at}:13:29: by_age: band 79-60 is upside down`,
    ],
    [
      'percentiles not monotone',
      table('p50: 10', 'p50: 7'),
      `${at}:13:59: by_age, both sexes 60-79: percentiles run backwards: p25 is 8 but p50 is 7`,
    ],
    [
      'an unknown test',
      table('test: timed_up_and_go', 'test: timed_up_and_g'),
      `${at}:2:7: test "timed_up_and_g" is not in the catalogue (tests.yaml); perhaps "timed_up_and_go" is meant`,
    ],
    ['another unit', table('unit: s', 'unit: min'), `${at}:3:7: unit is "min" but the catalogue says "s"`],
    [
      'a slip of the decimal point',
      table('p5: 6,', 'p5: 0.6,'),
      `${at}:13:59: by_age, both sexes 60-79: 0.6 s cannot be a result of this test; check the decimal point and the unit`,
    ],
    [
      'no citation',
      clinicFiles({ 'sources.yaml': null }),
      `${at}:1:9: source "own-clinic-2026" has no citation: add it to sources.yaml`,
    ],
    [
      'a status that is none',
      table('full-text', 'fulltext'),
      `${at}:4:9: status: must be one of full-text, computed, abstract, secondary, memory, common-practice`,
    ],
    ['an empty location', table('location: Table 1\n', 'location:\n'), `${at}:5:1: location: is empty; must be text`],
    [
      'a missing population',
      table('population: {description: Clients of an invented clinic, kind: general, country: [NO]}\n', ''),
      `${at}:1:1: population: is missing; must be keys with values`,
    ],
    ['an unknown key', table('n: 400', 'people: 400'), `${at}:7:1: no such key here: people`],
    [
      'a country that is none',
      table('[NO]', '[Norway]'),
      `${at}:6:83: population.country.0: must be a country code of two capitals (ISO 3166), such as NO`,
    ],
    ['broken YAML', table('rows:', 'rows'), `${at}:12:5: cannot be read as YAML: Implicit keys need to be on a single line`],
    [
      'a row without a number',
      table(', percentiles: {p5: 6, p25: 8, p50: 10, p75: 12, p95: 16}', ''),
      `${at}:13:9: by_age, both sexes 60-79: holds no number to compare with`,
    ],
    [
      'a default that leads nowhere',
      clinicFiles({ [TABLE_PATH]: null }),
      'clinic/defaults.yaml:4:18: timed_up_and_go: there is no table "own-clinic-2026"',
    ],
    [
      'a part that is not there',
      clinicFiles({ 'defaults.yaml': 'tests: {timed_up_and_go: {tables: [{source: own-clinic-2026, part: by_sex}]}}\n' }),
      'clinic/defaults.yaml:1:68: timed_up_and_go: table "own-clinic-2026" has no part "by_sex"; its parts: by_age',
    ],
    [
      'the wrong folder',
      clinicFiles({ [TABLE_PATH]: null, 'tables/step_test/own-clinic-2026.yaml': CLINIC_TABLE }),
      'clinic/tables/step_test/own-clinic-2026.yaml:2:7: this table belongs into tables/timed_up_and_go/own-clinic-2026.yaml, or its test is wrong',
    ],
    [
      'a path that is no kind of file',
      clinicFiles({ 'table.yaml': CLINIC_TABLE }),
      'clinic/table.yaml:1:1: no kind of norms file has this path',
    ],
    [
      'an id of another paper',
      clinicFiles({
        'sources.yaml': `sources:\n  pondal-2008-tug: {citation: Another paper., doi: 10.1000/182}\n  own-clinic-2026: {citation: Invented., doi: null}\n`,
      }),
      'clinic/sources.yaml:2:20: "pondal-2008-tug" is already the id of another paper',
    ],
  ])('%s', (_what, files, expected) => {
    expect(problems(files).join('\n')).toContain(expected);
  });

  test('declared gaps and split parts are fine', () => {
    expect(
      problems(
        table('    rows:', '    gaps: ["80-82: not printed"]\n    rows:').map((file) => ({
          ...file,
          text: file.text.replace('age_min: 80', 'age_min: 83'),
        })),
      ),
    ).toEqual([]);
  });

  test('two entries of one id in the folder are not taken for a replacement', () => {
    const cut = (id: string) =>
      `  - {id: ${id}, source: own-clinic-2026, location: p. 1, status: full-text, test: timed_up_and_go, rule: over 20 s, met_when: {above: 20}, outcome: Falls, counts: false, counts_because: Invented, population: {description: Clients}}\n`;
    const files = clinicFiles({ 'cutpoints/own.yaml': `cut_points:\n${cut('own_cut')}${cut('own_cut')}` });
    expect(problems(files)).toEqual(['clinic/cutpoints/own.yaml:3:10: cut-point "own_cut" stands twice']);
  });
});

test('a later folder wins over an earlier one', () => {
  const later = clinicFiles({ [TABLE_PATH]: CLINIC_TABLE.replace('n: 400', 'n: 500') });
  const result = withFolders(base, [
    { name: 'first', files: clinicFiles() },
    { name: 'second', files: later },
  ]);
  expect('data' in result && result.data.tables.find((table) => table.source === 'own-clinic-2026')?.n).toBe(500);
  expect('data' in result && result.data.folders).toEqual(['first', 'second']);
});
