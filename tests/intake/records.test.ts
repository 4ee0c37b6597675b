/** Clearance, override, goals, days of events, targets, standing pressures: the later keys of a session. */
import { describe, expect, test } from 'vitest';
import { parseSession } from '../../src/intake/index.ts';
import { cdc, redFlags, worldGuidelines } from '../risk/support.ts';
import { catalogue, TODAY } from './catalogue.ts';

const known = { ...catalogue, redFlags, pathways: [worldGuidelines, cdc] };
const read = (more: string) =>
  parseSession(`format: 1\nclient: {ref: A-1, sex: female, age: 74}\nassessed: 2026-05-11\n${more}\n`, {
    file: 'visit.yaml',
    catalogue: known,
    today: TODAY,
  });
const session = (more: string) => {
  const { session: found, problems } = read(more);
  if (found === null) throw new Error(problems.map((each) => `${each.message}; ${each.hint}`).join('\n'));
  return found;
};
const refusal = (more: string): string => {
  const { session: found, problems } = read(more);
  expect(found).toBeNull();
  return problems.map((each) => `${each.line}: ${each.code}: ${each.message}; ${each.hint}`).join('\n');
};

describe('clearance', () => {
  test('one, or a list; one of them may clear several findings', () => {
    const one = 'clearance: {by: Dr Example, date: 2026-05-12, for: blackout}';
    expect(session(one).clearances).toEqual([{ by: 'Dr Example', date: '2026-05-12', for: 'blackout' }]);
    const several =
      'clearance:\n  - {by: A, date: 2026-05-12, for: [blackout, recent_surgery]}\n  - {by: B, date: 2026-05-13, for: dizzy_on_standing}';
    expect(session(several).clearances?.map((each) => each.for)).toEqual(['blackout', 'recent_surgery', 'dizzy_on_standing']);
  });
  test('needs who, when and what', () => {
    expect(refusal('clearance: {date: 2026-05-12, for: blackout}')).toContain('`clearance.by` is missing');
    expect(refusal('clearance: {by: A, for: blackout}')).toContain('`clearance.date` is missing');
    expect(refusal('clearance: {by: A, date: 2026-05-12}')).toContain('`clearance.for` is missing');
  });
  test('a word that names no red flag is refused with the nearest', () => {
    expect(refusal('clearance: {by: A, date: 2026-05-12, for: blakcout}')).toContain(
      '4: not_a_choice: `blakcout` cannot stand here; write blackout',
    );
  });
  test('a day in the future is refused', () => {
    expect(refusal('clearance: {by: A, date: 2026-07-01, for: blackout}')).toContain('future_date');
  });
});

describe('level set by hand', () => {
  test('with its reason', () => {
    expect(session('risk: {level: high, reason: saw her stumble}').riskOverride).toEqual({
      level: 'high',
      reason: 'saw her stumble',
    });
  });
  test('never without, and only a level that a pathway has', () => {
    expect(refusal('risk: {level: high}')).toContain('`risk.reason` is missing');
    expect(refusal('risk: {level: hiigh, reason: x}')).toContain('write high instead');
  });
});

test('goals, consent and assessor', () => {
  const found = session('goals: [walk to the shop, pick up my grandson]\nconsent_to_share: yes\nassessor: A. Physio');
  expect(found).toMatchObject({
    goals: ['walk to the shop', 'pick up my grandson'],
    consentToShare: 'yes',
    assessor: 'A. Physio',
  });
  expect(session('goals: walk to the shop').goals).toEqual(['walk to the shop']);
});

describe('health and vitals', () => {
  test('an event may be given as its day', () => {
    const { fields } = session('health: {recent_surgery: 2026-04-02, recent_exacerbation: no, steroid_courses_past_year: 3}');
    expect(fields).toMatchObject({
      'health.recent_surgery': 'yes',
      'health.recent_surgery.date': '2026-04-02',
      'health.recent_exacerbation': 'no',
      'health.steroid_courses_past_year': 3,
    });
    expect(refusal('health: {recent_surgery: 2026-09-02}')).toContain('future_date');
    expect(refusal('health: {recent_surgery: last month}')).toContain('or the day, such as 2026-05-11');
  });
  test('target, usual value, air or oxygen, flow', () => {
    const { fields } = session('vitals: {spo2_rest: 90, spo2_on: oxygen, oxygen_flow: 2, spo2_usual: 91, spo2_target: 88-92}');
    expect(fields).toMatchObject({
      'vitals.spo2_on': 'oxygen',
      'vitals.oxygen_flow': 2,
      'vitals.spo2_usual': 91,
      'vitals.spo2_target_low': 88,
      'vitals.spo2_target_high': 92,
    });
    expect(session('vitals: {spo2_target: 88}').fields['vitals.spo2_target_high']).toBeUndefined();
    expect(refusal('vitals: {spo2_target: 92-88}')).toContain('contradiction');
    expect(refusal('vitals: {spo2_target: about 90}')).toContain('88-92');
    expect(refusal('vitals: {spo2_on: air, oxygen_flow: 2}')).toContain('contradiction');
  });
  test('pressure at one and three minutes, with symptoms', () => {
    const { fields } = session(
      'vitals: {bp_lying: 138/78, bp_standing_1min: 121/70, bp_standing_3min: 118/72, standing_symptoms: yes}',
    );
    expect(fields).toMatchObject({ 'vitals.bp_standing_3min_systolic': 118, 'vitals.standing_symptoms': 'yes' });
    expect(refusal('vitals: {bp_standing_1min: 70/121}')).toContain('contradiction');
  });
  test('no falls, but unable to rise after one', () => {
    expect(refusal('history: {falls_past_year: 0, unable_to_rise: yes}')).toContain('contradiction');
  });
});
