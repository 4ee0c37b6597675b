/** What a right file becomes, and what a wrong line is told. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { formatProblem, parseSession } from '../../src/intake/index.ts';
import type { Session } from '../../src/session.ts';
import { catalogue, TODAY } from './catalogue.ts';

const parse = (text: string) => parseSession(text, { file: 'visit.yaml', catalogue, today: TODAY });
const example = (name: string): string => readFileSync(new URL(`../../examples/${name}`, import.meta.url), 'utf8');

/** A session of these lines after a client of 74; fails the test where it is refused. */
function session(lines: string): Session {
  const result = parse(`format: 1\nclient: {ref: M-1, sex: female, age: 74}\nassessed: 2026-05-11\n${lines}`);
  expect(result.problems.map(formatProblem).filter((line) => !line.includes(' note: '))).toEqual([]);
  if (result.session === null) throw new Error('no session');
  return result.session;
}

function problemsOf(lines: string): string[] {
  return parse(`format: 1\nclient: {ref: M-1, sex: female, age: 74}\nassessed: 2026-05-11\n${lines}`).problems.map(formatProblem);
}

describe('examples', () => {
  const names = readdirSync(new URL('../../examples/', import.meta.url)).filter((name) => name.endsWith('.yaml'));
  test.each(['steady-66.yaml', 'copd-74.yaml', 'chair-86.yaml'])('%s is read without a remark', (name) => {
    expect(names).toContain(name);
    const { session: read, problems } = parse(example(name));
    expect(problems).toEqual([]);
    expect(read).not.toBeNull();
    expect(example(name).split('\n')[0]).toContain('invented');
  });

  test('the contract example becomes this session', () => {
    const { session: read } = parse(example('copd-74.yaml'));
    expect(read?.client).toEqual({ ref: 'M-207', sex: 'female', age: 74, setting: 'community', settingAssumed: false });
    expect(read?.fields).toMatchObject({
      'history.falls_past_year': 1,
      'history.feels_unsteady': 'yes',
      'health.oral_steroid': 'yes',
      'health.oral_steroid.daily_mg': 7.5,
      'health.oral_steroid.months': 14,
      'health.osteoporosis': 'unknown',
      'vitals.bp_lying_systolic': 138,
      'vitals.bp_standing_diastolic': 70,
    });
    expect(read?.tests).toContainEqual({
      test: 'single_leg_stance_eyes_open',
      side: 'left',
      reading: { outcome: 'measured', trials: [3, 3.4, 2.9], ceiling: 30 },
    });
    expect(read?.tests).toContainEqual({
      test: 'five_times_sit_to_stand',
      side: null,
      reading: { outcome: 'unable', reason: 'could not rise without arms' },
    });
  });

  test('the file full of mistakes names every mistake at its place', () => {
    const { session: read, problems } = parse(example('mistakes.yaml'));
    expect(read).toBeNull();
    expect(problems.map((problem) => `${problem.line}:${problem.column} ${problem.code}`)).toEqual([
      '3:27 not_a_choice',
      '3:35 impossible',
      '3:40 unknown_key',
      '4:11 bad_date',
      '7:16 contradiction',
      '8:19 not_yes_no',
      '11:3 unknown_key',
      '12:38 doubtful',
      '12:52 unusual',
      '12:52 unusual',
      '12:52 contradiction',
      '14:20 decimal_comma',
      '15:22 bad_test_form',
      '16:28 bare_outcome',
      '17:40 inexact_number',
      '17:51 inexact_number',
      '18:18 above_ceiling',
      '19:21 unit_in_number',
      '20:21 clock_time',
      '21:3 unknown_key',
    ]);
  });
});

