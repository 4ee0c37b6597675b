/**
 * Every key of a session file, as data. Adding an optional key is one line here: the reader, the suggestions for misspelt
 * keys, the JSON Schema and the CSV columns all follow from these tables. What a test may look like is in readings.ts.
 */

export const ANSWERS = ['yes', 'no', 'unknown'] as const;

/** What can stand at a key. */
export type Leaf =
  /** yes | no | unknown; true and false are read as yes and no. */
  | { readonly kind: 'answer' }
  | { readonly kind: 'choice'; readonly options: readonly string[] }
  /** A number; its limits are those of norms/fields.yaml for `group.key`. */
  | { readonly kind: 'number' }
  /** A number, or `several` (two or more). */
  | { readonly kind: 'falls' }
  /** `138/78`: becomes `<key>_systolic` and `<key>_diastolic`. */
  | { readonly kind: 'pressure' }
  /** An answer, or the day on which it happened (then yes, and the day becomes `<key>.date`). */
  | { readonly kind: 'event' }
  /** `88-92`, or the lower end alone: becomes `<key>_low` and `<key>_high`. */
  | { readonly kind: 'range' }
  /** An answer, or `{daily_mg, months}`. */
  | { readonly kind: 'steroid' }
  | { readonly kind: 'date' }
  | { readonly kind: 'text' }
  /** A text or a list of texts. */
  | { readonly kind: 'texts' }
  | { readonly kind: 'reference' }
  | { readonly kind: 'country' }
  | { readonly kind: 'format' }
  /** A number or a list of numbers. */
  | { readonly kind: 'numbers' };

export interface Key {
  readonly leaf: Leaf;
  readonly about: string;
  readonly required?: true;
}
export type Keys = Readonly<Record<string, Key>>;

const answer = (about: string): Key => ({ leaf: { kind: 'answer' }, about });
const number = (about: string): Key => ({ leaf: { kind: 'number' }, about });
const choice = (about: string, ...options: string[]): Key => ({ leaf: { kind: 'choice', options }, about });
const pressure = (about: string): Key => ({ leaf: { kind: 'pressure' }, about });
const event = (about: string): Key => ({ leaf: { kind: 'event' }, about });
const text = (about: string): Key => ({ leaf: { kind: 'text' }, about });

/** `several` falls are stored as this many: the word means two or more. */
export const SEVERAL_FALLS = 2;

export const ROOT_KEYS: Keys = {
  format: { leaf: { kind: 'format' }, about: 'Always 1', required: true },
  assessed: { leaf: { kind: 'date' }, about: 'Day of the visit', required: true },
  assessor: text('Who made the assessment'),
  consent_to_share: answer('Whether the client agrees that the report goes to others'),
  goals: { leaf: { kind: 'texts' }, about: "What the client wants to be able to do, in the client's words" },
};

/** A red flag that somebody has dealt with; several stand in a list. */
export const CLEARANCE_KEYS: Keys = {
  by: { ...text('Who cleared it'), required: true },
  date: { leaf: { kind: 'date' }, about: 'Day on which it was cleared', required: true },
  for: {
    leaf: { kind: 'texts' },
    about: 'What was cleared: the word that the report names with the red flag, or a list of them',
    required: true,
  },
};

/** The level of risk as the professional sets it. */
export const RISK_KEYS: Keys = {
  level: { ...text('Level of the pathway, such as low, intermediate or high'), required: true },
  reason: { ...text('Why the level is set so'), required: true },
};

export const CLIENT_KEYS: Keys = {
  ref: { leaf: { kind: 'reference' }, about: 'Your own reference for the client; not a name', required: true },
  sex: { ...choice('Sex as the published tables use it', 'female', 'male', 'not recorded'), required: true },
  age: number('Completed years on the day of the visit'),
  born: { leaf: { kind: 'date' }, about: 'Date of birth, in place of the age' },
  setting: choice('Where the client lives', 'community', 'residential_care', 'hospital'),
  height_cm: number('Height in centimetres'),
  weight_kg: number('Weight in kilograms'),
  country: { leaf: { kind: 'country' }, about: 'Country of residence, two capital letters' },
};

