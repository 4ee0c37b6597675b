/**
 * Thirty written cases: a pattern of results and the range in which the start must fall, by description. They were written
 * from the evidence before the rules were. Places, from most to least support; `beyond` is ball, head turns, foam, closed eyes,
 * backward, a second task, one leg in the heel raise, a high step.
 */
import { describe, expect, test } from 'vitest';
import type { PlannedExercise } from '../../src/assessment.ts';
import { featuresOf } from '../../src/plan/caps.ts';
import { measured, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { assessed, type CaseGiven, planned, singleLeg } from './base-client.ts';

const PLACES = [
  'held',
  'seated',
  'both_hands_firm',
  'one_hand_firm',
  'light_touch',
  'fingertip',
  'hands_ready',
  'hands_free',
  'beyond',
] as const;
type Place = (typeof PLACES)[number];

const BEYOND = ['foam', 'eyes_closed', 'head_turns', 'backward', 'second_task', 'high_step', 'loaded'];

function placeOf({ held, exercise, start }: PlannedExercise): Place {
  if (held) return 'held';
  if (start.level === 0) return 'seated';
  const rung = testEvidence().exercises.find(({ id }) => id === exercise)?.ladder[start.level - 1];
  if (rung === undefined) throw new Error(`${exercise} has no rung ${start.level}`);
  return BEYOND.some((feature) => [...featuresOf(rung)].some((has) => has === feature)) ? 'beyond' : rung.support;
}

interface Case {
  readonly pattern: string;
  readonly given: CaseGiven;
  readonly exercises: readonly string[] | 'all';
  readonly lowest: Place;
  readonly highest: Place;
  /** Somebody must be beside, wherever it starts. */
  readonly beside?: true;
}

const noSingleLeg = { single_leg_stance_eyes_open: null };
const cannotLeft = { single_leg_stance_eyes_open: { right: measured(20, { ceiling: 45 }), left: unable } };
const cannotRise = { five_times_sit_to_stand: unable, thirty_second_chair_stand: 0 };
const tandem = (seconds: number, ceiling = 30, aid?: string) => ({
  tandem_stance: measured(seconds, { ceiling, ...(aid === undefined ? {} : { aid }) }),
});
const STANCE = ['single_leg_standing'];

const CASES: readonly Case[] = [
  { pattern: 'single-leg 35 / 35', given: {}, exercises: STANCE, lowest: 'hands_free', highest: 'beyond' },
  {
    pattern: 'single-leg 30 / 2',
    given: { tests: singleLeg(30, 2) },
    exercises: STANCE,
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  {
    pattern: 'single-leg 4.5 / 4.5',
    given: { tests: singleLeg(4.5, 4.5) },
    exercises: STANCE,
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  {
    pattern: 'single-leg 5.3 / 6',
    given: { tests: singleLeg(5.3, 6) },
    exercises: STANCE,
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  {
    pattern: 'single-leg 12 / 14',
    given: { tests: singleLeg(12, 14) },
    exercises: STANCE,
    lowest: 'light_touch',
    highest: 'fingertip',
  },
  {
    pattern: 'single-leg not tested',
    given: { tests: noSingleLeg },
    exercises: STANCE,
    lowest: 'both_hands_firm',
    highest: 'both_hands_firm',
  },
  {
    pattern: 'single-leg unable',
    given: { tests: cannotLeft },
    exercises: STANCE,
    lowest: 'seated',
    highest: 'both_hands_firm',
    beside: true,
  },
  {
    pattern: 'stretch: single-leg unable',
    given: { tests: cannotLeft },
    exercises: ['quadriceps_stretch'],
    lowest: 'seated',
    highest: 'seated',
  },
  {
    pattern: 'stretch: single-leg 4 / 4',
    given: { tests: singleLeg(4, 4) },
    exercises: ['quadriceps_stretch'],
    lowest: 'seated',
    highest: 'both_hands_firm',
  },
  {
    pattern: 'stretch: single-leg 35 / 35',
    given: {},
    exercises: ['quadriceps_stretch'],
    lowest: 'one_hand_firm',
    highest: 'fingertip',
  },
  {
    pattern: 'tandem 9.8',
    given: { tests: tandem(9.8) },
    exercises: ['tandem_standing'],
    lowest: 'both_hands_firm',
    highest: 'fingertip',
  },
  {
    pattern: 'tandem 10 of 10',
    given: { tests: tandem(10, 10) },
    exercises: ['tandem_standing'],
    lowest: 'fingertip',
    highest: 'hands_ready',
  },
  { pattern: 'tandem 30', given: {}, exercises: ['tandem_standing'], lowest: 'hands_ready', highest: 'hands_free' },
  {
    pattern: 'tandem 25, help to take the position',
    given: { tests: tandem(25, 30, 'held while taking the position') },
    exercises: ['tandem_standing'],
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  {
    pattern: 'tandem 30, single-leg 3.5 / 3.5',
    given: { tests: singleLeg(3.5, 3.5) },
    exercises: ['tandem_standing'],
    lowest: 'both_hands_firm',
    highest: 'light_touch',
  },
  {
    pattern: 'tandem unable, semi-tandem 6, single-leg unable',
    given: { tests: { ...cannotLeft, tandem_stance: unable, semi_tandem_stance: 6 } },
    exercises: ['tandem_walking'],
    lowest: 'seated',
    highest: 'both_hands_firm',
    beside: true,
  },
  { pattern: 'walking: tandem 30', given: {}, exercises: ['tandem_walking'], lowest: 'hands_ready', highest: 'hands_free' },
  { pattern: 'chair stands 9.5 s and 17', given: {}, exercises: ['squat'], lowest: 'hands_ready', highest: 'hands_free' },
  {
    pattern: 'chair stands 15.8 s and 9',
    given: { tests: { five_times_sit_to_stand: 15.8, thirty_second_chair_stand: 9 } },
    exercises: ['squat'],
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  { pattern: 'no rise without arms', given: { tests: cannotRise }, exercises: ['squat'], lowest: 'seated', highest: 'seated' },
  {
    pattern: 'no rise without arms',
    given: { tests: cannotRise },
    exercises: ['sit_to_stand'],
    lowest: 'seated',
    highest: 'both_hands_firm',
    beside: true,
  },
  {
    pattern: 'chair stands not tested',
    given: { tests: { five_times_sit_to_stand: null, thirty_second_chair_stand: null } },
    exercises: ['sit_to_stand', 'squat', 'side_step_up'],
    lowest: 'both_hands_firm',
    highest: 'both_hands_firm',
  },
  { pattern: 'heel raise not tested', given: {}, exercises: ['heel_raises'], lowest: 'fingertip', highest: 'hands_free' },
  {
    pattern: 'a fall with an injury: high',
    given: { fields: { 'history.falls_past_year': 1, 'history.fall_injury': 'yes' } },
    exercises: ['single_leg_standing', 'tandem_standing'],
    lowest: 'fingertip',
    highest: 'hands_ready',
  },
  {
    pattern: 'unsteady, frailty not recorded: may be high',
    given: { fields: { 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': undefined } },
    exercises: STANCE,
    lowest: 'fingertip',
    highest: 'hands_ready',
  },
  {
    pattern: 'frailty 6, all questions no',
    given: { fields: { 'health.clinical_frailty_scale': 6 } },
    exercises: STANCE,
    lowest: 'one_hand_firm',
    highest: 'light_touch',
  },
  {
    pattern: 'timed up and go 17, gait 0.7',
    given: { tests: { timed_up_and_go: 17, gait_speed_usual: 0.7 } },
    exercises: ['multi_direction_stepping', 'side_stepping'],
    lowest: 'both_hands_firm',
    highest: 'one_hand_firm',
  },
  {
    pattern: 'walks with a frame',
    given: { fields: { 'health.walking_aid': 'frame' } },
    exercises: ['tandem_walking'],
    lowest: 'both_hands_firm',
    highest: 'both_hands_firm',
  },
  {
    pattern: 'pressure falls from 140/80 to 116/74',
    given: {
      fields: {
        'vitals.bp_lying_systolic': 140,
        'vitals.bp_lying_diastolic': 80,
        'vitals.bp_standing_systolic': 116,
        'vitals.bp_standing_diastolic': 74,
      },
    },
    exercises: ['sit_to_stand', 'single_leg_standing'],
    lowest: 'both_hands_firm',
    highest: 'light_touch',
  },
  {
    pattern: 'saturation 84 % at rest',
    given: { fields: { 'vitals.spo2_rest': 84, 'health.home_oxygen': 'yes' } },
    exercises: 'all',
    lowest: 'held',
    highest: 'held',
  },
];

describe('thirty written cases', () => {
  test('there are thirty', () => expect(CASES).toHaveLength(30));

  test.each(CASES.map((each, index) => [index + 1, each] as const))('case %i: $pattern', (_number, each) => {
    const assessment = assessed(each.given);
    const exercises = each.exercises === 'all' ? assessment.plan.map(({ exercise }) => exercise) : each.exercises;
    for (const exercise of exercises) {
      const found = planned(assessment, exercise);
      const at = PLACES.indexOf(placeOf(found));
      expect(at, `${exercise}: ${found.start.name}`).toBeGreaterThanOrEqual(PLACES.indexOf(each.lowest));
      expect(at, `${exercise}: ${found.start.name}`).toBeLessThanOrEqual(PLACES.indexOf(each.highest));
      if (each.beside === true) expect(['someone_beside', 'professional']).toContain(found.supervision);
    }
  });
});

describe('what the cases say beside the range', () => {
  const rungOf = ({ exercise, start }: PlannedExercise) =>
    testEvidence().exercises.find(({ id }) => id === exercise)?.ladder[start.level - 1];

  test('case 1: not on foam and not with closed eyes, whatever the result', () => {
    const rung = rungOf(planned(assessed({}), 'single_leg_standing'));
    expect(rung?.surface).toBe('firm');
    expect(rung?.vision).toBe('eyes_open');
  });

  test('case 15: the test that decides is named', () => {
    const found = planned(assessed({ tests: singleLeg(3.5, 3.5) }), 'tandem_standing');
    expect(found.because.join(' ')).toMatch(/Single-leg stance.*3\.5/);
    expect(found.because.join(' ')).toContain('the lowest counts');
  });

  test('case 25: the limit says what would lift it', () => {
    const found = planned(
      assessed({ fields: { 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': undefined } }),
      'single_leg_standing',
    );
    expect(found.limited_by.join(' ')).toContain('frailty scale');
  });

  test('long-term steroid and unknown bones: never the high step, never bending or twisting', () => {
    const assessment = assessed({
      fields: {
        'health.oral_steroid': 'yes',
        'health.oral_steroid.daily_mg': 7.5,
        'health.oral_steroid.months': 14,
        'health.osteoporosis': 'unknown',
      },
    });
    expect(rungOf(planned(assessment, 'side_step_up'))?.features).not.toContain('high_step');
    const shift = rungOf(planned(assessment, 'weight_shift_and_reach'))?.features ?? [];
    expect(shift).not.toContain('trunk_bend');
    expect(shift).not.toContain('trunk_twist');
  });

  test('memory impaired: no second task, foam, closed eyes or backward step, and none of them next alone', () => {
    for (const found of assessed({ fields: { 'health.cognitive_impairment': 'yes' } }).plan) {
      const rung = rungOf(found);
      for (const feature of ['second_task', 'foam', 'eyes_closed', 'backward'] as const)
        expect(rung === undefined ? [] : [...featuresOf(rung)], found.exercise).not.toContain(feature);
    }
  });

  test('chest pain: every exercise is held', () => {
    expect(assessed({ fields: { 'redflags.chest_pain': 'yes' } }).plan.every(({ held }) => held)).toBe(true);
  });

  test('a stance left out for a medical reason: nothing with less than both hands firm', () => {
    const tests = { tandem_stance: { outcome: 'unsafe', reason: 'chest tightness', why: 'medical' } } as const;
    for (const { exercise, start } of assessed({ tests }).plan)
      expect(['seated', 'both_hands_firm'], exercise).toContain(start.support);
  });
});
