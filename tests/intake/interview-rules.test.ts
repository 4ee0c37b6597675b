/** The interview on an invented catalogue: which question, in which words, and what becomes of the answers. */
import { describe, expect, it } from 'vitest';
import { keyOf } from '../../src/intake/interview/question.ts';
import { type Answers, type Question, questionsFor } from '../../src/intake/interview/questions.ts';
import { judge, valueTyped, visitTree } from '../../src/intake/interview/visit.ts';
import { CLIENT_KEYS } from '../../src/session-keys.ts';
import { catalogue, options } from './invented-interview.ts';

const BASE: Answers = { 'client.ref': 'M-1', 'client.sex': 'f', 'client.age': '74', assessed: '2026-05-11' };
const ask = (answers: Answers = {}, all = false): Question[] => questionsFor(answers, catalogue, all);
function question(id: string, answers: Answers = {}, all = false): Question {
  const found = ask(answers, all).find((each) => each.id === id);
  if (found === undefined) throw new Error(`no question ${id}`);
  return found;
}

describe('questions of a visit', () => {
  it('the client, what needs a doctor, then the groups, then the tests', () => {
    const ids = ask().map(({ id }) => id);
    expect(ids.slice(0, 9)).toEqual([
      'client.ref',
      'client.sex',
      'client.age',
      'assessed',
      'client.setting',
      'redflags.chest_pain',
      'redflags.new_stroke_signs',
      'redflags.head_injury_on_blood_thinner',
      'redflags.severe_breathlessness_at_rest',
    ]);
    expect(ids[9]).toBe('history.falls_past_year');
    expect(ids.at(-1)).toBe('tests');
    expect(new Set(ids).size).toBe(ids.length);
  });
  it('the long form asks everything once, the essential first', () => {
    const [short, long] = [ask().map(({ id }) => id), ask({}, true).map(({ id }) => id)];
    expect(new Set(long).size).toBe(long.length);
    for (const id of short) expect(long).toContain(id);
    for (const id of [
      'medicines.count',
      'since_last.falls',
      'redflags.new_confusion',
      'health.foot_problems',
      'vitals.spo2_target',
    ]) {
      expect(long).toContain(id);
      expect(short).not.toContain(id);
    }
    expect(long.indexOf('history.dizzy_on_standing')).toBeLessThan(long.indexOf('history.unexplained_fall'));
  });
  it('what belongs to a fall only where there may have been one', () => {
    const ofAFall = ['history.fall_injury', 'history.unable_to_rise', 'history.unexplained_fall'];
    const asked = (falls?: string) =>
      ask(falls === undefined ? {} : { 'history.falls_past_year': falls }, true)
        .map(({ id }) => id)
        .filter((id) => ofAFall.includes(id));
    expect(asked('0')).toEqual([]);
    for (const falls of [undefined, '', '1', 's']) expect(asked(falls)).toEqual(ofAFall);
  });
  it('each by its section, its words and what can be typed', () => {
    const shown = (id: string) => {
      const { section, ask: words, hint } = question(id, {}, true);
      return `${section} | ${words} | ${hint}`;
    };
    expect(shown('client.ref')).toBe('Client | Your own reference for the client; not a name | such as M-207');
    expect(shown('client.sex')).toBe('Client | Sex, as the published tables use it | f, m or n (not recorded)');
    expect(shown('client.age')).toBe('Client | Age in completed years, or date of birth | 74, or 1952-03-08');
    expect(shown('assessed')).toBe('Client | Day of the visit | year-month-day');
    expect(shown('client.setting')).toBe('Client | Where the client lives | c (community), r (residential care), h (hospital)');
    expect(shown('redflags.chest_pain')).toMatch(/^Red flags \| .+ \| y, n or u \(unknown\)$/);
    expect(shown('history.falls_past_year')).toBe(
      'History | Falls in the past year | a number such as 0, or s (several: two or more)',
    );
    expect(shown('health.walking_aid')).toMatch(/^Health \| .+ \| none, stick, frame, other; the first letters are enough$/);
    expect(shown('health.oral_steroid')).toBe(
      'Health | Steroid tablets (prednisolone equivalent) | n, u, or daily dose in mg and months: 7.5 14',
    );
    expect(shown('health.recent_surgery')).toMatch(/ \| y, n, u or the day, such as 2026-05-11$/);
    expect(shown('health.clinical_frailty_scale')).toBe('Health | Clinical frailty scale | ');
    expect(shown('vitals.spo2_rest')).toBe('Vitals | Oxygen saturation at rest, % | in %');
    expect(shown('vitals.heart_rate_rest')).toMatch(/ \| $/);
    expect(shown('vitals.bp_lying')).toMatch(/ \| systolic\/diastolic, such as 138\/78$/);
    expect(shown('vitals.spo2_target')).toMatch(/ \| such as 88-92$/);
    expect(shown('medicines.count')).toMatch(/^Medicines \| /);
    expect(shown('since_last.falls')).toMatch(/^Since the last visit \| /);
    expect(shown('tests')).toBe(
      'Tests | Tests that were done | short names apart by blanks, such as tug 5sts sls tandem; ? lists them',
    );
  });
  it('only three are needed; two have a usual answer', () => {
    expect(
      ask({}, true)
        .filter(({ required }) => required)
        .map(({ id }) => id),
    ).toEqual(['client.ref', 'client.sex', 'client.age', 'assessed']);
    expect(ask({}, true).flatMap(({ id, usual }) => (usual === undefined ? [] : [[id, usual]]))).toEqual([
      ['assessed', 'today'],
      ['client.setting', 'community'],
    ]);
    expect(question('client.age').form).toEqual({ kind: 'age' });
    expect(question('client.ref').form).toEqual({ kind: 'leaf', leaf: { kind: 'reference' } });
    expect(question('vitals.spo2_rest').path).toEqual(['vitals', 'spo2_rest']);
    expect(question('client.setting').path).toEqual(['client', 'setting']);
  });
  it('tests that cannot be told apart ask nothing yet', () => {
    expect(ask({ tests: 'walk' }).at(-1)?.id).toBe('tests.walk');
    expect(ask({ tests: 'gai' }).at(-1)?.id).toBe('tests');
  });
  it('a key that no table has is a text by its own name', () => {
    expect(keyOf(CLIENT_KEYS, 'nothing')).toEqual({ leaf: { kind: 'text' }, about: 'nothing' });
    expect(keyOf(CLIENT_KEYS, 'ref').leaf.kind).toBe('reference');
  });
});