/** Groups of recorded findings; `history.fall_injury` is the field `fall_injury` of the group `history`. */
export const FIELD_GROUPS = {
  history: {
    falls_past_year: { leaf: { kind: 'falls' }, about: 'Falls in the past year: a number, or several (two or more)' },
    fall_injury: answer('A fall with an injury that needed a doctor or an emergency visit'),
    unable_to_rise: answer('Lay on the floor unable to get up after a fall'),
    loss_of_consciousness: answer('Blackout, faint or suspected syncope'),
    feels_unsteady: answer('Feels unsteady when standing or walking'),
    worries_about_falling: answer('Worries about falling'),
    dizzy_on_standing: answer('Dizzy or light-headed on standing up'),
    unexplained_fall: answer('A fall without a clear cause'),
    lives_alone: answer('Lives alone'),
    stay_independent: number('Points of the 12-question self-check'),
  },
  health: {
    lung_condition: choice('Long-term lung condition', 'none', 'copd', 'asthma', 'bronchiectasis', 'interstitial', 'other'),
    home_oxygen: answer('Oxygen prescribed at home'),
    oral_steroid: {
      leaf: { kind: 'steroid' },
      about: 'Steroid tablets: yes, no, unknown or {daily_mg, months}, prednisolone equivalent',
    },
    osteoporosis: answer('Known osteoporosis'),
    vertebral_fracture: answer('Known vertebral fracture'),
    clinical_frailty_scale: number('Clinical frailty scale'),
    walking_aid: choice('Aid used for walking', 'none', 'stick', 'frame', 'other'),
    cognitive_impairment: answer('Known problem of memory or thinking'),
    steroid_courses_past_year: number('Courses of steroid tablets in the past year'),
    recent_exacerbation: event('Recent flare-up of the lung condition: an answer, or its day'),
    recent_surgery: event('Recent operation: an answer, or its day'),
    new_back_pain: answer('New back pain'),
    height_loss: answer('Has lost height'),
    frailty_phenotype: number('Criteria of the frailty phenotype met, of five'),
    vestibular_disease: answer('Known disease of the balance organ'),
    parkinson_disease: answer('Known Parkinson disease'),
    poor_vision: answer('Poor vision, or eyes not checked for long'),
    foot_problems: answer('Painful feet or lost feeling in the feet'),
    unsuitable_footwear: answer('Shoes that slip, or slippers'),
    alcohol_concern: answer('Concern about alcohol'),
    urgency_or_incontinence: answer('Hurries to the toilet, or incontinence'),
    home_hazards: answer('Hazards at home'),
  },
  vitals: {
    spo2_rest: number('Oxygen saturation at rest, %'),
    spo2_lowest: number('Lowest oxygen saturation during or after effort, %'),
    spo2_on: choice('What the client breathed when saturation was measured', 'air', 'oxygen'),
    oxygen_flow: number('Oxygen flow when saturation was measured, litres a minute'),
    spo2_usual: number("The client's usual oxygen saturation at rest, %"),
    spo2_target: { leaf: { kind: 'range' }, about: 'Target saturation set for this client, %: 88-92, or the lower end alone' },
    heart_rate_rest: number('Heart rate at rest, a minute'),
    bp_lying: pressure('Blood pressure lying, mmHg'),
    bp_sitting: pressure('Blood pressure sitting, mmHg, where the client could not lie'),
    bp_standing: pressure('Blood pressure standing, mmHg'),
    bp_standing_1min: pressure('Blood pressure after 1 minute of standing, mmHg'),
    bp_standing_3min: pressure('Blood pressure after 3 minutes of standing, mmHg'),
    standing_symptoms: answer('Dizzy, faint or blurred sight in the standing measurement'),
  },
  redflags: {
    chest_pain: answer('Chest pain at rest or on effort, new'),
    new_stroke_signs: answer('New weakness, numbness, drooping face or trouble speaking'),
    head_injury_on_blood_thinner: answer('Head injury while taking a blood thinner'),
    severe_breathlessness_at_rest: answer('Severe breathlessness at rest'),
    collapse_in_session: answer('Collapse or faint in the session'),
    new_confusion: answer('New confusion'),
    suspected_fracture: answer('Suspected fracture'),
    acute_heart_or_lung_condition: answer('Acute heart or lung condition'),
  },
  medicines: {
    count: number('Number of regular medicines'),
    sedating: answer('Takes a sedating medicine'),
    blood_thinner: answer('Takes a blood thinner'),
  },
  since_last: {
    falls: { leaf: { kind: 'falls' }, about: 'Falls since the last visit: a number, or several (two or more)' },
    injury: answer('A fall since the last visit with an injury that needed a doctor or an emergency visit'),
    exacerbation: answer('A flare-up of the lung condition since the last visit'),
    adverse_events: number('Unwanted events in exercise since the last visit'),
    sessions_done: number('Exercise sessions done since the last visit'),
  },
} as const satisfies Readonly<Record<string, Keys>>;

