/** Settled at intermediate, with one red flag to clear and every purpose of exercise. Numbers and sources are invented. */
import type { Assessment } from '../../src/assessment.ts';
import { copd74Tests } from './fixture-copd-74-tests.ts';
import { assessment, cited, exercise, ownRule, risk, step } from './parts.ts';

const CAP =
  'not beyond "Fingertip on the bench": the highest level still possible is high; lifts when the frailty scale is recorded';
const STEROID = 'lowered: long-term steroid tablets; bones may be weak, so no deep bend and no load';

export const copd74: Assessment = assessment({
  client: { ref: 'M-207', sex: 'female', age: 74, setting: 'community', setting_assumed: true, lung_condition: 'copd' },
  notes: ['tests.four_square_step: 41 s is unusual; kept as entered'],
  tests: copd74Tests,
  risk: risk({
    level: 'intermediate',
    label: 'Intermediate risk',
    at_least: 'intermediate',
    at_most: 'intermediate',
    steps: [
      step({}),
      step({
        id: 'severity',
        question: 'Any sign of severity - injury, long lie, loss of consciousness, frailty?',
        answer: 'no',
        because: 'no injury, no long lie, clinical frailty scale 4',
        basis: 'secondary',
      }),
      step({
        id: 'gait',
        question: 'Are gait and balance impaired?',
        answer: 'yes',
        because: 'timed up and go over the mark',
        basis: 'secondary',
      }),
    ],
    actions: [
      { text: 'Tailored balance and leg-strength exercise that challenges balance.', ...cited('invented-guideline') },
      { text: 'Explain how falls are prevented.', ...cited('invented-guideline', 'secondary') },
    ],
    follow_up: {
      text: 'Assess again in one year, sooner after any fall.',
      within_days: 365,
      ...cited('invented-guideline', 'memory'),
    },
    caveats: [
      {
        id: 'weakness',
        text: 'Known weakness of this pathway; few people land at this level.',
        ...cited('invented-table-b', 'abstract'),
      },
    ],
    red_flags: [
      {
        id: 'drop',
        tier: 'clear_first',
        finding: 'Dizzy on standing and blood pressure fell by 20 or more',
        because: 'lying 138/78, standing 116/70',
        action: 'Ask the doctor to look at blood pressure and medicines before standing exercise.',
        spread: 'Published limits agree on 20/10 within three minutes.',
        cleared: null,
        clearance_refused: null,
        ...cited('invented-guideline', 'secondary'),
      },
    ],
    not_asked: ['Chest pain in the past weeks?', 'A blow to the head while on blood thinners?'],
    other_pathways: [
      { ...risk({ name: 'Second pathway 2019', level: 'at_risk', label: 'At risk' }), differs_because: 'it has two levels only' },
      {
        ...risk({ name: 'Third pathway', level: 'undetermined', at_least: 'not_at_risk', at_most: 'at_risk' }),
        differs_because: null,
      },
    ],
    factors: [
      {
        id: 'steroid',
        name: 'Long-term steroid tablets',
        about: 'injury',
        found: '7.5 mg a day for 14 months',
        why: 'bones thin',
        usual_action: 'Ask about bone density',
        who: 'general practitioner',
        ...cited('invented-guideline', 'common-practice'),
      },
      {
        id: 'worry',
        name: 'Worry about falling',
        about: 'fall',
        found: 'worries about falling',
        why: 'people move less and weaken',
        usual_action: 'Talk about it, build up by steps',
        who: 'physiotherapist',
        ...ownRule,
      },
    ],
    probability: {
      before: 0.3,
      after: 0.4142,
      low: 0.331,
      high: 0.502,
      used: ['invented_ratio'],
      parts: [
        {
          id: 'invented_rate',
          kind: 'before',
          text: 'one or more falls in a year',
          value: 0.3,
          low: 0.24,
          high: 0.36,
          ...cited('invented-guideline'),
        },
        {
          id: 'invented_ratio',
          kind: 'test',
          text: 'slow timed up and go: yes',
          value: 1.65,
          low: 1.4,
          high: 1.95,
          ...cited('invented-table-b', 'abstract'),
        },
      ],
      formula: 'odds 0.3/(1 - 0.3) x 1.65 = 0.707; probability 0.707/(1 + 0.707) = 0.414',
      not_used: [],
      warnings: [{ text: 'A guideline advises against such numbers.', ...cited('invented-guideline') }],
    },
  }),
  plan: [
    exercise({
      exercise: 'quadriceps_stretch',
      name: 'Standing quadriceps stretch',
      purpose: 'stretch',
      limited_by: [CAP],
      because: ['single-leg stance, left 3.4 s: under the mark of this step'],
      dose: '30 s on each side',
      cautions: ['A towel or band if the foot cannot be reached.', 'Breathe out on the effort, never hold the breath.'],
    }),
    exercise({ limited_by: [STEROID] }),
    exercise({
      exercise: 'heel_raise',
      name: 'Heel raise',
      because: ['not tested: starts with most support'],
      limited_by: [CAP],
    }),
    exercise({
      exercise: 'tandem_stance',
      name: 'Tandem stance',
      purpose: 'standing_balance',
      limited_by: [CAP],
      start: {
        level: 3,
        of: 7,
        name: 'Light touch on the bench',
        support: 'light_touch',
        base: 'one foot in front of the other',
        surface: 'firm',
        vision: 'eyes_open',
        task: 'ball passed from hand to hand',
      },
    }),
    exercise({ exercise: 'side_stepping', name: 'Side-stepping', purpose: 'moving_balance' }),
    exercise({
      exercise: 'ankle_circles',
      name: 'Ankle circles',
      purpose: 'warm_up',
      start: {
        level: 0,
        of: 4,
        name: 'Ankle circles on a chair',
        support: 'seated',
        base: 'seated',
        surface: 'chair',
        vision: 'eyes_open',
        task: null,
      },
    }),
  ],
});
