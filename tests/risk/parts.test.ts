/** The small parts of the risk room: texts filled in, who a figure fits, why two pathways differ, the level set by hand. */
import { describe, expect, test } from 'vitest';
import type { PathwayResult } from '../../src/assessment.ts';
import { FallRate } from '../../src/evidence/schema/numbers.ts';
import { clearanceOf } from '../../src/risk/clearance.ts';
import { whyDifferent } from '../../src/risk/differences.ts';
import { fallRatesFor, fitsPerson, pretestRate } from '../../src/risk/fall-rates.ts';
import { factorsOf, redFlagsOf } from '../../src/risk/findings.ts';
import { overrideOf } from '../../src/risk/override.ts';
import { place } from '../../src/risk/place.ts';
import { fill } from '../../src/risk/text.ts';
import type { Clearance } from '../../src/session.ts';
import { item, pathway, step } from './invented.ts';
import { factors, facts, redFlags, type TestInput } from './support.ts';

describe('a text with places to fill', () => {
  const filled = (input: TestInput | undefined): string =>
    fill('walk {timed_up_and_go}.', facts({}, input === undefined ? {} : { timed_up_and_go: input }), {
      test: () => ({ name: 'Walk', unit: 's' }),
    });
  test.each<[string, TestInput | undefined]>([
    ['walk 12 s.', 12],
    ['walk at least 60 s.', { worst: 60, atLeast: true }],
    ['walk could not be done.', 'unable'],
    ['walk could not be done.', { outcome: 'unable', worst: 12 }],
    ['walk could not be done.', { outcome: 'measured', worst: null }],
    ['walk not tested.', undefined],
    ['walk not tested.', 'not_tested'],
    ['walk not tested.', 'unsafe_medical'],
    ['walk not tested.', { outcome: 'not_tested', worst: 12 }],
    ['walk not tested.', { outcome: 'unsafe_medical', worst: 12 }],
  ])('%s', (words, input) => expect(filled(input)).toBe(words));

  test('shows a field as it is, and what is not there as not recorded', () => {
    expect(fill('rest {vitals.spo2_rest} %', facts({ 'vitals.spo2_rest': 88 }))).toBe('rest 88 %');
    expect(fill('rest {vitals.spo2_rest} %', facts({}))).toBe('rest not recorded %');
    expect(fill('rest {vitals.spo2_rest} %', facts({ 'vitals.spo2_rest': 'unknown' }))).toBe('rest not recorded %');
    expect(fill('falls {history.falls_past_year}', facts({ 'history.falls_past_year': 0 }))).toBe('falls 0');
  });
});

const rate = (over: object): FallRate =>
  FallRate.parse({
    id: 'rate',
    source: 'alpha-2020',
    location: 'Table 1',
    status: 'abstract',
    outcome: 'One or more falls',
    population: { description: 'people' },
    ...over,
  });
const who = (over: object = {}) => ({ age: 70, sex: 'female' as const, setting: 'community' as const, ...over });

describe('whom a figure fits', () => {
  const row = { age_min: 65, age_max: 74, sex: 'all' as const };
  test('the ends of an age band belong to it', () => {
    expect([64, 65, 74, 75].map((age) => fitsPerson(row, who({ age })))).toEqual([false, true, true, false]);
    expect(fitsPerson({ ...row, age_min: null }, who({ age: 20 }))).toBe(true);
    expect(fitsPerson({ ...row, age_min: null }, who({ age: 0 }))).toBe(true);
    expect(fitsPerson({ ...row, age_max: null }, who({ age: 104 }))).toBe(true);
  });
  test('one sex fits only those known to be of it', () => {
    expect(fitsPerson({ ...row, sex: 'female' }, who())).toBe(true);
    expect(fitsPerson({ ...row, sex: 'male' }, who())).toBe(false);
    expect(fitsPerson({ ...row, sex: 'female' }, who({ sex: 'not recorded' }))).toBe(false);
    expect(fitsPerson(row, who({ sex: 'not recorded' }))).toBe(true);
  });
  test('a probability starts only from a figure meant for it, and only for people who live at home', () => {
    const rates = [rate({ id: 'other' }), rate({ id: 'meant', pretest_for: ['general'] })];
    const person = { client: who(), lungCondition: null };
    expect(pretestRate(rates, person)?.id).toBe('meant');
    expect(pretestRate(rates, { ...person, client: who({ setting: 'hospital' }) })).toBeUndefined();
    expect(pretestRate(rates, { ...person, lungCondition: 'copd' })).toBeUndefined();
    expect(pretestRate([rate({ id: 'older', pretest_for: ['general'], age_min: 71 })], person)).toBeUndefined();
  });
});

