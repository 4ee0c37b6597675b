/** Which error counts for whom, what it is at 95 %, and how that follows from what is printed. */
import { describe, expect, it } from 'vitest';
import { concernsClient, conversionOf, errorsFor, errorUsed, type Likeness, mdc95Between } from '../../src/change/errors.ts';
import { error, evidenceWith } from './invented.ts';

const population = (condition?: 'copd' | 'parkinson' | 'frail' | 'other') => ({
  description: 'People',
  ...(condition === undefined ? {} : { condition }),
});

describe('whom an error concerns', () => {
  const likeness = (over: Partial<Likeness> = {}): Likeness => ({
    evidence: evidenceWith([]),
    conditions: new Set(),
    holds: () => false,
    ...over,
  });
  it.each([
    ['older people in general', undefined, [], true],
    ['frail people, who are older people in general too', 'frail', [], true],
    ['a condition the client has', 'copd', ['parkinson', 'copd'], true],
    ['a condition the client does not have', 'copd', ['parkinson'], false],
    ['a condition nobody recorded', 'parkinson', [], false],
  ] as const)('%s', (_, condition, conditions, expected) =>
    expect(concernsClient(error({ population: population(condition) }), likeness({ conditions: new Set(conditions) }))).toBe(
      expected,
    ),
  );
  it('where the defaults say for whom it is meant, that decides', () => {
    const when = { field: 'it', is: 'yes' };
    const evidence = evidenceWith([], [{ id: 'error_a', when }, { id: 'error_b' }]);
    const asked: unknown[] = [];
    const holds = (answer: boolean) => (condition: unknown) => {
      asked.push(condition);
      return answer;
    };
    expect(concernsClient(error({ population: population('other') }), likeness({ evidence, holds: holds(true) }))).toBe(true);
    expect(concernsClient(error(), likeness({ evidence, holds: holds(false) }))).toBe(false);
    expect(asked).toEqual([when, when]);
    expect(concernsClient(error({ id: 'error_b' }), likeness({ evidence }))).toBe(true);
    expect(concernsClient(error({ test: 'unknown_to_defaults' }), likeness({ evidence }))).toBe(true);
  });
});

describe('how the error follows from what is printed', () => {
  // MDC95 = 1.96 x root 2 x SEM; MDC90 with 1.645
  it.each([
    [{ mdc95: 4 }, null],
    [{ mdc95: 4, sem: 1 }, null],
    [{}, null],
    [{ sem: 2 }, 'MDC95 = 1.96 × √2 × SEM 2 = 5.54'],
    [{ mdc90: 2.326 }, 'printed at 90 % (2.33): SEM = 2.33 / (1.645 × √2) = 1; MDC95 = 1.96 × √2 × SEM 1 = 2.77'],
    [{ mdc90: 2.326, sem: 2 }, 'printed at 90 % (2.33); by its own SEM MDC95 = 1.96 × √2 × SEM 2 = 5.54'],
    [{ mdc_level_unstated: 3 }, 'the source does not name the level; the usual 95 % is taken'],
    [{ by_score: [{ min: 0, max: 10, mdc95: 3 }] }, 'depends on the score; the larger of both visits counts'],
  ])('%j', (given, words) => expect(conversionOf(error(given))).toBe(words));
  it('stands with the error that was used, beside where it was found', () =>
    expect(errorUsed(error({ sem: 2, note: 'in women' }), 5.54)).toEqual({
      id: 'error_a',
      source: 'paper-a',
      location: 'Table 1',
      status: 'abstract',
      population: 'Older people',
      interval: 'one week',
      mdc95: 5.54,
      conversion: 'MDC95 = 1.96 × √2 × SEM 2 = 5.54',
      note: 'in women',
    }));
  it('without a note has none', () => expect(errorUsed(error({ mdc95: 1 }), 1).note).toBeNull());
});

describe('the error between two results', () => {
  it('is one number, to 0.01, or none', () => {
    expect(mdc95Between(error({ mdc95: 4.126 }), 1, 9)).toBe(4.13);
    expect(mdc95Between(error({ sem: 2 }), 1, 9)).toBe(5.54);
    expect(mdc95Between(error({}), 1, 9)).toBeNull();
  });

  const scores = error({
    by_score: [
      { min: 0, max: 24, mdc95: 5 },
      { min: 25, max: 34, mdc95: 7 },
      { min: 35, max: 44, mdc95: 5 },
      { min: 45, max: 56, mdc95: 4 },
    ],
  });
  it.each([
    ['within one band that of the band', 46, 50, 4],
    ['of two bands the larger', 44, 46, 5],
    ['of two bands the larger, in either order', 46, 44, 5],
    ['beyond the larger of its ends: that', 20, 30, 7],
    ['a stretch within it that is beyond its own error: the smaller one counts', 41, 34, 5],
    ['the same the other way round', 34, 41, 5],
    ['no stretch within it is beyond its own error: the larger', 36, 30, 7],
    // 24 to 25 and 34 are within 7; 18 to 24 is 6 points, beyond the 5 of its band
    ['a stretch that starts at the lower end counts as well', 18, 25, 5],
    ['no change at all', 50, 50, 4],
    ['far beyond the larger of its ends: that, whatever lies within', 10, 30, 7],
  ])('%s', (_, before, after, expected) => expect(mdc95Between(scores, before, after)).toBe(expected));
  it('of several stretches that are beyond their own error the smallest', () => {
    const bands = [
      { min: 0, max: 9, mdc95: 7 },
      { min: 10, max: 13, mdc95: 2 },
      { min: 14, max: 20, mdc95: 3 },
    ];
    // 10 to 13 is beyond 2, 10 to 14 beyond 3; 9 to 16 is within 7
    expect(mdc95Between(error({ by_score: bands }), 9, 16)).toBe(2);
  });
  it('by score and off the table there is none', () => {
    expect(mdc95Between(scores, 60, 50)).toBeNull();
    expect(mdc95Between(scores, 50, 60)).toBeNull();
  });
});

describe('which of several errors', () => {
  const [small, large, other, none] = [
    error({ id: 'small', mdc95: 2 }),
    error({ id: 'large', mdc95: 3 }),
    error({ id: 'other', mdc95: 9 }),
    error({ id: 'none', mcid: 1 }),
  ];
  const held = (defaults: readonly (string | null)[]) => {
    const { chosen, others } = errorsFor(evidenceWith([small, other, large, none]), 'walk', defaults, 1, 2);
    return [chosen === null ? null : [chosen.error.id, chosen.mdc95], others.map(({ error: { id }, mdc95 }) => [id, mdc95])];
  };
  it('of those that the defaults give for either visit the larger; the rest stand beside it', () => {
    expect(held(['small', 'large'])).toEqual([
      ['large', 3],
      [
        ['small', 2],
        ['other', 9],
      ],
    ]);
    expect(held(['large', 'small'])[0]).toEqual(['large', 3]);
    expect(held(['small', 'small'])[0]).toEqual(['small', 2]);
    expect(held([null, 'small'])[0]).toEqual(['small', 2]);
  });
  it('none is chosen where no default has a number, and all stand beside', () => {
    expect(held([null, null])[0]).toBeNull();
    expect(held(['none', 'none'])[0]).toBeNull();
    expect(held([null, null])[1]).toHaveLength(3);
  });
  it('a test without errors has none', () =>
    expect(errorsFor(evidenceWith([small]), 'no_such_test', ['small'], 1, 2)).toEqual({ chosen: null, others: [] }));
});
