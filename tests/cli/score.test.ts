/** `footing score` as a person meets it: what goes where, what is refused, which exit code. */
import { describe, expect, it } from 'vitest';
import { exampleFiles, footing } from '../support/run.ts';

const good = exampleFiles()['examples/copd-74.yaml'] ?? '';
const frailThreeNo = `format: 1
client: {ref: T-9, sex: female, age: 81}
assessed: 2026-05-11
history: {falls_past_year: 0, feels_unsteady: no, worries_about_falling: no}
health: {clinical_frailty_scale: 6}
tests:
  gait_speed_usual: 0.95
`;

describe('footing score', () => {
  it('scores the 74-year-old with COPD: level, tests, plan, sources, cautions', async () => {
    const { code, stdout, stderr } = await footing(['score', 'examples/copd-74.yaml']);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    for (const words of ['74 years', 'COPD', 'FALL RISK', 'TESTS', 'registered professional', 'World Falls Guidelines 2022'])
      expect(stdout).toContain(words);
  });

  it.each(['text', 'json'])('standard output of %s holds no prose of its own, standard error no result', async (format) => {
    const { stdout, stderr } = await footing(['score', 'examples/steady-66.yaml', '--format', format]);
    expect(stderr).toBe('');
    if (format === 'json') expect(() => JSON.parse(stdout)).not.toThrow();
  });

  it('--json is --format json', async () => {
    const long = await footing(['score', 'examples/steady-66.yaml', '--format', 'json']);
    const short = await footing(['score', 'examples/steady-66.yaml', '--json']);
    expect(short.stdout).toBe(long.stdout);
  });

  it('several files give an array in the order given, refused ones left out, and exit code 1', async () => {
    const { code, stdout, stderr } = await footing([
      'score',
      'examples/chair-86.yaml',
      'examples/mistakes.yaml',
      'examples/steady-66.yaml',
      '--json',
    ]);
    expect(code).toBe(1);
    const refs = (JSON.parse(stdout) as { client: { ref: string; age: number } }[]).map((each) => each.client.age);
    expect(refs).toEqual([86, 66]);
    expect(stderr).toContain('examples/mistakes.yaml: not scored');
  });

  it('a wrong file prints every mistake with line and column and no score', async () => {
    const { code, stdout, stderr } = await footing(['score', 'examples/mistakes.yaml']);
    expect(code).toBe(1);
    expect(stdout).toBe('');
    expect(stderr.split('\n').filter((line) => /^examples\/mistakes\.yaml:\d+:\d+: /.test(line)).length).toBeGreaterThan(10);
    expect(stderr).toContain('write');
  });

  it('reads standard input with -', async () => {
    const { code, stdout } = await footing(['score', '-', '--json'], { stdin: good });
    expect(code).toBe(0);
    expect((JSON.parse(stdout) as { client: { ref: string } }).client.ref).toBe('M-207');
  });

  it('a file that is not there is exit code 2 and one plain line; the others are scored', async () => {
    const { code, stdout, stderr } = await footing(['score', 'nothing.yaml', 'examples/steady-66.yaml']);
    expect(code).toBe(2);
    expect(stderr).toBe('footing: cannot read nothing.yaml: there is no such file or folder\n');
    expect(stdout).toContain('66 years');
  });

  it.each([
    [['score']],
    [['score', 'examples/copd-74.yaml', '--format', 'pdf-please']],
    [['score', 'examples/copd-74.yaml', '--pathway', 'nowhere']],
    [['scroe', 'x']],
    [[]],
  ])('%o cannot start: exit code 2', async (argv) => {
    const { code, stdout, stderr } = await footing(argv);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).not.toBe('');
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  it('-o writes the report to a file, whole, and leaves nothing else behind', async () => {
    const { code, stdout, stderr, files } = await footing(['score', 'visit.yaml', '-o', 'report.txt'], {
      files: { 'visit.yaml': good, 'report.txt': 'old' },
    });
    expect([code, stdout]).toEqual([0, '']);
    expect(stderr).toContain('wrote report.txt');
    expect(files['report.txt']).toContain('FALL RISK');
    expect(Object.keys(files).sort()).toEqual(['report.txt', 'visit.yaml']);
  });

  it('--help and --version are exit code 0 on standard output', async () => {
    for (const argv of [['--help'], ['score', '--help'], ['--version']]) {
      const { code, stdout, stderr } = await footing(argv);
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).not.toBe('');
    }
  });

  it('no colour codes without a terminal; FORCE_COLOR turns them on, NO_COLOR wins', async () => {
    const plain = await footing(['score', 'examples/copd-74.yaml']);
    expect(plain.stdout).not.toContain('\u001b[');
    const both = await footing(['score', 'examples/copd-74.yaml'], { env: { FORCE_COLOR: '1', NO_COLOR: '1' } });
    expect(both.stdout).toBe(plain.stdout);
  });

  it('the same input gives the same bytes', async () => {
    const [a, b] = [
      await footing(['score', 'examples/copd-74.yaml', '--json']),
      await footing(['score', 'examples/copd-74.yaml', '--json']),
    ];
    expect(a.stdout).toBe(b.stdout);
  });
});

