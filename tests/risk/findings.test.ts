import { describe, expect, test } from 'vitest';
import { factorsOf, notAsked, redFlagsOf } from '../../src/risk/findings.ts';
import { type FieldInputs, factors, facts, redFlags, type TestInputs } from './support.ts';

/** What raises a flag, what is recorded and does not. */
const FLAGS: Readonly<Record<string, readonly [raised: FieldInputs, notRaised: FieldInputs]>> = {
  chest_pain: [{ 'redflags.chest_pain': 'yes' }, { 'redflags.chest_pain': 'no' }],
  new_stroke_signs: [{ 'redflags.new_stroke_signs': 'yes' }, { 'redflags.new_stroke_signs': 'no' }],
  head_injury_on_blood_thinner: [
    { 'redflags.head_injury_on_blood_thinner': 'yes' },
    { 'redflags.head_injury_on_blood_thinner': 'no' },
  ],
  severe_breathlessness_at_rest: [
    { 'redflags.severe_breathlessness_at_rest': 'yes' },
    { 'redflags.severe_breathlessness_at_rest': 'no' },
  ],
  blackout: [{ 'history.loss_of_consciousness': 'yes' }, { 'history.loss_of_consciousness': 'no' }],
  collapse_in_session: [{ 'redflags.collapse_in_session': 'yes' }, { 'redflags.collapse_in_session': 'no' }],
  new_confusion: [{ 'redflags.new_confusion': 'yes' }, { 'redflags.new_confusion': 'no' }],
  suspected_fracture: [{ 'redflags.suspected_fracture': 'yes' }, { 'redflags.suspected_fracture': 'no' }],
  acute_heart_or_lung_condition: [
    { 'redflags.acute_heart_or_lung_condition': 'yes' },
    { 'redflags.acute_heart_or_lung_condition': 'no' },
  ],
  standing_pressure_low: [{ 'vitals.bp_standing_lowest_systolic': 89 }, { 'vitals.bp_standing_lowest_systolic': 90 }],
  saturation_very_low: [{ 'vitals.spo2_rest': 85 }, { 'vitals.spo2_rest': 86 }],
  saturation_low: [{ 'vitals.spo2_rest': 90 }, { 'vitals.spo2_rest': 91 }],
  saturation_below_target: [
    { 'vitals.spo2_rest': 91, 'vitals.spo2_within_target': 'no' },
    { 'vitals.spo2_rest': 91, 'vitals.spo2_within_target': 'yes' },
  ],
  saturation_low_on_effort: [{ 'vitals.spo2_lowest': 79 }, { 'vitals.spo2_lowest': 80 }],
  pressure_drop_with_dizziness: [
    { 'vitals.systolic_drop': 20, 'vitals.diastolic_drop': 4, 'history.dizzy_on_standing': 'yes' },
    { 'vitals.systolic_drop': 19, 'vitals.diastolic_drop': 9, 'history.dizzy_on_standing': 'yes' },
  ],
  dizzy_on_standing: [
    { 'vitals.systolic_drop': 19, 'vitals.diastolic_drop': 9, 'history.dizzy_on_standing': 'yes' },
    { 'vitals.systolic_drop': 20, 'vitals.diastolic_drop': 9, 'history.dizzy_on_standing': 'yes' },
  ],
  unexplained_fall: [{ 'history.unexplained_fall': 'yes' }, { 'history.unexplained_fall': 'no' }],
  new_back_pain_or_height_loss: [{ 'health.new_back_pain': 'yes' }, { 'health.new_back_pain': 'no', 'health.height_loss': 'no' }],
  recent_surgery: [{ 'health.recent_surgery': 'yes' }, { 'health.recent_surgery': 'no' }],
  resting_pressure_high: [
    { 'vitals.bp_lying_systolic': 150, 'vitals.bp_lying_diastolic': 101 },
    { 'vitals.bp_lying_systolic': 180, 'vitals.bp_lying_diastolic': 100 },
  ],
  resting_heart_rate: [{ 'vitals.heart_rate_rest': 49 }, { 'vitals.heart_rate_rest': 120 }],
};

