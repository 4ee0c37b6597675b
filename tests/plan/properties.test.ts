/** What must hold of the plan for every client: nothing raises a rung that should not, and nothing is suggested beyond a cap. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { PlannedExercise } from '../../src/assessment.ts';
import { type AppliedCap, allows, appliedCaps, concerns } from '../../src/plan/caps.ts';
import { isBeyondHandsFree } from '../../src/plan/next.ts';
import { figureMarks } from '../../src/report/handout/figure/figure.ts';
import { wordsAtLevel } from '../../src/report/handout/words.ts';
import type { FieldValue } from '../../src/session.ts';
import { measured } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { assessed, type CaseGiven, planFactsOf, sessionOf, singleLeg, type TestsGiven } from './base-client.ts';
import { ANSWERS, HIGHER_IS_BETTER, randomClient } from './random-client.ts';

const evidence = testEvidence();
const runs = { numRuns: 60 };

/** Held counts as lower than any rung. */
const heights = (given: CaseGiven): Map<string, number> =>
  new Map(assessed(given).plan.map((each) => [each.exercise, each.held ? -1 : each.start.level]));

function expectNoneHigher(after: CaseGiven, before: CaseGiven): void {
  const [now, then] = [heights(after), heights(before)];
  for (const [exercise, level] of now) expect(level, exercise).toBeLessThanOrEqual(then.get(exercise) ?? -1);
}

const exerciseOf = ({ exercise }: PlannedExercise) => {
  const found = evidence.exercises.find(({ id }) => id === exercise);
  if (found === undefined) throw new Error(exercise);
  return found;
};