describe('answers', () => {
  test.each([
    ['yes', 'yes'],
    ['no', 'no'],
    ['true', 'yes'],
    ['false', 'no'],
    ['Yes', 'yes'],
    ['NO', 'no'],
    ['unknown', 'unknown'],
  ])('%s is read as %s', (written, stored) => {
    expect(session(`history: {feels_unsteady: ${written}}`).fields).toEqual({ 'history.feels_unsteady': stored });
  });

  test.each(['', '~', 'null'])('an empty answer (%s) is not recorded', (written) => {
    expect(session(`history:\n  feels_unsteady: ${written}\nhealth:\ntests:\n  timed_up_and_go:\n`)).toMatchObject({
      fields: {},
      tests: [],
    });
  });

  test('several falls are stored as two, with the word', () => {
    expect(session('history: {falls_past_year: several}').fields).toEqual({
      'history.falls_past_year': 2,
      'history.falls_past_year_text': 'several',
    });
  });

  test.each([
    ['no', { 'health.oral_steroid': 'no' }],
    ['unknown', { 'health.oral_steroid': 'unknown' }],
    ['{months: 3}', { 'health.oral_steroid': 'yes', 'health.oral_steroid.months': 3 }],
  ])('oral_steroid: %s', (written, stored) => {
    expect(session(`health: {oral_steroid: ${written}}`).fields).toEqual(stored);
  });
});

describe('the client', () => {
  const client = (text: string, assessed = '2026-05-11') => parse(`format: 1\nclient: {${text}}\nassessed: ${assessed}\n`);

  test('a reference keeps its leading zeros', () => {
    expect(client('ref: 007, sex: male, age: 70').session?.client.ref).toBe('007');
  });

  test('setting is community where the file does not say, and marked as assumed', () => {
    expect(client('ref: a, sex: not recorded, age: 70').session?.client).toMatchObject({
      sex: 'not recorded',
      setting: 'community',
      settingAssumed: true,
    });
  });

  test.each([
    ['1952-05-11', '2026-05-11', 74],
    ['1952-05-12', '2026-05-11', 73],
    ['1952-02-29', '2025-02-28', 72],
    ['1952-02-29', '2025-03-01', 73],
    ['1952-02-29', '2024-02-29', 72],
    ['1952-12-31', '2026-01-01', 73],
  ])('born %s, seen %s: %i years', (born, assessed, age) => {
    expect(client(`ref: a, sex: female, born: ${born}`, assessed).session?.client).toMatchObject({ age, born });
  });

  test('a visit today is no visit in the future', () => {
    expect(client('ref: a, sex: male, age: 70', TODAY).session).not.toBeNull();
    expect(client('ref: a, sex: male, age: 70', '2026-06-02').problems.map(({ code }) => code)).toEqual(['future_date']);
  });
});

describe('forms of a result', () => {
  test.each([
    ['timed_up_and_go: 12.8', { outcome: 'measured', trials: [12.8] }],
    ['timed_up_and_go: [12.8, 12.1]', { outcome: 'measured', trials: [12.8, 12.1] }],
    [
      'timed_up_and_go: {trials: [12.8], aid: stick, note: slow turn}',
      { outcome: 'measured', trials: [12.8], aid: 'stick', note: 'slow turn' },
    ],
    ['timed_up_and_go: {declined: tired}', { outcome: 'declined', reason: 'tired' }],
    [
      'timed_up_and_go: {unsafe: dizzy, why: medical, note: sat down}',
      { outcome: 'unsafe', reason: 'dizzy', why: 'medical', note: 'sat down' },
    ],
    ['tandem_stance: 0', { outcome: 'measured', trials: [0] }],
    ['tandem_stance: {value: 18, ceiling: 30}', { outcome: 'measured', trials: [18], ceiling: 30 }],
    ['gait_speed_usual: 0.1', { outcome: 'measured', trials: [0.1] }],
    [
      'gait_speed_usual: {time: 3, distance: 2.4, start: moving}',
      { outcome: 'measured', trials: [0.8], course: { distanceM: 2.4, timeS: 3, start: 'moving' } },
    ],
    ['gait_speed_usual: {time: [5, 4], distance: 4}', { outcome: 'measured', trials: [0.8, 1], course: { distanceM: 4 } }],
    [
      'gait_speed_usual: {value: 0.9, distance: 6, start: standing}',
      { outcome: 'measured', trials: [0.9], course: { distanceM: 6, start: 'standing' } },
    ],
    ['single_leg_stance_eyes_open: 6.2', { outcome: 'measured', trials: [6.2] }],
  ])('%s', (line, reading) => {
    const [test_] = session(`tests: {${line}}`).tests;
    expect(test_?.side).toBeNull();
    expect(test_?.reading).toEqual(reading);
  });

  test('sides: keys beside them hold for both, a side may have its own outcome', () => {
    const { tests } = session(
      'tests: {single_leg_stance_eyes_open: {left: {declined: sore knee}, right: {trials: [30, 12], ceiling: 45}, ceiling: 30}}',
    );
    expect(tests).toEqual([
      { test: 'single_leg_stance_eyes_open', side: 'right', reading: { outcome: 'measured', trials: [30, 12], ceiling: 45 } },
      { test: 'single_leg_stance_eyes_open', side: 'left', reading: { outcome: 'declined', reason: 'sore knee' } },
    ]);
  });

  test('unusual values and silent ceilings are kept and noted', () => {
    const read = session('vitals: {spo2_rest: 79}\ntests: {single_leg_stance_eyes_open: 30}');
    expect(read.fields['vitals.spo2_rest']).toBe(79);
    expect(read.notes).toHaveLength(2);
    expect(read.notes.join('\n')).toMatch(/79 % is unusual[\s\S]*exactly 30 s and no ceiling stated/);
  });
});