const flagIds = (fields: FieldInputs): string[] => redFlagsOf(redFlags, facts(fields), {}).map((flag) => flag.id);

describe('red flags', () => {
  test('every flag of the data has a case here', () => {
    expect(Object.keys(FLAGS).sort()).toEqual(redFlags.map((flag) => flag.id).sort());
  });
  test.each(redFlags.map((flag) => [flag.id, flag] as const))('%s: raised, not raised, missing', (id, flag) => {
    const [raised, notRaised] = FLAGS[id] ?? [{}, {}];
    expect(flagIds(raised)).toContain(id);
    expect(flagIds(notRaised)).not.toContain(id);
    expect(flagIds({})).not.toContain(id);
    expect(notAsked(redFlags, facts({}))).toContain(flag.ask);
  });
  test('most urgent first', () => {
    const found = redFlagsOf(
      redFlags,
      facts({ 'health.recent_surgery': 'yes', 'redflags.chest_pain': 'yes', 'history.loss_of_consciousness': 'yes' }),
      {},
    );
    expect(found.map((flag) => flag.tier)).toEqual(['emergency', 'same_day', 'clear_first']);
  });
  test('answered with no is not listed as not asked; answered with unknown is', () => {
    expect(notAsked(redFlags, facts({ 'redflags.chest_pain': 'no' }))).not.toContain('chest pain today');
    expect(notAsked(redFlags, facts({ 'redflags.chest_pain': 'unknown' }))).toContain('chest pain today');
  });
  test('the number found stands in the text, and nothing is left to fill', () => {
    const [flag] = redFlagsOf(redFlags, facts({ 'vitals.spo2_rest': 84 }), {});
    expect(flag?.finding).toContain('Oxygen saturation 84 % at rest, 85 % or less');
    expect(flag?.source).toBe('holland-2014-contraindications');
    expect(flag?.spread).toContain('91 %');
    for (const [raised] of Object.values(FLAGS))
      expect(JSON.stringify(redFlagsOf(redFlags, facts(raised), {}))).not.toMatch(/\{[a-z_.]+\}/);
  });
});

describe('saturation', () => {
  test('85 or less holds whatever the oxygen', () => {
    expect(flagIds({ 'vitals.spo2_rest': 85, 'health.home_oxygen': 'yes' })).toContain('saturation_very_low');
  });
  test('a recorded target that covers it lifts the hold; one that does not leaves it', () => {
    expect(flagIds({ 'vitals.spo2_rest': 85, 'vitals.spo2_within_target': 'yes' })).toEqual([]);
    expect(flagIds({ 'vitals.spo2_rest': 85, 'vitals.spo2_within_target': 'no' })).toEqual(['saturation_very_low']);
    expect(flagIds({ 'vitals.spo2_rest': 88, 'vitals.spo2_within_target': 'yes' })).toEqual([]);
  });
});

describe('blood pressure on standing', () => {
  const dropped: FieldInputs = {
    'vitals.bp_lying_systolic': 140,
    'vitals.bp_lying_diastolic': 80,
    'vitals.bp_standing_systolic': 118,
    'vitals.bp_standing_diastolic': 74,
    'vitals.systolic_drop': 22,
    'vitals.diastolic_drop': 6,
  };
  test('a drop without symptoms is a factor, not a flag', () => {
    expect(flagIds({ ...dropped, 'history.dizzy_on_standing': 'no' })).toEqual([]);
    expect(factorIds({ ...dropped, 'history.dizzy_on_standing': 'no' })).toEqual(['orthostatic_drop']);
  });
  test('a drop with dizziness is one flag', () => {
    expect(flagIds({ ...dropped, 'history.dizzy_on_standing': 'yes' })).toEqual(['pressure_drop_with_dizziness']);
  });
  test('a drop without an answer about dizziness: the question is listed', () => {
    expect(notAsked(redFlags, facts(dropped))).toContain('dizziness together with a fall in blood pressure on standing');
  });
  test('dizziness flags by itself, and one reading does not rule a drop out', () => {
    const [flag] = redFlagsOf(redFlags, facts({ 'history.dizzy_on_standing': 'yes' }), {});
    expect(flag?.id).toBe('dizzy_on_standing');
    expect(flag?.because).toContain('20/10 is not reached does not rule a drop out');
  });
});