describe('the tree of the answers', () => {
  const tree = (answers: Answers) => visitTree({ ...BASE, ...answers }, options);
  const tests = (answers: Answers) => tree(answers).tests;
  it('the client and the findings; what is empty or cannot be read is left out', () => {
    expect(
      tree({ 'client.setting': '', 'history.falls_past_year': '1', 'history.feels_unsteady': 'perhaps', 'vitals.bp_lying': ' ' }),
    ).toEqual({
      format: 1,
      assessed: '2026-05-11',
      client: { ref: 'M-1', sex: 'female', age: 74, setting: 'community' },
      history: { falls_past_year: 1 },
    });
    expect(visitTree({}, options)).toEqual({ format: 1, assessed: '2026-05-20', client: { setting: 'community' } });
  });
  it('a date of birth goes to its own key', () =>
    expect(tree({ 'client.age': '1952-03-08' }).client).toEqual({
      ref: 'M-1',
      sex: 'female',
      born: '1952-03-08',
      setting: 'community',
    }));
  it.each<[Answers, unknown]>([
    [{ tests: 'walk', 'tests.walk': '12' }, { walk: 12 }],
    [{ tests: 'walk', 'tests.walk': '12 13' }, { walk: [12, 13] }],
    [{ tests: 'walk', 'tests.walk': 'unable sore' }, { walk: { unable: 'sore' } }],
    [{ tests: 'walk', 'tests.walk': '' }, undefined],
    [{ 'tests.walk': '12' }, undefined],
    [{ tests: 'stance', 'tests.stance': '12', 'tests.stance.ceiling': '30' }, { stance: { value: 12, ceiling: 30 } }],
    [{ tests: 'stance', 'tests.stance': '12 13', 'tests.stance.ceiling': '30' }, { stance: { trials: [12, 13], ceiling: 30 } }],
    [
      { tests: 'leg', 'tests.leg.right': '9', 'tests.leg.left': 'unable x', 'tests.leg.ceiling': '30' },
      { leg: { right: 9, left: { unable: 'x' }, ceiling: 30 } },
    ],
    [{ tests: 'leg', 'tests.leg.left': '9' }, { leg: { left: 9 } }],
    [{ tests: 'leg', 'tests.leg.right': '9' }, { leg: { right: 9 } }],
    [{ tests: 'gait_usual', 'tests.gait_usual': '0.9' }, { gait_usual: 0.9 }],
    [
      { tests: 'gait_usual', 'tests.gait_usual.distance': '4', 'tests.gait_usual': '4.9' },
      { gait_usual: { time: 4.9, distance: 4 } },
    ],
    [
      { tests: 'gait_usual', 'tests.gait_usual.distance': '4', 'tests.gait_usual': '4.9 5', 'tests.gait_usual.start': 'm' },
      { gait_usual: { time: [4.9, 5], distance: 4, start: 'moving' } },
    ],
    [{ tests: 'gait_usual', 'tests.gait_usual.distance': '4', 'tests.gait_usual': 'unable x' }, { gait_usual: { unable: 'x' } }],
    [{ tests: 'gait_usual', 'tests.gait_usual.distance': '4' }, undefined],
    [
      { tests: 'both', 'tests.walk': '12', 'tests.tandem': '9' },
      { walk: 12, tandem: 9 },
    ],
  ])('%j', (answers, expected) => expect(tests(answers)).toEqual(expected));
});

