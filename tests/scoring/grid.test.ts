/** For a client of any age from 18 to 105 and any test the answer is a comparison or a reason: never NaN, never silence. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { TestResult } from '../../src/assessment.ts';
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import { scoreTest } from '../../src/scoring/score-test.ts';
import type { Client, Reading, Side } from '../../src/session.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
/** Every age; a run of mutants, where each of thousands pays for this, looks at some of them only. */
const EVERY = Number(process.env.FOOTING_SAMPLE_EVERY ?? 1);
const AGES = Array.from({ length: 105 - 18 + 1 }, (_, index) => 18 + index).filter((age) => age % EVERY === 0);

function everyNumberIsOne(value: unknown, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value)) expect.fail(`${path} is ${value}`);
  if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) everyNumberIsOne(inner, `${path}.${key}`);
}

function holds(result: TestResult, where: string): void {
  everyNumberIsOne(result, where);
  if (result.comparisons.length === 0) expect(result.no_comparison_because ?? '', where).toMatch(/\S.{10}/);
  else expect(result.no_comparison_because, where).toBeNull();
  for (const comparison of result.comparisons) {
    if (comparison.standing === null) expect(comparison.no_standing_because ?? '', `${where} ${comparison.source}`).not.toBe('');
    if (comparison.percentile !== null) {
      expect(comparison.percentile, where).toBeGreaterThanOrEqual(0);
      expect(comparison.percentile, where).toBeLessThanOrEqual(100);
    }
    // no silent nearest band
    const { age_min, age_max } = comparison.band;
    const age = Number(where.split(' ')[1]);
    expect(age >= Number(age_min ?? 0) && age <= Number(age_max ?? 200), `${where} ${comparison.source}`).toBe(true);
  }
  expect(result.comparisons.filter((each) => each.primary).length, where).toBeLessThanOrEqual(1);
  accountsForEveryTable(result, where);
}

/** Each table of the test is compared with, or is named with the reason why not; the choice is explained. */
function accountsForEveryTable(result: TestResult, where: string): void {
  const { selection } = result;
  if (selection === undefined) throw new Error(`${where}: the choice is not explained`);
  const primary = result.comparisons.find((each) => each.primary);
  expect(selection.chosen, where).toBe(primary?.source ?? null);
  const named = [...selection.also_fit, ...selection.do_not_fit];
  for (const { because } of [selection, ...named]) expect(because, where).toMatch(/\S.{5}/);
  const accounted = new Set([...result.comparisons, ...named].map((each) => each.source));
  for (const table of evidence.tablesByTest.get(result.test) ?? [])
    expect(accounted.has(table.source), `${where} ${table.source}`).toBe(true);
}

const possible = (definition: TestDefinition): [number, number] => [
  definition.impossible.below ?? 0,
  definition.impossible.above ?? 600,
];

/** A few results from end to end of what can be typed. */
function readingsOf(definition: TestDefinition): Reading[] {
  const [low, high] = possible(definition);
  const values = [low, low + (high - low) / 20, (low + high) / 4, high].map((value) =>
    definition.whole ? Math.round(value) : value,
  );
  return [...values.map((value) => measured(value)), unable];
}

const sidesOf = (definition: TestDefinition): (Side | null)[] => (definition.sided ? ['right', 'left'] : [null]);

function score(
  definition: TestDefinition,
  reading: Reading,
  side: Side | null,
  who: Client,
  lungCondition: string | null,
): TestResult {
  return scoreTest(recorded(definition.id, reading, side), definition, {
    evidence,
    subject: { client: who, lungCondition },
    applies: () => false,
  });
}

test.each(evidence.tests.map((definition) => [definition.id, definition] as const))(
  '%s: every age, sex and setting',
  (_id, definition) => {
    for (const age of AGES)
      for (const sex of ['female', 'male', 'not recorded'] as const)
        for (const setting of ['community', 'residential_care'] as const)
          for (const side of sidesOf(definition))
            for (const reading of readingsOf(definition))
              holds(
                score(definition, reading, side, client({ age, sex, setting }), null),
                `${definition.id} ${age} ${sex} ${setting}`,
              );
  },
);

test('any value, trials, ceiling, course, condition, height and wish for a country', () => {
  fc.assert(
    fc.property(
      fc.record({
        definition: fc.constantFrom(...evidence.tests),
        age: fc.integer({ min: 18, max: 105 }),
        sex: fc.constantFrom('female', 'male', 'not recorded' as const),
        setting: fc.constantFrom('community', 'residential_care', 'hospital' as const),
        lungCondition: fc.constantFrom(null, 'copd', 'asthma', 'other'),
        heightCm: fc.option(fc.integer({ min: 130, max: 210 }), { nil: undefined }),
        shares: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 3 }),
        ceiling: fc.option(fc.constantFrom(10, 30, 45, 60), { nil: undefined }),
        distanceM: fc.option(fc.constantFrom(2.4, 4, 6.1, 10), { nil: undefined }),
        country: fc.option(fc.constantFrom('NO', 'US', 'JP', 'GB', 'BR'), { nil: undefined }),
      }),
      (given) => {
        const { definition, age, sex, setting } = given;
        const [low, high] = possible(definition);
        const value = (share: number): number =>
          definition.whole ? Math.round(low + share * (high - low)) : low + share * (high - low);
        const ceiling = definition.kind === 'time' && definition.better === 'higher' ? given.ceiling : undefined;
        const trials = given.shares.map((share) => Math.min(value(share), ceiling ?? high));
        const reading = measured(trials, {
          ...(ceiling === undefined ? {} : { ceiling }),
          ...(definition.course && given.distanceM !== undefined ? { course: { distanceM: given.distanceM } } : {}),
        });
        const who = client({ age, sex, setting, ...(given.heightCm === undefined ? {} : { heightCm: given.heightCm }) });
        const result = scoreTest(recorded(definition.id, reading, definition.sided ? 'right' : null), definition, {
          evidence,
          subject: { client: who, lungCondition: given.lungCondition, preferredCountry: given.country },
          applies: () => false,
        });
        holds(result, `${definition.id} ${age} ${sex} ${setting}`);
      },
    ),
    { numRuns: 3000 },
  );
});
