/** A plain tree -> the session, field by field, and what is refused with its place. */
import { describe, expect, it } from 'vitest';
import { buildSession } from '../../src/intake/build.ts';
import type { Finding } from '../../src/intake/problems.ts';
import { definition, line } from './invented.ts';

const limit = (field: string, above: number) => ({
  field,
  name: field,
  unit_text: '',
  whole: false,
  impossible: { below: 0, above, why: 'No' },
  unusual: { below: 10, why: 'Rare' },
});
const catalogue = {
  tests: [definition()],
  fields: [
    limit('client.age', 110),
    limit('client.height_cm', 220),
    limit('client.weight_kg', 200),
    limit('health.oral_steroid.months', 99),
  ],
};
const options = { catalogue, today: '2026-06-01' };
const CLIENT = { ref: 'M-1', sex: 'female', age: 74 };
const tree = (more: object = {}, client: object = CLIENT) => ({ format: 1, assessed: '2026-05-11', client, ...more });

function built(value: unknown, earlier: readonly Finding[] = []) {
  const { session, findings } = buildSession(value, options, earlier);
  return { session, told: findings.map(line) };
}
function session(value: unknown) {
  const { session: found, told } = built(value);
  expect(told).toEqual([]);
  if (found === null) throw new Error('refused');
  return found;
}
const fields = (more: object) => session(tree(more)).fields;

describe('fields', () => {
  it('answers and words', () => {
    expect(fields({ history: { feels_unsteady: true, fall_injury: 'No', unable_to_rise: null } })).toEqual({
      'history.feels_unsteady': 'yes',
      'history.fall_injury': 'no',
    });
    expect(fields({ health: { lung_condition: 'copd' } })).toEqual({ 'health.lung_condition': 'copd' });
    expect(built(tree({ health: { lung_condition: 'flu' } })).session).toBeNull();
  });
  it('falls as a number or in a word', () => {
    expect(fields({ history: { falls_past_year: 3 } })).toEqual({ 'history.falls_past_year': 3 });
    expect(fields({ history: { falls_past_year: 'several' } })).toEqual({
      'history.falls_past_year': 2,
      'history.falls_past_year_text': 'several',
    });
  });
  it('a pressure as its two numbers', () => {
    expect(fields({ vitals: { bp_lying: '138/78' } })).toEqual({
      'vitals.bp_lying_systolic': 138,
      'vitals.bp_lying_diastolic': 78,
    });
    expect(built(tree({ vitals: { bp_lying: 138 } })).told[0]).toContain('vitals.bp_lying (value) bad_pressure');
  });
  it('a range as its ends, or the lower one alone', () => {
    expect(fields({ vitals: { spo2_target: '88-92' } })).toEqual({ 'vitals.spo2_target_low': 88, 'vitals.spo2_target_high': 92 });
    expect(fields({ vitals: { spo2_target: 88 } })).toEqual({ 'vitals.spo2_target_low': 88 });
  });
  it('an event as an answer or its day, which must not be to come', () => {
    expect(fields({ health: { recent_surgery: 'no' } })).toEqual({ 'health.recent_surgery': 'no' });
    expect(fields({ health: { recent_surgery: '2026-06-01' } })).toEqual({
      'health.recent_surgery': 'yes',
      'health.recent_surgery.date': '2026-06-01',
    });
    expect(built(tree({ health: { recent_surgery: '2026-06-02' } })).told).toEqual([
      'health.recent_surgery (value) future_date: 2026-06-02 lies in the future (today is 2026-06-01); write the day on which it happened',
    ]);
  });
  it('a steroid as an answer, or yes with its parts within their limits', () => {
    expect(fields({ health: { oral_steroid: 'unknown' } })).toEqual({ 'health.oral_steroid': 'unknown' });
    expect(fields({ health: { oral_steroid: {} } })).toEqual({ 'health.oral_steroid': 'yes' });
    expect(fields({ health: { oral_steroid: { daily_mg: 5, months: 14 } } })).toEqual({
      'health.oral_steroid': 'yes',
      'health.oral_steroid.daily_mg': 5,
      'health.oral_steroid.months': 14,
    });
    expect(built(tree({ health: { oral_steroid: { months: 100 } } })).told).toEqual([
      'health.oral_steroid.months (value) impossible: health.oral_steroid.months cannot be 100 (No); write what was measured, or leave it out',
    ]);
  });
  it('contradictions between them are found', () =>
    expect(built(tree({ history: { falls_past_year: 0, fall_injury: 'yes' } })).told[0]).toContain(
      'history.fall_injury (value) contradiction',
    ));
});

