/** Texts that try to run where they are shown (terminal, page, spreadsheet, template) or to choose where something is written. */
import { describe, expect, it } from 'vitest';
import type { Line, Reply } from '../../src/cli/asker.ts';
import { harmless } from '../../src/cli/harmless.ts';
import { exampleFiles } from '../support/run.ts';
import { runInMemory as run } from './memory-io.ts';

const visit = exampleFiles()['examples/copd-74.yaml'] ?? '';
const ONE_SECOND = 1000;

/** Loaded beforehand, so that times are those of the work. */
await run(['score', 'v.yaml', '--format', 'html'], { files: { 'v.yaml': visit } });
await run(['letter', 'v.yaml', '--template', 't.txt'], { files: { 'v.yaml': visit, 't.txt': '{{ date }}' } });
await run(['cohort', 'in.csv', '--columns', 'm.yaml'], { files: { 'in.csv': 'age\n74\n', 'm.yaml': 'format: 1\n' } });

const MARKUP = '<script>alert(1)</script>"><img src=x onerror=alert(1)>&{{7*7}}<%= 7*7 %>';
const ESCAPES = '\\e[2J\\e]0;owned\\a\\e[8m\\u202e';
const withReason = (text: string): string => visit.replace('could not rise without arms', `"${text.replaceAll('"', '\\"')}"`);
const hostileVisit = withReason(MARKUP);

describe('text of a visit in what people see', () => {
  const FORMATS = [
    ['score', 'v.yaml', '--full'],
    ['score', 'v.yaml', '--format', 'json'],
    ['score', 'v.yaml', '--format', 'markdown'],
    ['score', 'v.yaml', '--format', 'html'],
    ['score', 'v.yaml', '--format', 'fhir'],
    ['risk', 'v.yaml'],
    ['handout', 'v.yaml'],
    ['handout', 'v.yaml', '--format', 'text'],
    ['letter', 'v.yaml'],
    ['letter', 'v.yaml', '--format', 'html'],
    ['letter', 'v.yaml', '--format', 'markdown'],
    ['explain', 'v.yaml', 'five_times_sit_to_stand'],
    ['check', 'v.yaml'],
    ['change', 'v.yaml', 'w.yaml', '--format', 'html'],
    ['due', 'v.yaml', '--all'],
  ];
  it.each(FORMATS)('%s %s %s %s %s moves no cursor and runs nothing', async (...words) => {
    const argv = words.filter((word) => word !== undefined);
    const { io } = await run(argv, {
      files: { 'v.yaml': hostileVisit, 'w.yaml': hostileVisit.replace('2026-05-11', '2026-03-11') },
    });
    expect(io.out().length).toBeGreaterThan(10);
    const shown = io.out() + io.err();
    expect(shown).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    if (argv.includes('html') || (argv[0] === 'handout' && argv.length === 2)) expect(shown).not.toMatch(/<script|<img/i);
    const escapes = await run(argv, {
      files: { 'v.yaml': visit.replace('could not rise without arms', `"${ESCAPES}"`), 'w.yaml': visit },
    });
    expect(escapes.io.out() + escapes.io.err()).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  });

  it('a name of a file or heading in a message moves no cursor', async () => {
    const name = 'a\u001b]0;owned\u0007\u001b[2Jb\u202e.yaml';
    const { io } = await run(['check', 'f'], { files: { [`f/${name}`]: 'x' } });
    expect(io.err()).not.toMatch(/[\u0007\u001b\u202e]/);
    const cohort = await run(['cohort', 'in.csv'], { files: { 'in.csv': 'age,age \u001b[2J,age\n74,1,2\n' } });
    expect(cohort.io.err()).not.toMatch(/\u001b/);
  });

  it("keeps the program's own styles and progress line", () => {
    expect(harmless('\u001b[1mbold\u001b[22m\r\u001b[K12 rows\n')).toBe('\u001b[1mbold\u001b[22m\r\u001b[K12 rows\n');
    expect(harmless('a\rb\u001b[8mc\u001b[31md\u009b2Je')).toBe('abcd2Je');
  });
});