describe('what is said of an answer', () => {
  const said = (id: string, text: string, answers: Answers = {}) => {
    const judged = judge(question(id, { ...BASE, ...answers }), text, { ...BASE, ...answers }, options);
    return judged.verdict === 'ok' ? 'ok' : `${judged.verdict}: ${judged.message}`;
  };
  it('nothing: fine, unless every visit needs it', () => {
    expect(said('client.ref', ' ')).toBe('problem: every visit needs this');
    expect(said('history.feels_unsteady', '')).toBe('ok');
    expect(said('assessed', '')).toBe('ok');
  });
  it('what cannot be read', () =>
    expect(said('history.feels_unsteady', 'x')).toBe('problem: x is not an answer; type y, n or u (unknown)'));
  it('what cannot be, what is rare, what is fine', () => {
    expect(said('vitals.spo2_rest', '101')).toBe(
      'problem: Saturation cannot be 101 % (No); write what was measured, or leave it out',
    );
    expect(said('vitals.spo2_rest', '80')).toBe('ask_again: Saturation of 80 % is unusual (Rare)');
    expect(said('vitals.spo2_rest', '94')).toBe('ok');
  });
  it('a refusal comes before a note', () => {
    const walk = { tests: 'walk' };
    expect(said('tests.walk', '3 101', walk)).toMatch(/^problem: Walk cannot be 101 s/);
    expect(said('tests.walk', '3 12', walk)).toMatch(/^ask_again: Walk of 3 s is unusual/);
  });
  it('the age by the age or the birth', () => {
    expect(said('client.age', '17')).toMatch(/^problem: Age cannot be 17 years/);
    expect(said('client.age', '2026-05-12')).toMatch(/^problem: born on 2026-05-12, after the visit/);
    expect(said('client.age', '1900-01-01')).toMatch(/^problem: Age cannot be 126 years/);
    expect(said('client.age', '1952-03-08')).toBe('ok');
    expect(said('client.age', 'old')).toMatch(/^problem: `old` is not a number/);
  });
  it('only what concerns the question', () => {
    expect(said('history.feels_unsteady', 'y', { 'vitals.spo2_rest': '101' })).toBe('ok');
    expect(said('client.ref', 'M-1', { 'client.age': '17' })).toBe('ok');
  });
  it('a ceiling is not reminded of: it is asked for next', () => {
    expect(said('tests.stance', '30', { tests: 'stance' })).toBe('ok');
    expect(said('tests.leg.right', '30', { tests: 'leg' })).toBe('ok');
  });
  it('tests by name only', () => {
    expect(said('tests', 'walk')).toBe('ok');
    expect(said('tests', 'zzzzzz')).toBe('problem: there is no test zzzzzz; ? lists them');
  });
  it('the value that stands in the file', () => {
    expect(valueTyped(question('tests'), 'sls walk', options)).toEqual({ value: ['walk', 'leg'] });
    expect(valueTyped(question('client.setting'), ' ', options)).toEqual({ value: 'community' });
    expect(valueTyped(question('client.setting'), ' h ', options)).toEqual({ value: 'hospital' });
    expect(valueTyped(question('history.feels_unsteady'), ' ', options)).toBeUndefined();
    expect(valueTyped(question('client.age'), '1952-03-08', options)).toEqual({ value: '1952-03-08' });
    expect(valueTyped(question('client.age'), '74', options)).toEqual({ value: 74 });
  });
});
