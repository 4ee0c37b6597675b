/** What is not recorded is not there at all; and small rules that other tests pass by. */
import { describe, expect, it } from 'vitest';
import { buildSession } from '../../src/intake/build.ts';
import { readDocument } from '../../src/intake/document.ts';
import { sourceExcerpt } from '../../src/intake/excerpt.ts';
import { fits } from '../../src/intake/explain.ts';
import { questionsFor } from '../../src/intake/interview/questions.ts';
import { leafTyped } from '../../src/intake/interview/typed.ts';
import { judge, visitTree } from '../../src/intake/interview/visit.ts';
import { explainNumber } from '../../src/intake/numbers.ts';
import { readRecords } from '../../src/intake/records.ts';
import { checkSession } from '../../src/intake/shape.ts';
import { line } from './invented.ts';
import { catalogue, options } from './invented-interview.ts';
import { read, told } from './read-one.ts';

const CLIENT = { ref: 'M-1', sex: 'female', age: 74 };
const tree = (client: object) => ({ format: 1, assessed: '2026-05-11', client });
const build = (client: object) => buildSession(tree(client), { catalogue: { tests: [], fields: [] }, today: '2026-06-01' });

describe('what is not recorded is not there', () => {
  it('of the client, of records, of a result', () => {
    expect(build(CLIENT).session).toStrictEqual({
      format: 1,
      client: { ...CLIENT, setting: 'community', settingAssumed: true },
      assessed: '2026-05-11',
      fields: {},
      tests: [],
      notes: [],
    });
    expect(readRecords({}, {}, '2026-06-01', [])).toStrictEqual({});
    expect(read(12).tests[0]?.reading).toStrictEqual({ outcome: 'measured', trials: [12] });
    expect(read({ unable: 'sore' }).tests[0]?.reading).toStrictEqual({ outcome: 'unable', reason: 'sore' });
    const speed = { course: true, kind: 'speed', impossible: { above: 5, why: 'No' } } as const;
    expect(read({ time: [4, 5], distance: 4 }, speed).tests[0]?.reading).toStrictEqual({
      outcome: 'measured',
      trials: [1, 0.8],
      course: { distanceM: 4 },
    });
  });
  it('of an interview', () => {
    const answers = {
      'client.ref': 'M-1',
      tests: 'leg gait_usual',
      'tests.leg.left': '9',
      'tests.gait_usual.distance': '4',
      'tests.gait_usual': '5',
    };
    expect(visitTree(answers, options).tests).toStrictEqual({ gait_usual: { time: 5, distance: 4 }, leg: { left: 9 } });
    const right = { ...answers, 'tests.leg.left': '', 'tests.leg.right': '9' };
    expect(visitTree(right, options).tests).toStrictEqual({ gait_usual: { time: 5, distance: 4 }, leg: { right: 9 } });
    expect(visitTree({ 'history.feels_unsteady': 'perhaps' }, options)).toStrictEqual({
      format: 1,
      client: { setting: 'community' },
      assessed: options.today,
    });
    const empty = { tests: 'stance', 'tests.stance': '', 'tests.stance.ceiling': '30' };
    expect(visitTree(empty, options)).not.toHaveProperty('tests');
  });
});

describe('the reader', () => {
  it('born on the day of the visit is no year, and contradicts an age', () =>
    expect(build({ ...CLIENT, born: '2026-05-11' }).findings.map(line)).toEqual([
      'client.age (value) contradiction: age 74, but 0 by the date of birth; write only born, or age: 0',
    ]));
  it('a client that stands empty is missing', () =>
    expect(checkSession({ ...tree(CLIENT), client: null }).map(line)[0]).toMatch(/^client \(key\) missing_key/));
  it('a list is no text, though it may read like one', () => {
    expect(fits({ kind: 'pressure' }, ['138/78'])).toBe(false);
    expect(fits({ kind: 'range' }, ['88-92'])).toBe(false);
    expect(fits({ kind: 'country' }, ['AU'])).toBe(false);
    expect(fits({ kind: 'date' }, ['2026-05-11'])).toBe(false);
    const found = buildSession(
      { ...tree(CLIENT), vitals: { bp_lying: ['138/78'] } },
      { catalogue: { tests: [], fields: [] }, today: '2026-06-01' },
    );
    expect(found.session).toBeNull();
  });
  it('numbers with two decimals are told as those with one', () => {
    expect(explainNumber('1.25-2.25').code).toBe('inexact_number');
    expect(explainNumber('12.85 s').hint).toBe('write 12.85 instead');
  });
  it('only a number that stands for the reference is kept as typed', () =>
    expect(readDocument('client: {ref: true}\n').tree?.value).toEqual({ client: { ref: true } }));
  it('a distance of nothing is told beside a time that is no number', () => {
    const found = told({ time: 'x', distance: 0 }, { course: true, kind: 'speed' });
    expect(found.join()).toContain('time and distance of a walk are above 0');
    expect(found).toHaveLength(2);
  });
  it('a danger that is none is not recorded', () =>
    expect(read({ unsafe: 'dizzy', why: 'wet floor' }).tests[0]?.reading).toStrictEqual({ outcome: 'unsafe', reason: 'dizzy' }));
  it('beside the sides only what is wrong is left out, and what is wrong of it keeps its name', () => {
    const { tests } = read({ left: 12, ceiling: 'x', aid: 'rail' }, { sided: true });
    expect(tests[0]?.reading).toStrictEqual({ outcome: 'measured', trials: [12], aid: 'rail' });
    expect(told({ right: 0, ceiling: 0 }, { sided: true })[0]).toMatch(/^tests\.walk\.right\.ceiling /);
  });
  it('a mark is not longer than the line', () => {
    const problem = {
      code: 'impossible',
      severity: 'error',
      file: 'f',
      line: 1,
      column: 3,
      endColumn: 99,
      path: '',
      message: '',
      hint: '',
    } as const;
    expect(sourceExcerpt('first', problem)).toBe('    first\n      ^^^');
  });
});

describe('the interview', () => {
  it('asks the essential questions of every group in the short form, and no others', () => {
    const asked = questionsFor({}, catalogue, false).map(({ id }) => id);
    expect(asked.filter((id) => id.startsWith('history.')).at(-1)).toBe('history.dizzy_on_standing');
    expect(asked.every((id) => !id.endsWith('.'))).toBe(true);
    const groups = new Set(asked.map((id) => id.split('.')[0]));
    expect([...groups]).toEqual(['client', 'assessed', 'redflags', 'history', 'health', 'vitals', 'tests']);
    expect(questionsFor({}, catalogue, false).find(({ id }) => id === 'tests')?.path).toEqual(['tests']);
  });
  it('says of the age only what concerns it', () => {
    const answers = { 'client.ref': 'M-1', 'client.sex': 'f', assessed: '2026-05-11', 'vitals.spo2_rest': '101' };
    const age = questionsFor(answers, catalogue, false).find(({ id }) => id === 'client.age');
    if (age === undefined) throw new Error('no age');
    expect(judge(age, '74', answers, options)).toEqual({ verdict: 'ok' });
    expect(judge(age, '1952-03-08', answers, options)).toEqual({ verdict: 'ok' });
  });
  it('takes doses with two decimals', () =>
    expect(leafTyped({ kind: 'steroid' }, '7.25 14.25', '')).toEqual({ value: { daily_mg: 7.25, months: 14.25 } }));
});
