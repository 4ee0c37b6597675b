/** What a table of visits must not be read as: a missing answer as "no", a later visit as a trial, a client who got worse as none. */
import { describe, expect, it } from 'vitest';
import type { Summary } from '../../src/cohort/summary/types.ts';
import { runInMemory } from '../hardening/memory-io.ts';

async function cohort(csv: string, argv: readonly string[] = [], map?: string) {
  const files = { 'in.csv': csv, ...(map === undefined ? {} : { 'map.yaml': map }) };
  const columns = map === undefined ? [] : ['--columns', 'map.yaml'];
  const { code, io } = await runInMemory(['cohort', 'in.csv', ...columns, ...argv], { files });
  return { code, out: io.out(), said: io.err(), files: io.files };
}

describe('the change between visits', () => {
  /** `worse` of twelve clients cannot do at the second visit what took 20 s at the first; the others got faster. */
  const twice = (worse: number): string =>
    ['ref,assessed,sex,age,timed_up_and_go', ...Array.from({ length: 12 }, (_, index) => index)]
      .flatMap((client) =>
        typeof client === 'string'
          ? [client]
          : [
              `c${client},2026-01-10,female,75,20`,
              `c${client},2026-04-10,female,75,${client < worse ? 'unable' : 10 + client / 10}`,
            ],
      )
      .join('\n');
  async function changeOf(csv: string, ...more: readonly string[]) {
    const { files, code } = await cohort(csv, ['-o', 'out.csv', '--summary', 's.json', ...more]);
    expect(code).toBe(0);
    const summary = JSON.parse(String(files.get('s.json'))) as Summary;
    if (summary.change === null) throw new Error('no change');
    return summary.change;
  }

  it('says how many are in the mean, and that the others are not', async () => {
    const [test] = (await changeOf(twice(5), '--unmasked')).tests;
    expect([test?.pairs, test?.measured, test?.verdicts.worsened]).toEqual([12, 7, 5]);
    const page = await cohort(twice(5), ['-o', 'out.csv', '--summary', 's.html', '--unmasked']);
    expect(String(page.files.get('s.html'))).toContain('7 with a number at both visits; 5 without, in no mean');
  });
  it('says so in bands on a page that leaves the clinic', async () => {
    const page = await cohort(twice(1), ['-o', 'out.csv', '--summary', 's.html']);
    const text = String(page.files.get('s.html')).replace(/<[^>]*>/g, ' ');
    expect(text).toMatch(/11 to 15\s+11 to 15 with a number at both visits; any others are in no mean/);
    expect(text).toContain('worsened 5 or fewer');
  });
  it('gives no mean of under half', async () => {
    const [test] = (await changeOf(twice(7), '--unmasked')).tests;
    expect([test?.pairs, test?.measured, test?.mean_change, test?.median_change]).toEqual([12, 5, null, null]);
  });
  it('is not of two people under one reference', async () => {
    const csv = twice(0)
      .replace('c0,2026-04-10,female', 'c0,2026-04-10,male')
      .replace('c1,2026-04-10,female,75', 'c1,2026-04-10,female,60');
    const change = await changeOf(csv, '--unmasked');
    expect([change.mixed_up, change.completers.n, change.tests[0]?.pairs]).toEqual([2, 10, 10]);
  });
});

it('a test that could not be done is no blank: the row says so where no table and no mark can', async () => {
  const { out } = await cohort('age,step_test_right,step_test_left\n74,unable,12\n74,declined,12\n74,,12\n');
  const rows = out.trimEnd().split('\n').slice(1);
  expect(rows.map((row) => row.includes('Step test, right: unable'))).toEqual([true, false, false]);
});

describe('a heading', () => {
  it.each(['TUG T2', 'SLS right t1', 'TUG_T1'])('%s may be a trial or a visit, and is not read', async (heading) => {
    const { out, said } = await cohort(`age,${heading}\n74,12.8\n`);
    expect(said).toContain(`column "${heading}" is passed on unread: its number may be that of a trial or of a visit`);
    expect(out).not.toContain('_value');
  });
  it('that says trial is a trial', async () => {
    expect((await cohort('age,TUG trial 1,TUG trial 2\n74,12,14\n')).out).toContain(',13,');
  });
});

