/** The README names every command, test, problem code, setting and exit code, with the words of the program itself. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { EXIT } from '../../src/cli/io.ts';
import { SETTINGS, type SettingDefinition } from '../../src/cli/setting-values.ts';
import { PROBLEM_CODES } from '../../src/intake/problems.ts';
import { testEvidence } from '../support/evidence.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** Rows of the table under a heading, by their first cell. */
function table(heading: string): Map<string, string> {
  const section = readme.split(`\n## ${heading}\n`)[1]?.split('\n## ')[0] ?? '';
  const rows = [...section.matchAll(/^\| `([^`]+)` \|(.*)\|$/gm)];
  return new Map(rows.map(([, id = '', rest = '']) => [id, rest.replaceAll('\\|', '|')]));
}

const sorted = (ids: Iterable<string>): string[] => [...ids].sort();

describe('README', () => {
  it('every command, with its own words and an example', () => {
    const rows = table('Commands');
    expect(sorted(rows.keys())).toEqual(sorted(COMMANDS.map(({ name }) => name)));
    for (const { name, about } of COMMANDS) expect(rows.get(name)).toMatch(new RegExp(`^ ${about} \\| .footing ${name}`));
  });

  it('every exit code', () => {
    for (const code of Object.values(EXIT)) expect(readme).toMatch(new RegExp(`^\\| ${code} \\| \\w+`, 'm'));
  });

  it('every setting, with its flag and variable', () => {
    const rows = table('Settings');
    expect(sorted(rows.keys())).toEqual(sorted(Object.keys(SETTINGS)));
    for (const [name, { about, flag, env }] of Object.entries<SettingDefinition>(SETTINGS))
      for (const part of [about, flag ?? '', env ?? '']) expect(rows.get(name)).toContain(part);
  });

  it('every test', () => {
    const rows = table('Tests');
    const { tests } = testEvidence();
    expect(sorted(rows.keys())).toEqual(sorted(tests.map(({ id }) => id)));
    for (const { id, name } of tests) expect(rows.get(id)).toContain(name);
  });

  it('every problem code, with its meaning', () => {
    const rows = table('Problem codes');
    expect(sorted(rows.keys())).toEqual(sorted(Object.keys(PROBLEM_CODES)));
    for (const [code, { severity, meaning }] of Object.entries(PROBLEM_CODES))
      expect(rows.get(code)).toBe(` ${severity === 'error' ? 'refused' : 'noted'} | ${meaning} `);
  });

  it('every example of the table of commands is a command line of that command', () => {
    for (const [name, rest] of table('Commands')) expect(rest).toContain(`\`footing ${name}`);
  });
});
