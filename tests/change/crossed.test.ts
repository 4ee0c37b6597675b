/** Marks between two results, and the marks of a chart. */
import { describe, expect, it } from 'vitest';
import { chartMarks, crossedMarks } from '../../src/change/crossed.ts';
import type { CutPoint } from '../../src/evidence/schema/numbers.ts';
import { cut, result } from './invented.ts';

const crossed = (before: Parameters<typeof cut>[0][], after: Parameters<typeof cut>[0][]) =>
  crossedMarks(result(10, { cut_points: before.map(cut) }), result(14, { cut_points: after.map(cut) }));

describe('crossed', () => {
  it('into a mark that is met now, out of one that was met before, with all that is known of it', () => {
    expect(crossed([{ met: false }], [{ met: true, near: true }])).toEqual([
      {
        id: 'mark',
        source: 'paper',
        location: 'Table 1',
        status: 'abstract',
        rule: '12 s or more',
        outcome: 'falls',
        counts: true,
        way: 'into',
        near: true,
      },
    ]);
    expect(crossed([{ met: true }], [{ met: false }]).map(({ way }) => way)).toEqual(['out_of']);
  });
  it.each([
    [true, true],
    [false, false],
    [null, true],
    [true, null],
    [null, false],
  ])('not where it was %s and is %s', (before, after) => expect(crossed([{ met: before }], [{ met: after }])).toEqual([]));
  it('a mark that one of the visits does not have is not crossed', () => {
    expect(crossed([{ id: 'other' }], [{ met: true }])).toEqual([]);
    expect(crossed([], [{ met: true }])).toEqual([]);
  });
  it('marks that count come first', () => {
    const ids = ['a', 'b', 'c'];
    const found = crossed(
      ids.map((id) => ({ id })),
      ids.map((id) => ({ id, met: true, counts: id === 'c' })),
    );
    expect(found.map(({ id }) => id)).toEqual(['c', 'a', 'b']);
  });
});

describe('marks of a chart', () => {
  const definition = (id: string, met_when: CutPoint['met_when']): CutPoint => ({ id, met_when }) as CutPoint;
  it('those that count, at their value whichever side is met', () => {
    const cuts = [
      definition('least', { at_least: 1 }),
      definition('above', { above: 2 }),
      definition('most', { at_most: 3 }),
      definition('below', { below: 4 }),
      definition('nought', { at_most: 0 }),
      definition('counts_not', { below: 5 }),
    ];
    const shown = [...cuts, definition('not_defined', {})].map(({ id }) => cut({ id, rule: id, counts: id !== 'counts_not' }));
    expect(chartMarks(result(1, { cut_points: shown }), cuts).map(({ value, rule, source }) => [value, rule, source])).toEqual([
      [1, 'least', 'paper'],
      [2, 'above', 'paper'],
      [3, 'most', 'paper'],
      [4, 'below', 'paper'],
      [0, 'nought', 'paper'],
    ]);
  });
  it('none without a result, nor for a definition without a value', () => {
    expect(chartMarks(null, [])).toEqual([]);
    expect(chartMarks(result(1, { cut_points: [cut()] }), [definition('mark', {})])).toEqual([]);
  });
});
