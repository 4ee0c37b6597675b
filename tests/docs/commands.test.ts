/** Every command line in the README and in `--help` is run; what it needs must be in the examples. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { clinicFolder } from '../support/clinic.ts';
import { exampleFiles, footing } from '../support/run.ts';

/** What the examples may name: the project's own, and a clinic's norms folder. */
const files = { ...exampleFiles(), ...clinicFolder('my-norms') };

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** Steps that are checked by continuous integration itself. */
const BY_CI = new Set(['npm ci', 'npm test', 'npm run bench', 'npm run single']);

/** Lines of the shell blocks of a Markdown text, without prompts and comments. */
function shellLines(markdown: string): string[] {
  return [...markdown.matchAll(/```sh\n([\s\S]*?)```/g)]
    .flatMap((block) => (block[1] ?? '').split('\n'))
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
}

const words = (line: string): string[] =>
  [...line.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map((match) => match[1] ?? match[2] ?? match[3] ?? '');

/** `a && b | c` -> the parts that call the program. */
function programCalls(line: string): string[][] {
  return line
    .split(/&&|\|/)
    .map((part) => part.trim())
    .filter((part) => /^(footing|node bin\/footing\.js)\b/.test(part))
    .map((part) => words(part.replace(/^(footing|node bin\/footing\.js)/, '').replace(/\s[12]?>\s*\S+/, '')));
}

describe('README', () => {
  const lines = shellLines(readme);

  it('has commands', () => {
    expect(lines.length).toBeGreaterThanOrEqual(2);
  });

  it.each(lines)('%s', async (line) => {
    for (const argv of programCalls(line)) {
      const { code, stderr } = await footing(argv, { files });
      expect(stderr).not.toContain('fault of the program');
      expect([0, 1], `${argv.join(' ')}\n${stderr}`).toContain(code);
    }
    const rest = line.split(/&&|\|/).map((part) => part.trim());
    for (const part of rest)
      if (!/^(footing|node bin\/footing\.js)\b/.test(part) && !line.includes('|')) expect(BY_CI.has(part), part).toBe(true);
  });
});

/** Indented lines after "Examples:" in a help text. */
const exampleLines = (help: string): string[] =>
  (help.split('Examples:\n')[1] ?? '')
    .split('\n')
    .filter((line) => /^ {2}(footing|\S+.*\| footing) ?/.test(line))
    .map((line) => line.trim());

/** Names in the list of commands of a help text. */
const commandsIn = (help: string): string[] =>
  [...(help.split('\nCommands:\n')[1]?.split('\n\n')[0] ?? '').matchAll(/^ {2}([a-z]+)\b/gm)].map((match) => match[1] ?? '');

/** The program, every command and every command below it. */
async function helpPages(path: readonly string[] = []): Promise<string[][]> {
  const { stdout } = await footing([...path, '--help']);
  const below = [...new Set(commandsIn(stdout))].filter((name) => path.length === 0 || name !== 'help');
  const pages = await Promise.all(below.map((name) => helpPages([...path, name])));
  return [[...path], ...pages.flat()];
}

describe('--help', async () => {
  const pages = (await helpPages()).map((path) => [path.join(' ')]);
  it.each(pages)('footing %s --help has two examples and they run', async (command) => {
    const argv = command.split(' ').filter((word) => word !== '');
    const { stdout, code } = await footing([...argv, '--help']);
    expect(code).toBe(0);
    const examples = exampleLines(stdout);
    expect(examples.length).toBeGreaterThanOrEqual(2);
    for (const example of examples)
      for (const call of programCalls(example)) {
        const result = await footing(call, { files });
        expect([0, 1], `${example}\n${result.stderr}`).toContain(result.code);
      }
  });
});
