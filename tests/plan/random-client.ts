/** Random clients: any mix of results, findings and answers that are missing. */
import fc from 'fast-check';
import type { FieldValue, Session } from '../../src/session.ts';
import { measured, unable } from '../support/client.ts';
import { sessionOf, type TestsGiven } from './base-client.ts';

/** Like `seconds`: the better half of the time twice as likely; which end is better does not matter here. */
const between = ([low, high]: readonly [number, number]) =>
  fc
    .oneof(fc.double({ min: low, max: high, noNaN: true }), fc.double({ min: low, max: low + (high - low) / 5, noNaN: true }))
    .map((value) => Math.round(value * 20) / 20);

const TIMES: Readonly<Record<string, readonly [number, number]>> = {
  timed_up_and_go: [5, 40],
  gait_speed_usual: [0.9, 1.8],
  five_times_sit_to_stand: [6, 40],
  four_square_step: [7, 30],
  functional_reach: [5, 40],
};
const COUNTS: Readonly<Record<string, readonly [number, number]>> = { thirty_second_chair_stand: [2, 24] };
const HOLDS: Readonly<Record<string, number>> = { tandem_stance: 30, semi_tandem_stance: 10, side_by_side_stance: 10 };

/** Tests whose value is better when it is higher. */
export const HIGHER_IS_BETTER = [
  'gait_speed_usual',
  'functional_reach',
  'thirty_second_chair_stand',
  'tandem_stance',
  'semi_tandem_stance',
  'single_leg_stance_eyes_open',
];

export const ANSWERS = [
  'history.fall_injury',
  'history.unable_to_rise',
  'history.feels_unsteady',
  'history.worries_about_falling',
  'history.dizzy_on_standing',
  'health.home_oxygen',
  'health.osteoporosis',
  'health.vertebral_fracture',
  'health.cognitive_impairment',
  'health.recent_exacerbation',
  'health.recent_surgery',
  'health.new_back_pain',
  'redflags.chest_pain',
];

/** Steady people are as many as all others together, so that the upper rungs are reached too. */
const seconds = (most: number) =>
  fc.oneof(fc.integer({ min: 0, max: most * 10 }), fc.integer({ min: most * 7, max: most * 10 })).map((tenths) => tenths / 10);
const oneOf = <Value>(values: readonly Value[]) => fc.constantFrom(...values);
/** The first value most of the time: with every trouble as likely as none, nearly every client would be held. */
const mostly = <Value>(usual: Value, others: readonly Value[]) =>
  fc.oneof({ weight: 6, arbitrary: fc.constant(usual) }, oneOf(others));

const answers: fc.Arbitrary<Record<string, FieldValue | undefined>> = fc
  .tuple(
    ...ANSWERS.map((field) =>
      fc.tuple(fc.constant(field), fc.oneof({ weight: 20, arbitrary: fc.constant('no') }, oneOf(['yes', 'unknown', undefined]))),
    ),
  )
  .map((entries) => Object.fromEntries(entries));

const findings: fc.Arbitrary<Record<string, FieldValue | undefined>> = fc.record({
  'history.falls_past_year': mostly<FieldValue | undefined>(0, [1, 2, undefined]),
  'health.lung_condition': mostly<FieldValue | undefined>('none', ['copd', 'interstitial', undefined]),
  'health.oral_steroid': mostly<FieldValue | undefined>('no', ['yes', undefined]),
  'health.clinical_frailty_scale': mostly<FieldValue | undefined>(2, [3, 4, 5, 6, undefined]),
  'health.walking_aid': mostly<FieldValue | undefined>('none', ['stick', 'frame', undefined]),
  'vitals.spo2_rest': mostly<FieldValue | undefined>(97, [93, 89, 84, undefined]),
  'vitals.spo2_lowest': mostly<FieldValue | undefined>(95, [88, 79, undefined]),
  'vitals.bp_standing_systolic': mostly<FieldValue | undefined>(128, [108, undefined]),
});

const perTest = <Given>(table: Readonly<Record<string, Given>>, make: (given: Given) => fc.Arbitrary<TestsGiven[string]>) =>
  Object.entries(table).map(([test, given]) =>
    fc.tuple(fc.constant(test), fc.oneof({ weight: 24, arbitrary: make(given) }, fc.constant(null), fc.constant(unable))),
  );

const tests: fc.Arbitrary<TestsGiven> = fc
  .tuple(
    ...perTest(TIMES, (ends) => between(ends)),
    ...perTest(COUNTS, ([low, high]) => fc.integer({ min: low, max: high })),
    ...perTest(HOLDS, (ceiling) => seconds(ceiling).map((value) => measured(value, { ceiling }))),
    ...perTest({ single_leg_stance_eyes_open: 45 }, (ceiling) =>
      fc.tuple(seconds(ceiling), seconds(ceiling)).map(([right, left]) => ({
        right: measured(right, { ceiling }),
        left: measured(left, { ceiling }),
      })),
    ),
  )
  .map((entries) => Object.fromEntries(entries));

export interface RandomClient {
  readonly tests: TestsGiven;
  readonly fields: Readonly<Record<string, FieldValue | undefined>>;
}

/** An injury or a long lie without a fall is refused by the reader, so it does not reach the plan. */
const consistent = ({ tests: given, fields }: RandomClient): RandomClient =>
  fields['history.falls_past_year'] === 0
    ? { tests: given, fields: { ...fields, 'history.fall_injury': 'no', 'history.unable_to_rise': 'no' } }
    : { tests: given, fields };

export const randomClient: fc.Arbitrary<RandomClient> = fc
  .record({ tests, fields: fc.tuple(answers, findings).map(([a, b]) => ({ ...a, ...b })) })
  .map(consistent);

export const randomSession: fc.Arbitrary<Session> = randomClient.map((given) => sessionOf(given));
