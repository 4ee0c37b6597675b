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

/** Numbers that carry no clinical meaning anywhere: counting, halves, per cent. */
const NEUTRAL = new Set([0, 1, 2, 100]);

/**
 * Every other number in the pure rooms, with what it is. A clinical number would have to be argued for here, and moved to
 * norms/ instead. A number that is not listed for its file fails, and so does an entry that is no longer needed.
 */
const REVIEWED: Readonly<Record<string, readonly [numbers: readonly number[] | 'coefficients', what: string]>> = {
  'src/statistics/normal.ts': ['coefficients', 'coefficients of the normal distribution'],
  'src/risk/odds.ts': [[0.975], 'two-sided 95 %'],
  'src/risk/probability.ts': [[3], 'digits of the shown formula'],
  'src/scoring/derive.ts': [[12], 'digits that remove binary dust'],
  'src/scoring/measurement-error.ts': [[0.975, 0.95], 'two-sided 95 % and 90 %'],
  'src/scoring/performance.ts': [[3, 10, 14], 'decimals of a value; base of decimals; digits that remove binary dust'],
  'src/scoring/trials.ts': [[6], 'decimals that remove binary dust from a mean'],
  'src/scoring/select.ts': [[130, 0.1], '130 years as an open end of an age band; 0.1 m between metres and feet'],
  'src/scoring/value-at-percentile.ts': [[60, 1e-6, 1000, 0.5], '60 halvings of a range of 1000; half a percentile as "there"'],
  'src/plan/plan.ts': [[1000], 'spacing of a sort key'],
  'src/plan/start.ts': [[12], 'digits that remove binary dust'],
  'src/plan/week.ts': [[7], 'days of a week'],
  'src/change/compare-visits.ts': [[0.05, 5], 'what a limit of 95 % lets through; results from which chance is worth a line'],
  'src/change/days.ts': [[86_400_000, 10], 'milliseconds of a day; letters of an ISO date'],
  'src/change/group.ts': [[0.95, 0.5, 4, 6], 'level of the intervals; a median; decimals'],
  'src/change/since-last.ts': [[365], 'days of the year that the question looks back over'],
  'src/change/trend.ts': [[365.25, 12, 3, 4], 'days of a month; fewest visits of a trend; decimals'],
  'src/change/verdict.ts': [[6], 'decimals that remove binary dust'],
};

describe('no clinical number in the pure rooms', () => {
  const rooms = sources.filter(
    (path) => /^src\/(statistics|scoring|risk|plan|change)\//.test(path) || ['src/assess.ts', 'src/facts.ts'].includes(path),
  );
  it.each(rooms)('%s', (path) => {
    const numbers = [...bare(read(path)).matchAll(/(?<![\w.$])\d[\d_]*(?:\.\d+)?(?:e-?\d+)?(?![\w.])/gi)].map((match) =>
      Number(match[0].replaceAll('_', '')),
    );
    const left = new Set(numbers.filter((number) => !NEUTRAL.has(number)));
    const [reviewed] = REVIEWED[path] ?? [[]];
    if (reviewed !== 'coefficients') expect(left).toEqual(new Set(reviewed));
  });

  it('every reviewed file is there', () => expect(Object.keys(REVIEWED).filter((path) => !rooms.includes(path))).toEqual([]));
});

/** What every room may name: the shapes of a visit and of a result. */
const SHAPES = ['session.ts', 'assessment.ts', 'assessment-risk.ts', 'assessment-plan.ts'];
const COMPOSED = ['assess.ts', 'facts.ts', 'change-visits.ts', 'version.ts', 'own.ts'];

/**
 * Which rooms a room may import from; its own is always allowed. Files directly in src/ are rooms of their own, by name. A room
 * that is not listed here fails, so that a new one has to say where it stands.
 */