describe('fall rates shown', () => {
  const general = rate({
    id: 'general',
    pretest_for: ['general'],
    probability: 0.27,
    probability_ci95: [0.19, 0.36],
    rate_per_person_year: 0.6,
    note: 'a note',
  });
  const inCopd = rate({ id: 'in_copd', population: { description: 'patients', condition: 'copd' } });
  const older = rate({ id: 'older', age_min: 80, population: { description: 'patients', condition: 'copd' } });
  const inParkinson = rate({ id: 'in_parkinson', population: { description: 'patients', condition: 'parkinson' } });
  const rates = [inCopd, older, inParkinson, general, rate({ id: 'not_shown' })];
  test('carry their interval, rate and note, and nothing where nothing is printed', () => {
    expect(fallRatesFor(rates, { client: who(), lungCondition: null })).toEqual([
      {
        id: 'general',
        outcome: 'One or more falls',
        population: 'people',
        condition: null,
        probability: 0.27,
        low: 0.19,
        high: 0.36,
        rate_per_person_year: 0.6,
        note: 'a note',
        source: 'alpha-2020',
        basis: 'abstract',
        location: 'Table 1',
      },
    ]);
    const [, bare] = fallRatesFor(rates, { client: who(), lungCondition: 'copd' });
    expect(bare).toMatchObject({
      condition: 'copd',
      probability: null,
      low: null,
      high: null,
      rate_per_person_year: null,
      note: null,
    });
  });
  test('of people with COPD only beside the general one, only to clients with it, and only of their age', () => {
    const ids = (lungCondition: string | null, age = 70) =>
      fallRatesFor(rates, { client: who({ age }), lungCondition }).map(({ id }) => id);
    expect(ids('copd')).toEqual(['general', 'in_copd']);
    expect(ids('copd', 80)).toEqual(['general', 'in_copd', 'older']);
    expect(ids('parkinson')).toEqual(['general']);
    expect(ids(null)).toEqual(['general']);
  });
});

describe('red flags', () => {
  const raised = facts({ 'health.recent_surgery': 'yes', 'redflags.chest_pain': 'yes', 'history.loss_of_consciousness': 'yes' });
  const backwards = [...redFlags].reverse();
  test('the most urgent first, whatever the order of the file', () => {
    expect(redFlagsOf(backwards, raised, {}).map(({ tier }) => tier)).toEqual(['emergency', 'same_day', 'clear_first']);
  });
  test('one that was cleared comes after every open one, whatever its tier and the order of the file', () => {
    const cleared = { clearances: [{ for: 'chest_pain', by: 'Dr Example', date: '2026-05-11' }], assessed: '2026-05-11' };
    const order = ['same_day', 'clear_first', 'emergency'];
    for (const flags of [redFlags, backwards])
      expect(redFlagsOf(flags, raised, {}, cleared).map(({ tier }) => tier)).toEqual(order);
  });
  test('without a word on clearances every raised flag is open', () => {
    expect(redFlagsOf(redFlags, raised, {}).map(({ cleared }) => cleared)).toEqual([null, null, null]);
  });
});

