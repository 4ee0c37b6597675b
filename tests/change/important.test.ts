/** What matters to patients: which figure is taken, and from where on a change reaches it. */
import { describe, expect, it } from 'vitest';
import { importantFor, reachesImportant } from '../../src/change/important.ts';
import type { ImportantChange } from '../../src/change/types.ts';
import type { RawChange } from '../../src/change/verdict.ts';
import { error, evidenceWith } from './invented.ts';

const when = { field: 'it', is: 'yes' };

describe('which figure', () => {
  const errors = [
    error({ id: 'no_figure', mdc95: 3 }),
    error({ id: 'one', mcid: 2, mcid_method: 'anchor', source: 'paper-one' }),
    error({ id: 'range', mcid_range: [1, 3], population: { description: 'COPD', condition: 'copd' } }),
    error({ id: 'both', mcid: 2, mcid_range: [1, 3] }),
  ];
  const held = (defaults: Parameters<typeof evidenceWith>[1], holds = false, test = 'walk') =>
    importantFor(test, { evidence: evidenceWith(errors, defaults), conditions: new Set(), holds: () => holds });

  it('the first default that has one and holds; all others beside it', () => {
    const found = held([{ id: 'no_figure' }, { id: 'range', when }, { id: 'both' }, { id: 'one' }]);
    expect([found.chosen?.id, found.others.map(({ id }) => id)]).toEqual(['both', ['one', 'range']]);
    expect(held([{ id: 'range', when }, { id: 'both' }], true).chosen?.id).toBe('range');
  });
  it('none where no default holds, and then all stand beside', () => {
    const found = held([{ id: 'range', when }]);
    expect([found.chosen, found.others.length]).toEqual([null, 3]);
    expect(held([], true, 'no_such_test')).toEqual({ chosen: null, others: [] });
  });
  it('a range has a least and a strict end; one number is both; one number beside a range is the strict end', () => {
    const ends = held([]).others.map(({ id, least, most }) => [id, least, most]);
    expect(ends).toEqual([
      ['one', 2, 2],
      ['range', 1, 3],
      ['both', 1, 2],
    ]);
  });
  it('with where it was found, how, and whether in people like the client', () => {
    const [one, range] = held([]).others;
    expect(one).toEqual({
      id: 'one',
      source: 'paper-one',
      location: 'Table 1',
      status: 'abstract',
      population: 'Older people',
      method: 'anchor',
      least: 2,
      most: 2,
      concerns_client: true,
    });
    expect([range?.method, range?.concerns_client]).toEqual([null, false]);
  });
});

describe('reached', () => {
  const important = { least: 1, most: 2 } as ImportantChange;
  const raw = (change: number, bound: RawChange['bound'] = 'exact', better: 'higher' | 'lower' = 'higher'): RawChange => ({
    change,
    bound,
    direction: change === 0 ? 'same' : change > 0 === (better === 'higher') ? 'better' : 'worse',
  });
  it.each([
    [2, 'yes'],
    [-2, 'yes'],
    [1.9, 'unknown'],
    [1, 'unknown'],
    [-1, 'unknown'],
    [0.9, 'no'],
    [0, 'no'],
  ])('%d: %s', (change, expected) => expect(reachesImportant(raw(change), important, 'higher')).toBe(expected));
  it('nothing can be said without a change or a figure', () => {
    expect(reachesImportant(null, important, 'higher')).toBe('unknown');
    expect(reachesImportant(raw(5), null, 'higher')).toBe('unknown');
  });
  it.each([
    // the true change is this or more
    [2, 'at_least', 'higher', 'yes'],
    [0.5, 'at_least', 'higher', 'unknown'],
    [-2, 'at_least', 'higher', 'unknown'],
    [2, 'at_least', 'lower', 'yes'],
    [-2, 'at_least', 'lower', 'unknown'],
    // the true change is this or less
    [-2, 'at_most', 'higher', 'yes'],
    [2, 'at_most', 'higher', 'unknown'],
    [-0.5, 'at_most', 'higher', 'unknown'],
    [-2, 'at_most', 'lower', 'yes'],
    [2, 'at_most', 'lower', 'unknown'],
    [9, 'unknown', 'higher', 'unknown'],
    [-9, 'unknown', 'higher', 'unknown'],
  ] as const)('%d as %s, %s is better: %s', (change, bound, better, expected) =>
    expect(reachesImportant(raw(change, bound, better), important, better)).toBe(expected),
  );
});