type Found = readonly [FieldInputs, TestInputs?];
const FACTORS: Readonly<Record<string, readonly [raised: Found, notRaised: Found]>> = {
  orthostatic_drop: [
    [{ 'vitals.systolic_drop': 4, 'vitals.diastolic_drop': 10 }],
    [{ 'vitals.systolic_drop': 19, 'vitals.diastolic_drop': 9 }],
  ],
  orthostatic_drop_from_sitting: [
    [{ 'vitals.sitting_systolic_drop': 15, 'vitals.sitting_diastolic_drop': 2 }],
    [{ 'vitals.sitting_systolic_drop': 14, 'vitals.sitting_diastolic_drop': 6 }],
  ],
  slow_gait: [
    [{}, { gait_speed_usual: 0.8 }],
    [{}, { gait_speed_usual: 0.81 }],
  ],
  slow_timed_up_and_go: [
    [{}, { timed_up_and_go: 12 }],
    [{}, { timed_up_and_go: 11.9 }],
  ],
  weak_chair_stands: [
    [{}, { thirty_second_chair_stand: { worst: 6, flagged: true } }],
    [{}, { thirty_second_chair_stand: { worst: 16, flagged: false } }],
  ],
  slow_chair_stands: [
    [{}, { five_times_sit_to_stand: 15.1 }],
    [{}, { five_times_sit_to_stand: 15 }],
  ],
  low_grip: [
    [{ 'client.sex': 'male' }, { grip_strength: 26 }],
    [{ 'client.sex': 'female' }, { grip_strength: 16 }],
  ],
  low_balance_confidence: [
    [{}, { balance_confidence: 66 }],
    [{}, { balance_confidence: 67 }],
  ],
  high_concern: [
    [{}, { falls_efficacy_short: 14 }],
    [{}, { falls_efficacy_short: 13 }],
  ],
  short_single_leg_stance: [
    [{}, { single_leg_stance_eyes_open: 'unable' }],
    [{}, { single_leg_stance_eyes_open: 5 }],
  ],
  short_tandem_stance: [
    [{}, { tandem_stance: 9.9 }],
    [{}, { tandem_stance: { worst: 10, atLeast: true } }],
  ],
  walking_aid: [[{ 'health.walking_aid': 'stick' }], [{ 'health.walking_aid': 'none' }]],
  chronic_lung_disease: [[{ 'health.lung_condition': 'copd' }], [{ 'health.lung_condition': 'none' }]],
  home_oxygen: [[{ 'health.home_oxygen': 'yes' }], [{ 'health.home_oxygen': 'no' }]],
  low_saturation_at_rest: [[{ 'vitals.spo2_rest': 90 }], [{ 'vitals.spo2_rest': 91 }]],
  desaturation_on_effort: [[{ 'vitals.spo2_lowest': 88 }], [{ 'vitals.spo2_lowest': 93, 'vitals.spo2_fall': 3 }]],
  several_medicines: [[{ 'medicines.count': 4 }], [{ 'medicines.count': 3 }]],
  sedating_medicines: [[{ 'medicines.sedating': 'yes' }], [{ 'medicines.sedating': 'no' }]],
  vision: [[{ 'health.poor_vision': 'yes' }], [{ 'health.poor_vision': 'no' }]],
  feet_and_footwear: [
    [{ 'health.foot_problems': 'yes' }],
    [{ 'health.foot_problems': 'no', 'health.unsuitable_footwear': 'no' }],
  ],
  alcohol: [[{ 'health.alcohol_concern': 'yes' }], [{ 'health.alcohol_concern': 'no' }]],
  cognition: [[{ 'health.cognitive_impairment': 'yes' }], [{ 'health.cognitive_impairment': 'no' }]],
  continence: [[{ 'health.urgency_or_incontinence': 'yes' }], [{ 'health.urgency_or_incontinence': 'no' }]],
  vertigo: [[{ 'health.vestibular_disease': 'yes' }], [{ 'health.vestibular_disease': 'no' }]],
  parkinson: [[{ 'health.parkinson_disease': 'yes' }], [{ 'health.parkinson_disease': 'no' }]],
  lives_alone: [[{ 'history.lives_alone': 'yes' }], [{ 'history.lives_alone': 'no' }]],
  home_hazards: [[{ 'health.home_hazards': 'yes' }], [{ 'health.home_hazards': 'no' }]],
  long_term_steroid: [
    [{ 'health.oral_steroid': 'yes', 'health.oral_steroid.daily_mg': 2.5, 'health.oral_steroid.months': 4 }],
    [{ 'health.oral_steroid': 'yes', 'health.oral_steroid.daily_mg': 2.5, 'health.oral_steroid.months': 3 }],
  ],
  higher_steroid_dose: [
    [{ 'health.oral_steroid': 'yes', 'health.oral_steroid.daily_mg': 7.5 }],
    [{ 'health.oral_steroid': 'no' }],
  ],
  steroid_courses: [[{ 'health.steroid_courses_past_year': 2 }], [{ 'health.steroid_courses_past_year': 0 }]],
  osteoporosis: [[{ 'health.osteoporosis': 'yes' }], [{ 'health.osteoporosis': 'no' }]],
  vertebral_fracture: [[{ 'health.vertebral_fracture': 'yes' }], [{ 'health.vertebral_fracture': 'no' }]],
  blood_thinner: [[{ 'medicines.blood_thinner': 'yes' }], [{ 'medicines.blood_thinner': 'no' }]],
  long_lie: [[{ 'history.unable_to_rise': 'yes' }], [{ 'history.unable_to_rise': 'no' }]],
};

