/** Three hand-made assessments that between them take every branch of the reports. All numbers and sources are invented. */
import type { Assessment } from '../../src/assessment.ts';
import { assessment, cited, comparison, cutPoint, error, exercise, ownRule, practice, result, risk, step } from './parts.ts';

const CAP = 'not beyond "Fingertip on the bench": the highest level still possible is high; lifts when the frailty scale is recorded';
const STEROID = 'lowered: long-term steroid tablets; bones may be weak, so no deep bend and no load';

/** Settled at intermediate, one red flag to clear, all nine purposes of detail in the tests. */
export const copd74: Assessment = assessment({
  client: { ref: 'M-207', sex: 'female', age: 74, setting: 'community', setting_assumed: true, lung_condition: 'copd' },
  notes: ['tests.four_square_step: 41 s is unusual; kept as entered'],
  tests: [
    result({
      comparisons: [
        comparison({
          source: 'invented-table-b',
          status: 'abstract',
          band: { sex: 'all', age_min: 71, age_max: 75 },
          method: 'mean_sd',
          percentile: 38.4,
          approximate: true,
          z: -0.29,
          standing: 'expected',
          notes: ['both sexes pooled, though men are about 2 s faster'],
          mismatches: ['another country', 'people without lung disease'],
          working: { row: 'invented-table-b, Abstract, both sexes 71-75', formula: 'z = -(12.8 - 11.9) / 3.1 = -0.29' },
        }),
        comparison({ primary: false, percentile: 9, percentile_bound: 'at_most', standing: 'below', z: null }),
        comparison({ primary: false, source: 'invented-recalled', status: 'memory', method: 'mean_ci', percentile: null, percentile_bound: null, z: null, standing: null, against_mean: 'worse', expected: 9.2 }),
      ],
      cut_points: [
        cutPoint({ met: true, near: true }),
        cutPoint({ id: 'b', rule: 'more than 15 s', source: 'invented-table-b', status: 'secondary', sensitivity: 0.31, specificity: 0.74 }),
        cutPoint({ id: 'c', rule: '10 s or more', met: true, counts: false, outcome: 'death within ten years', note: 'About survival, not about falls.' }),
      ],
      measurement_error: error({}),
      notes: ['by invented-table-a the standing would be "below"'],
    }),
    result({
      test: 'single_leg_stance_eyes_open',
      name: 'Single-leg stance, eyes open',
      side: 'right',
      value: 6,
      trials: [4.2, 6, 5.1],
      comparisons: [
        comparison({
          source: 'invented-recalled',
          status: 'memory',
          value: 6,
          trials_rule: 'best',
          method: 'mean_sd',
          percentile: null,
          percentile_bound: null,
          z: null,
          standing: null,
          against_mean: 'worse',
          expected: 18.4,
          no_standing_because: 'mean and SD cannot be a bell curve here, so no percentile is given',
          notes: ['skewed: most people are at the ceiling or far under it'],
        }),
      ],
      cut_points: [cutPoint({ rule: 'under 5 s', near: true, outcome: 'injurious falls' })],
    }),
    result({
      test: 'single_leg_stance_eyes_open',
      name: 'Single-leg stance, eyes open',
      side: 'left',
      value: 3.4,
      trials: [3, 3.4, 2.9],
      comparisons: [
        comparison({
          source: 'invented-recalled',
          status: 'memory',
          value: 3.4,
          trials_rule: 'best',
          method: 'mean_sd',
          percentile: null,
          percentile_bound: null,
          z: null,
          standing: null,
          against_mean: 'not_worse',
          expected: 18.4,
          no_standing_because: 'mean and SD cannot be a bell curve here, so no percentile is given',
          notes: ['skewed: most people are at the ceiling or far under it'],
        }),
      ],
      cut_points: [cutPoint({ rule: 'under 5 s', met: true, near: true, outcome: 'injurious falls' })],
    }),
    result({
      test: 'tandem_stance',
      name: 'Tandem stance',
      value: 10,
      trials: [10],
      at_least: true,
      comparisons: [
        comparison({ value: 10, method: 'cumulative_share', percentile: 31.2, percentile_bound: 'at_least', z: null, standing: 'expected', expected: null, notes: ["stopped at the test's own ceiling: 69 % of the group reach it"] }),
      ],
      cut_points: [cutPoint({ rule: 'under 10 s', near: null })],
    }),
    result({
      test: 'gait_speed_usual',
      name: 'Usual walking speed',
      unit: 'm/s',
      value: 1.284,
      trials: [1.284],
      comparisons: [comparison({ source: 'invented-survey', status: 'computed', value: 1.284, percentile: 81.6, standing: 'above', z: 0.9, expected: 1.05 })],
      cut_points: [cutPoint({ rule: '0.8 m/s or slower' })],
      notes: ['the course walked is not recorded; the default table is used'],
    }),
    result({ test: 'four_square_step', name: 'Four square step test', value: 41, trials: [41], no_comparison_because: 'no published norm for this: none at 60 to 90', cut_points: [cutPoint({ rule: 'more than 15 s', met: true, near: null })] }),
    result({ test: 'falls_efficacy_short', name: 'Falls efficacy, 7 items', unit: '{score}', value: 14, trials: [14], category: 'high_concern', no_comparison_because: 'no published norm for this' }),
    result({ test: 'thirty_second_chair_stand', name: '30-second chair stand', outcome: 'declined', value: null, unit: '{#}/(30.s)', trials: [], reason: 'knee pain since Monday' }),
    result({
      test: 'four_stage_balance',
      name: 'Four-stage balance',
      unit: '{stage}',
      value: 3,
      trials: [],
      comparisons: [comparison({ value: 3, percentile: 0.4, standing: 'well_below', z: null, expected: null })],
      cut_points: [cutPoint({ rule: 'tandem under 10 s', met: null, near: null })],
      derived_from: [
        { test: 'tandem_stance', value: 10 },
        { test: 'semi_tandem_stance', value: null },
      ],
    }),
  ],
  risk: risk({
    level: 'intermediate',
    label: 'Intermediate risk',
    at_least: 'intermediate',
    at_most: 'intermediate',
    steps: [
      step({}),
      step({ id: 'severity', question: 'Any sign of severity - injury, long lie, loss of consciousness, frailty?', answer: 'no', because: 'no injury, no long lie, clinical frailty scale 4', basis: 'secondary' }),
      step({ id: 'gait', question: 'Are gait and balance impaired?', answer: 'yes', because: 'timed up and go over the mark', basis: 'secondary' }),
    ],
    actions: [
      { text: 'Tailored balance and leg-strength exercise that challenges balance.', ...cited('invented-guideline') },
      { text: 'Explain how falls are prevented.', ...cited('invented-guideline', 'secondary') },
    ],
    follow_up: { text: 'Assess again in one year, sooner after any fall.', within_days: 365, ...cited('invented-guideline', 'memory') },
    caveats: [{ id: 'weakness', text: 'Known weakness of this pathway; few people land at this level.', ...cited('invented-table-b', 'abstract') }],
    red_flags: [
      {
        id: 'drop',
        tier: 'clear_first',
        finding: 'Dizzy on standing and blood pressure fell by 20 or more',
        because: 'lying 138/78, standing 116/70',
        action: 'Ask the doctor to look at blood pressure and medicines before standing exercise.',
        spread: 'Published limits agree on 20/10 within three minutes.',
        ...cited('invented-guideline', 'secondary'),
      },
    ],
    not_asked: ['Chest pain in the past weeks?', 'A blow to the head while on blood thinners?'],
    other_pathways: [
      { ...risk({ name: 'Second pathway 2019', level: 'at_risk', label: 'At risk' }), differs_because: 'it has two levels only' },
      { ...risk({ name: 'Third pathway', level: 'undetermined', at_least: 'not_at_risk', at_most: 'at_risk' }), differs_because: null },
    ],
    factors: [
      { id: 'steroid', name: 'Long-term steroid tablets', about: 'injury', found: '7.5 mg a day for 14 months', why: 'bones thin', usual_action: 'Ask about bone density', who: 'general practitioner', ...cited('invented-guideline', 'common-practice') },
      { id: 'worry', name: 'Worry about falling', about: 'fall', found: 'worries about falling', why: 'people move less and weaken', usual_action: 'Talk about it, build up by steps', who: 'physiotherapist', ...ownRule },
    ],
    probability: { before: 0.3, after: 0.4142, low: 0.331, high: 0.502, used: ['invented ratio of the timed up and go'] },
  }),
  plan: [
    exercise({ exercise: 'quadriceps_stretch', name: 'Standing quadriceps stretch', purpose: 'stretch', limited_by: [CAP], because: ['single-leg stance, left 3.4 s: under the mark of this step'], dose: '30 s on each side', cautions: ['A towel or band if the foot cannot be reached.', 'Breathe out on the effort, never hold the breath.'] }),
    exercise({ limited_by: [STEROID] }),
    exercise({ exercise: 'heel_raise', name: 'Heel raise', because: ['not tested: starts with most support'], limited_by: [CAP] }),
    exercise({ exercise: 'tandem_stance', name: 'Tandem stance', purpose: 'standing_balance', limited_by: [CAP], start: { level: 3, of: 7, name: 'Light touch on the bench', support: 'light_touch', base: 'one foot in front of the other', surface: 'firm', vision: 'eyes_open', task: 'ball passed from hand to hand' } }),
    exercise({ exercise: 'side_stepping', name: 'Side-stepping', purpose: 'moving_balance' }),
    exercise({ exercise: 'ankle_circles', name: 'Ankle circles', purpose: 'warm_up', start: { level: 0, of: 4, name: 'Ankle circles on a chair', support: 'seated', base: 'seated', surface: 'chair', vision: 'eyes_open', task: null } }),
  ],
});

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
      { id: 'later', tier: 'clear_first', finding: 'New back pain', because: 'recorded', action: 'Clear with the doctor.', spread: null, ...practice },
      { id: 'chest', tier: 'emergency', finding: 'Chest pain now', because: 'answered yes', action: 'Call the emergency number.', spread: null, ...cited('invented-guideline') },
      { id: 'blackout', tier: 'same_day', finding: 'Loss of consciousness', because: 'recorded', action: 'A doctor the same day.', spread: null, ...cited('invented-guideline', 'abstract') },
    ],
    not_asked: ['Breathless at rest?'],
  }),
  plan: [
    exercise({ held: true, limited_by: ['held: chest pain; nothing is started before a doctor has seen the client'], start: { ...exercise({}).start, level: 0 } }),
    exercise({ exercise: 'side_stepping', name: 'Side-stepping', purpose: 'moving_balance', held: true, limited_by: ['held: chest pain; nothing is started before a doctor has seen the client'] }),
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
        comparison({ value: null, method: 'cumulative_share', percentile: 4.2, percentile_bound: 'at_most', z: null, standing: 'well_below', expected: null, band: { sex: 'male', age_min: 80, age_max: null, side: null, group: 'able to walk alone' }, notes: ['unable counts as the worst result'] }),
      ],
      cut_points: [cutPoint({ rule: 'more than 15 s', met: true, near: null })],
      measurement_error: error({ low: null, high: null }),
    }),
    result({ test: 'functional_reach', name: 'Functional reach', outcome: 'unsafe', why: 'balance', value: null, unit: 'cm', trials: [], reason: 'swayed backwards', no_comparison_because: 'no published norm for this' }),
    result({ test: 'step_test', name: 'Step test', side: 'left', outcome: 'unsafe', why: 'medical', value: null, unit: '{steps}', trials: [], reason: 'saturation fell' }),
    result({
      test: 'grip_strength',
      name: 'Grip strength',
      side: 'right',
      unit: 'kgf',
      value: 31,
      trials: [31],
      comparisons: [comparison({ primary: false, value: 31, standing: null, no_standing_because: 'shown for orientation only: not a sample of the general population', percentile: null, percentile_bound: null, expected: null })],
    }),
    result({ test: 'single_leg_stance_eyes_open', name: 'Single-leg stance, eyes open', side: 'right', value: 1, trials: [1], comparisons: [comparison({ value: 1, percentile: 91.5, percentile_bound: 'at_least', standing: 'above', z: null, expected: null })], cut_points: [cutPoint({ rule: 'under 5 s', met: true, near: null })] }),
    result({ test: 'heel_raise', name: 'Single-leg heel raise', side: 'right', unit: '{repetitions}', value: 1, trials: [1], comparisons: [comparison({ value: 1, percentile: null, percentile_bound: null, z: null, standing: null, against_mean: 'not_worse', method: 'median_only', expected: 1, band: { sex: 'all', age_min: null, age_max: null } })] }),
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
