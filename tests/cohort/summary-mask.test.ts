/** No small count can be worked out from a page that leaves the clinic: not over its tables, not over groups, not from the pages of parts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PartSum } from '../../src/cohort/summary/part.ts';
import { Puzzle } from './attacker.ts';
import { type Known, puzzleOf, truthOf } from './attacker-pages.ts';
import { KNOWN, partOf, seed, seenOf, type Visit, visits, withHalves } from './mask-cases.ts';

/** Counts under this, but for nought, are nobody's to know. */
const LEAST = 5;
/** How often it was tried, so that the property is known to have been tried. */
const tried = { small: 0, unknown: 0 };

/** How many have no result says nothing of their health, and follows where somebody knows how many people a row has. */
const SIZES = /:n$|done\/(tested|no_result)$/;

/** Everybody on the page is this, and so everybody in a row of known size. */
function isTrueOfAll(name: string, puzzle: Puzzle, truth: ReadonlyMap<string, number>): boolean {
  const [prefix, , ...rest] = name.split(':');
  const [table = '', cell = ''] = rest.join(':').split('/');
  const others = puzzle.names.filter((each) => each.startsWith(`${prefix}:all:${table}/`) && !each.endsWith(`/${cell}`));
  return others.length > 0 && others.every((each) => truth.get(each) === 0 && puzzle.otherThan(each, truth) === 'no');
}

function attack(puzzle: Puzzle, truth: ReadonlyMap<string, number>, { sizes }: Known = KNOWN): void {
  for (const name of puzzle.names) {
    const count = truth.get(name);
    if (count === undefined || count === 0 || count >= LEAST || name.endsWith(':n')) continue;
    if (sizes && SIZES.test(name)) continue;
    tried.small += 1;
    const other = puzzle.otherThan(name, truth);
    if (other === 'unknown') tried.unknown += 1;
    if (other === 'no' && sizes && isTrueOfAll(name, puzzle, truth)) continue;
    expect(other, `${name} = ${count}`).not.toBe('no');
  }
}

/** From one page, by somebody who may know from elsewhere how many people each of its rows has. */
function attackPage(all: readonly Visit[], by: string | null, sizes = false): void {
  const part = partOf(all);
  const seen = seenOf(part, by);
  const known = { ...KNOWN, sizes };
  const truth = truthOf(seen, [], known);
  withHalves(truth, part, 'whole', by);
  attack(puzzleOf(seen, [], known), truth, known);
}

/** From the pages of parts and that of the whole, as they are merged. */
function attackParts(pieces: readonly (readonly Visit[])[], by: string | null): void {
  const parts = pieces.map(partOf);
  const sum = new PartSum();
  for (const part of parts) sum.add(part);
  const [whole, pages] = [seenOf(sum.part(), by, parts), parts.map((part) => seenOf(part, by))];
  const truth = truthOf(whole, pages, KNOWN);
  withHalves(truth, sum.part(), 'whole', null);
  for (const [index, part] of parts.entries()) withHalves(truth, part, `part ${index}`, by);
  attack(puzzleOf(whole, pages, KNOWN), truth);
}

describe('an attacker', () => {
  it('finds a count that nothing hides but a blank (so the tests below can fail)', () => {
    const puzzle = new Puzzle();
    puzzle.count('a', 9);
    puzzle.count('b', null);
    puzzle.count('c', 8);
    puzzle.count('n', 20);
    puzzle.equal(['a', 'b', 'c'], ['n']);
    expect(
      puzzle.otherThan(
        'b',
        new Map([
          ['a', 9],
          ['b', 3],
          ['c', 8],
          ['n', 20],
        ]),
      ),
    ).toBe('no');
  });

  it('finds a count round two rows and two columns, though no line has a single blank', () => {
    // Rows 2 + x and y + 0: blanks in both columns, but the second row's total of nought settles it.
    const puzzle = new Puzzle();
    for (const [name, count] of [
      ['a1', null],
      ['a2', null],
      ['b1', null],
      ['b2', null],
      ['a', 7],
      ['b', 0],
      ['one', 2],
      ['two', 5],
    ] as const)
      puzzle.count(name, count);
    puzzle.equal(['a1', 'a2'], ['a']);
    puzzle.equal(['b1', 'b2'], ['b']);
    puzzle.equal(['a1', 'b1'], ['one']);
    puzzle.equal(['a2', 'b2'], ['two']);
    expect(
      puzzle.otherThan(
        'a1',
        new Map([
          ['a1', 2],
          ['a2', 5],
          ['one', 2],
          ['two', 5],
          ['a', 7],
        ]),
      ),
    ).toBe('no');
  });

  const runs = Number(process.env.MASK_RUNS ?? 150);
  const byGroups = fc.oneof(visits(['a', 'b']), visits(['a', 'b', 'c']), visits(['a', 'b', 'c', 'd', 'e']));

  it.each([[false], [true]])('finds no small count on the page of one group; knows its size: %s', (sizes) => {
    fc.assert(
      fc.property(visits(['a']), (all) => attackPage(all, null, sizes)),
      { numRuns: runs, endOnFailure: true, seed },
    );
  });

  it.each([[false], [true]])('finds no small count on a page by groups; knows their sizes: %s', (sizes) => {
    fc.assert(
      fc.property(byGroups, (all) => attackPage(all, 'site', sizes)),
      { numRuns: runs, endOnFailure: true, seed },
    );
  });

  it.each([[null], ['site']])('finds no small count from the pages of parts and that of the whole, by %s', (by) => {
    fc.assert(
      fc.property(fc.array(visits(['a', 'b', 'c']), { minLength: 2, maxLength: 3 }), (pieces) => attackParts(pieces, by)),
      { numRuns: Math.ceil(runs / (by === null ? 2 : 5)), endOnFailure: true, seed },
    );
  });

  it('had much to look for and gave up on next to nothing', () => {
    expect(tried.small).toBeGreaterThan(2000);
    expect(tried.unknown / tried.small).toBeLessThan(0.01);
  });
});