export const STEROID_KEYS: Keys = {
  daily_mg: number('Daily dose in mg, prednisolone equivalent'),
  months: number('Months taken'),
};

/** Keys of a result that was measured. */
export const MEASURED_KEYS: Keys = {
  value: number('The result'),
  trials: { leaf: { kind: 'numbers' }, about: 'The results of all trials, in order' },
  ceiling: number('Where the watch was stopped'),
  aid: { leaf: { kind: 'text' }, about: 'Walking aid used in the test' },
  chair_cm: number('Height of the seat of the chair, in centimetres'),
  note: { leaf: { kind: 'text' }, about: 'What was seen' },
};

/** Further keys of a measured result where the test is a walk over a course. */
export const COURSE_KEYS: Keys = {
  time: { leaf: { kind: 'numbers' }, about: 'Time over the course in seconds, in place of a speed' },
  distance: number('Timed distance in metres'),
  start: choice('How the timed part began', 'standing', 'moving'),
};

/** The ways not to have a result; each holds the reason. */
export const OUTCOME_KEYS: Keys = {
  unable: { leaf: { kind: 'text' }, about: 'Tried or judged impossible: the worst result' },
  declined: { leaf: { kind: 'text' }, about: 'Not tested because the client did not want to' },
  unsafe: { leaf: { kind: 'text' }, about: 'Not tested because of a danger' },
  why: choice('With unsafe: what the danger was', 'balance', 'medical', 'other'),
  note: { leaf: { kind: 'text' }, about: 'What was seen' },
};

/** Fields worked out from recorded ones (`facts.ts` does it); conditions in norms/ may name them like any other. */
export const DERIVED_FIELDS = [
  'client.age',
  'client.sex',
  'client.setting',
  'vitals.bp_standing_lowest_systolic',
  'vitals.bp_standing_lowest_diastolic',
  'vitals.systolic_drop',
  'vitals.diastolic_drop',
  'vitals.sitting_systolic_drop',
  'vitals.sitting_diastolic_drop',
  'vitals.spo2_within_target',
  'vitals.spo2_fall',
] as const;

/** What the risk room found, for caps and cautions only; `risk.open.<red flag>` says whether that flag is still open. */
export const RISK_FIELDS = [
  'risk.level',
  'risk.at_least',
  'risk.at_most',
  'risk.gait_impaired',
  'risk.frail',
  'risk.red_flag',
] as const;

/** The fields that one key becomes. */
function fieldsOfKey(field: string, leaf: Leaf): string[] {
  switch (leaf.kind) {
    case 'pressure':
      return [`${field}_systolic`, `${field}_diastolic`];
    case 'range':
      return [`${field}_low`, `${field}_high`];
    case 'event':
      return [field, `${field}.date`];
    case 'steroid':
      return [field, ...Object.keys(STEROID_KEYS).map((part) => `${field}.${part}`)];
    default:
      return [field];
  }
}

/** Every field that a visit can hold. */
export const SESSION_FIELDS: readonly string[] = Object.entries(FIELD_GROUPS).flatMap(([group, keys]: [string, Keys]) =>
  Object.entries(keys).flatMap(([key, { leaf }]) => fieldsOfKey(`${group}.${key}`, leaf)),
);
