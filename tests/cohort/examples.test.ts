/** The example cohorts and the open cohort through the command, as a programme lead would run it. */
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { exampleFiles, footing } from '../support/run.ts';

const rowsOf = (text: string): Record<string, string>[] => parse(text, { columns: true });
const open = readFileSync(new URL('../fixtures/open-cohort/human-balance-evaluation.csv', import.meta.url), 'utf8');

describe('footing cohort', () => {
  it('accepted and refused rows add up, in order, each refusal with its row, column and what to write', async () => {
    const { code, stderr, files } = await footing([
      'cohort',
      'examples/cohort.csv',
      '-o',
      'scored.csv',
      '--rejects',
      'refused.csv',
    ]);
    expect(code).toBe(1);
    expect(stderr).toContain('11 rows read, 9 accepted, 2 refused');
    expect(rowsOf(files['scored.csv'] ?? '').map((row) => row.ref)).toEqual([
      'X-01',
      'X-02',
      'X-03',
      'X-04',
      'X-05',
      'X-06',
      'X-07',
      'X-08',
      'X-09',
    ]);
    const refused = rowsOf(files['refused.csv'] ?? '');
    expect(refused.map((row) => [row.row, row.ref])).toEqual([
      ['11', 'X-10'],
      ['12', 'X-11'],
    ]);
    expect(refused[0]?.reasons).toContain('decimal comma');
    expect(refused[1]?.reasons).toContain('age');
  });

  it('a row is scored like a single visit', async () => {
    const cohort = await footing(['cohort', 'examples/cohort.csv']);
    const row = rowsOf(cohort.stdout).find((each) => each.ref === 'X-05');
    const visit = [
      'format: 1',
      'client: {ref: X-05, sex: male, age: 81, setting: community}',
      'assessed: 2026-05-06',
      'history: {falls_past_year: 1, fall_injury: yes, unable_to_rise: no, loss_of_consciousness: no, feels_unsteady: no, worries_about_falling: yes}',
      'health: {clinical_frailty_scale: 4, lung_condition: copd}',
      'tests:',
      '  timed_up_and_go: 14.6',
      '  gait_speed_usual: 0.78',
      '  five_times_sit_to_stand: 16.9',
      '  single_leg_stance_eyes_open: {right: 4.1, left: 5}',
    ].join('\n');
    const { stdout } = await footing(['score', 'visit.yaml', '--json'], { files: { 'visit.yaml': visit } });
    const single = JSON.parse(stdout) as {
      risk: { level: string };
      tests: {
        test: string;
        side: string | null;
        value: number;
        comparisons: { primary: boolean; percentile: number | null; standing: string | null }[];
      }[];
    };
    expect(row?.risk_level).toBe(single.risk.level);
    for (const test of single.tests) {
      const name = test.side === null ? test.test : `${test.test}_${test.side}`;
      if (row?.[`${name}_value`] === undefined) continue;
      const primary = test.comparisons.find((each) => each.primary);
      expect(row[`${name}_value`]).toBe(String(test.value));
      expect(row[`${name}_percentile`]).toBe(
        primary?.percentile === null || primary === undefined ? '' : String(primary.percentile),
      );
      expect(row[`${name}_standing`]).toBe(primary?.standing ?? '');
    }
  });

  it('a clinic’s own headings, codes, decimal commas and dates go through a map; an impossible date is refused', async () => {
    const { code, stdout, stderr } = await footing([
      'cohort',
      'examples/cohort-clinic.csv',
      '--columns',
      'examples/cohort-clinic.map',
      '--format',
      'ndjson',
    ]);
    expect(code).toBe(1);
    const rows = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(rows.map((row) => row.Number)).toEqual(['101', '102', '103', '104']);
    expect(rows[0]?.timed_up_and_go_value).toBe(12.8);
    expect(stderr).toContain('row 6');
  });

  it('--suggest-columns guesses what is plain and says what it would not guess', async () => {
    const { code, stdout } = await footing(['cohort', 'examples/cohort-clinic.csv', '--suggest-columns']);
    expect(code).toBe(0);
    expect(stdout).toContain('TUG (s): timed_up_and_go');
    expect(stdout).toContain('# Worried: not guessed');
  });

  // Santos DA, Duarte M. PeerJ. 2016;4:e2648. doi:10.7717/peerj.2648: 163 people; 121 without a fall in the past year,
  // 28 with one, 14 with two or more (counted in the file).
  it('the open cohort goes through with its map: 163 rows, none refused, 14 with two or more falls at high risk', async () => {
    const files = { ...exampleFiles(), 'open.csv': open };
    const { code, stdout, stderr } = await footing(['cohort', 'open.csv', '--columns', 'examples/open-cohort.map'], {
      files,
    });
    expect(stderr).toContain('163 rows read, 163 accepted, 0 refused');
    expect(code).toBe(0);
    const rows = rowsOf(stdout);
    expect(rows).toHaveLength(163);
    expect(rows.filter((row) => Number(row.falls_12m) >= 2).map((row) => row.risk_level)).toEqual(Array(14).fill('high'));
  });
});
