/** `footing risk`, and the options of a pathway on the command line. */
import { describe, expect, test } from 'vitest';
import { footing } from '../support/run.ts';

const EXAMPLE = 'examples/copd-74.yaml';

describe('footing risk', () => {
  test('level, what each mark is worth, the path taken and the sources', async () => {
    const { code, stdout, stderr } = await footing(['risk', EXAMPLE]);
    expect([code, stderr]).toEqual([0, '']);
    for (const heading of ['FALL RISK', 'WHAT EACH MARK IS WORTH', 'HOW MANY PEOPLE LIKE THIS FALL', 'PATH TAKEN', 'SOURCES'])
      expect(stdout).toContain(`\n${heading}\n`);
    expect(stdout).toMatch(/MET +12 s or more +74 % +74 % +odds x 2\.85/);
    expect(stdout).not.toContain('PROBABILITY');
  });
  test('JSON: risk as in score, and one entry a mark', async () => {
    const { stdout } = await footing(['risk', EXAMPLE, '--json']);
    const record = JSON.parse(stdout);
    expect(record.risk.probability).toBeNull();
    expect(record.risk.fall_rates.map((rate: { id: string }) => rate.id)).toContain('falls_copd_oliveira');
    const [mark] = record.agreement.filter((row: { id: string }) => row.id === 'timed_up_and_go_alhaddad_copd');
    expect(mark).toMatchObject({ test: 'timed_up_and_go', value: 12.8, met: true, sensitivity: 0.74, specificity: 0.74 });
    expect(mark.likelihood_ratio).toBeCloseTo(0.74 / 0.26, 10);
    for (const row of record.agreement) expect(Object.keys(record.sources)).toContain(row.source);
  });
});

describe('pathway and its options', () => {
  test('the other pathway decides', async () => {
    const { stdout } = await footing(['score', EXAMPLE, '--json', '--pathway', 'cdc_2019']);
    expect(JSON.parse(stdout).risk).toMatchObject({ pathway: 'cdc_2019', level: 'at_risk' });
  });
  test('an option is on and visible', async () => {
    const { stdout } = await footing(['score', EXAMPLE, '--json', '--pathway-option', 'modified_2024']);
    const { risk } = JSON.parse(stdout);
    expect(risk.options).toEqual([{ id: 'modified_2024', name: 'Modification of 2024' }]);
    expect(risk.level).toBe('intermediate');
  });
  test('an unknown pathway or option is refused with those that are known', async () => {
    const pathway = await footing(['risk', EXAMPLE, '--pathway', 'wfg']);
    expect([pathway.code, pathway.stdout]).toEqual([2, '']);
    expect(pathway.stderr).toContain('known: ');
    const option = await footing(['score', EXAMPLE, '--pathway-option', 'modified']);
    expect(option.code).toBe(2);
    expect(option.stderr).toContain('modified_2024');
    const none = await footing(['score', EXAMPLE, '--pathway', 'cdc_2019', '--pathway-option', 'modified_2024']);
    expect(none.stderr).toContain('it has none');
  });
});

test('probability: null unless asked for', async () => {
  const asked = JSON.parse((await footing(['score', EXAMPLE, '--json', '--probability'])).stdout).risk.probability;
  expect(asked).toMatchObject({ before: 0.4, used: ['fall_past_year_burns', 'timed_up_and_go_barry_usual_pace'] });
  expect(asked.low).toBeLessThan(asked.after);
  expect(asked.after).toBeLessThan(asked.high);
  expect(JSON.parse((await footing(['score', EXAMPLE, '--json'])).stdout).risk.probability).toBeNull();
});

test('sources that informed own rules, flags and factors reach the list of sources', async () => {
  const visit = `format: 1
client: {ref: Q-1, sex: male, age: 80}
assessed: 2026-05-11
redflags: {chest_pain: yes}
health: {osteoporosis: yes, clinical_frailty_scale: 6}
`;
  const { stdout } = await footing(['score', 'visit.yaml', '--json'], { files: { 'visit.yaml': visit } });
  const { sources } = JSON.parse(stdout);
  for (const id of ['cprp-2016-safety', 'peterborough-home', 'brooke-wavell-2022', 'frailty-definitions'])
    expect(Object.keys(sources)).toContain(id);
});
