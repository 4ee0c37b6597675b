import { describe, expect, test } from 'vitest';
import { place, placement } from '../../src/risk/place.ts';
import { cdcLevel, type Screen, worldLevel } from './oracles.ts';
import { cdc, combinations, type FieldInputs, facts, type TestInputs, worldGuidelines } from './support.ts';

const BOTH = [false, true];
const answer = (value: boolean): string => (value ? 'yes' : 'no');

interface Instrument<Value> {
  readonly given: Value;
  readonly impaired: boolean;
}
const FRAILTY: readonly Instrument<FieldInputs>[] = [
  { given: { 'health.clinical_frailty_scale': 4 }, impaired: false },
  { given: { 'health.clinical_frailty_scale': 5 }, impaired: true },
  { given: { 'health.frailty_phenotype': 2 }, impaired: false },
  { given: { 'health.frailty_phenotype': 3 }, impaired: true },
  { given: { 'health.clinical_frailty_scale': 3, 'health.frailty_phenotype': 4 }, impaired: true },
];
const GAIT: readonly Instrument<TestInputs>[] = [
  { given: { gait_speed_usual: 0.81 }, impaired: false },
  { given: { gait_speed_usual: 0.8 }, impaired: true },
  { given: { gait_speed_usual: 'unable' }, impaired: true },
  { given: { timed_up_and_go: 15 }, impaired: false },
  { given: { timed_up_and_go: 15.1 }, impaired: true },
  { given: { timed_up_and_go: 'unable' }, impaired: true },
  { given: { timed_up_and_go: 9, gait_speed_usual: 0.7 }, impaired: true },
  { given: { timed_up_and_go: 16, gait_speed_usual: 1.1 }, impaired: true },
  { given: { timed_up_and_go: 9, gait_speed_usual: 1.1 }, impaired: false },
  { given: { timed_up_and_go: 'unsafe_medical', gait_speed_usual: 1.1 }, impaired: false },
];

interface Complete {
  setting: 'community' | 'residential_care' | 'hospital';
  falls: number;
  unsteady: boolean;
  worried: boolean;
  injury: boolean;
  longLie: boolean;
  blackout: boolean;
  frailty: Instrument<FieldInputs>;
  gait: Instrument<TestInputs>;
}
const COMPLETE = combinations<Complete>({
  setting: ['community', 'residential_care', 'hospital'],
  falls: [0, 1, 2, 7],
  unsteady: BOTH,
  worried: BOTH,
  injury: BOTH,
  longLie: BOTH,
  blackout: BOTH,
  frailty: FRAILTY,
  gait: GAIT,
  // no falls but an injury from one is refused when the file is read
}).filter((row) => row.falls > 0 || !(row.injury || row.longLie));

test('world guidelines: every complete record comes out as the guideline says', () => {
  expect(COMPLETE).toHaveLength(15_600);
  const wrong = COMPLETE.flatMap((row) => {
    const fields = {
      'client.setting': row.setting,
      'history.falls_past_year': row.falls,
      'history.feels_unsteady': answer(row.unsteady),
      'history.worries_about_falling': answer(row.worried),
      'history.fall_injury': answer(row.injury),
      'history.unable_to_rise': answer(row.longLie),
      'history.loss_of_consciousness': answer(row.blackout),
      ...row.frailty.given,
    };
    const expected = worldLevel({ ...row, frail: row.frailty.impaired, gaitImpaired: row.gait.impaired });
    const { level } = placement(worldGuidelines, facts(fields, row.gait.given));
    return level === expected ? [] : [{ row, level, expected }];
  });
  expect(wrong).toEqual([]);
});

const SCREENS = combinations<Screen>({
  falls: [0, 1, 3],
  unsteady: BOTH,
  worried: BOTH,
  injury: BOTH,
  longLie: BOTH,
  form: [null, 0, 3, 4, 14],
});

test('cdc: every complete record comes out as the algorithm says', () => {
  const possible = SCREENS.filter((screen) => screen.falls > 0 || !(screen.injury || screen.longLie));
  for (const screen of possible) {
    const fields = {
      'history.falls_past_year': screen.falls,
      'history.feels_unsteady': answer(screen.unsteady),
      'history.worries_about_falling': answer(screen.worried),
      'history.fall_injury': answer(screen.injury),
      'history.unable_to_rise': answer(screen.longLie),
      ...(screen.form === null ? {} : { 'history.stay_independent': screen.form }),
    };
    expect({ screen, level: placement(cdc, facts(fields)).level }).toEqual({ screen, level: cdcLevel(screen) });
  }
});

const steady: FieldInputs = {
  'client.setting': 'community',
  'client.age': 74,
  'history.falls_past_year': 0,
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
  'history.fall_injury': 'no',
  'history.unable_to_rise': 'no',
  'history.loss_of_consciousness': 'no',
  'health.clinical_frailty_scale': 3,
};

