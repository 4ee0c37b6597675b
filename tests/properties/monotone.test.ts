/**
 * The promise a clinician relies on: a better result of any single test never worsens a percentile, a standing, the risk
 * level or a starting level; and a missing test never does better than its best or worse than its worst possible result.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessment, Standing } from '../../src/assessment.ts';
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import { isWorse } from '../../src/scoring/performance.ts';
import type { Fields, FieldValue, RecordedTest, Session } from '../../src/session.ts';
import { measured, recorded, session, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const tests = evidence.tests.filter((test) => test.derived_from.length === 0);

/** A possible value of a test, in its printed decimals. */
function possibleValue(test: TestDefinition): fc.Arbitrary<number> {
  const low = test.impossible.below ?? 0;
  const high = Math.min(test.ceiling ?? Number.POSITIVE_INFINITY, test.impossible.above ?? 200, 200);
  const factor = 10 ** test.decimals;
  return fc.integer({ min: Math.ceil(low * factor), max: Math.floor(high * factor) }).map((steps) => steps / factor);
}

const recordedTest = fc
  .constantFrom(...tests)
  .chain((test) =>
    fc
      .tuple(
        fc.oneof(
          { weight: 5, arbitrary: possibleValue(test).map((value) => measured(value)) },
          { weight: 1, arbitrary: fc.constant(unable) },
        ),
        fc.constantFrom('right', 'left'),
      )
      .map(([reading, side]): RecordedTest => recorded(test.id, reading, test.sided ? (side as 'right' | 'left') : null)),
  );

const answer = fc.constantFrom('yes', 'no', 'unknown', undefined);
const fields: fc.Arbitrary<Fields> = fc
  .record({
    'history.falls_past_year': fc.constantFrom(0, 1, 2, undefined),
    'history.feels_unsteady': answer,
    'history.worries_about_falling': answer,
    'health.lung_condition': fc.constantFrom('none', 'copd', undefined),
    'health.oral_steroid': answer,
    'health.osteoporosis': answer,
    'health.clinical_frailty_scale': fc.constantFrom(2, 4, 5, 7, undefined),
    'health.walking_aid': fc.constantFrom('none', 'stick', 'frame', undefined),
    'vitals.spo2_rest': fc.constantFrom(97, 88, 84, undefined),
  })
  .map((record) => {
    const known: Record<string, FieldValue> = {};
    for (const [path, value] of Object.entries(record)) if (value !== undefined) known[path] = value;
    return known;
  });

const visit: fc.Arbitrary<Session> = fc
  .tuple(
    fc.uniqueArray(recordedTest, { selector: (each) => `${each.test}|${each.side}`, maxLength: 8 }),
    fields,
    fc.integer({ min: 55, max: 96 }),
    fc.constantFrom('female' as const, 'male' as const, 'not recorded' as const),
  )
  .map(([some, known, age, sex]) => session(some, known, { age, sex }));

const replace = (base: Session, test: RecordedTest): Session => ({
  ...base,
  tests: [...base.tests.filter((each) => each.test !== test.test || each.side !== test.side), test],
});
const without = (base: Session, test: RecordedTest): Session => ({
  ...base,
  tests: base.tests.filter((each) => each.test !== test.test),
});

const STANDINGS: readonly (Standing | null)[] = ['well_below', 'below', 'expected', 'above'];
const levelPlace = (result: Assessment, end: 'at_least' | 'at_most'): number =>
  evidence.pathways
    .find((pathway) => pathway.id === result.risk.pathway)
    ?.levels.findIndex((level) => level.id === result.risk[end]) ?? -1;

function expectNotWorse(better: Assessment, worse: Assessment): void {
  for (const end of ['at_least', 'at_most'] as const) expect(levelPlace(better, end)).toBeLessThanOrEqual(levelPlace(worse, end));
  better.plan.forEach((exercise, index) => {
    const other = worse.plan[index];
    expect(exercise.exercise).toBe(other?.exercise);
    expect(exercise.start.level, exercise.exercise).toBeGreaterThanOrEqual(other?.start.level ?? Number.NaN);
  });
}

/** Same source and row on both sides: percentile and standing must not fall. */
function expectStandingsNotWorse(better: Assessment, worse: Assessment, test: RecordedTest): void {
  const find = (result: Assessment) => result.tests.find((each) => each.test === test.test && each.side === test.side);
  for (const comparison of find(better)?.comparisons ?? []) {
    const other = find(worse)?.comparisons.find(
      (each) => each.source === comparison.source && each.part === comparison.part && each.band.sex === comparison.band.sex,
    );
    if (other === undefined) continue;
    if (comparison.percentile !== null && other.percentile !== null)
      expect(comparison.percentile).toBeGreaterThanOrEqual(other.percentile);
    if (comparison.standing !== null && other.standing !== null)
      expect(STANDINGS.indexOf(comparison.standing)).toBeGreaterThanOrEqual(STANDINGS.indexOf(other.standing));
    if (other.against_mean === 'not_worse') expect(comparison.against_mean).toBe('not_worse');
  }
}

const twoValues = fc
  .constantFrom(...tests)
  .chain((test) =>
    fc.tuple(fc.constant(test), possibleValue(test), possibleValue(test), fc.constantFrom('right' as const, 'left' as const)),
  );

describe('better is never worse', () => {
  it('for percentile, standing, risk level and starting level', () => {
    fc.assert(
      fc.property(visit, twoValues, (base, [test, a, b, side]) => {
        const [worse, better] = isWorse(a, b, test.better) ? [a, b] : [b, a];
        const make = (value: number) => recorded(test.id, value, test.sided ? side : null);
        const [low, high] = [assess(replace(base, make(worse)), evidence), assess(replace(base, make(better)), evidence)];
        expectNotWorse(high, low);
        expectStandingsNotWorse(high, low, make(better));
      }),
      { numRuns: 400 },
    );
  });

  it('unable is never better than any time', () => {
    fc.assert(
      fc.property(visit, twoValues, (base, [test, value, , side]) => {
        const at = test.sided ? side : null;
        const [low, high] = [
          assess(replace(base, recorded(test.id, unable, at)), evidence),
          assess(replace(base, recorded(test.id, value, at)), evidence),
        ];
        expectNotWorse(high, low);
        expectStandingsNotWorse(high, low, recorded(test.id, value, at));
      }),
      { numRuns: 200 },
    );
  });

  it('a missing test is between unable and the best possible result', () => {
    fc.assert(
      fc.property(visit, fc.constantFrom(...tests), (base, test) => {
        const best = test.better === 'higher' ? (test.ceiling ?? test.impossible.above ?? 200) : (test.impossible.below ?? 0);
        const all = (reading: RecordedTest['reading']): Session => {
          const stripped = without(base, recorded(test.id, 0));
          return {
            ...stripped,
            tests: [
              ...stripped.tests,
              ...(test.sided ? (['right', 'left'] as const) : [null]).map((side) => recorded(test.id, reading, side)),
            ],
          };
        };
        const missing = assess(without(base, recorded(test.id, 0)), evidence);
        expectNotWorse(assess(all(measured(best)), evidence), missing);
        expectNotWorse(missing, assess(all(unable), evidence));
      }),
      { numRuns: 200 },
    );
  });
});
