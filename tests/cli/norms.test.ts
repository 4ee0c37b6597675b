/** `footing norms` and `--norms` as a person meets them: listing, reading, checking, extending, citing. */
import { describe, expect, it } from 'vitest';
import { clinicFolder, TABLE_PATH } from '../support/clinic.ts';
import { normsFolder } from '../support/evidence.ts';
import { exampleFiles, footing } from '../support/run.ts';

const visit = 'examples/copd-74.yaml';
const withClinic = (change = {}) => ({ files: { ...exampleFiles(), ...clinicFolder('clinic', change) } });
const broken = withClinic({ [TABLE_PATH]: (clinicFolder('c')[`c/${TABLE_PATH}`] ?? '').replace('p50: 10', 'p50: 7') });

interface Entry {
  readonly source: string;
  readonly test: string | null;
  readonly kind: string;
  readonly status: string;
}

describe('footing norms list', () => {
  it('gives the entries of the contract as JSON, filtered', async () => {
    const { code, stdout, stderr } = await footing(['norms', 'list', '--test', 'timed_up_and_go', '--kind', 'table', '--json']);
    expect([code, stderr]).toEqual([0, '']);
    const entries = JSON.parse(stdout) as Entry[];
    expect(entries.length).toBeGreaterThanOrEqual(5);
    for (const entry of entries) {
      expect(Object.keys(entry)).toEqual(['source', 'test', 'kind', 'status', 'location', 'citation', 'doi', 'rows']);
      expect(entry).toMatchObject({ test: 'timed_up_and_go', kind: 'table' });
    }
  });

  it('as text counts what it lists', async () => {
    const all = JSON.parse((await footing(['norms', 'list', '--status', 'memory', '--json'])).stdout) as Entry[];
    const { stdout } = await footing(['norms', 'list', '--status', 'memory']);
    expect(stdout).toContain(all.length === 1 ? '1 entry' : `${all.length} entries`);
    for (const { source } of all) expect(stdout).toContain(source);
  });

  it('sees the tables of a clinic', async () => {
    const { stdout } = await footing(['norms', 'list', '--norms', 'clinic', '--test', 'timed_up_and_go'], withClinic());
    expect(stdout).toContain('own-clinic-2026');
  });

  it('offers the nearest test for a mistyped one', async () => {
    const { code, stderr, stdout } = await footing(['norms', 'list', '--test', 'timed_up_and_og']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('perhaps timed_up_and_go');
  });
});

describe('footing norms show', () => {
  it('prints a table as the paper has it', async () => {
    const { code, stdout } = await footing(['norms', 'show', 'bohannon-2006-tug']);
    expect(code).toBe(0);
    // J Geriatr Phys Ther 2006;29(2):64-68, abstract: 60-69 years 8.1 s (7.1-9.0), 70-79 9.2 s (8.2-10.2), 80-99 11.3 s (10.0-12.7)
    for (const words of [
      '60-69',
      '8.1',
      '7.1 to 9.0',
      '9.2',
      '8.2 to 10.2',
      '11.3',
      '10.0 to 12.7',
      'over 12.7',
      'read in the abstract',
    ])
      expect(stdout).toContain(words);
  });

  it('offers the ids of the same author for one that is not there', async () => {
    const { code, stderr } = await footing(['norms', 'show', 'bohannon-2007']);
    expect(code).toBe(2);
    expect(stderr).toContain('bohannon-2006-tug');
  });
});

describe('footing norms check', () => {
  it('says what a sound folder would change', async () => {
    const { code, stdout, stderr } = await footing(['norms', 'check', 'clinic'], withClinic());
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^3 files checked, nothing wrong\ntimed_up_and_go: tables are tried in this order: own-clinic-2026, /);
  });

  it('gives file, line and column of a fault', async () => {
    const { code, stdout, stderr } = await footing(['norms', 'check', 'clinic/'], broken);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toContain(
      `clinic/${TABLE_PATH}:13:59: by_age, both sexes 60-79: percentiles run backwards: p25 is 8 but p50 is 7`,
    );
    expect(stderr).toContain('3 files checked, 1 problem');
  });

  it('checks the whole collection', async () => {
    const { code, stdout } = await footing(['norms', 'check', normsFolder]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^\d+ files checked, nothing wrong\n$/);
  });

  it.each([
    ['nowhere', 'there is no such file or folder'],
    ['examples/copd-74.yaml', 'is a file; a folder'],
    ['empty', 'holds no norms file'],
  ])('%s cannot be checked', async (folder, words) => {
    const { code, stderr } = await footing(['norms', 'check', folder], { files: { ...exampleFiles(), 'empty/notes.txt': '' } });
    expect(code).toBe(2);
    expect(stderr).toContain(words);
  });
});

