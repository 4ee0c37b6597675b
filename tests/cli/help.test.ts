/** Help that teaches: the overview, the pages, completion, and the list of commands as the commands themselves describe it. */
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { COMMANDS } from '../../src/cli/commands.ts';
import { buildProgram } from '../../src/cli/main.ts';
import { nodeIo } from '../../src/cli/node-io.ts';
import { readSettings, SETTING_NAMES } from '../../src/cli/setting-values.ts';
import { PROBLEM_CODES } from '../../src/intake/problems.ts';
import { testEvidence } from '../support/evidence.ts';
import { footing } from '../support/run.ts';

describe('the overview', () => {
  it('footing alone shows the seven things it does', async () => {
    const { code, stderr, stdout } = await footing([]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr.match(/^ {2}\d\. /gm)).toHaveLength(7);
    expect(Math.max(...stderr.split('\n').map((line) => line.length))).toBeLessThanOrEqual(106);
  });

  it('names only commands that there are', async () => {
    const { stderr } = await footing([]);
    const named = [...stderr.matchAll(/footing ([a-z]+)/g)].map((match) => match[1]).filter((word) => word !== 'scores');
    for (const name of named) expect(COMMANDS.map((each) => each.name)).toContain(name);
  });

  it('--version names the program and the evidence', async () => {
    const { stdout } = await footing(['--version']);
    expect(stdout).toMatch(/^footing \S+\nevidence [0-9a-f]{12}\n$/);
  });
});

describe('the list of commands', async () => {
  const program = await buildProgram(nodeIo(), () => undefined, 'all');
  it.each(COMMANDS)('$name is described by its own words', ({ name, about }) => {
    expect(program.commands.find((command) => command.name() === name)?.description()).toBe(about);
  });
});

describe('footing help', () => {
  it.each(SETTING_NAMES)('%s: the example can be read', async (name) => {
    const { code, stdout } = await footing(['help', name]);
    expect(code).toBe(0);
    const example = stdout.split('In a file:\n')[1] ?? '';
    const { faults, values } = readSettings(parse(example));
    expect(faults).toEqual([]);
    expect(Object.keys(values)).toEqual([name]);
  });
  it.each(['0', '1', '2'])('exit code %s', async (code) => {
    expect((await footing(['help', code])).stdout).toContain(`Exit code ${code}`);
  });
  it('codes lists every code', async () => {
    const { stdout } = await footing(['help', 'codes']);
    for (const code of Object.keys(PROBLEM_CODES)) expect(stdout).toContain(`  ${code} `);
  });
  it('a command below a command', async () => {
    expect((await footing(['help', 'norms', 'list'])).stdout).toContain('Usage: footing norms list');
  });
  it('an unknown topic is helped', async () => {
    const { code, stderr } = await footing(['help', 'decimal_coma']);
    expect(code).toBe(2);
    expect(stderr).toContain('footing help decimal_comma');
  });
});

const has = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;

describe('completion', () => {
  /** What bash offers for a line that ends where the cursor is. */
  async function offered(line: string): Promise<string[]> {
    const { stdout } = await footing(['completion', 'bash']);
    const words = line.split(' ');
    const script = `${stdout}\nCOMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}; _footing; printf '%s\\n' "\${COMPREPLY[@]}"`;
    return spawnSync('bash', ['-c', script], { encoding: 'utf8' }).stdout.trim().split('\n');
  }
  it.runIf(has('bash')).each([
    ['footing sc', ['score', 'schema']],
    ['footing protocol timed_up_and_go_', ['timed_up_and_go_cognitive', 'timed_up_and_go_manual']],
    ['footing completion f', ['fish']],
    ['footing score --format ', ['text', 'json']],
    ['footing norms show bohannon-2006-t', ['bohannon-2006-tug']],
    ['footing score --pathway cdc', ['cdc_2019']],
    ['footing norms li', ['list']],
  ])('bash: %s', async (line, words) => {
    expect(await offered(line)).toEqual(expect.arrayContaining(words));
  });

  it.each(['bash', 'zsh', 'fish'])(
    '%s: every command, test id and source id is in the script, and the shell can read it',
    async (shell) => {
      const { stdout, code } = await footing(['completion', shell]);
      expect(code).toBe(0);
      const evidence = testEvidence();
      for (const word of [
        ...COMMANDS.map(({ name }) => name),
        ...evidence.tests.map(({ id }) => id),
        ...Object.keys(evidence.sources),
      ])
        expect(stdout).toContain(word);
      if (has(shell)) {
        const checked = spawnSync(shell, shell === 'fish' ? ['--no-execute'] : ['-n'], { input: stdout, encoding: 'utf8' });
        expect([checked.status, checked.stderr]).toEqual([0, '']);
      }
    },
  );

  it('another shell is refused', async () => {
    expect((await footing(['completion', 'powershell'])).code).toBe(2);
  });
});
