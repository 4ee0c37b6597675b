/** `footing letter` and the formats of `footing score` as a person meets them. */
import { describe, expect, it } from 'vitest';
import { exampleFiles, footing } from '../support/run.ts';

const good = exampleFiles()['examples/copd-74.yaml'] ?? '';

describe('footing letter', () => {
  it('names come from flags and files, and never from the visit', async () => {
    const files = { 'visit.yaml': good, 'people.yaml': 'client: {name: A. Invented}\nto: {name: Dr B. Invented}\n' };
    const { stdout, code } = await footing(['letter', 'visit.yaml', '--people', 'people.yaml', '--to-name', 'Dr C. Invented'], {
      files,
    });
    expect(code).toBe(0);
    expect(stdout).toContain('A. Invented (our reference M-207)');
    expect(stdout).toContain('Dear Dr C. Invented,');
  });
  it('a client who does not agree gets no letter to others, but a record', async () => {
    const files = { 'visit.yaml': `${good}\nconsent_to_share: no\n` };
    const refused = await footing(['letter', 'visit.yaml'], { files });
    expect([refused.code, refused.stdout]).toEqual([1, '']);
    expect(refused.stderr).toContain('does not agree');
    expect((await footing(['letter', 'visit.yaml', '--to', 'client-file'], { files })).stdout).toContain("For the client's file");
  });
  it('a template of the clinic is filled and escaped; a wrong slot stops with what to do', async () => {
    const files = { 'visit.yaml': good, 'own.html': '<p>{{ copies }}</p>', 'wrong.txt': '{{ nothing }}' };
    const filled = await footing(['letter', 'visit.yaml', '--template', 'own.html', '--copy-to', '<b>'], { files });
    expect(filled.stdout).toBe('<p>Copies: &lt;b&gt;</p>');
    const wrong = await footing(['letter', 'visit.yaml', '--template', 'wrong.txt'], { files });
    expect(wrong.code).toBe(2);
    expect(wrong.stderr).toContain('--placeholders');
  });
  it('a template that prints a whole row stops with the slots of the row', async () => {
    const files = { 'visit.yaml': good, 'row.txt': '{% for row in results %}{{ row }}{% endfor %}' };
    const { code, stdout, stderr } = await footing(['letter', 'visit.yaml', '--template', 'row.txt'], { files });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/line:?\s*1/);
    expect(stderr).toContain('name one of its slots: test, ');
  });
  it.each([
    [['letter']],
    [['letter', 'visit.yaml', '--format', 'docx']],
    [['letter', 'visit.yaml', '--people', 'nobody.yaml']],
    [['letter', 'visit.yaml', '--template', 'nothing.txt']],
  ])('%o cannot start', async (argv) => {
    const { code, stdout, stderr } = await footing(argv, { files: { 'visit.yaml': good } });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).not.toBe('');
  });
});

describe('footing score --format', () => {
  it.each(['markdown', 'html', 'fhir'])('%s of several files goes to a file as one document', async (format) => {
    const { code, stdout, files } = await footing([
      'score',
      'examples/copd-74.yaml',
      'examples/mistakes.yaml',
      'examples/steady-66.yaml',
      '--format',
      format,
      '-o',
      'out',
    ]);
    expect([code, stdout]).toEqual([1, '']);
    for (const ref of ['M-207', 'S-014']) expect(files.out).toContain(ref);
  });
  it('--full prints what the short report leaves out', async () => {
    const [short, full] = [
      await footing(['score', 'examples/copd-74.yaml']),
      await footing(['score', 'examples/copd-74.yaml', '--full']),
    ];
    expect(full.stdout).toContain('shown, not counted for falls');
    expect(short.stdout).not.toContain('shown, not counted for falls');
    expect(short.stdout).toContain('--full');
  });
});