describe('a run with a clinic folder', () => {
  const primary = (stdout: string, id: string): string | undefined => {
    const { tests } = JSON.parse(stdout) as {
      tests: { test: string; comparisons: { source: string; primary: boolean }[] }[];
    };
    return tests.find(({ test }) => test === id)?.comparisons.find((each) => each.primary)?.source;
  };

  it('takes its table for its test, and names folder and digest', async () => {
    const own = await footing(['score', visit, '--norms', 'clinic', '--json'], withClinic());
    const built = await footing(['score', visit, '--json']);
    expect(primary(own.stdout, 'timed_up_and_go')).toBe('own-clinic-2026');
    for (const id of ['gait_speed_usual', 'five_times_sit_to_stand', 'tandem_stance'])
      expect(primary(own.stdout, id)).toBe(primary(built.stdout, id));
    const evidence = (text: string) => (JSON.parse(text) as { evidence: { digest: string; folders: string[] } }).evidence;
    expect(evidence(own.stdout).folders).toEqual(['clinic']);
    expect(evidence(built.stdout).folders).toEqual([]);
    expect(evidence(own.stdout).digest).not.toBe(evidence(built.stdout).digest);
    const text = await footing(['score', visit, '--norms', 'clinic'], withClinic());
    expect(text.stdout).toContain(`(${evidence(own.stdout).digest.slice(0, 12)}); also norms from clinic`);
  });

  it("finds the person's own folder by itself", async () => {
    const files = { ...exampleFiles(), ...clinicFolder('home/.config/footing/norms') };
    const { stdout, code } = await footing(['score', visit, '--json'], { files, env: { HOME: 'home' } });
    expect(code).toBe(0);
    expect(primary(stdout, 'timed_up_and_go')).toBe('own-clinic-2026');
    expect(stdout).toContain('~/.config/footing/norms');
  });

  it('stops at a broken folder: positions, exit code 2, no result', async () => {
    const { code, stdout, stderr } = await footing(['score', visit, '--norms', 'clinic'], broken);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(`clinic/${TABLE_PATH}:13:59: `);
    expect(stderr).toContain('nothing was done');
  });

  it('stops at a folder that is not there', async () => {
    const { code, stdout, stderr } = await footing(['score', visit, '--norms', 'clinci']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('cannot read the norms folder clinci');
  });

  it('--population prefers a country, and refuses what is none', async () => {
    const norwegian = await footing(['score', visit, '--population', 'no', '--json']);
    expect(primary(norwegian.stdout, 'five_times_sit_to_stand')).toBe('bergland-2019-sppb-subtests');
    expect(norwegian.stdout).toContain('from NO there is tromso-5-tug-mortality, shown beside');
    const wrong = await footing(['score', visit, '--population', 'UK']);
    expect(wrong.code).toBe(2);
    expect(wrong.stderr).toContain('the United Kingdom is GB');
  });
});

describe('one more table in ten minutes', () => {
  const start = ['norms', 'new', 'smith-2021-tug', '--test', 'timed_up_and_go', '--to', 'mine'];
  const table = 'mine/tables/timed_up_and_go/smith-2021-tug.yaml';

  it('new writes a skeleton, check says what is missing, show prints the filled one back', async () => {
    const begun = await footing(start);
    expect(begun.code).toBe(0);
    expect(
      Object.keys(begun.files)
        .filter((path) => path.startsWith('mine/'))
        .sort(),
    ).toEqual([
      'mine/defaults.yaml',
      'mine/schema/defaults.schema.json',
      'mine/schema/sources.schema.json',
      'mine/schema/table.schema.json',
      'mine/sources.yaml',
      table,
    ]);
    expect(begun.files[table]).toMatch(/^# yaml-language-server: \$schema=\.\.\/\.\.\/schema\/table\.schema\.json\n/);

    const missing = await footing(['norms', 'check', 'mine'], { files: begun.files });
    expect(missing.code).toBe(1);
    for (const words of [
      'citation: is empty',
      'status: is empty',
      'location: is empty',
      'description: is empty',
      'age_min: must be',
    ])
      expect(missing.stderr).toContain(words);

    const files = {
      ...begun.files,
      'mine/sources.yaml': (begun.files['mine/sources.yaml'] ?? '').replace(
        'citation: ""',
        'citation: "Smith A. Invented. 2021."',
      ),
      [table]: (begun.files[table] ?? '')
        .replace('status: ', 'status: full-text')
        .replaceAll('location: ""', 'location: "Table 2"')
        .replace('description: ""', 'description: "Invented people"')
        .replace('kind: ', 'kind: general')
        .replaceAll('FROM', '60')
        .replaceAll('TO', '79')
        .replaceAll('mean: , sd: }', 'mean: 9.4, sd: 1.5}'),
    };
    const sound = await footing(['norms', 'check', 'mine'], { files });
    expect([sound.stderr, sound.code]).toEqual(['', 0]);
    const shown = await footing(['norms', 'show', 'smith-2021-tug', '--norms', 'mine'], { files });
    expect(shown.stdout).toMatch(/women +60-79 +9\.4 +1\.5/);
  });

  it('adds to sources.yaml, keeps defaults.yaml, never writes over a table', async () => {
    const first = await footing(start);
    const second = await footing(['norms', 'new', 'jones-2022-tug', '--test', 'timed_up_and_go', '--to', 'mine'], {
      files: first.files,
    });
    expect(second.code).toBe(0);
    expect(second.files['mine/sources.yaml']).toContain(first.files['mine/sources.yaml']?.trimEnd());
    expect(second.files['mine/sources.yaml']).toContain('  jones-2022-tug:');
    expect(second.files['mine/defaults.yaml']).toBe(first.files['mine/defaults.yaml']);
    const again = await footing(start, { files: second.files });
    expect(again.code).toBe(2);
    expect(again.files).toEqual(second.files);
  });

  it('refuses an id that could not be one, and a test that is none', async () => {
    expect((await footing(['norms', 'new', 'Smith 2021', '--test', 'step_test'])).code).toBe(2);
    expect((await footing(['norms', 'new', 'smith-2021', '--test', 'step'])).code).toBe(2);
  });
});

describe('footing norms cite, book and schema', () => {
  it('writes BibTeX', async () => {
    const { stdout, code } = await footing(['norms', 'cite', 'bohannon-2006-tug', 'araujo-2022']);
    expect(code).toBe(0);
    expect(stdout).toContain('@article{bohannon-2006-tug,');
    expect(stdout).toContain('author = {Araujo, CG and de Souza e Silva, CG and Laukkanen, JA and others}');
  });

  it('writes CSL-JSON of every source of a visit', async () => {
    const { stdout } = await footing(['norms', 'cite', '--visit', visit, '--format', 'csl-json']);
    const scored = await footing(['score', visit, '--json']);
    const ids = (JSON.parse(stdout) as { id: string }[]).map(({ id }) => id);
    expect(ids).toEqual(Object.keys((JSON.parse(scored.stdout) as { sources: object }).sources));
  });

  it('writes the book whole', async () => {
    const { files, stderr, stdout } = await footing(['norms', 'book', '-o', 'book.html']);
    expect([stdout, stderr]).toEqual(['', 'wrote book.html\n']);
    expect(files['book.html']).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
  });

  it('lists and prints schemas', async () => {
    expect((await footing(['norms', 'schema'])).stdout.split('\n')).toContain('table');
    expect(JSON.parse((await footing(['norms', 'schema', 'table'])).stdout)).toMatchObject({ type: 'object' });
    expect((await footing(['norms', 'schema', 'tables'])).code).toBe(2);
  });

  it.each(['list', 'show', 'check', 'new', 'book', 'cite', 'schema'])('norms %s --help leads with two examples', async (name) => {
    const { code, stdout } = await footing(['norms', name, '--help']);
    expect(code).toBe(0);
    expect(stdout.split('Examples:')[1]?.match(/^ {2}footing /gm)).toHaveLength(2);
  });
});
