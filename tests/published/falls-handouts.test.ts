/**
 * Marks of the public falls-prevention handouts (Centers for Disease Control and Prevention, 2017: "30-Second Chair Stand", "The
 * 4-Stage Balance Test", "Timed Up & Go", one page each), number by number as they print them.
 */
import { describe, expect, test } from 'vitest';
import type { CutPoint } from '../../src/evidence/schema/numbers.ts';
import { isMet } from '../../src/scoring/cut-points.ts';
import { printedEntries } from './extract.ts';
import { loadCutPoints } from './norms-items.ts';

const cuts = loadCutPoints();

/** "A below average score": men and women by five-year band; a score under the number is below average. */
const CHAIR_STANDS = [
  [60, 64, 14, 12],
  [65, 69, 12, 11],
  [70, 74, 12, 10],
  [75, 79, 11, 10],
  [80, 84, 10, 9],
  [85, 89, 8, 8],
  [90, 94, 7, 4],
] as const;

const met = (cut: CutPoint, value: number | null, better: 'higher' | 'lower'): boolean | null =>
  isMet(cut, { value, atLeast: false, better, halfInterval: null });

function theOne(found: readonly CutPoint[]): CutPoint {
  const [cut] = found;
  if (cut === undefined || found.length !== 1) throw new Error(`${found.length} marks found`);
  return cut;
}

const bands = CHAIR_STANDS.flatMap(([age_min, age_max, male, female]) => [
  { sex: 'male', age_min, age_max, mark: male },
  { sex: 'female', age_min, age_max, mark: female },
]);

describe('30-second chair stand, scoring box', () => {
  test.each(bands)('$sex $age_min-$age_max: under $mark is below average', ({ sex, age_min, age_max, mark }) => {
    const cut = theOne(
      cuts.filter(
        (each) =>
          each.source === 'cdc-chair-stand-30s-2017' && each.sex === sex && each.age_min === age_min && each.age_max === age_max,
      ),
    );
    expect(cut).toMatchObject({ below_average: true, counts: true, status: 'full-text', test: 'thirty_second_chair_stand' });
    expect([mark - 1, mark, mark + 1, null].map((value) => met(cut, value, 'higher'))).toEqual([true, false, false, true]);
  });

  test('there are 14 marks, none under 60 or over 94, and both readings of the handout print them', () => {
    expect(cuts.filter((each) => each.source === 'cdc-chair-stand-30s-2017')).toHaveLength(14);
    for (const id of ['cdc-steadi-2017', 'cdc-chair-stand-30s-2017']) {
      const rows = printedEntries.find((entry) => entry.id === id)?.rows ?? [];
      const printed = rows.map(({ sex, age_min, age_max, cells }) => ({ sex, age_min, age_max, mark: cells.cut }));
      expect(printed).toHaveLength(14);
      expect(printed).toEqual(expect.arrayContaining(bands));
    }
  });
});

describe('4-stage balance test', () => {
  test('a tandem stand of less than 10 s is a sign of a higher risk of falling', () => {
    const cut = theOne(cuts.filter((each) => each.source === 'cdc-steadi-4stage-2017' && each.test === 'tandem_stance'));
    expect(cut.counts).toBe(true);
    expect([0, 3, 9.9, 10, 30, null].map((value) => met(cut, value, 'higher'))).toEqual([true, true, true, false, false, true]);
  });

  test('in stages: the third, tandem, not held', () => {
    const cut = theOne(cuts.filter((each) => each.source === 'cdc-steadi-4stage-2017' && each.test === 'four_stage_balance'));
    expect(cut.counts).toBe(true);
    expect([0, 1, 2, 3, 4, null].map((value) => met(cut, value, 'higher'))).toEqual([true, true, true, false, false, true]);
  });

  test('both readings of the handout print 10 s', () => {
    const printed = ['cdc-4-stage', 'cdc-four-stage-balance'].map(
      (id) => printedEntries.find((entry) => entry.id === id)?.rows[0],
    );
    expect(printed.map((row) => row?.cells.cut)).toEqual([10, 10]);
  });
});

test('timed up and go: 12 s or more', () => {
  const cut = theOne(cuts.filter((each) => each.source === 'cdc-steadi-tug-2017'));
  expect(cut.counts).toBe(true);
  expect([11.9, 12, 12.1, null].map((value) => met(cut, value, 'lower'))).toEqual([false, true, true, true]);
});
