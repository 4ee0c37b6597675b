/** Measurement error around a value, on invented figures; the formulas are worked out beside them. */
import { describe, expect, it } from 'vitest';
import type { Condition } from '../../src/evidence/schema/condition.ts';
import type { MeasurementError } from '../../src/evidence/schema/numbers.ts';
import { errorFor, largerErrorNotes, mdc95Of, semOf } from '../../src/scoring/measurement-error.ts';
import { definition, error, evidence } from './invented.ts';

// 1.959964 x root 2 = 2.771808; 1.644854 x root 2 = 2.326174
const ROOTS = { 95: 2.771808, 90: 2.326174 };

describe('SEM and MDC95 of what is printed', () => {
  it.each([
    ['SEM', { sem: 2 }, 2, 2 * ROOTS[95]],
    ['MDC95', { mdc95: 5 }, 5 / ROOTS[95], 5],
    ['MDC90', { mdc90: 5 }, 5 / ROOTS[90], (5 / ROOTS[90]) * ROOTS[95]],
    ['a change of a level not named', { mdc_level_unstated: 5 }, 5 / ROOTS[95], 5],
    ['both: each as printed', { sem: 2, mdc95: 5 }, 2, 5],
    ['SEM before a change of a level not named', { sem: 2, mdc_level_unstated: 5 }, 2, 2 * ROOTS[95]],
    [
      'MDC90 before a change of a level not named',
      { mdc90: 5, mdc_level_unstated: 9 },
      5 / ROOTS[90],
      (5 / ROOTS[90]) * ROOTS[95],
    ],
  ])('%s', (_words, printed, sem, mdc95) => {
    expect(semOf(error(printed))).toBeCloseTo(sem, 5);
    expect(mdc95Of(error(printed))).toBeCloseTo(mdc95, 5);
  });
  it('nothing of nothing', () => {
    expect(semOf(error({}))).toBeNull();
    expect(mdc95Of(error({}))).toBeNull();
  });
  it('by score: the ends of a band belong to it, and outside every band what is printed for all', () => {
    const by = error({
      mdc95: 9,
      by_score: [
        { min: 10, max: 19, mdc95: 4 },
        { min: 20, max: 29, mdc95: 6 },
      ],
    });
    expect([9, 10, 19, 20, 29, 30].map((value) => mdc95Of(by, value))).toEqual([9, 4, 4, 6, 6, 9]);
    expect(mdc95Of(by)).toBe(9);
  });
});

type Entries = { id: string; when?: Condition }[];
function held(entries: Entries, errors: MeasurementError[]) {
  const base = evidence({ errors });
  return { ...base, defaults: { ...base.defaults, tests: { walk: { tables: [], error: entries } } } };
}
const errorResult = (each: MeasurementError, value: number | null, decimals: number, atLeast = false) =>
  errorFor(value === null ? null : { value, atLeast }, definition({ decimals }), {
    evidence: held([{ id: each.id }], [each]),
    applies: () => false,
  });

describe('the interval around one value', () => {
  it('value ± 1.96 SEM, to one decimal more than the test, not below zero', () => {
    // 10 ± 1.96 = 8.04 to 11.96
    expect(errorResult(error({ sem: 1 }), 10, 1)).toEqual({
      id: 'e',
      source: 'alpha-2020',
      location: 'Table 3',
      status: 'abstract',
      population: 'people',
      interval: null,
      sem: 1,
      mdc95: 2.77,
      low: 8.04,
      high: 11.96,
      note: null,
    });
    expect(errorResult(error({ sem: 1, note: 'one trial', interval: 'a week' }), 1, 0)).toMatchObject({
      low: 0,
      high: 3,
      note: 'one trial',
      interval: 'a week',
    });
  });
  it('none without a value, without an error, and around a watch that was stopped', () => {
    expect(errorResult(error({ sem: 1 }), null, 1)).toMatchObject({ sem: 1, mdc95: 2.77, low: null, high: null });
    expect(errorResult(error({}), 10, 1)).toBeNull();
    expect(errorResult(error({ sem: 1 }), 10, 1, true)).toMatchObject({ sem: 1, low: null, high: null });
  });
  it("by score: the SEM is that of the client's own score, 6 / 2.772 = 2.165", () => {
    const by = error({ by_score: [{ min: 20, max: 29, mdc95: 6 }] });
    expect(errorResult(by, 20, 0)).toMatchObject({ mdc95: 6, sem: 2.165, low: 15.8, high: 24.2 });
    expect(errorResult(by, 30, 0)).toMatchObject({ mdc95: null, sem: null, low: null, high: null });
  });
});