const ARROWS: Readonly<Record<string, readonly string[]>> = {
  'session.ts': [],
  'session-keys.ts': [],
  'session-plan-keys.ts': ['session-keys.ts'],
  'own.ts': [],
  'version.ts': [],
  // Status and citation of the data are words of the result too.
  'assessment.ts': ['evidence', ...SHAPES],
  'assessment-risk.ts': ['evidence'],
  'assessment-plan.ts': ['assessment-risk.ts'],
  evidence: ['session.ts', 'session-keys.ts', 'assessment.ts'],
  statistics: [],
  scoring: ['evidence', 'statistics', ...SHAPES],
  risk: ['evidence', 'statistics', ...SHAPES],
  plan: ['evidence', ...SHAPES],
  'facts.ts': ['evidence', 'scoring', 'session-keys.ts', ...SHAPES],
  'cited-sources.ts': ['evidence', ...SHAPES],
  change: ['evidence', 'statistics', 'scoring', 'risk', 'plan', 'facts.ts', ...SHAPES],
  'assess.ts': ['evidence', 'scoring', 'risk', 'plan', 'facts.ts', 'cited-sources.ts', 'version.ts', ...SHAPES],
  'change-visits.ts': ['evidence', 'change', 'assess.ts', ...SHAPES],
  intake: ['evidence', 'session-keys.ts', 'session-plan-keys.ts', 'own.ts', ...SHAPES],
  report: ['evidence', 'scoring', 'risk', 'plan', 'change', 'session-keys.ts', ...COMPOSED, ...SHAPES],
  cohort: ['evidence', 'intake', 'scoring', 'risk', 'plan', 'change', 'report', 'session-keys.ts', ...COMPOSED, ...SHAPES],
  'index.ts': ['evidence', 'intake', 'change', ...COMPOSED, ...SHAPES],
  cli: ['evidence', 'intake', 'change', 'report', 'cohort', ...COMPOSED, ...SHAPES],
};

const roomOf = (path: string): string => path.split('/')[1] ?? '';
/** Whatever way it is written: `import ... from`, `export ... from`, `import '...'`, `import('...')`. */
const importsOf = (path: string, pattern = /(?:\bfrom |\bimport |\bimport\()'(\.[^']+)'/g): string[] =>
  [...read(path).matchAll(pattern)].map((match) => posix.join(posix.dirname(path), match[1] ?? ''));

describe('arrows run one way', () => {
  it.each(sources)('%s', (path) => {
    const arrows = ARROWS[roomOf(path)];
    if (arrows === undefined) expect.fail(`${roomOf(path)} is no room that ARROWS knows`);
    expect(importsOf(path).filter((target) => ![roomOf(path), ...arrows].includes(roomOf(target)))).toEqual([]);
  });

  it('no room is reached from itself by another one, but for the shapes that only types flow through', () => {
    const shapes = new Set([...SHAPES, 'evidence']);
    const reaches = (from: string, seen = new Set<string>()): Set<string> => {
      for (const room of ARROWS[from] ?? [])
        if (!shapes.has(room) && !seen.has(room)) {
          seen.add(room);
          reaches(room, seen);
        }
      return seen;
    };
    expect(Object.keys(ARROWS).filter((room) => !shapes.has(room) && reaches(room).has(room))).toEqual([]);
  });

  it('no module waits for itself: there is no circle of imports that run', () => {
    // Types are gone when the program runs, and what is loaded on demand is loaded later.
    const running = new Map(
      sources.map((path) => [path, importsOf(path, /^(?:import|export) (?!type )(?:[^;']*?from )?'(\.[^']+)'/gm)]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const follow = (path: string, above: readonly string[]): void => {
      if (above.includes(path)) circles.push([...above.slice(above.indexOf(path)), path].join(' -> '));
      else if (!done.has(path)) for (const next of running.get(path) ?? []) follow(next, [...above, path]);
      done.add(path);
    };
    for (const path of sources) follow(path, []);
    expect(circles).toEqual([]);
  });

  it('the pure rooms touch no file, clock or environment', () => {
    const pure = sources.filter((path) => /^src\/(statistics|scoring|risk|plan|change|report)\//.test(path));
    for (const path of pure) expect(bare(read(path)), path).not.toMatch(/\bprocess\.|\bDate\.now|new Date\(\)/);
    // `bare` takes texts away, and the name of a module is one.
    for (const path of pure) expect(read(path), path).not.toMatch(/from '(?:node:)?(?:fs|os|process|child_process|net|https?)/);
  });
});

describe('dead code', () => {
  const everything = [
    ...sources,
    ...filesBelow('tests', /\.(ts|mjs)$/).filter((path) => !path.includes('node_modules')),
    ...filesBelow('.config', /\.(mjs|cjs)$/),
  ].map((path) => [path, read(path)] as const);
  // What a library or a test may call is named in an `import`; types are named by the shapes that hold them.
  const unused = (path: string): string[] =>
    [...read(path).matchAll(/^export (?:async )?(?:const|function\*?|class) (\w+)/gm)]
      .map((match) => match[1] ?? '')
      .filter((name) => !everything.some(([other, text]) => other !== path && new RegExp(`\\b${name}\\b`).test(text)));
  it.each(sources)('%s exports nothing that nobody else names', (path) => expect(unused(path)).toEqual([]));
});

describe('size', () => {
  /** Files that are longer, each with the reason; an entry that is no longer needed fails. */
  const LONGER: Readonly<Record<string, string>> = {};
  it('no source file is longer than 250 lines', () => {
    expect(sources.filter((path) => read(path).split('\n').length > 251)).toEqual(Object.keys(LONGER));
  });
});