describe('nothing raises a rung that should not', () => {
  test('a worse result', () => {
    const values: Readonly<Record<string, readonly [number, number]>> = {
      timed_up_and_go: [5, 40],
      gait_speed_usual: [0.2, 1.8],
      five_times_sit_to_stand: [6, 40],
      thirty_second_chair_stand: [2, 24],
      functional_reach: [5, 40],
      four_square_step: [7, 30],
      tandem_stance: [0, 30],
      semi_tandem_stance: [0, 10],
    };
    const change = fc.constantFrom(...Object.keys(values)).chain((name) => {
      const [low, high] = values[name] ?? [0, 1];
      const value = fc.integer({ min: low * 20, max: high * 20 }).map((each) => each / 20);
      return fc.tuple(fc.constant(name), value, value);
    });
    fc.assert(
      fc.property(randomClient, change, (client, [name, one, other]) => {
        const [worse, better] = HIGHER_IS_BETTER.includes(name) === one < other ? [one, other] : [other, one];
        const whole = (value: number): number => (name === 'thirty_second_chair_stand' ? Math.round(value) : value);
        const withValue = (value: number): CaseGiven => ({ ...client, tests: { ...client.tests, [name]: whole(value) } });
        expectNoneHigher(withValue(worse), withValue(better));
      }),
      runs,
    );
  });

  test('a worse single-leg time on either side', () => {
    const time = fc.integer({ min: 0, max: 450 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(randomClient, time, time, time, (client, one, other, left) => {
        const withTimes = (right: number): CaseGiven => ({ ...client, tests: { ...client.tests, ...singleLeg(right, left) } });
        expectNoneHigher(withTimes(Math.min(one, other)), withTimes(Math.max(one, other)));
      }),
      runs,
    );
  });

  test('one more caution: an answer of no that becomes yes', () => {
    fc.assert(
      fc.property(randomClient, fc.constantFrom(...ANSWERS), (client, field) => {
        const falls =
          field === 'history.fall_injury' || field === 'history.unable_to_rise' ? { 'history.falls_past_year': 1 } : {};
        const withAnswer = (answer: FieldValue): CaseGiven => ({
          ...client,
          fields: { ...client.fields, ...falls, [field]: answer },
        });
        expectNoneHigher(withAnswer('yes'), withAnswer('no'));
      }),
      runs,
    );
  });

  test.each<[string, readonly FieldValue[]]>([
    ['health.clinical_frailty_scale', [2, 5, 6, 7]],
    ['health.walking_aid', ['none', 'stick', 'frame']],
    ['vitals.spo2_rest', [97, 89, 84]],
    ['vitals.spo2_lowest', [95, 86, 79]],
    ['history.falls_past_year', [0, 1, 2]],
  ])('a worse finding: %s', (field, fromBest) => {
    fc.assert(
      fc.property(randomClient, (client) => {
        const withValue = (value: FieldValue): CaseGiven => ({
          ...client,
          fields: { ...client.fields, 'history.fall_injury': 'no', 'history.unable_to_rise': 'no', [field]: value },
        });
        for (let index = 1; index < fromBest.length; index += 1)
          expectNoneHigher(withValue(fromBest[index] ?? 0), withValue(fromBest[index - 1] ?? 0));
      }),
      { numRuns: 25 },
    );
  });

  /** Tests of which at least one decides a ladder: with none of them done, none of their results could have started lower. */
  const DECIDING: readonly (readonly [string, (value: number) => TestsGiven, readonly [number, number]])[] = [
    ['single-leg stance', (value) => singleLeg(value, value), [0, 45]],
    ['tandem stance', (value) => ({ tandem_stance: measured(value, { ceiling: 30 }) }), [0, 30]],
    [
      'chair stands',
      (value) => ({ five_times_sit_to_stand: value, thirty_second_chair_stand: Math.max(2, Math.round(40 - value)) }),
      [6, 38],
    ],
    [
      'walking',
      (value) => ({ timed_up_and_go: value, gait_speed_usual: Math.round(600 / value) / 100, four_square_step: value }),
      [5, 30],
    ],
  ];
  test.each(DECIDING)('a missing test that decides: %s', (name, tests, [low, high]) => {
    const ids = Object.keys(tests(low));
    const decided: Readonly<Record<string, readonly string[]>> = {
      'single-leg stance': evidence.exercises
        .filter(({ start }) => start.by_test.some((rule) => rule.test === 'single_leg_stance_eyes_open'))
        .map(({ id }) => id),
      'tandem stance': ['tandem_standing', 'tandem_walking'],
      'chair stands': ['squat', 'sit_to_stand', 'side_step_up'],
      walking: ['side_stepping', 'multi_direction_stepping'],
    };
    fc.assert(
      fc.property(randomClient, fc.integer({ min: low, max: high }), (client, value) => {
        const without = heights({ ...client, tests: { ...client.tests, ...Object.fromEntries(ids.map((id) => [id, null])) } });
        const withValue = heights({ ...client, tests: { ...client.tests, ...tests(value) } });
        for (const exercise of decided[name] ?? [])
          expect(without.get(exercise) ?? -1, exercise).toBeLessThanOrEqual(Math.max(withValue.get(exercise) ?? -1, 0));
      }),
      runs,
    );
  });

  test('no test at all: the most supported rung or the seated variant, everywhere', () => {
    const tests = Object.fromEntries(evidence.tests.map(({ id }) => [id, null]));
    for (const [exercise, level] of heights({ tests })) expect(level, exercise).toBeLessThanOrEqual(1);
  });
});

/** Ids of the caps that close the rung suggested now or named as the next. */
function closedBy(each: PlannedExercise, caps: readonly AppliedCap[]): string[] {
  if (each.held) return [];
  const rungs = [each.start.level, each.next?.level ?? 0].flatMap((level) => exerciseOf(each).ladder[level - 1] ?? []);
  return rungs.flatMap((rung) => caps.filter(({ cap }) => !allows(cap, rung)).map(({ cap }) => cap.id));
}

describe('of every client', () => {
  test('no combination suggests a rung that a cap closes, nor names one as the next', () => {
    fc.assert(
      fc.property(randomClient, (client) => {
        const session = sessionOf(client);
        const inForce = appliedCaps(evidence.caps, planFactsOf(session));
        for (const each of assess(session, evidence).plan) {
          const caps = inForce.filter(({ cap }) => concerns(cap, exerciseOf(each)));
          expect(closedBy(each, caps), each.exercise).toEqual([]);
          if (caps.some(({ cap }) => cap.effect.hold)) expect(each.held).toBe(true);
        }
      }),
      runs,
    );
  });

  test('every suggested rung exists, has words, a figure and a dose', () => {
    const [english] = evidence.languages;
    if (english === undefined) throw new Error('no language');
    fc.assert(
      fc.property(randomClient, (client) => {
        for (const each of assessed(client).plan) {
          const exercise = exerciseOf(each);
          expect(each.start.of).toBe(exercise.ladder.length);
          expect(each.start.level).toBeLessThanOrEqual(exercise.ladder.length);
          const words = wordsAtLevel(exercise, each.start.level, english);
          expect(words.steps.length).toBeGreaterThan(2);
          expect(words.steps.join(' ')).not.toMatch(/[{}]/);
          expect(figureMarks(exercise, each.start.level)).toContain('<circle');
          expect(each.dose).not.toBe('');
          expect(each.dose_parts.minutes).toBeGreaterThan(0);
        }
      }),
      runs,
    );
  });

  test('minutes of the week are the sum of its days, those of a day the sum of its exercises; none counts more than it takes', () => {
    const wishes = fc.record({
      days: fc.option(fc.integer({ min: 1, max: 7 }), { nil: undefined }),
      minutesADay: fc.option(fc.integer({ min: 5, max: 60 }), { nil: undefined }),
    });
    fc.assert(
      fc.property(randomClient, wishes, (client, planWishes) => {
        const { week, plan } = assessed({ ...client, more: { planWishes } });
        const home = plan.filter((each) => each.goes_home);
        expect(home.length).toBeLessThanOrEqual(evidence.dose.week.most_exercises);
        if (week === null) {
          expect(home).toEqual([]);
          return;
        }
        const minutesOf = new Map(home.map((each) => [each.exercise, each.dose_parts.minutes ?? 0]));
        for (const day of week.days) {
          expect(day.minutes).toBe(day.exercises.reduce((sum, { minutes }) => sum + minutes, 0));
          for (const each of day.exercises) {
            expect(each.minutes).toBe(minutesOf.get(each.exercise));
            expect(each.challenging_minutes).toBeLessThanOrEqual(each.minutes);
          }
          if (planWishes.minutesADay !== undefined) expect(day.minutes).toBeLessThanOrEqual(planWishes.minutesADay);
        }
        expect(week.minutes).toBe(week.days.reduce((sum, { minutes }) => sum + minutes, 0));
        expect(week.challenging_minutes).toBe(
          week.days.flatMap(({ exercises }) => exercises).reduce((sum, each) => sum + each.challenging_minutes, 0),
        );
        if (planWishes.days !== undefined) expect(week.days.length).toBeLessThanOrEqual(planWishes.days);
      }),
      runs,
    );
  });

  test('who may be at high risk, is frail or has memory trouble is never sent beyond hands free alone', () => {
    fc.assert(
      fc.property(randomClient, (client) => {
        const facts = planFactsOf(sessionOf(client));
        const barred =
          ['high', 'undetermined'].includes(String(facts.field('risk.at_most'))) ||
          facts.field('risk.frail') !== 'no' ||
          facts.field('health.cognitive_impairment') === 'yes';
        if (!barred) return;
        for (const each of assessed(client).plan)
          if (each.next !== null && isBeyondHandsFree(exerciseOf(each), each.next.level))
            expect(each.next.by, each.exercise).toBe('professional');
      }),
      runs,
    );
  });

  test('nobody starts on foam, with closed eyes or backward', () => {
    fc.assert(
      fc.property(randomClient, (client) => {
        for (const each of assessed(client).plan) {
          const rung = exerciseOf(each).ladder[each.start.level - 1];
          expect(rung?.surface ?? 'firm').toBe('firm');
          expect(rung?.vision ?? 'eyes_open').toBe('eyes_open');
          expect(rung?.features ?? []).not.toContain('backward');
        }
      }),
      runs,
    );
  });
});
