/** `footing check`: files and folders, line ends of either system, and what is said of each problem. */
import { describe, expect, it } from 'vitest';
import { sourceExcerpt } from '../../src/intake/excerpt.ts';
import { parseSession } from '../../src/intake/index.ts';
import { testEvidence } from '../support/evidence.ts';
import { exampleFiles, footing } from '../support/run.ts';

const copd = exampleFiles()['examples/copd-74.yaml'] ?? '';
const crlf = (text: string): string => text.replaceAll('\n', '\r\n');

describe('footing check', () => {
  it('a good file: one line and exit code 0', async () => {
    expect(await footing(['check', 'examples/copd-74.yaml'])).toMatchObject({
      code: 0,
      stdout: 'examples/copd-74.yaml: no problems\n',
      stderr: '',
    });
  });

  it('a folder: every file in it; problems on standard error with their codes and a count', async () => {
    const { code, stdout, stderr } = await footing(['check', 'examples']);
    expect(code).toBe(1);
    expect(stdout).toContain('examples/steady-66.yaml: no problems');
    expect(stderr).toMatch(/examples\/mistakes\.yaml:14:20: .*write 12\.8 with a point instead \[decimal_comma\]/);
    expect(stderr.trimEnd().split('\n').at(-1)).toMatch(/^\d+ files checked: \d+ problems to put right/);
  });

  it('--quiet says nothing of good files; standard input is checked too', async () => {
    expect(await footing(['check', '-q', 'examples/copd-74.yaml'])).toMatchObject({ code: 0, stdout: '' });
    expect(await footing(['check', '-'], { stdin: copd })).toMatchObject({ code: 0, stdout: 'standard input: no problems\n' });
  });

  it('a file that is not there: exit code 2', async () => {
    expect((await footing(['check', 'nowhere.yaml'])).code).toBe(2);
  });
});

describe('line ends and marks of other systems', () => {
  it('carriage returns and a byte order mark change nothing in the result', async () => {
    const plain = await footing(['score', 'v.yaml', '--json'], { files: { 'v.yaml': copd } });
    for (const text of [crlf(copd), `\uFEFF${copd}`, `\uFEFF${crlf(copd)}`])
      expect(await footing(['score', 'v.yaml', '--json'], { files: { 'v.yaml': text } })).toMatchObject({
        code: 0,
        stdout: plain.stdout,
        stderr: '',
      });
  });

  it('places of problems are the same', async () => {
    const mistakes = exampleFiles()['examples/mistakes.yaml'] ?? '';
    const plain = await footing(['check', 'v.yaml'], { files: { 'v.yaml': mistakes } });
    expect((await footing(['check', 'v.yaml'], { files: { 'v.yaml': crlf(mistakes) } })).stderr).toBe(plain.stderr);
  });

  it('settings with carriage returns', async () => {
    const { stdout } = await footing(['settings', '--json'], {
      files: { '.footing.yaml': 'pathway: cdc_2019\r\npopulation: "NO"\r\n' },
    });
    expect(JSON.parse(stdout)).toMatchObject({ settings: { pathway: { value: 'cdc_2019' }, population: { value: 'NO' } } });
  });
});

describe('the line at fault', () => {
  it('is shown with marks under the fault', () => {
    const text = 'format: 1\r\nclient: {ref: M-1, sex: female, age: 740}\r\nassessed: 2026-05-11\r\n';
    const { problems } = parseSession(text, { file: 'v.yaml', catalogue: testEvidence(), today: '2026-05-20' });
    const [problem] = problems;
    expect(problem).toBeDefined();
    if (problem !== undefined)
      expect(sourceExcerpt(text, problem)).toBe(
        `    client: {ref: M-1, sex: female, age: 740}\n    ${' '.repeat(problem.column - 1)}^^^`,
      );
  });
});
