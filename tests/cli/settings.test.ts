/** Settings: what can stand in a file, which one is in force, and that a result says what a setting changed. */
import { describe, expect, it } from 'vitest';
import { readSettings, SETTING_NAMES } from '../../src/cli/setting-values.ts';
import { shownPath, userFolderOf } from '../../src/cli/user-folder.ts';
import { exampleFiles, footing } from '../support/run.ts';

const visit = { 'visit.yaml': exampleFiles()['examples/copd-74.yaml'] ?? '' };
interface Row {
  readonly value: unknown;
  readonly from: string;
}
const settingsOf = (stdout: string): Readonly<Record<string, Row>> =>
  (JSON.parse(stdout) as { settings: Record<string, Row> }).settings;

describe("the person's own folder", () => {
  it.each([
    [{ HOME: '/home/a' }, '/home/a/.config/footing'],
    [{ HOME: '/home/a', XDG_CONFIG_HOME: '/cfg' }, '/cfg/footing'],
    [{ HOME: '/home/a', XDG_CONFIG_HOME: '' }, '/home/a/.config/footing'],
    // XDG: a relative path is to be ignored.
    [{ HOME: '/home/a', XDG_CONFIG_HOME: 'cfg' }, '/home/a/.config/footing'],
    [{ APPDATA: 'C:\\Users\\a\\AppData\\Roaming', USERPROFILE: 'C:\\Users\\a' }, 'C:\\Users\\a\\AppData\\Roaming\\footing'],
    [{}, null],
  ])('%o', (env, folder) => expect(userFolderOf(env)).toBe(folder));

  it('is shown without whose home it is', () => {
    expect(shownPath('/home/a/.config/footing', { HOME: '/home/a' })).toBe('~/.config/footing');
    expect(shownPath('/home/ab/x', { HOME: '/home/a' })).toBe('/home/ab/x');
    expect(shownPath('C:\\Users\\a\\x', { USERPROFILE: 'C:\\Users\\a' })).toBe('~\\x');
  });
});

describe('a settings file', () => {
  it.each([
    [{ population: 'NO' }, { population: 'NO' }],
    [{ letterhead: 'Falls clinic' }, { letterhead: ['Falls clinic'] }],
    [{ limits: { timed_up_and_go: { unusual: { above: 45 } } } }, { limits: { timed_up_and_go: { unusual: { above: 45 } } } }],
    [null, {}],
    [{ norms: null }, {}],
  ])('%o is read', (content, values) => expect(readSettings(content)).toEqual({ values, faults: [] }));
  it.each([
    [{ popluation: 'NO' }, 'population'],
    [{ population: false }, 'in quotes'],
    [{ language: 'xx1' }, 'write'],
    [{ limits: { timed_up_and_go: 3 } }, 'unusual'],
    [{ limits: { timed_up_and_go: { unusual: { above: 'x' } } } }, 'a number'],
    [[1], 'lines'],
  ])('%o is refused with what to write', (content, help) => {
    const { faults } = readSettings(content);
    expect(faults.map(({ message }) => message).join()).toContain(help);
  });
});

describe('the order', () => {
  const env = { XDG_CONFIG_HOME: '' };
  it('flag, environment, folder, user', async () => {
    const files = {
      ...visit,
      '.footing.yaml': 'population: ES\npathway: cdc_2019\n',
      'cfg/footing/settings.yaml': 'population: AU\nletterhead: [Falls clinic]\n',
    };
    const run = (argv: string[], more: Record<string, string> = {}) =>
      footing([...argv, 'settings', '--json'], { files, env: { ...env, ...more } });
    const folder = settingsOf((await run([])).stdout);
    expect(folder.population).toMatchObject({ value: 'ES', from: 'the settings file .footing.yaml' });
    const environment = settingsOf((await run([], { FOOTING_POPULATION: 'us' })).stdout);
    expect(environment.population).toMatchObject({ value: 'US', from: 'the environment variable FOOTING_POPULATION' });
    const flag = settingsOf((await run(['--population', 'NO'], { FOOTING_POPULATION: 'US' })).stdout);
    expect(flag.population).toMatchObject({ value: 'NO', from: 'the flag --population' });
  });

  it('every setting is listed, set or not', async () => {
    const { stdout } = await footing(['settings'], { files: {} });
    for (const name of SETTING_NAMES) expect(stdout).toContain(`  ${name} `);
  });
});

describe('what a setting changes is printed in the result', () => {
  const run = (settings: string, argv: string[] = []) =>
    footing(['score', 'visit.yaml', '--json', ...argv], { files: { ...visit, '.footing.yaml': settings } });
  const notesOf = (stdout: string): string => (JSON.parse(stdout) as { notes: string[] }).notes.join('\n');

  it('the pathway', async () => {
    const { stdout } = await run('pathway: cdc_2019\n');
    expect((JSON.parse(stdout) as { risk: { pathway: string } }).risk.pathway).toBe('cdc_2019');
    expect(notesOf(stdout)).toContain('Set by the settings file .footing.yaml: the pathway cdc_2019 decides');
  });

  it('but not where a flag said otherwise', async () => {
    const { stdout } = await run('pathway: cdc_2019\n', ['--pathway', 'world_falls_guidelines_2022']);
    expect((JSON.parse(stdout) as { risk: { pathway: string } }).risk.pathway).toBe('world_falls_guidelines_2022');
    expect(notesOf(stdout)).not.toContain('cdc_2019 decides');
  });

  it('own limits', async () => {
    const { stdout, stderr } = await run('limits:\n  timed_up_and_go: {unusual: {above: 12}}\n');
    expect(stderr).toContain("Timed up and go of 12.8 s is unusual (the clinic's own limit)");
    expect(notesOf(stdout)).toContain('own limits of typing for timed_up_and_go');
  });

  it('a file with a fault stops the run and names the line', async () => {
    const { code, stdout, stderr } = await run('pathway: cdc_2019\npopulaton: "NO"\n');
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('.footing.yaml:2:');
    expect(stderr).toContain('population');
  });

  it('nothing is said where nothing is set', async () => {
    expect(notesOf((await run('')).stdout)).not.toContain('Set by');
  });
});