test('of several clearances the latest counts, in whatever order they were written down', () => {
  const blackout = redFlags.find(({ id }) => id === 'blackout');
  if (blackout === undefined) throw new Error('no such flag');
  const on = (date: string): Clearance => ({ for: 'blackout', by: date, date });
  const days = ['2026-05-12', '2026-05-20', '2026-05-15'];
  for (const order of [days, [...days].reverse(), [...days].sort()])
    expect(clearanceOf(blackout, order.map(on), '2026-05-11').cleared?.by).toBe('2026-05-20');
});

test('a factor with a request to the doctor carries it, another none', () => {
  const [factor] = factors;
  if (factor === undefined) throw new Error('no factor');
  const found = (request: string | undefined) =>
    factorsOf([{ ...factor, request, when: { field: 'x.a', is: 'yes' } }], facts({ 'x.a': 'yes' }), {})[0]?.request;
  expect(found('please look')).toBe('please look');
  expect(found(undefined)).toBeNull();
});

test('a level set by hand brings what it calls for', () => {
  const set = overrideOf(pathway({}), { level: 'high', reason: 'seen' }, undefined);
  expect(set).toMatchObject({ level: 'high', label: 'High', reason: 'seen', by: null, follow_up: { within_days: 30 } });
  expect(set?.actions).toEqual([
    { text: 'High: first action', request: 'High: please look', source: 'alpha-2020', basis: 'full-text', location: 'Figure 1' },
    { text: 'High: second action', request: null, source: null, basis: 'own-rule', location: 'invented' },
  ]);
  expect(overrideOf(pathway({}), undefined, 'A. Physio')).toBeNull();
});

describe('why two pathways differ', () => {
  const one = pathway({
    name: 'One',
    items: [item('a'), item('b')],
    steps: [
      step('first', { item: 'a' }, { level: 'high' }, { step: 'second' }),
      { ...step('second', { item: 'b' }, { level: 'high' }, { level: 'low' }), question: 'Is b over 0.8 m/s?' },
    ],
  });
  const other = pathway({
    name: 'Other',
    items: [item('c')],
    steps: [step('s', { item: 'c' }, { level: 'high' }, { level: 'low' })],
  });
  const why = (a: PathwayResult, b: PathwayResult) => whyDifferent(a, one, b, other);
  const placed = (fields: Record<string, string>) => place(one, facts(fields), {});
  const placedOther = (c?: string) => place(other, facts(c === undefined ? {} : { 'x.c': c }), {});
  const low = { 'x.a': 'no', 'x.b': 'no' };

  test('not where both are low, both above it, or both open between the two', () => {
    expect(why(placed(low), placedOther('no'))).toBeNull();
    expect(why(placed({ 'x.a': 'yes' }), placedOther('yes'))).toBeNull();
    expect(why(placed({}), placedOther())).toBeNull();
  });
  test('where one is low and the other above it, by the last step that was reached', () => {
    expect(why(placed(low), placedOther('yes'))).toBe(
      'One gives low, decided by "Is b over 0.8 m/s?" (no: b: no), while Other gives high, decided by "Does s hold?" (yes: c: yes).',
    );
    expect(why(placed({ 'x.a': 'yes', 'x.b': 'no' }), placedOther('no'))).toContain(
      'One gives high, decided by "Does first hold?"',
    );
  });
  test('where one is open and the other is not, with the first question to ask', () => {
    expect(why(placed(low), placedOther())).toContain('while Other cannot tell yet (first to ask: Is it c).');
    expect(why(placed({ 'x.a': 'yes' }), placedOther())).toContain('Other cannot tell yet');
    expect(why(placed({}), placedOther('yes'))).toContain('One cannot tell yet (first to ask: Is it a), while Other gives high');
    expect(why(placed({}), placedOther('no'))).toContain('One cannot tell yet');
  });
  test('only the mark at the end of a question is left out', () => {
    const asked = pathway({ name: 'Asked', items: [item('a', { question: 'Walk under 0.8 m/s, e.g. 4 m.' })] });
    expect(whyDifferent(place(asked, facts({}), {}), asked, placedOther('yes'), other)).toContain(
      '(first to ask: Walk under 0.8 m/s, e.g. 4 m)',
    );
  });
});