describe('the client', () => {
  const client = (given: object) => session(tree({}, { ...CLIENT, ...given })).client;
  const told = (given: object) => built(tree({}, given)).told;
  it('as written; community where nothing is said of the setting, and marked', () => {
    expect(client({})).toEqual({ ref: 'M-1', sex: 'female', age: 74, setting: 'community', settingAssumed: true });
    expect(client({ setting: null }).settingAssumed).toBe(true);
    for (const setting of ['community', 'residential_care', 'hospital'])
      expect(client({ setting })).toMatchObject({ setting, settingAssumed: false });
    for (const sex of ['female', 'male', 'not recorded']) expect(client({ sex }).sex).toBe(sex);
  });
  it('with reference, height, weight and country where they are given', () => {
    expect(client({ ref: ' 7 ', height_cm: 160, weight_kg: 60, country: 'AU' })).toMatchObject({
      ref: '7',
      heightCm: 160,
      weightKg: 60,
      country: 'AU',
    });
    expect(client({ ref: 7 }).ref).toBe('7');
    expect(told({ ...CLIENT, height_cm: 250 })[0]).toContain('client.height_cm (value) impossible');
    expect(told({ ...CLIENT, weight_kg: 250 })[0]).toContain('client.weight_kg (value) impossible');
    expect(told({ ...CLIENT, height_cm: 'x' })[0]).toContain('client.height_cm (value) not_a_number');
  });
  it('without what every visit needs there is no session', () => {
    for (const key of ['ref', 'sex', 'age']) {
      const { [key]: _gone, ...rest } = CLIENT as Record<string, unknown>;
      const { session: none, told: words } = built(tree({}, rest));
      expect(none).toBeNull();
      expect(words).toHaveLength(1);
      expect(words[0]).toMatch(new RegExp(`^client\\.${key} \\(key\\) missing_key`));
    }
    expect(built(tree({}, { ...CLIENT, ref: true })).session).toBeNull();
    expect(built({ ...tree(), assessed: undefined }).session).toBeNull();
  });

  it('age from the date of birth, on the day of the visit', () => {
    const { age: _age, ...rest } = CLIENT;
    expect(session(tree({}, { ...rest, born: '1952-05-11' })).client).toMatchObject({ age: 74, born: '1952-05-11' });
    expect(session(tree({}, { ...rest, born: '1952-05-12' })).client.age).toBe(73);
    expect(client({ born: '1952-05-11' }).age).toBe(74);
    expect(client({ born: null }).age).toBe(74);
  });
  it('neither age nor date of birth', () => {
    const words =
      'client.age (key) missing_key: the client has neither age nor date of birth; write age: 74, or born: 1952-03-08, with your own value';
    const { age: _age, ...rest } = CLIENT;
    expect(told(rest)).toEqual([words]);
    expect(told({ ...rest, age: null, born: null })).toEqual([words]);
    expect(told({ ...rest, born: 'x' })).toEqual([expect.stringContaining('client.born (value) bad_date')]);
    expect(built({ ...tree(), client: 5 }).told).toHaveLength(1);
  });
  it('a birth after the visit, or an age that is another', () => {
    expect(told({ ...CLIENT, born: '2026-05-12' })).toEqual([
      'client.born (value) born_after_visit: born on 2026-05-12, after the visit; write the date of birth',
    ]);
    expect(told({ ...CLIENT, born: '1950-01-01' })).toEqual([
      'client.age (value) contradiction: age 74, but 76 by the date of birth; write only born, or age: 76',
    ]);
  });
  it('an age beyond the limits is told where it was written', () => {
    expect(told({ ...CLIENT, age: 111 })[0]).toMatch(/^client\.age \(value\) impossible: client\.age cannot be 111/);
    const { age: _age, ...rest } = CLIENT;
    expect(told({ ...rest, born: '1900-01-01' })[0]).toMatch(/^client\.born \(value\) impossible: client\.age cannot be 126/);
    // born on the day of the visit: no completed year
    expect(told({ ...rest, born: '2026-05-11' })[0]).toMatch(/^client\.born \(value\) unusual: client\.age of 0 /);
  });
});

describe('the visit', () => {
  it('of today or before; one to come is refused', () => {
    expect(session({ ...tree(), assessed: '2026-06-01' }).assessed).toBe('2026-06-01');
    expect(built({ ...tree(), assessed: '2026-06-02' }).told).toEqual([
      'assessed (value) future_date: the visit of 2026-06-02 lies in the future (today is 2026-06-01); write the day of the visit',
    ]);
    expect(built({ ...tree(), assessed: '2026-99-99' }).told).toEqual([expect.stringContaining('assessed (value) bad_date')]);
  });
  it('with its tests, and what was noted in reading them', () => {
    const { session: found, told } = built(tree({ tests: { walk: 60 } }));
    expect(found).toMatchObject({
      format: 1,
      tests: [{ test: 'walk', side: null, reading: { outcome: 'measured', trials: [60] } }],
      notes: ['Walk of 60 s is unusual (Rare)'],
    });
    expect(told).toHaveLength(1);
    const usual = { ...options, catalogue: { ...catalogue, tests: [definition({ common_ceilings: [30] })] } };
    expect(buildSession(tree({ tests: { walk: 30 } }), usual).session?.notes).toEqual([
      'Walk of exactly 30 s and no ceiling stated: read as the time held; write ceiling: 30 where the watch was stopped there',
    ]);
  });
});

describe('findings', () => {
  const earlier = (code: Finding['code']): Finding => ({
    code,
    path: ['client', 'age'],
    at: 'value',
    message: 'Before',
    hint: '',
  });
  it('a refusal silences later ones at its place, those of whoever made the tree first', () => {
    const { session: none, told } = built(tree({}, { ...CLIENT, age: 111 }), [earlier('number_format')]);
    expect(none).toBeNull();
    expect(told).toEqual(['client.age (value) number_format: Before; ']);
  });
  it('notes beside each other all stay', () => {
    const { session: found, told } = built(tree({}, { ...CLIENT, age: 5 }), [earlier('doubtful')]);
    expect(told.map((each) => each.split(':')[0])).toEqual(['client.age (value) doubtful', 'client.age (value) unusual']);
    expect(found?.notes).toHaveLength(2);
  });
});
