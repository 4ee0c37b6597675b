/** Base client of the thirty cases, and a session made of it: whatever a case does not say is as here. */
import { assess, riskFields } from '../../src/assess.ts';
import type { Assessment, PlannedExercise } from '../../src/assessment.ts';
import type { Facts } from '../../src/evidence/condition.ts';
import { factsOf } from '../../src/facts.ts';
import type { FieldValue, Reading, RecordedTest, Session, Side } from '../../src/session.ts';
import { measured, recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const FIELDS: Readonly<Record<string, FieldValue>> = {
  'history.falls_past_year': 0,
  'history.fall_injury': 'no',
  'history.unable_to_rise': 'no',
  'history.loss_of_consciousness': 'no',
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
  'health.lung_condition': 'none',
  'health.home_oxygen': 'no',
  'health.oral_steroid': 'no',
  'health.osteoporosis': 'no',
  'health.vertebral_fracture': 'no',
  'health.clinical_frailty_scale': 2,
  'health.walking_aid': 'none',
  'vitals.spo2_rest': 97,
  'vitals.spo2_lowest': 94,
  'vitals.bp_lying_systolic': 130,
  'vitals.bp_lying_diastolic': 75,
  'vitals.bp_standing_systolic': 126,
  'vitals.bp_standing_diastolic': 74,
};

/** Both sides of a test, or one reading of a test without sides; null takes the test out. */
export type TestsGiven = Readonly<
  Record<string, Reading | number | { readonly right: Reading | number; readonly left: Reading | number } | null>
>;

const TESTS: TestsGiven = {
  timed_up_and_go: 8.5,
  gait_speed_usual: 1.3,
  five_times_sit_to_stand: 9.5,
  thirty_second_chair_stand: 17,
  single_leg_stance_eyes_open: { right: measured(35, { ceiling: 45 }), left: measured(35, { ceiling: 45 }) },
  tandem_stance: measured(30, { ceiling: 30 }),
  semi_tandem_stance: 10,
  side_by_side_stance: 10,
};

const isSided = (given: object): given is { readonly right: Reading | number; readonly left: Reading | number } =>
  'right' in given;

const readings = (tests: TestsGiven): RecordedTest[] =>
  Object.entries(tests).flatMap(([test, given]): RecordedTest[] => {
    if (given === null) return [];
    if (typeof given === 'object' && isSided(given))
      return (['right', 'left'] as const).map((side: Side) => recorded(test, given[side], side));
    return [recorded(test, given)];
  });

export interface CaseGiven {
  readonly tests?: TestsGiven;
  /** Fields that differ; undefined takes one out. */
  readonly fields?: Readonly<Record<string, FieldValue | undefined>>;
  readonly more?: Partial<Session>;
}

export function sessionOf({ tests = {}, fields = {}, more = {} }: CaseGiven): Session {
  const entries = Object.entries({ ...FIELDS, ...fields }).filter(
    (entry): entry is [string, FieldValue] => entry[1] !== undefined,
  );
  return { ...session(readings({ ...TESTS, ...tests }), Object.fromEntries(entries), { age: 72 }), ...more };
}

export const assessed = (given: CaseGiven): Assessment => assess(sessionOf(given), testEvidence());

export function planned(assessment: Assessment, exercise: string): PlannedExercise {
  const found = assessment.plan.find((each) => each.exercise === exercise);
  if (found === undefined) throw new Error(`no ${exercise} in the plan`);
  return found;
}

/** Single-leg stance in seconds, right and left. */
export const singleLeg = (right: number, left: number): TestsGiven => ({
  single_leg_stance_eyes_open: { right: measured(right, { ceiling: 45 }), left: measured(left, { ceiling: 45 }) },
});

/** What the caps see of a client: the fields and results, and what the pathway made of them. */
export function planFactsOf(visit: Session): Facts {
  const evidence = testEvidence();
  const { tests, risk } = assess(visit, evidence);
  return factsOf(visit, tests, evidence, riskFields(risk, evidence, factsOf(visit, tests, evidence)));
}
