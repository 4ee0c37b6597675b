/**
 * The questions of a visit in their order, as data that depends on the answers so far: an injury is asked for only after a
 * fall, a result only for a test that was done. What a key means comes from the same tables as the reader of files.
 */
import { CLIENT_KEYS, FIELD_GROUPS, type Key, type Leaf, ROOT_KEYS } from '../../session-keys.ts';
import type { Catalogue } from '../build.ts';
import { chooseTests } from './choose-tests.ts';
import { type Answers, keyOf, type Question } from './question.ts';
import { testQuestions } from './test-questions.ts';

const SECTIONS: Readonly<Record<string, string>> = {
  history: 'History',
  health: 'Health',
  vitals: 'Vitals',
  redflags: 'Red flags',
  medicines: 'Medicines',
  since_last: 'Since the last visit',
};

/** Asked at every visit; `--all` asks for the rest too. */
const ESSENTIAL: Readonly<Record<string, readonly string[]>> = {
  redflags: ['chest_pain', 'new_stroke_signs', 'head_injury_on_blood_thinner', 'severe_breathlessness_at_rest'],
  history: [
    'falls_past_year',
    'fall_injury',
    'unable_to_rise',
    'loss_of_consciousness',
    'feels_unsteady',
    'worries_about_falling',
    'dizzy_on_standing',
  ],
  health: [
    'lung_condition',
    'home_oxygen',
    'oral_steroid',
    'osteoporosis',
    'vertebral_fracture',
    'clinical_frailty_scale',
    'walking_aid',
  ],
  vitals: ['spo2_rest', 'spo2_lowest', 'heart_rate_rest', 'bp_lying', 'bp_standing'],
};

/** Where the meaning of a key is too long for a line. */
const ASKED: Readonly<Record<string, string>> = {
  'history.falls_past_year': 'Falls in the past year',
  'health.oral_steroid': 'Steroid tablets (prednisolone equivalent)',
};

/** Only after a fall. */
const OF_A_FALL = new Set(['history.fall_injury', 'history.unable_to_rise', 'history.unexplained_fall']);

function hintOf(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'answer':
      return 'y, n or u (unknown)';
    case 'choice':
      return `${leaf.options.join(', ')}; the first letters are enough`;
    case 'falls':
      return 'a number such as 0, or s (several: two or more)';
    case 'steroid':
      return 'n, u, or daily dose in mg and months: 7.5 14';
    case 'pressure':
      return 'systolic/diastolic, such as 138/78';
    case 'date':
      return 'year-month-day; t is today';
    case 'event':
      return 'y, n, u or the day, such as 2026-05-11';
    case 'range':
      return 'such as 88-92';
    default:
      return '';
  }
}

function fieldQuestion(group: string, name: string, key: Key, catalogue: Catalogue): Question {
  const limits = catalogue.fields.find(({ field }) => field === `${group}.${name}`);
  const unit = limits === undefined || limits.unit_text === '' ? '' : `in ${limits.unit_text}`;
  return {
    id: `${group}.${name}`,
    section: SECTIONS[group] ?? group,
    ask: ASKED[`${group}.${name}`] ?? key.about,
    hint: hintOf(key.leaf) || unit,
    form: { kind: 'leaf', leaf: key.leaf },
    path: [group, name],
    required: false,
  };
}

const CLIENT: readonly Question[] = [
  {
    id: 'client.ref',
    ask: 'Your own reference for the client; not a name',
    hint: 'such as M-207',
    leaf: keyOf(CLIENT_KEYS, 'ref').leaf,
    required: true,
  },
  {
    id: 'client.sex',
    ask: 'Sex, as the published tables use it',
    hint: 'f, m or n (not recorded)',
    leaf: keyOf(CLIENT_KEYS, 'sex').leaf,
    required: true,
  },
  { id: 'client.age', ask: 'Age in completed years, or date of birth', hint: '74, or 1952-03-08', required: true },
  {
    id: 'assessed',
    ask: 'Day of the visit',
    hint: 'year-month-day',
    leaf: keyOf(ROOT_KEYS, 'assessed').leaf,
    required: true,
    usual: 'today',
  },
  {
    id: 'client.setting',
    ask: 'Where the client lives',
    hint: 'c (community), r (residential care), h (hospital)',
    leaf: keyOf(CLIENT_KEYS, 'setting').leaf,
    required: false,
    usual: 'community',
  },
].map(
  ({ leaf, ...rest }): Question => ({
    ...rest,
    section: 'Client',
    form: leaf === undefined ? { kind: 'age' } : { kind: 'leaf', leaf },
    path: rest.id.split('.'),
  }),
);

/** What needs a doctor is asked before anything is tested; then the groups as the file has them. */
const GROUPS = Object.entries(FIELD_GROUPS).sort(([a], [b]) => Number(b === 'redflags') - Number(a === 'redflags'));

function fieldQuestions(answers: Answers, catalogue: Catalogue, all: boolean): Question[] {
  return GROUPS.flatMap(([group, keys]) => {
    const essential = ESSENTIAL[group] ?? [];
    // The essential ones first, in the order of a visit.
    const names = [...essential, ...(all ? Object.keys(keys).filter((name) => !essential.includes(name)) : [])];
    return names
      .map((name) => fieldQuestion(group, name, keyOf(keys, name), catalogue))
      .filter(({ id }) => !OF_A_FALL.has(id) || answers['history.falls_past_year'] !== '0');
  });
}

export type { Answers, Question } from './question.ts';

/** Every question that the answers so far call for, in order. `all` asks also for what is recorded less often. */
export function questionsFor(answers: Answers, catalogue: Catalogue, all: boolean): Question[] {
  const chosen = chooseTests(answers.tests ?? '', catalogue.tests);
  return [
    ...CLIENT,
    ...fieldQuestions(answers, catalogue, all),
    {
      id: 'tests',
      section: 'Tests',
      ask: 'Tests that were done',
      hint: 'short names apart by blanks, such as tug 5sts sls tandem; ? lists them',
      form: { kind: 'tests' },
      path: ['tests'],
      required: false,
    },
    ...('tests' in chosen ? chosen.tests.flatMap((test) => testQuestions(test, answers)) : []),
  ];
}
