/** The figures in "How it is tested" of DEVELOPERS.md are those of the tests themselves. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const list = (path: string): readonly unknown[] => {
  const value: unknown = JSON.parse(read(path));
  if (!Array.isArray(value)) throw new TypeError(`${path} is no list`);
  return value;
};
/** The number that a test takes where the environment says nothing else. */
const standard = (path: string, variable: string): number => {
  const [, digits] = new RegExp(`process\\.env\\.${variable} \\?\\? ([\\d_]+)`).exec(read(path)) ?? [];
  return Number((digits ?? 'none').replaceAll('_', ''));
};

const printed = (JSON.parse(read('tests/published/printed-cells.json')) as { entries: readonly unknown[] }).entries;
const openCohort = read('tests/fixtures/open-cohort/human-balance-evaluation.csv').trimEnd().split('\n');

const FIGURES: readonly (readonly [string, number])[] = [
  ['published tables and figures', printed.length],
  ['cells', list('tests/published/three-cells.json').length],
  ['clients kept', list('tests/independent/frozen-sample.json').length],
  ['people', openCohort.length - 1],
  ['broken files', readdirSync(new URL('../fixtures/bad/', import.meta.url)).length],
  ['cases, more with `FOOTING_FUZZ_COHORT`', standard('tests/cohort/fuzz.test.ts', 'FOOTING_FUZZ_COHORT')],
  ['cases, a million with `npm run fuzz`', standard('tests/hardening/fuzz.test.ts', 'FOOTING_FUZZ')],
];

const section = read('DEVELOPERS.md').split('## How it is tested')[1]?.split('\n## ')[0] ?? '';

test.each(FIGURES)('%s: %d', (words, actual) => {
  const [, digits] = new RegExp(`([\\d,]+) ${words.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')}`).exec(section) ?? [];
  expect(digits, `"${words}" stands in the table with a number`).toBeDefined();
  expect(Number((digits ?? '').replaceAll(',', ''))).toBe(actual);
});

test('every path in it is there', () => {
  const paths = [...section.matchAll(/`(tests\/[^`]*)`/g)].map((match) => match[1] ?? '');
  expect(paths.length).toBeGreaterThan(10);
  for (const path of paths) {
    const folder = path.endsWith('/') ? path.slice(0, -1) : path;
    const at = folder.lastIndexOf('/');
    const parent = at === -1 ? '.' : folder.slice(0, at);
    expect(readdirSync(new URL(`../../${parent}/`, import.meta.url)), path).toContain(folder.slice(at + 1));
  }
});
