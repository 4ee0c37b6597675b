/** Files that try to exhaust memory, stack or time, and names that every object has: refused in words, by every reader. */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { nodeIo } from '../../src/cli/node-io.ts';
import { plainYaml } from '../../src/evidence/plain-yaml.ts';
import { clinicFolder } from '../support/clinic.ts';
import { exampleFiles } from '../support/run.ts';
import { runInMemory as run } from './memory-io.ts';

const visit = exampleFiles()['examples/copd-74.yaml'] ?? '';
const ONE_SECOND = 1000;

/** Loaded beforehand, so that times are those of the work. */
await run(['score', 'v.yaml', '--norms', 'own', '--format', 'html'], { files: { 'v.yaml': visit, ...clinicFolder('own') } });
await run(['letter', 'v.yaml', '--template', 't.txt'], { files: { 'v.yaml': visit, 't.txt': '{{ date }}' } });
await run(['cohort', 'in.csv', '--columns', 'm.yaml'], { files: { 'in.csv': 'age\n74\n', 'm.yaml': 'format: 1\n' } });

const levels = 'abcdefghi';
const BOMBS: Readonly<Record<string, string>> = {
  'aliases of aliases': [...levels]
    .map(
      (name, index) =>
        `${name}: &${name} [${Array(9)
          .fill(index === 0 ? 'x' : `*${levels[index - 1]}`)
          .join(', ')}]`,
    )
    .join('\n'),
  'an alias of itself': 'a: &a [*a]\n',
  'an alias without its anchor': 'a: *nobody\n',
  'merge keys': `a: &a {x: 1}\n${Array.from({ length: 500 }, (_, index) => `k${index}: {<<: *a, y: ${index}}`).join('\n')}\n`,
  'brackets nested 20,000 deep': '['.repeat(20_000),
  'closed brackets nested 20,000 deep': '['.repeat(20_000) + ']'.repeat(20_000),
  'braces nested 5,000 deep': `${'{a: '.repeat(5000)}1${'}'.repeat(5000)}`,
  'lines nested 700 deep': Array.from({ length: 700 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'),
  'lists nested 10,000 deep in one line': '- '.repeat(10_000),
  'a number of 100,000 digits': `format: 1\nassessed: ${'9'.repeat(100_000)}\n`,
  'numbers beyond every limit':
    'format: 1e999\nclient: {age: 1e308, height_cm: -1e999, ref: 0x1fffffffffffffffff}\ntests: {timed_up_and_go: .inf, tandem_stance: .nan}\n',
  'a tag that names code': 'a: !!js/function "function () { process.exit(9) }"\n',
  'a thousand documents': '---\na: 1\n'.repeat(1000),
  'keys of every object': '__proto__: {age: 1}\nconstructor: {prototype: {age: 1}}\ntoString: 1\nhasOwnProperty: 1\n',
};

const READERS: Readonly<Record<string, (text: string) => { argv: string[]; files: Record<string, string> }>> = {
  visit: (text) => ({ argv: ['score', 'v.yaml'], files: { 'v.yaml': text } }),
  'settings file': (text) => ({ argv: ['score', 'v.yaml'], files: { 'v.yaml': visit, '.footing.yaml': text } }),
  'map of columns': (text) => ({
    argv: ['cohort', 'in.csv', '--columns', 'm.yaml'],
    files: { 'in.csv': 'age\n74\n', 'm.yaml': text },
  }),
  'norms file': (text) => ({
    argv: ['score', 'v.yaml', '--norms', 'own'],
    files: { 'v.yaml': visit, ...clinicFolder('own', { 'defaults.yaml': text }) },
  }),
  'file of people': (text) => ({ argv: ['letter', 'v.yaml', '--people', 'p.yaml'], files: { 'v.yaml': visit, 'p.yaml': text } }),
};

describe.each(Object.entries(READERS))('a %s that is', (_name, reader) => {
  it.each(Object.entries(BOMBS))('%s is refused in words', async (_bomb, text) => {
    const { argv, files } = reader(text);
    const { code, io, ms } = await run(argv, { files });
    expect([1, 2]).toContain(code);
    expect(io.err()).not.toMatch(/fault of the program|call stack|\n\s+at /);
    expect(io.err().length).toBeGreaterThan(10);
    expect(ms).toBeLessThan(3 * ONE_SECOND);
    expect(Object.hasOwn(Object.prototype, 'age')).toBe(false);
  });
});

describe('size', () => {
  it('a visit, a settings file or norms beyond any use are refused by their length', async () => {
    const long = `# ${'x'.repeat(5_000_000)}\n`;
    const { code, io, ms } = await run(['score', 'v.yaml'], { files: { 'v.yaml': long } });
    expect([code, ms < ONE_SECOND]).toEqual([1, true]);
    expect(io.err()).toContain('longer than');
    expect(plainYaml(long).faults[0]?.message).toContain('longer than');
  });

  it('a cell, a line and a header without end stop at a megabyte', async () => {
    const open = await run(['cohort', 'in.csv'], { files: { 'in.csv': `ref,age\n"${'x\n'.repeat(900_000)}` } });
    expect(open.code).toBe(1);
    const header = await run(['cohort', 'in.csv'], { files: { 'in.csv': 'x'.repeat(3_000_000) } });
    expect(header.code).toBe(2);
    expect(header.ms).toBeLessThan(3 * ONE_SECOND);
  });

  it.skipIf(!existsSync('/dev/zero'))('a device without end is not read into memory', () => {
    expect(() => nodeIo().readFile('/dev/zero')).toThrow(expect.objectContaining({ code: 'EFBIG' }));
  });
});

describe('names that every object has', () => {
  it.each(['constructor', '__proto__', 'toString'])('%s is no id, heading, word or topic', async (word) => {
    const files = {
      'v.yaml': visit,
      'in.csv': `ref,sex,age,feels_unsteady,timed_up_and_go,${word}\nA,${word},74,${word},${word},x\nA,f,${word},yes,12,x\n`,
    };
    const lines = [
      ['norms', 'show', word],
      ['norms', 'list', '--test', word],
      ['protocol', word],
      ['help', word],
      ['explain', 'v.yaml', word],
      ['score', 'v.yaml', '--pathway', word],
      ['handout', 'v.yaml', '--exercises', word],
      ['cohort', 'in.csv'],
      ['norms', 'cite', word],
      ['norms', 'schema', word],
      ['new', '--blank', '--tests', word],
      ['letter', 'v.yaml', '--to', word],
      [word],
    ];
    for (const argv of lines) {
      const { code, io } = await run(argv, { files });
      expect([1, 2], argv.join(' ')).toContain(code);
      expect(io.err() + io.out(), argv.join(' ')).not.toMatch(/native code|fault of the program|\[object/);
    }
  });
});