describe('what to write instead', () => {
  test.each([
    ['tests: {timed_up_and_go: "12,8"}', '12.8'],
    ['tests: {timed_up_and_go: 12.8 s}', 'write 12.8 instead'],
    ['tests:\n  timed_up_and_go: 12:30', 'write 750 for minutes and seconds'],
    ['tests:\n  timed_up_and_go: 0:12.5', 'write 12.5 for minutes and seconds'],
    ['tests:\n  five_times_sit_to_stand: unable', 'write {unable: the reason} instead'],
    ['tests:\n  five_times_sit_to_stand: refused', 'write {declined: the reason} instead'],
    ['tests:\n  5STS: 12', 'write five_times_sit_to_stand instead'],
    ['tests:\n  five_time_sit_to_stand: 12', 'write five_times_sit_to_stand instead'],
    ['health: {lung_condition: COPD}', 'write copd instead'],
    ['health: {osteoporosis: unknwon}', 'write unknown instead'],
    ['history: {falls_past_year: many}', 'several for two or more'],
    ['vitals: {bp_lying: 138-78}', 'such as 138/78'],
    ['tests: {tandem_stance: 12}', '{value: 12, ceiling: 12}'],
  ])('%s', (lines, hint) => {
    const [problem] = problemsOf(lines);
    expect(problem).toContain(hint);
  });

  test('a line reads file:line:column: what; write … instead', () => {
    expect(problemsOf('health: {lung_condition: COPD}')).toEqual([
      'visit.yaml:4:26: `COPD` cannot stand here; write copd instead',
    ]);
  });

  test('control characters of a file never reach the terminal', () => {
    const text = problemsOf('history: {"\\e[31mfalls": 1}\nhealth: {osteoporosis: "\\e[2J"}').join('\n');
    expect(text).toContain('unknown key');
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });
});

describe('hostile files', () => {
  test('a megabyte is refused at once', () => {
    expect(parse('a'.repeat(1_000_001)).problems.map(({ code }) => code)).toEqual(['too_large']);
  });

  test('an alias bomb is refused unread', () => {
    const lines = [
      'a0: &a0 [x, x]',
      ...Array.from({ length: 40 }, (_item, index) => `a${index + 1}: &a${index + 1} [*a${index}, *a${index}]`),
    ];
    const { session: read, problems } = parse(lines.join('\n'));
    expect(read).toBeNull();
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(['alias']));
  });

  test.each([
    ['brackets', '['.repeat(100_000)],
    ['a few brackets', `a: ${'['.repeat(300)}${']'.repeat(300)}`],
    ['lines', Array.from({ length: 1200 }, (_item, index) => `${' '.repeat(index)}a:`).join('\n')],
  ])('%s nested without end are refused, not a crash', (_name, text) => {
    expect(parse(text).problems[0]?.code).toBe('yaml_syntax');
  });

  test('thousands of wrong keys take a second, not a minute', () => {
    const text = `tests:\n${Array.from({ length: 30_000 }, (_item, index) => `  key${index}: 1`).join('\n')}`;
    const start = performance.now();
    expect(parse(text).session).toBeNull();
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});