describe('a map', () => {
  const map = (rest: string): string => `columns:\n  Age: age\n  Fallen: ${rest}\n`;
  it.each([
    '{to: falls_past_year, values: {"": 0}}',
    '{to: feels_unsteady, values: {"": no}}',
    '{to: feels_unsteady, values: {n/a: no}}',
  ])('%s: missing cannot be made an answer', async (rule) => {
    const { code, out, said } = await cohort('Age,Fallen\n74,\n', [], map(rule));
    expect([code, out]).toEqual([2, '']);
    expect(said).toMatch(/map\.yaml:3:\d+: .*means "not recorded" and cannot stand for/);
  });
  it('a word may be taken out of those that mean not recorded; an empty cell stays not recorded', async () => {
    const text = `words: {not_recorded: [k.A.]}\n${map('{to: falls_past_year, values: {n/a: 0}}')}`;
    const { code, out } = await cohort('Age,Fallen\n74,n/a\n74,\n74,k.A.\n', [], text);
    expect(code).toBe(0);
    const missing = out
      .trimEnd()
      .split('\n')
      .slice(1)
      .map((row) => /,undetermined,(?:falls; )?/.exec(row)?.[0]);
    expect(missing).toEqual([',undetermined,', ',undetermined,falls; ', ',undetermined,falls; ']);
  });
  it('trials of one test have one ceiling', async () => {
    const text = 'columns:\n  Age: age\n  A: tandem_stance_trial1\n  B: {to: tandem_stance_trial2, ceiling: 30}\n';
    const { code, said } = await cohort('Age,A,B\n74,12,30\n', [], text);
    expect(code).toBe(2);
    expect(said).toContain('do not have the same ceiling');
  });
});

describe('the page', () => {
  it('names no client', async () => {
    const { code, said } = await cohort('ref,age\na,74\n', ['-o', 'o.csv', '--summary', 's.html', '--by', 'ref']);
    expect(code).toBe(2);
    expect(said).toContain('tells single clients');
  });
  it('a number with an exponent is written out in the hint', async () => {
    expect((await cohort('age,timed_up_and_go\n74,1e1\n')).said).toContain('write 10 instead');
  });
});

it('two rows of one day count the same in whatever order the parts are added up', async () => {
  const head = 'ref,assessed,sex,age,timed_up_and_go\n';
  const people = Array.from({ length: 6 }, (_, index) => `c${index}`);
  const parts = {
    a: head + people.map((ref) => `${ref},2026-01-10,female,75,20\n${ref},2026-04-10,female,75,10\n`).join(''),
    b: head + people.map((ref) => `${ref},2026-04-10,female,75,30\n`).join(''),
  };
  const files: Record<string, string> = {
    ...Object.fromEntries(Object.entries(parts).map(([name, text]) => [`${name}.csv`, text])),
  };
  for (const name of Object.keys(parts)) {
    const { io } = await runInMemory(['cohort', `${name}.csv`, '-o', 'o.csv', '--summary-part', `${name}.json`], { files });
    files[`${name}.json`] = String(io.files.get(`${name}.json`));
  }
  const merged = async (...names: string[]) =>
    String(
      (await runInMemory(['cohort', '--merge', ...names, '--unmasked', '--summary', 's.json'], { files })).io.files.get('s.json'),
    );
  const one = await merged('a.json', 'b.json');
  expect(one).toContain('"pairs": 6');
  expect(await merged('b.json', 'a.json')).toBe(one);
  const by = await runInMemory(['cohort', '--merge', 'a.json', 'b.json', '--by', 'sex', '--summary', 's.json'], { files });
  expect([by.code, by.io.err().includes('were counted without --by')]).toEqual([2, true]);
});

it('a page that cannot be written does not hide which files are whole', async () => {
  const argv = ['cohort', 'in.csv', '-o', 'o.csv', '--summary', 's.html'];
  const files = { 'in.csv': 'age\n74\n' };
  const { calls } = (await runInMemory(argv, { files })).io;
  const call = calls.findLastIndex((each) => each.endsWith('s.html'));
  const { io, code } = await runInMemory(argv, { files, fail: { call, code: 'ENOSPC' } });
  expect(code).toBe(2);
  expect(io.err()).toMatch(/cannot write s\.html: .*; of this run o\.csv is whole/);
  expect([...io.files.keys()]).toEqual(['in.csv', 'o.csv']);
});