const factorIds = (fields: FieldInputs, tests: TestInputs = {}): string[] =>
  factorsOf(factors, facts(fields, tests), {}).map((factor) => factor.id);

describe('factors', () => {
  test('every factor of the data has a case here', () => {
    expect(Object.keys(FACTORS).sort()).toEqual(factors.map((factor) => factor.id).sort());
  });
  test.each(Object.entries(FACTORS))('%s: found, not found, missing', (id, [raised, notRaised]) => {
    expect(factorIds(...raised)).toContain(id);
    expect(factorIds(...notRaised)).not.toContain(id);
    expect(factorIds({})).toEqual([]);
    expect(JSON.stringify(factorsOf(factors, facts(...raised), {}))).not.toMatch(/\{[a-z_.]+\}/);
  });
  test('what is found is said with its number and unit', () => {
    const labels = { test: () => ({ name: 'Usual walking speed', unit: 'm/s' }) };
    const said = (tests: TestInputs) => factorsOf(factors, facts({}, tests), labels).map((factor) => factor.found);
    expect(said({ gait_speed_usual: 0.7 })).toEqual(['Usual walking speed 0.7 m/s']);
    expect(said({ gait_speed_usual: 'unable' })).toEqual(['Usual walking speed could not be done']);
  });
  test('what a fall would do is kept apart from how likely one is', () => {
    const found = factorsOf(factors, facts({ 'health.osteoporosis': 'yes', 'history.lives_alone': 'yes' }), {});
    expect(found.map((factor) => factor.about)).toEqual(['fall', 'injury']);
  });
});
