/** No small count can be worked out from the change between visits, even by somebody who knows how many clients there are. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupChange } from '../../src/change/group.ts';
import { bandOf, LEAST_FOR_MIDDLE } from '../../src/cohort/summary/bands.ts';
import type { AtFirstVisit, BetweenVisits } from '../../src/cohort/summary/between-visits.ts';
import { NO_CONTROL, summariseChange } from '../../src/cohort/summary/change.ts';
import { countsOf } from '../../src/cohort/summary/spread.ts';
import type { SummaryBetween, SummaryKind } from '../../src/cohort/summary/types.ts';
import { testEvidence } from '../support/evidence.ts';
import { footing } from '../support/run.ts';
import { Puzzle } from './attacker.ts';

const test = testEvidence().testById.get('timed_up_and_go');
if (test === undefined) throw new Error('no such test');
const slot = { test, side: null };
const LEVELS = ['low', 'intermediate', 'high', 'undetermined'] as const;
/** Counts under this, but for nought, are nobody's to know. */
const LEAST = 5;
const VERDICTS = ['improved', 'worsened', 'within_error', 'cannot_tell'] as const;

const level = fc.oneof({ weight: 8, arbitrary: fc.constant('high') }, { weight: 2, arbitrary: fc.constantFrom(...LEVELS) });
const levelsOf = (most: number) => fc.array(level, { maxLength: most, size: 'max' });
const verdict = fc.oneof(
  { weight: 5, arbitrary: fc.constant('within_error' as const) },
  { weight: 2, arbitrary: fc.constantFrom(...VERDICTS) },
);

interface Made {
  readonly between: BetweenVisits;
  readonly completers: readonly string[];
  readonly left: readonly string[];
  readonly verdicts: readonly string[];
}

function made(completers: readonly string[], left: readonly string[], given: readonly (typeof VERDICTS)[number][]): Made {
  const verdicts = given.slice(0, completers.length);
  const kind = (levels: readonly string[]): AtFirstVisit => ({ ages: levels.map(() => 75), levels, results: new Map() });
  const change = groupChange(verdicts.map((each, index) => ({ before: 12 + index, after: 11, verdict: each })));
  const tests = change === null ? [] : [{ ...slot, change }];
  return { between: { completers: kind(completers), left: kind(left), tests, mixedUp: 0 }, completers, left, verdicts };
}

const cases = fc
  .tuple(
    levelsOf(40).filter((list) => list.length > 0),
    fc.oneof(levelsOf(6), levelsOf(30)),
    fc.array(verdict, { maxLength: 40, size: 'max' }),
  )
  .map(([completers, left, verdicts]) => made(completers, left, verdicts));

function addKind(puzzle: Puzzle, row: string, kind: SummaryKind): void {
  puzzle.count(`${row}:n`, kind.n);
  for (const id of LEVELS) puzzle.count(`${row}:${id}`, kind.levels.find((level) => level.id === id)?.n ?? null);
  puzzle.equal(
    LEVELS.map((id) => `${row}:${id}`),
    [`${row}:n`],
  );
}

/** The attacker also has a page of all first visits, as one by first and later visits would be. */
function puzzleOf(change: SummaryBetween, { completers, left }: Made): Puzzle {
  const puzzle = new Puzzle();
  addKind(puzzle, 'completers', change.completers);
  addKind(puzzle, 'left', change.left);
  puzzle.count('all:n', completers.length + left.length);
  puzzle.equal(['completers:n', 'left:n'], ['all:n']);
  const totals = countsOf([...completers, ...left]);
  for (const id of LEVELS) {
    puzzle.count(`all:${id}`, bandOf(totals[id] ?? 0));
    puzzle.equal([`completers:${id}`, `left:${id}`], [`all:${id}`]);
  }
  for (const each of change.tests) {
    // A mean is shown of no fewer than this.
    puzzle.count('pairs', each.pairs, each.mean_change === null ? 0 : LEAST_FOR_MIDDLE);
    puzzle.count('measured', each.measured, each.mean_change === null ? 0 : LEAST_FOR_MIDDLE);
    puzzle.count('without a number', null);
    puzzle.equal(['measured', 'without a number'], ['pairs']);
    puzzle.count('without a pair', null);
    puzzle.equal(['pairs', 'without a pair'], ['completers:n']);
    for (const id of VERDICTS) puzzle.count(`verdict ${id}`, each.verdicts[id]);
    puzzle.equal(
      VERDICTS.map((id) => `verdict ${id}`),
      ['pairs'],
    );
  }
  return puzzle;
}

function truthOf({ completers, left, verdicts }: Made): Map<string, number> {
  const truth = new Map<string, number>([
    ['completers:n', completers.length],
    ['left:n', left.length],
    ['pairs', verdicts.length],
  ]);
  for (const [row, list] of [
    ['completers', completers],
    ['left', left],
    ['all', [...completers, ...left]],
  ] as const)
    for (const id of LEVELS) truth.set(`${row}:${id}`, list.filter((each) => each === id).length);
  truth.set('all:n', completers.length + left.length);
  truth.set('without a pair', completers.length - verdicts.length);
  for (const id of VERDICTS) truth.set(`verdict ${id}`, verdicts.filter((each) => each === id).length);
  return truth;
}

const levels = LEVELS.map((id) => ({ id, name: id }));