describe('spreadsheet formulas', () => {
  const evil = ['=HYPERLINK("http://x","y")', '@SUM(A1)', '+cmd|calc!A1', '-1+cmd|x', '\t=1'];
  it('are shown and not run in the scored and the refused rows', async () => {
    const rows = evil.map((cell, index) => `"${cell.replaceAll('"', '""')}",f,74,${index % 2 === 0 ? 12 : -3}`);
    const { io } = await run(['cohort', 'in.csv', '-o', 'o.csv', '--rejects', 'r.csv'], {
      files: { 'in.csv': `ref,sex,age,timed_up_and_go\n${rows.join('\n')}\n=1+1,f,74,12\n` },
    });
    const written = `${io.files.get('o.csv')}\n${io.files.get('r.csv')}`;
    expect(written).not.toMatch(/(^|,)"?[=@\t]/m);
    expect(written).not.toMatch(/(^|,)"?[+-][^,\n]*[a-z]/m);
    expect(written).toContain("'=1+1,f,74,12");
  });

  it('signed numbers and telephone numbers stay as they are', async () => {
    const { io } = await run(['cohort', 'in.csv'], { files: { 'in.csv': 'ref,age,telephone,score\nA,74,+47 22 33 44,-1.5\n' } });
    expect(io.out()).toContain('A,74,+47 22 33 44,-1.5,');
  });

  it('a reference from a visit file is no formula in the table of a folder', async () => {
    const { io } = await run(['cohort', 'f'], { files: { 'f/a.yaml': visit.replace('ref: M-207', 'ref: "=1+1"') } });
    expect(io.out()).not.toMatch(/,=1/);
  });
});

describe("a clinic's template is filled, never run", () => {
  const TRIES = [
    '{{ "".constructor.constructor("return process")() }}',
    '{{ constructor }}',
    '{{ __proto__ }}',
    '{% include "/etc/passwd" %}',
    '{% render "../../x" %}',
    '{% layout "x" %}',
    '{% for i in (1..99999999) %}{{ i }}{% endfor %}',
    '{% for i in (1..3000) %}{% for j in (1..3000) %}x{% endfor %}{% endfor %}',
    '{{ summary | nothing }}',
    '{{ nothing }}',
    '{%',
    'x'.repeat(2_000_000),
  ];
  it.each(TRIES)('%.60s', async (template) => {
    const { code, io, ms } = await run(['letter', 'v.yaml', '--template', 't.txt'], {
      files: { 'v.yaml': visit, 't.txt': template },
    });
    expect(io.err()).not.toMatch(/fault of the program|\n\s+at /);
    expect(code === 2 || !/root:|process|function/i.test(io.out())).toBe(true);
    expect(ms).toBeLessThan(3 * ONE_SECOND);
  });

  it('signs of other template languages are plain text, and slots are escaped', async () => {
    const files = { 'v.yaml': visit, 't.html': '<p><%= 7*7 %> #{7*7} {{ to | raw }}</p>' };
    const { code, io } = await run(['letter', 'v.yaml', '--template', 't.html', '--to-name', '<b>x</b>'], { files });
    expect(code).toBe(0);
    expect(io.out()).toContain('<p><%= 7*7 %> #{7*7} ');
    expect(io.out()).not.toContain('<b>');
  });
});

describe('names of outputs', () => {
  it('an id of a table cannot lead out of its folder', async () => {
    for (const id of ['../../x', '/etc/x', 'a/b', 'a\\b', '..', 'a\u0000b', 'CON:'])
      expect((await run(['norms', 'new', id, '--test', 'timed_up_and_go', '--to', 'own'], {})).code).toBe(2);
    expect((await run(['norms', 'new', 'a-1', '--test', '../../x', '--to', 'own'], {})).code).toBe(2);
  });

  it('a reference cannot choose where the visit is written', async () => {
    let asked = 0;
    const ask = async ({ ask: question }: Line): Promise<Reply> => {
      asked += 1;
      if (/reference/i.test(question)) return { kind: 'text', text: '../../x' };
      if (/age/i.test(question)) return { kind: 'text', text: '74' };
      return asked > 6
        ? { kind: 'stop' }
        : { kind: 'text', text: /day/i.test(question) ? '2026-05-11' : /sex/i.test(question) ? 'female' : '' };
    };
    const { io } = await run(['new'], { asker: { ask, confirm: async () => false, tell: () => undefined } });
    expect([...io.files.keys()].join()).toMatch(/x-2026-05-\d\d\.yaml\.draft/);
    expect([...io.files.keys()].join()).not.toMatch(/[/\\]/);
  });

  it('an output is never one of the inputs of a cohort', async () => {
    const { code, io } = await run(['cohort', 'in.csv', '-o', 'in.csv'], { files: { 'in.csv': 'age\n74\n' } });
    expect(code).toBe(2);
    expect(io.files.get('in.csv')?.toString()).toBe('age\n74\n');
  });
});