describe('which error is the default', () => {
  const when = { field: 'health.lung_condition', is: 'copd' };
  const found = (data: ReturnType<typeof evidence>, test: string, applies: boolean) =>
    errorFor({ value: 10, atLeast: false }, definition({ id: test }), { evidence: data, applies: () => applies });
  const chosen = (entries: Entries, errors: MeasurementError[], applies = false) =>
    found(held(entries, errors), 'walk', applies)?.id;
  const [general, lungs] = [error({ id: 'general', sem: 1 }), error({ id: 'lungs', sem: 2 })];
  it('the first whose condition holds, else the one without', () => {
    const entries = [{ id: 'lungs', when }, { id: 'general' }];
    expect(chosen(entries, [general, lungs], true)).toBe('lungs');
    expect(chosen(entries, [general, lungs])).toBe('general');
    expect(chosen([{ id: 'lungs', when }], [general, lungs])).toBeUndefined();
  });
  it('what carries no error is passed over; an error by score is one', () => {
    expect(chosen([{ id: 'bare' }, { id: 'general' }], [error({ id: 'bare' }), general])).toBe('general');
    expect(chosen([{ id: 'gone' }, { id: 'general' }], [general])).toBe('general');
    const by = error({ id: 'by', by_score: [{ min: 20, max: 29, mdc95: 6 }] });
    expect(chosen([{ id: 'by' }, { id: 'general' }], [by, general])).toBe('by');
  });
  it('beside it the largest that is said to be meant for this client too, where it is larger', () => {
    const largest = error({ id: 'largest', sem: 3 });
    const entries = [{ id: 'lungs', when }, { id: 'largest', when }, { id: 'general' }];
    const errors = [general, largest, lungs];
    expect(found(held(entries, errors), 'walk', true)).toMatchObject({
      id: 'lungs',
      larger: { id: 'largest', sem: 3, low: 4.12 },
    });
    expect(found(held(entries, [largest, general, lungs, error({ id: 'huge', sem: 9 })]), 'walk', true)?.larger?.id).toBe(
      'largest',
    );
    expect(
      found(
        held(
          [
            { id: 'largest', when },
            { id: 'lungs', when },
          ],
          errors,
        ),
        'walk',
        true,
      )?.larger,
    ).toBeUndefined();
    expect(found(held([{ id: 'general' }, { id: 'largest' }], errors), 'walk', true)?.larger).toBeUndefined();
    expect(found(held([{ id: 'general' }, { id: 'largest', when }], errors), 'walk', false)?.larger).toBeUndefined();
    const same = error({ id: 'same', sem: 2 });
    expect(
      found(
        held(
          [
            { id: 'lungs', when },
            { id: 'same', when },
          ],
          [lungs, same],
        ),
        'walk',
        true,
      )?.larger,
    ).toBeUndefined();
  });
  it('of several larger ones the largest, in words with its interval and unit', () => {
    const [third, fourth] = [error({ id: 'third', sem: 3 }), error({ id: 'fourth', sem: 4 })];
    const entries = ['lungs', 'third', 'fourth'].map((id) => ({ id, when }));
    for (const errors of [
      [lungs, third, fourth],
      [lungs, fourth, third],
    ])
      expect(found(held(entries, errors), 'walk', true)?.larger?.id).toBe('fourth');
    const shown = found(held(entries, [lungs, fourth]), 'walk', true);
    // 4 x 2.772 = 11.09; 10 + 1.96 x 4 = 17.84
    const start = 'a larger measurement error is published for people like this client too: smallest real change 11.09';
    const end = 'by alpha-2020 (people)';
    expect(largerErrorNotes(shown, definition({}))).toEqual([
      `${start} s ${end}; by it the true value probably lies between 2.16 and 17.84 s`,
    ]);
    expect(largerErrorNotes(shown, definition({ unit_text: '' }))).toEqual([
      `${start} ${end}; by it the true value probably lies between 2.16 and 17.84`,
    ]);
    const stopped = errorFor({ value: 10, atLeast: true }, definition({}), {
      evidence: held(entries, [lungs, fourth]),
      applies: () => true,
    });
    for (const none of [stopped, null]) expect(largerErrorNotes(none, definition({}))).toEqual([]);
  });
  it('none where nothing is named for the test', () => {
    expect(found(held([], [general]), 'walk', true)).toBeNull();
    expect(found(evidence({ errors: [general] }), 'walk', true)).toBeNull();
    expect(found(held([{ id: 'general' }], [general]), 'hold', true)).toBeNull();
  });
});