describe('nobody is falsely reassured', () => {
  it('a frail client with all three questions "no" is low by the questions only, and is told so in the same line', async () => {
    const { stdout } = await footing(['score', 'visit.yaml'], { files: { 'visit.yaml': frailThreeNo } });
    const line = stdout.split('\n').findIndex((each) => each.includes('Low risk'));
    expect(
      stdout
        .split('\n')
        .slice(line, line + 3)
        .join(' '),
    ).toMatch(/low by the questions only/i);
    const json = await footing(['score', 'visit.yaml', '--json'], { files: { 'visit.yaml': frailThreeNo } });
    const plan = (JSON.parse(json.stdout) as { plan: { start: { support: string }; supervision: string }[] }).plan;
    expect(plan.every((each) => !['hands_ready', 'hands_free'].includes(each.start.support))).toBe(true);
  });

  it('what was not asked is listed, and is never read as no', async () => {
    const { stdout } = await footing(['score', 'visit.yaml'], {
      files: { 'visit.yaml': 'format: 1\nclient: {ref: A, sex: male, age: 70}\nassessed: 2026-05-11\n' },
    });
    expect(stdout).toMatch(/cannot be settled yet/i);
    expect(stdout).toMatch(/not asked today/i);
  });

  it('usual for age beside a met cut-point says both', async () => {
    // Gait 0.75 m/s at 86: inside the usual range of NHANES 1999-2002 women of 85 and over (P25 0.477, P75 0.802), yet under the 0.8 m/s mark.
    const visit = 'format: 1\nclient: {ref: A, sex: female, age: 86}\nassessed: 2026-05-11\ntests: {gait_speed_usual: 0.75}\n';
    const { stdout } = await footing(['score', 'visit.yaml'], { files: { 'visit.yaml': visit } });
    expect(stdout.replace(/\s+/g, ' ')).toContain('yet in the range linked with falls');
  });

  it('a ceiling is "at least", never "normal"', async () => {
    const visit =
      'format: 1\nclient: {ref: A, sex: female, age: 72}\nassessed: 2026-05-11\ntests: {single_leg_stance_eyes_open: {right: {value: 30, ceiling: 30}, left: {value: 30, ceiling: 30}}}\n';
    const { stdout } = await footing(['score', 'visit.yaml'], { files: { 'visit.yaml': visit } });
    expect(stdout).toContain('at least 30 s');
    const tests = stdout.slice(stdout.indexOf('TESTS'), stdout.indexOf('STARTING LEVELS'));
    expect(tests).not.toMatch(/\bnormal\b/i);
  });
});