/** Each node of the world guidelines both ways: what is changed, the level, and the step that decides. */
const NODES: readonly [string, FieldInputs, TestInputs, string, string][] = [
  ['setting yes', { 'client.setting': 'hospital' }, { timed_up_and_go: 9 }, 'high', 'setting'],
  ['questions no', {}, { timed_up_and_go: 9 }, 'low', 'key_questions'],
  ['fell, no severity, gait fine', { 'history.falls_past_year': 1 }, { timed_up_and_go: 9 }, 'low', 'gait_balance'],
  ['unsteady, gait fine', { 'history.feels_unsteady': 'yes' }, { timed_up_and_go: 9 }, 'low', 'gait_balance'],
  ['worried, gait fine', { 'history.worries_about_falling': 'yes' }, { timed_up_and_go: 9 }, 'low', 'gait_balance'],
  ['worried, gait impaired', { 'history.worries_about_falling': 'yes' }, { timed_up_and_go: 16 }, 'intermediate', 'gait_balance'],
  ['injury', { 'history.falls_past_year': 1, 'history.fall_injury': 'yes' }, { timed_up_and_go: 9 }, 'high', 'severity'],
  ['long lie', { 'history.falls_past_year': 1, 'history.unable_to_rise': 'yes' }, { timed_up_and_go: 9 }, 'high', 'severity'],
  [
    'blackout with a fall',
    { 'history.falls_past_year': 1, 'history.loss_of_consciousness': 'yes' },
    { timed_up_and_go: 9 },
    'high',
    'severity',
  ],
  [
    'unsteady and frail',
    { 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': 5 },
    { timed_up_and_go: 9 },
    'high',
    'severity',
  ],
  ['two falls', { 'history.falls_past_year': 2 }, { timed_up_and_go: 9 }, 'high', 'recurrent_falls'],
];
describe('world guidelines, node by node', () => {
  test.each(NODES)('%s', (_, change, tests, level, decidedBy) => {
    const result = place(worldGuidelines, facts({ ...steady, ...change }, tests), {});
    expect(result.level).toBe(level);
    expect(result.missing).toEqual([]);
    expect(result.steps.filter((step) => step.reached === 'yes').at(-1)?.id).toBe(decidedBy);
    expect(result.steps.every((step) => step.because.length > 0 && step.answer !== 'unknown')).toBe(true);
    expect(result.steps.some((step) => step.reached === 'perhaps')).toBe(false);
  });

  test('reasons carry the numbers and mark what is our own reading', () => {
    const labels = { test: () => ({ name: 'Timed up and go', unit: 's' }) };
    const result = place(
      worldGuidelines,
      facts({ ...steady, 'history.feels_unsteady': 'yes' }, { timed_up_and_go: 16.2 }),
      labels,
    );
    expect(result.steps.map((step) => step.because)).toEqual([
      'lives in the community',
      'feels unsteady when standing or walking',
      "no fall in the past year; no injury from a fall that needed a doctor; did not lie on the floor unable to get up; no loss of consciousness with a fall; clinical frailty scale 3 is not 5 or more (the program's own reading)",
      'no fall in the past year',
      'timed up and go 16.2 s is over 15 s',
    ]);
    expect(result.steps.map((step) => step.basis)).toEqual(['secondary', 'full-text', 'secondary', 'memory', 'secondary']);
  });
});

const ENTRY: readonly [string, FieldInputs, string, string][] = [
  ['form four', { 'history.stay_independent': 4 }, 'at_risk', 'form'],
  ['fell', { 'history.falls_past_year': 1 }, 'at_risk', 'fell'],
  ['unsteady', { 'history.feels_unsteady': 'yes' }, 'at_risk', 'unsteady_or_worried'],
  ['worried', { 'history.worries_about_falling': 'yes' }, 'at_risk', 'unsteady_or_worried'],
  ['none', {}, 'not_at_risk', 'unsteady_or_worried'],
];
test.each(ENTRY)('cdc, node by node: %s', (_, change, level, decidedBy) => {
  const result = place(cdc, facts({ ...steady, ...change }), {});
  expect(result.level).toBe(level);
  expect(result.steps.filter((step) => step.reached === 'yes').at(-1)?.id).toBe(decidedBy);
});

test('cdc: a form under four points stands in for two of the three questions, not for the question about a fall', () => {
  expect(placement(cdc, facts({ 'history.stay_independent': 3, 'history.falls_past_year': 0 })).level).toBe('not_at_risk');
  expect(placement(cdc, facts({ 'history.stay_independent': 3 }))).toEqual({
    level: 'undetermined',
    at_least: 'not_at_risk',
    at_most: 'at_risk',
    missing: ['falls'],
  });
});
