/** Building blocks of hand-made assessments. Every number and every source here is invented: they test wording and layout only. */
import type {
  Assessment,
  Based,
  Comparison,
  CutPointResult,
  MeasurementErrorResult,
  PlannedExercise,
  RiskResult,
  StepResult,
  TestResult,
} from '../../src/assessment.ts';

export const ownRule: Based = { source: null, basis: 'own-rule', location: 'Written for review by a professional.' };
export const practice: Based = { source: null, basis: 'common-practice', location: 'The usual dose of the trade.' };
export const cited = (source: string, basis: Based['basis'] = 'full-text'): Based => ({ source, basis, location: 'Table 1' });

export const comparison = (given: Partial<Comparison>): Comparison => ({
  source: 'invented-table-a',
  part: 'by_age',
  location: 'Table 2',
  status: 'full-text',
  primary: true,
  band: { sex: 'female', age_min: 70, age_max: 74 },
  population: 'people living at home in an invented country',
  value: 12.8,
  trials_rule: 'mean',
  method: 'percentile_points',
  percentile: 18.3,
  percentile_bound: 'exact',
  approximate: false,
  z: -0.9,
  standing: 'below',
  against_mean: null,
  expected: 10.4,
  mismatches: [],
  notes: [],
  no_standing_because: null,
  working: {
    row: 'invented-table-a, Table 2, women 70-74',
    formula: '10 % at 14.1 s, 25 % at 12 s; between them z is linear in the value',
  },
  ...given,
});

export const cutPoint = (given: Partial<CutPointResult>): CutPointResult => ({
  id: 'invented_cut',
  source: 'invented-guideline',
  location: 'page 2',
  status: 'full-text',
  rule: '12 s or more',
  met: false,
  near: false,
  sensitivity: null,
  specificity: null,
  outcome: 'falls in the following year',
  counts: true,
  below_average: false,
  population: 'older people living at home',
  note: null,
  ...given,
});

export const error = (given: Partial<MeasurementErrorResult>): MeasurementErrorResult => ({
  id: 'invented_error',
  source: 'invented-error',
  location: 'Abstract',
  status: 'abstract',
  population: '60 invented volunteers',
  interval: 'one to four months',
  sem: 0.75,
  mdc95: 2.08,
  low: 11.3,
  high: 14.3,
  note: null,
  ...given,
});

export const result = (given: Partial<TestResult>): TestResult => ({
  test: 'timed_up_and_go',
  name: 'Timed up and go',
  side: null,
  outcome: 'measured',
  value: 12.8,
  unit: 's',
  trials: [12.8],
  at_least: false,
  category: null,
  comparisons: [],
  no_comparison_because: null,
  cut_points: [],
  measurement_error: null,
  notes: [],
  reason: null,
  why: null,
  derived_from: [],
  ...given,
});

export const step = (given: Partial<StepResult>): StepResult => ({
  id: 'key_questions',
  question: 'Any yes to the three key questions - fell in the past year, feels unsteady, worries about falling?',
  answer: 'yes',
  because: 'fell once in the past year; feels unsteady when standing or walking',
  reached: 'yes',
  ...cited('invented-guideline'),
  ...given,
});

export const risk = (given: Partial<RiskResult>): RiskResult => ({
  pathway: 'invented_pathway',
  name: 'Invented guideline 2022',
  level: 'low',
  label: 'Low risk',
  at_least: 'low',
  at_most: 'low',
  steps: [],
  missing: [],
  caveats: [],
  actions: [],
  follow_up: null,
  red_flags: [],
  not_asked: [],
  other_pathways: [],
  factors: [],
  probability: null,
  ...given,
});

export const exercise = (given: Partial<PlannedExercise>): PlannedExercise => ({
  exercise: 'squat',
  name: 'Squat',
  purpose: 'strength',
  start: {
    level: 2,
    of: 6,
    name: 'One hand on the bench',
    support: 'one_hand_firm',
    base: 'feet hip-wide',
    surface: 'firm',
    vision: 'eyes_open',
    task: null,
  },
  because: ['five times sit to stand 15.8 s: slower than the mark of this step'],
  limited_by: [],
  held: false,
  dose: '10 to 12 repetitions, two sets',
  move_up: 'When two sets of 12 are steady and breath comes easily on two visits.',
  move_down: 'When a hand is grasped for or the knees drift in.',
  cautions: ['Breathe out on the effort, never hold the breath.'],
  supervision: 'someone_nearby',
  basis: [ownRule, practice],
  ...given,
});

export const assessment = (given: Partial<Assessment>): Assessment => ({
  format: 1,
  tool: { name: 'footing', version: '0.0.0' },
  evidence: { version: '0.0.0', digest: '0123456789abcdef0123456789abcdef', folders: [] },
  client: { ref: 'T-1', sex: 'female', age: 74, setting: 'community', setting_assumed: false, lung_condition: 'none' },
  assessed: '2026-05-11',
  tests: [],
  risk: risk({}),
  plan: [],
  cautions: [
    { text: 'Decision support for a registered professional; local protocols and licensed practice come first.', ...ownRule },
    { text: 'A fixed bench, rail or sturdy chair stays within reach throughout.', ...practice },
  ],
  stop_signs: [
    { text: 'chest pain or tightness', ...cited('invented-guideline', 'secondary') },
    { text: 'dizziness or feeling faint', ...practice },
  ],
  notes: [],
  sources: {
    'invented-guideline': {
      citation: 'Invented guideline body. How to test a report. 2022.',
      doi: '10.1000/invented.1',
      location: 'Table 1',
      status: 'full-text',
    },
    'invented-table-a': {
      citation: 'Made-up A, Nobody B. A table that does not exist. Journal of Examples. 2008;1:1-2.',
      doi: null,
      location: 'Table 2',
      status: 'full-text',
    },
    'invented-table-b': {
      citation: 'Made-up C. Another table that does not exist. Journal of Examples. 2012;4:5-9.',
      doi: '10.1000/invented.2',
      location: 'Abstract',
      status: 'abstract',
    },
    'invented-survey': { citation: 'Public survey that never was, 1999.', doi: null, location: 'microdata', status: 'computed' },
    'invented-recalled': {
      citation: 'Remembered D. A table nobody opened. 2007.',
      doi: null,
      location: 'Table 4',
      status: 'memory',
    },
    'invented-error': {
      citation: 'Made-up E. How much a stopwatch wavers. 2019.',
      doi: '10.1000/invented.3',
      location: 'Abstract',
      status: 'abstract',
    },
    'invented-uncited': { citation: 'Never F. Named by no line. 2001.', doi: null, location: 'page 1', status: 'secondary' },
  },
  ...given,
});