describe('the change between visits', () => {
  it('gives no small count away', () => {
    let tried = 0;
    fc.assert(
      fc.property(cases, (each) => {
        const change = summariseChange(each.between, levels, [slot], true);
        const [puzzle, truth] = [puzzleOf(change, each), truthOf(each)];
        for (const name of puzzle.names) {
          const count = truth.get(name) ?? 0;
          if (count === 0 || count >= LEAST || name.endsWith(':n') || name === 'without a pair') continue;
          // What everybody is, each of them is.
          if (new Set([...each.completers, ...each.left]).size === 1 && LEVELS.some((id) => name.endsWith(`:${id}`))) continue;
          tried += 1;
          expect(puzzle.otherThan(name, truth), `${name} = ${count}`).not.toBe('no');
        }
      }),
      { numRuns: 400, endOnFailure: true, seed: Number(process.env.MASK_SEED ?? 20261125) },
    );
    expect(tried).toBeGreaterThan(300);
  });

  it('has every count as a band, and the mean of enough people', () => {
    const each = made(
      Array.from({ length: 48 }, () => 'high'),
      ['high', 'high'],
      Array.from({ length: 47 }, () => 'within_error' as const),
    );
    const change = summariseChange(each.between, levels, [slot], true);
    expect([change.completers.n, change.left.n, change.tests[0]?.pairs]).toEqual([
      { from: 46, to: 50 },
      { from: 0, to: 5 },
      { from: 46, to: 50 },
    ]);
    expect(change.tests[0]?.mean_change).not.toBeNull();
    expect(change.tests[0]?.verdicts.within_error).toEqual({ from: 46, to: 50 });
  });

  it('looks the same whether nobody or a few came only once', () => {
    const of = (left: number) =>
      made(
        Array.from({ length: 30 }, () => 'high'),
        Array.from({ length: left }, () => 'high'),
        Array.from({ length: 30 }, () => 'within_error' as const),
      ).between;
    const [none, few] = [0, 3].map((left) => summariseChange(of(left), levels, [slot], true));
    expect(few).toEqual(none);
    expect(few?.left).toEqual({ n: { from: 0, to: 5 }, age: null, levels: [], tests: [] });
  });

  it('gives a mean to one decimal more than the test has, since a mean of 27 whole numbers tells that they are 27', () => {
    const test30 = testEvidence().testById.get('thirty_second_chair_stand');
    if (test30 === undefined) throw new Error('no such test');
    const pairs = Array.from({ length: 27 }, (_, index) => ({
      before: 8 + (index % 5),
      after: 9 + (index % 4),
      verdict: 'within_error' as const,
    }));
    const change = groupChange(pairs);
    if (change === null) throw new Error('no change');
    const kind: AtFirstVisit = { ages: [], levels: [], results: new Map() };
    const between = { completers: kind, left: kind, tests: [{ test: test30, side: null, change }], mixedUp: 0 };
    const [shown] = summariseChange(between, levels, [], true).tests;
    expect(test30.decimals).toBe(0);
    for (const mean of [shown?.mean_before, shown?.mean_after, shown?.mean_change?.value, shown?.mean_change?.low]) {
      expect(mean).toBeTypeOf('number');
      expect(String(mean)).toMatch(/^-?\d+(?:\.\d)?$/);
    }
  });

  it('shows no interval of a median that runs from one person’s change to another’s of a handful', () => {
    const of = (pairs: number) =>
      made(
        Array.from({ length: pairs }, () => 'high'),
        [],
        Array.from({ length: pairs }, () => 'within_error' as const),
      );
    expect(summariseChange(of(20).between, levels, [slot], true).tests[0]?.median_change).toMatchObject({
      low: null,
      high: null,
    });
    expect(summariseChange(of(21).between, levels, [slot], true).tests[0]?.median_change?.low).not.toBeNull();
    expect(summariseChange(of(20).between, levels, [slot], false).tests[0]?.median_change?.low).not.toBeNull();
  });
});

describe('footing cohort --merge', () => {
  const rows = (day: string, from: number): string =>
    Array.from({ length: 12 }, (_, index) => `c${index + from},${day},female,72,${12 + index / 10}`).join('\n');
  const csv = (day: string, from = 0): string => `ref,assessed,sex,age,timed_up_and_go\n${rows(day, from)}\n`;

  async function part(text: string): Promise<string> {
    const { files } = await footing(['cohort', 'in.csv', '-o', 'o.csv', '--summary-part', 'p.json'], {
      files: { 'in.csv': text },
    });
    return files['p.json'] ?? '';
  }
  async function merged(options: readonly string[]): Promise<string> {
    const files = { 'a.json': await part(csv('2026-01-05')), 'b.json': await part(csv('2026-04-05')) };
    const run = await footing(['cohort', '--merge', 'a.json', 'b.json', '--summary', 's.html', ...options], { files });
    return run.files['s.html'] ?? '';
  }

  it('keeps groups back where the parts may have pages of their own by groups, and says how to get them', async () => {
    const bySex = async (options: readonly string[]): Promise<string> => {
      const files: Record<string, string> = {};
      for (const name of ['a', 'b']) {
        const text = `ref,sex,age,timed_up_and_go\n${Array.from({ length: 24 }, (_, index) => `${name}${index},${index % 2 === 0 ? 'female' : 'male'},72,12`).join('\n')}\n`;
        const run = ['cohort', 'in.csv', '-o', 'o.csv', '--summary-part', 'p.json', '--by', 'sex'];
        files[`${name}.json`] = (await footing(run, { files: { 'in.csv': text } })).files['p.json'] ?? '';
      }
      const merge = ['cohort', '--merge', 'a.json', 'b.json', '--summary', 's.html', ...options];
      return (await footing(merge, { files })).files['s.html'] ?? '';
    };
    const page = await bySex([]);
    expect(page).toContain('merge with --split');
    expect(page).not.toContain('sex: female');
    for (const options of [['--split'], ['--unmasked']]) expect(await bySex(options)).toContain('sex: female');
  });

  it('gives the change of clients whose visits lie in two parts', async () => {
    const page = await merged([]);
    expect(page).toContain(NO_CONTROL);
    expect(page).toContain('Those who came again beside those who did not');
  });
});
