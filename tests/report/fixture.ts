/** Three hand-made assessments that between them take every branch of the reports. All numbers and sources are invented. */
import type { Assessment } from '../../src/assessment.ts';
import { copd74 } from './fixture-copd-74.ts';
import { assessment, cited, comparison, cutPoint, error, exercise, ownRule, practice, result, risk, step } from './parts.ts';

/** Cannot be settled; an emergency; sex not recorded; nothing tested. */
export const undetermined: Assessment = assessment({
  client: { ref: 'U-9', sex: 'not recorded', age: 81, setting: 'residential_care', setting_assumed: false, lung_condition: null },
  tests: [],
  risk: risk({
    level: 'undetermined',
    label: 'Undetermined',
    at_least: 'low',
    at_most: 'high',
    steps: [
      step({}),
      step({ id: 'severity', question: 'Any sign of severity?', answer: 'unknown', because: '', reached: 'yes' }),
      step({ id: 'gait', question: 'Are gait and balance impaired?', answer: 'unknown', because: '', reached: 'perhaps' }),
      step({ id: 'late', question: 'Anything after that?', answer: 'no', because: 'never looked at', reached: 'no' }),
    ],
    missing: [
      { item: 'setting', question: 'Where does the client live?', kind: 'record' },
      { item: 'fall_injury', question: 'Was any fall followed by an injury that needed a doctor?', kind: 'question' },
      { item: 'gait_impaired', question: 'Time the usual walking speed or the timed up and go.', kind: 'test' },
    ],
    caveats: [{ id: 'frail', text: 'Frail; whatever the missing answers are, do not treat this client as low.', ...ownRule }],
    red_flags: [
      {
        id: 'later',
        tier: 'clear_first',
        finding: 'New back pain',
        because: 'recorded',
        action: 'Clear with the doctor.',
        spread: null,
        cleared: null,
        clearance_refused: null,
        ...practice,
      },
      {
        id: 'chest',
        tier: 'emergency',
        finding: 'Chest pain now',
        because: 'answered yes',
        action: 'Call the emergency number.',
        spread: null,
        cleared: null,
        clearance_refused: null,
        ...cited('invented-guideline'),
      },
      {
        id: 'blackout',
        tier: 'same_day',
        finding: 'Loss of consciousness',
        because: 'recorded',
        action: 'A doctor the same day.',
        spread: null,
        cleared: null,
        clearance_refused: null,
        ...cited('invented-guideline', 'abstract'),
      },
    ],
    not_asked: ['Breathless at rest?'],
  }),
  plan: [
    exercise({
      held: true,
      limited_by: ['held: chest pain; nothing is started before a doctor has seen the client'],
      start: { ...exercise({}).start, level: 0 },
    }),
    exercise({
      exercise: 'side_stepping',
      name: 'Side-stepping',
      purpose: 'moving_balance',
      held: true,
      limited_by: ['held: chest pain; nothing is started before a doctor has seen the client'],
    }),
  ],
});

/** Low by the questions only, cannot rise without arms; nothing left unasked. */
export const unable86: Assessment = assessment({
  client: { ref: 'A-86', sex: 'male', age: 86, setting: 'community', setting_assumed: false, lung_condition: 'interstitial' },
  tests: [
    result({
      test: 'five_times_sit_to_stand',
      name: 'Five times sit to stand',
      outcome: 'unable',
      value: null,
      trials: [],
      reason: 'could not rise without arms',
      comparisons: [
        comparison({
          value: null,
          method: 'cumulative_share',
          percentile: 4.2,
          percentile_bound: 'at_most',
          z: null,
          standing: 'well_below',
          expected: null,
          band: { sex: 'male', age_min: 80, age_max: null, side: null, group: 'able to walk alone' },
          notes: ['unable counts as the worst result'],
        }),
      ],
      cut_points: [cutPoint({ rule: 'more than 15 s', met: true, near: null })],
      measurement_error: error({ low: null, high: null }),
    }),
    result({
      test: 'functional_reach',
      name: 'Functional reach',
      outcome: 'unsafe',
      why: 'balance',
      value: null,
      unit: 'cm',
      trials: [],
      reason: 'swayed backwards',
      no_comparison_because: 'no published norm for this',
    }),
    result({
      test: 'step_test',
      name: 'Step test',
      side: 'left',
      outcome: 'unsafe',
      why: 'medical',
      value: null,
      unit: '{steps}',
      trials: [],
      reason: 'saturation fell',
    }),
    result({
      test: 'grip_strength',
      name: 'Grip strength',
      side: 'right',
      unit: 'kgf',
      value: 31,
      trials: [31],
      comparisons: [
        comparison({
          primary: false,
          value: 31,
          standing: null,
          no_standing_because: 'shown for orientation only: not a sample of the general population',
          percentile: null,
          percentile_bound: null,
          expected: null,
        }),
      ],
    }),
    result({
      test: 'single_leg_stance_eyes_open',
      name: 'Single-leg stance, eyes open',
      side: 'right',
      value: 1,
      trials: [1],
      comparisons: [
        comparison({ value: 1, percentile: 91.5, percentile_bound: 'at_least', standing: 'above', z: null, expected: null }),
      ],
      cut_points: [cutPoint({ rule: 'under 5 s', met: true, near: null })],
    }),
    result({
      test: 'heel_raise',
      name: 'Single-leg heel raise',
      side: 'right',
      unit: '{repetitions}',
      value: 1,
      trials: [1],
      comparisons: [
        comparison({
          value: 1,
          percentile: null,
          percentile_bound: null,
          z: null,
          standing: null,
          against_mean: 'not_worse',
          method: 'median_only',
          expected: 1,
          band: { sex: 'all', age_min: null, age_max: null },
        }),
      ],
    }),
  ],
  risk: risk({
    caveats: [
      { id: 'low_by_questions_only', text: 'low by the questions only; gait impaired / frail: assess as if not low', ...ownRule },
      { id: 'not_none', text: 'Low is not none.', ...cited('invented-guideline') },
    ],
    steps: [step({ answer: 'no', because: 'no fall in the past year' })],
    actions: [{ text: 'Encourage exercise.', ...cited('invented-guideline') }],
    follow_up: { text: 'Ask again in one year.', within_days: 365, ...practice },
  }),
  plan: [exercise({ supervision: 'professional' })],
});

export const everyFixture: readonly Assessment[] = [copd74, undetermined, unable86];

export { copd74 };
