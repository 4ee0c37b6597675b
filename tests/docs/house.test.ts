/** Rules of the house that a machine can hold: no code in norms/, no clinical number in the pure rooms, one-way imports, file length. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { isMap, isScalar, isSeq, parseAllDocuments, visit } from 'yaml';

const root = fileURLToPath(new URL('../..', import.meta.url));

function filesBelow(folder: string, pattern: RegExp): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && pattern.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}
const read = (path: string): string => readFileSync(join(root, path), 'utf8');

const sources = filesBelow('src', /\.ts$/).filter((path) => path !== 'src/evidence/compiled.ts' && !path.includes('compiled'));

describe('norms/ holds data and no code', () => {
  it('only YAML, JSON Schema and the guide for contributors', () => {
    expect(filesBelow('norms', /./).filter((path) => !/\.(yaml|md|schema\.json)$/.test(path))).toEqual([]);
  });

  it.each(filesBelow('norms', /\.yaml$/))('%s: one plain document, no tags, anchors or scripts', (path) => {
    const documents = parseAllDocuments(read(path));
    expect(Array.isArray(documents) ? documents.length : 1).toBe(1);
    for (const document of Array.isArray(documents) ? documents : []) {
      expect(document.errors).toEqual([]);
      visit(document, {
        Alias: () => expect.fail('an alias'),
        Node: (_key, node) => {
          if ((isScalar(node) || isMap(node) || isSeq(node)) && node.anchor !== undefined)
            expect.fail(`an anchor: ${node.anchor}`);
          if (isScalar(node) && typeof node.value === 'string' && /=>|\bfunction\s*\(|\$\{|<script|\beval\(/.test(node.value))
            expect.fail(`looks like code: ${node.value}`);
        },
      });
    }
  });
});

/** Source without comments and strings, so that numbers in prose do not count. */
function bare(text: string): string {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/(^|[^:])\/\/.*$/gm, '$1')
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/g, "''")
    .replace(/\/(?![*/])(?:[^/\\\n[]|\\.|\[(?:[^\]\\]|\\.)*\])+\/[a-z]*(?=[.,;)\s])/g, "''");
}

/** Numbers that carry no clinical meaning: counting, halves, per cent, decimal places. */
const NEUTRAL = new Set([0, 1, 2, 3, 10, 12, 14, 100]);

/** Every other number in the pure rooms, with what it is. A clinical number would have to be argued for here, and moved to norms/ instead. */
const REVIEWED: Readonly<Record<string, string>> = {
  'src/statistics/normal.ts': 'coefficients of the normal distribution',
  'src/risk/odds.ts': '0.975: two-sided 95 %',
  'src/scoring/measurement-error.ts': '0.975 and 0.95: two-sided 95 % and 90 %',
  'src/scoring/trials.ts': '6: decimals that remove binary dust from a mean',
  'src/scoring/select.ts': '130 years as an open end of an age band; 0.1 m between metres and feet',
  'src/plan/plan.ts': '1000: spacing of a sort key',
  'src/plan/week.ts': '7: days of a week',
  'src/change/compare-visits.ts': '0.05: what a limit of 95 % lets through; 5: results from which chance is worth a line',
  'src/change/days.ts': 'milliseconds of a day',
  'src/change/group.ts': '0.95: level of the intervals; 4 and 6: decimals',
  'src/scoring/value-at-percentile.ts': '60 halvings of a range of 1000; half a percentile as "there"',
  'src/change/since-last.ts': '365: days of the year that the question looks back over',
  'src/change/trend.ts': '365.25 / 12: days of a month; 4: decimals',
  'src/change/verdict.ts': '6: decimals that remove binary dust',
};

describe('no clinical number in the pure rooms', () => {
  const rooms = sources.filter(
    (path) => /^src\/(scoring|risk|plan|change)\//.test(path) || ['src/assess.ts', 'src/facts.ts'].includes(path),
  );
  it.each(rooms)('%s', (path) => {
    const numbers = [...bare(read(path)).matchAll(/(?<![\w.$])\d[\d_]*(?:\.\d+)?(?:e-?\d+)?(?![\w.])/gi)].map((match) =>
      Number(match[0].replaceAll('_', '')),
    );
    const left = [...new Set(numbers)].filter((number) => !NEUTRAL.has(number));
    if (REVIEWED[path] === undefined) expect(left).toEqual([]);
  });
});

/** Which rooms a room may import from; its own is always allowed. Files directly in src/ are listed by name. */
const RESULT_TYPES = ['assessment.ts', 'assessment-risk.ts', 'assessment-plan.ts'];
const ARROWS: Readonly<Record<string, readonly string[]>> = {
  evidence: ['session.ts', 'session-keys.ts', 'assessment.ts'],
  statistics: [],
  scoring: ['evidence', 'statistics', 'session.ts', ...RESULT_TYPES],
  risk: ['evidence', 'statistics', 'session.ts', ...RESULT_TYPES],
  plan: ['evidence', 'session.ts', ...RESULT_TYPES],
  change: ['evidence', 'statistics', 'scoring', 'risk', 'plan', 'facts.ts', 'session.ts', ...RESULT_TYPES],
};

describe('arrows run one way', () => {
  const roomOf = (path: string): string => path.split('/')[1] ?? '';
  it.each(sources.filter((path) => ARROWS[roomOf(path)] !== undefined))('%s', (path) => {
    const imports = [...read(path).matchAll(/from '(\.[^']+)'/g)].map((match) => posix.join(posix.dirname(path), match[1] ?? ''));
    const allowed = [roomOf(path), ...(ARROWS[roomOf(path)] ?? [])];
    expect(imports.filter((target) => !allowed.includes(roomOf(target)))).toEqual([]);
  });

  it('the pure rooms touch no file, clock or environment', () => {
    const pure = sources.filter((path) => /^src\/(scoring|risk|plan|change|report)\//.test(path));
    for (const path of pure) expect(bare(read(path)), path).not.toMatch(/\bprocess\.|\bDate\.now|new Date\(\)|node:fs/);
  });
});

describe('size', () => {
  /** Files that are longer, each with the reason; an entry that is no longer needed fails. */
  const LONGER: Readonly<Record<string, string>> = {
    'src/cohort/summary/part.ts': 'the shapes of a mergeable part and the one class that fills them; likewise',
  };
  it('no source file is longer than 250 lines', () => {
    expect(sources.filter((path) => read(path).split('\n').length > 251)).toEqual(Object.keys(LONGER));
  });
});
