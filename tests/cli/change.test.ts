/** `footing change` and `footing due` as a person types them. */
import { describe, expect, it } from 'vitest';
import { exampleFiles, footing } from '../support/run.ts';

const VISITS = ['examples/d-118/2026-03-16.yaml', 'examples/d-118/2026-05-04.yaml'];
const visitFile = (ref: string, assessed: string, tests: string): string =>
  `format: 1\nclient: {ref: ${ref}, sex: female, age: 74}\nassessed: ${assessed}\ntests:\n  ${tests}\n`;

describe('change', () => {
  it('prints the contract as JSON', async () => {
    const { code, stdout, stderr } = await footing(['change', ...VISITS, '--json']);
    expect([code, stderr]).toEqual([0, '']);
    const found = JSON.parse(stdout);
    expect(Object.keys(found).slice(0, 9)).toEqual([
      'format',
      'tool',
      'evidence',
      'client',
      'from',
      'to',
      'tests',
      'risk',
      'plan',
    ]);
    expect([found.from, found.to]).toEqual(['2026-03-16', '2026-05-04']);
    expect(Object.keys(found.tests[0]).slice(0, 14)).toEqual([
      'test',
      'side',
      'before',
      'after',
      'change',
      'direction',
      'real',
      'matters',
      'mdc95',
      'mcid',
      'crossed',
      'disputed',
      'sources',
      'verdict',
    ]);
    expect(found.tests[0]).toMatchObject({
      test: 'timed_up_and_go',
      before: 12.4,
      after: 11.3,
      change: -1.1,
      direction: 'better',
      real: 'no',
      mdc95: 2.68,
      verdict: 'within_error',
    });
    expect(found.risk).toMatchObject({ before: 'low', after: 'low' });
    expect(found.plan[0]).toEqual(
      expect.objectContaining({ exercise: expect.any(String), before: expect.any(Number), after: expect.any(Number) }),
    );
    for (const test of found.tests) for (const source of test.sources) expect(found.sources[source], source).toBeDefined();
  });

  it.each(['text', 'markdown', 'html', 'letter'])('a folder of eight visits as %s', async (format) => {
    const { code, stdout } = await footing(['change', 'examples/d-118', '--format', format]);
    expect(code).toBe(0);
    expect(stdout).toContain('4 May 2026');
    expect(stdout).not.toMatch(/NaN|undefined|\[object|\bnull\b|Infinity/);
    // Titles of papers and their DOIs stand as they are.
    const own = stdout.split(/\n## Sources|\nSOURCES|<h2>Sources/)[0] ?? '';
    expect(own).not.toMatch(/\d\.\d{4}/);
    expect(own.toLowerCase()).not.toMatch(/\bstable\b|\bsafe\b|diagnosis/);
  });

  it('the order of the files makes no difference', async () => {
    const [forth, back] = [
      await footing(['change', ...VISITS, '--json']),
      await footing(['change', ...[...VISITS].reverse(), '--json']),
    ];
    expect(back.stdout).toBe(forth.stdout);
  });

  it('writes to a file', async () => {
    const { code, stdout, stderr, files } = await footing(['change', 'examples/d-118', '--format', 'html', '-o', 'change.html']);
    expect([code, stdout, stderr]).toEqual([0, '', 'wrote change.html\n']);
    expect(files['change.html']).toContain('<!DOCTYPE html>');
  });

  it('refuses visits of two clients', async () => {
    const files = {
      'a.yaml': visitFile('A', '2026-01-01', 'timed_up_and_go: 12'),
      'b.yaml': visitFile('B', '2026-03-01', 'timed_up_and_go: 11'),
    };
    expect(await footing(['change', 'a.yaml', 'b.yaml'], { files })).toMatchObject({
      code: 1,
      stdout: '',
      stderr: 'footing: the visits are of different clients: A, B\n',
    });
  });

  it('refuses the whole where one visit cannot be read', async () => {
    const files = {
      'a.yaml': visitFile('A', '2026-01-01', 'timed_up_and_go: 12,8'),
      'b.yaml': visitFile('A', '2026-03-01', 'timed_up_and_go: 11'),
    };
    const { code, stdout, stderr } = await footing(['change', 'a.yaml', 'b.yaml'], { files });
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toContain('a.yaml:5:20:');
  });

  it.each([
    { argv: ['change', 'a.yaml'], message: 'two visits are needed' },
    { argv: ['change', 'none', 'a.yaml'], message: 'cannot read none' },
    { argv: ['change', 'empty', 'a.yaml'], message: 'there is no .yaml or .yml file in empty' },
    { argv: ['change', 'a.yaml', 'a.yaml', '--pathway', 'x'], message: 'there is no pathway "x"' },
  ])('$argv cannot start', async ({ argv, message }) => {
    const { code, stdout, stderr } = await footing(argv, {
      files: { 'a.yaml': visitFile('A', '2026-01-01', 'timed_up_and_go: 12'), 'empty/note.txt': '' },
    });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(message);
  });

  it('text from files is made harmless in every format', async () => {
    const hostile = (assessed: string) =>
      `format: 1\nclient: {ref: "<script>alert(1)</script>|*x*\\u202E", sex: female, age: 74}\nassessed: ${assessed}\ntests:\n  timed_up_and_go: {value: 12, aid: "<b>stick</b> | [x](y)"}\n`;
    const files = { 'v/a.yaml': hostile('2026-01-01'), 'v/b.yaml': hostile('2026-03-01') };
    const html = await footing(['change', 'v', '--format', 'html'], { files });
    expect(html.stdout).not.toMatch(/<script|<b>/);
    expect(html.stdout).toContain('&lt;script&gt;');
    const markdown = await footing(['change', 'v', '--format', 'markdown'], { files });
    expect(markdown.stdout).not.toMatch(/[^\\]<script|[^\\]\[x\]/);
    for (const format of ['text', 'json', 'markdown', 'html', 'letter'])
      expect((await footing(['change', 'v', '--format', format], { files })).stdout).not.toContain('\u202E');
  });
});

describe('due', () => {
  it('lists the newest visit of each client, most urgent first', async () => {
    const { code, stdout } = await footing(['due', 'examples', '--on', '2026-08-01', '--json', '--all'], {
      files: withoutMistakes(),
    });
    expect(code).toBe(0);
    const found = JSON.parse(stdout);
    expect(found[0]).toMatchObject({ ref: 'R-031', state: 'overdue', level: 'high' });
    expect(found.filter((client: { ref: string }) => client.ref === 'D-118')).toMatchObject([
      { assessed: '2026-05-04', file: 'examples/d-118/2026-05-04.yaml' },
    ]);
  });

  it('says so where nobody is due, and how many come later', async () => {
    const { code, stdout } = await footing(['due', 'examples/d-118']);
    expect(code).toBe(0);
    expect(stdout).toContain('Nobody is due, overdue or flagged.');
    expect(stdout).toContain('1 not due yet');
  });

  it('a refused file is reported and the others are listed', async () => {
    const { code, stdout, stderr } = await footing(['due', 'examples', '--on', '2026-08-01']);
    expect(code).toBe(1);
    expect(stderr).toContain('examples/mistakes.yaml: not scored');
    expect(stdout).toContain('R-031');
  });

  it.each([
    ['--on', '2026-02-30'],
    ['--on', 'tomorrow'],
    ['--within', 'x'],
  ])('%s %s cannot start', async (option, value) => {
    expect((await footing(['due', 'examples/d-118', option, value])).code).toBe(2);
  });
});

function withoutMistakes(): Record<string, string> {
  return Object.fromEntries(Object.entries(exampleFiles()).filter(([name]) => !name.includes('mistakes')));
}
