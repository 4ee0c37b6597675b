/** What must hold for every test, client and pair of results. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TestChange } from '../../src/change/types.ts';
import { decide, largestRoom, rawChange } from '../../src/change/verdict.ts';
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import { performanceOf } from '../../src/scoring/performance.ts';
import type { Reading } from '../../src/session.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { change, evidence, FIRST, LATER, twice, visit } from './support.ts';

const tests = evidence.tests.filter((test) => test.derived_from.length === 0);
const sideOf = (test: TestDefinition) => (test.sided ? ('right' as const) : null);

/** A possible value in the printed decimals; times that have a ceiling reach it now and then. */
function possibleValue(test: TestDefinition): fc.Arbitrary<number> {
  const low = test.impossible.below ?? 0;
  const high = Math.min(test.ceiling ?? Number.POSITIVE_INFINITY, test.impossible.above ?? 60, 60);
  const factor = 10 ** test.decimals;
  return fc.integer({ min: Math.ceil(low * factor), max: Math.floor(high * factor) }).map((steps) => steps / factor);
}

const reading = (test: TestDefinition, exact = false): fc.Arbitrary<Reading> => {
  const value = possibleValue(test).map((each): Reading => measured(each));
  const stopped = possibleValue(test).map(
    (each): Reading =>
      test.kind === 'time' && test.ceiling === null && each > 0 ? measured(each, { ceiling: each }) : measured(each),
  );
  const stick = value.map((each): Reading => ({ ...each, aid: 'stick' }) as Reading);
  return exact ? value : fc.oneof({ weight: 5, arbitrary: value }, stopped, stick, fc.constant(unable));
};

const fields = fc.constantFrom(
  {},
  { 'health.lung_condition': 'copd' },
  { 'health.lung_condition': 'none', 'health.clinical_frailty_scale': 6 },
);
const anyTest = fc.constantFrom(...tests);
const pair = (exact = false) =>
  anyTest.chain((test) => fc.tuple(fc.constant(test), reading(test, exact), reading(test, exact), fields));

const MIRROR = { improved: 'worsened', worsened: 'improved', within_error: 'within_error', cannot_tell: 'cannot_tell' } as const;
const mirrored = (found: TestChange) => ({
  verdict: MIRROR[found.verdict],
  real: found.real,
  matters: found.matters,
  mdc95: found.mdc95,
  disputed: found.disputed,
  change: found.change === null ? null : 0 - found.change + 0,
});
const plain = (found: TestChange) => ({
  ...mirrored(found),
  verdict: found.verdict,
  change: found.change === null ? null : found.change + 0,
});

