/** What is withheld of the change between visits cannot be worked out, even by somebody who knows how many clients there are. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupChange } from '../../src/change/group.ts';
import type { AtFirstVisit, BetweenVisits } from '../../src/cohort/summary/between-visits.ts';
import { NO_CONTROL, summariseChange } from '../../src/cohort/summary/change.ts';
import { LEAST_SHOWN, maskLine } from '../../src/cohort/summary/mask.ts';
import { countsOf } from '../../src/cohort/summary/spread.ts';
import type { SummaryBetween, SummaryKind } from '../../src/cohort/summary/types.ts';
import { testEvidence } from '../support/evidence.ts';
import { footing } from '../support/run.ts';
import { Puzzle } from './attacker.ts';

const test = testEvidence().testById.get('timed_up_and_go');
if (test === undefined) throw new Error('no such test');
const slot = { test, side: null };
const LEVELS = ['low', 'intermediate', 'high', 'undetermined'] as const;
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
  for (const { id, n } of kind.levels) puzzle.count(`${row}:${id}`, n);
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
  const hidden = maskLine(LEVELS.map((id) => totals[id] ?? 0));
  LEVELS.forEach((id, index) => {
    puzzle.count(`all:${id}`, hidden[index] === true ? null : (totals[id] ?? 0));
    puzzle.equal([`completers:${id}`, `left:${id}`], [`all:${id}`]);
  });
  for (const each of change.tests) {
    // A mean is shown of no fewer than this.
    puzzle.count('pairs', each.pairs, each.mean_change === null ? 0 : LEAST_SHOWN);
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
          if (count === 0 || count >= LEAST_SHOWN || name === 'all:n' || name === 'without a pair') continue;
          tried += 1;
          expect(puzzle.otherThan(name, truth), `${name} = ${count}`).not.toBe('no');
        }
      }),
      { numRuns: 400, endOnFailure: true, seed: Number(process.env.MASK_SEED ?? 20261125) },
    );
    expect(tried).toBeGreaterThan(300);
  });

  it('withholds both sizes where one of them is small, and with them how many pairs there are, but not the mean', () => {
    const each = made(
      Array.from({ length: 48 }, () => 'high'),
      ['high', 'high'],
      Array.from({ length: 47 }, () => 'within_error' as const),
    );
    const change = summariseChange(each.between, levels, [slot], true);
    expect([change.completers.n, change.left.n, change.tests[0]?.pairs]).toEqual([null, null, null]);
    expect(change.tests[0]?.mean_change).not.toBeNull();
    expect(change.tests[0]?.verdicts.within_error).toBeNull();
  });

  it('shows no interval of a median that runs from one person’s change to another’s of a handful', () => {
    const of = (pairs: number) =>
      made(
        Array.from({ length: pairs }, () => 'high'),
        [],
        Array.from({ length: pairs }, () => 'within_error' as const),
      );
    expect(summariseChange(of(8).between, levels, [slot], true).tests[0]?.median_change).toMatchObject({ low: null, high: null });
    expect(summariseChange(of(20).between, levels, [slot], true).tests[0]?.median_change?.low).not.toBeNull();
    expect(summariseChange(of(8).between, levels, [slot], false).tests[0]?.median_change?.low).not.toBeNull();
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

  it('keeps the change back where the parts may have pages of their own, and says how to get it', async () => {
    expect(await merged([])).toContain('merge with --split');
    for (const options of [['--split'], ['--unmasked']]) {
      const page = await merged(options);
      expect(page).toContain(NO_CONTROL);
      expect(page).toContain('Those who came again beside those who did not');
    }
  });
});