describe('change', () => {
  it('swapping the visits mirrors every verdict', () => {
    fc.assert(
      fc.property(pair(), ([test, a, b, known]) => {
        const options = { fields: known, side: sideOf(test) };
        expect(mirrored(twice(test.id, a, b, options))).toEqual(plain(twice(test.id, b, a, options)));
      }),
      { numRuns: 400 },
    );
  });

  it('a wobble no larger than the error is never called better or worse', () => {
    fc.assert(
      fc.property(pair(true), fc.double({ min: -1, max: 1, noNaN: true }), ([test, a, b, known], share) => {
        const options = { fields: known, side: sideOf(test) };
        const limit = twice(test.id, a, b, options).mdc95;
        const start = a.outcome === 'measured' ? (a.trials[0] ?? 0) : 0;
        const after = Math.max(0, start + share * (limit ?? 1));
        const found = twice(test.id, a, measured(after), options);
        // With error by score the wobble may land where another error counts; it is then held against that one.
        if (limit === null || found.mdc95 === null || found.mdc95 >= limit)
          expect(['within_error', 'cannot_tell']).toContain(found.verdict);
      }),
      { numRuns: 400 },
    );
  });

  it('beyond error means strictly larger than MDC95, and nothing else', () => {
    fc.assert(
      fc.property(pair(true), ([test, a, b, known]) => {
        const found = twice(test.id, a, b, { fields: known, side: sideOf(test) });
        if (found.change_bound !== 'exact' || found.mdc95 === null || found.change === null) return;
        expect(found.real === 'yes').toBe(Math.abs(found.change) > found.mdc95);
        if (found.real === 'yes')
          expect(found.verdict).toBe(performanceOf(found.change, test.better) > 0 ? 'improved' : 'worsened');
      }),
      { numRuns: 400 },
    );
  });

  it('a larger change never gets a weaker verdict', () => {
    const STRENGTH = ['cannot_tell', 'within_error', 'beyond'];
    const strength = (found: TestChange): number => STRENGTH.indexOf(found.real === 'yes' ? 'beyond' : found.verdict);
    fc.assert(
      fc.property(
        anyTest.chain((test) =>
          fc.tuple(fc.constant(test), possibleValue(test), possibleValue(test), possibleValue(test), fields),
        ),
        ([test, start, one, other, known]) => {
          if ((one - start) * (other - start) < 0) return;
          const [smaller, larger] = Math.abs(one - start) <= Math.abs(other - start) ? [one, other] : [other, one];
          const at = (value: number) =>
            twice(test.id, measured(start, { ceiling: 600 }), measured(value, { ceiling: 600 }), {
              fields: known,
              side: sideOf(test),
            });
          const [less, more] = [at(smaller), at(larger)];
          expect(strength(more), `${test.id} ${start}: ${smaller} against ${larger}`).toBeGreaterThanOrEqual(strength(less));
          if (less.matters === 'yes') expect(more.matters).toBe('yes');
        },
      ),
      { numRuns: 500 },
    );
  });

  it('units and sides never mix: every number comes from the same test and side', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(anyTest, { selector: (test) => test.id, minLength: 2, maxLength: 6 }),
        fc.infiniteStream(fc.integer({ min: 7, max: 28 })),
        (some, stream) => {
          const values = [...some.map(() => stream.next().value), ...some.map(() => stream.next().value)];
          const sides = some.map((_test, index) => (index % 2 === 0 ? ('right' as const) : ('left' as const)));
          const visitOf = (date: string, from: number) =>
            visit(
              date,
              some.map((test, index) =>
                recorded(
                  test.id,
                  Math.min(values[from + index] ?? 7, test.ceiling ?? 28),
                  test.sided ? (sides[index] ?? null) : null,
                ),
              ),
            );
          const found = change([visitOf(FIRST, 0), visitOf(LATER, some.length)]);
          some.forEach((test, index) => {
            const result = found.tests.find((each) => each.test === test.id);
            expect(result?.side).toBe(test.sided ? sides[index] : null);
            expect(result?.unit).toBe(test.unit);
            expect(result?.before).toBe(Math.min(values[index] ?? 7, test.ceiling ?? 28));
            const errors = evidence.errorsByTest.get(test.id)?.map((error) => error.id) ?? [];
            for (const error of [result?.error, ...(result?.other_errors ?? [])]) if (error) expect(errors).toContain(error.id);
          });
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('the decision alone', () => {
  const number = fc.integer({ min: 0, max: 600 }).map((tenths) => tenths / 10);
  it('is symmetrical for any error, room, ceiling and direction', () => {
    const end = fc.record({ value: number, atLeast: fc.boolean() });
    fc.assert(
      fc.property(
        end,
        end,
        fc.option(number),
        fc.constantFrom('higher' as const, 'lower' as const),
        number,
        (a, b, error, better, top) => {
          const room = largestRoom(a.value, b.value, { bottom: 0, top: Math.max(top, a.value, b.value) });
          const [forth, back] = [
            decide(rawChange(a, b, better), error, room, better),
            decide(rawChange(b, a, better), error, room, better),
          ];
          expect(back.verdict).toBe(MIRROR[forth.verdict]);
          expect(back.reason).toBe(forth.reason);
        },
      ),
    );
  });
});
