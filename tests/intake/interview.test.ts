/** The questions of `footing new`: what is asked when, what is taken as typed, and that the file written is the visit that was told. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { parseSession } from '../../src/intake/index.ts';
import { chooseTests } from '../../src/intake/interview/choose-tests.ts';
import { type Answers, questionsFor } from '../../src/intake/interview/questions.ts';
import { leafTyped, resultTyped } from '../../src/intake/interview/typed.ts';
import { type InterviewOptions, judge, valueTyped, visitTree } from '../../src/intake/interview/visit.ts';
import { visitText } from '../../src/intake/write-visit.ts';
import { testEvidence } from '../support/evidence.ts';
import { exampleFiles } from '../support/run.ts';

const evidence = testEvidence();
const options: InterviewOptions = { catalogue: evidence, today: '2026-05-20', all: false };
const ids = (answers: Answers, all = false): string[] => questionsFor(answers, evidence, all).map(({ id }) => id);

describe('which questions are asked', () => {
  it('begins with reference, sex, age and ends with the tests', () => {
    expect(ids({}).slice(0, 3)).toEqual(['client.ref', 'client.sex', 'client.age']);
    expect(ids({}).at(-1)).toBe('tests');
  });
  it('asks for an injury only where there may have been a fall', () => {
    expect(ids({ 'history.falls_past_year': '0' })).not.toContain('history.fall_injury');
    expect(ids({ 'history.falls_past_year': '' })).toContain('history.fall_injury');
  });
  it('asks only for the tests that were done, a walk with its course, a stance with its ceiling', () => {
    const answers = {
      tests: 'tug gait_speed_usual sls',
      'tests.gait_speed_usual.distance': '4',
      'tests.gait_speed_usual': '4.9',
      'tests.single_leg_stance_eyes_open.right': '4.2',
    };
    expect(ids(answers).slice(ids(answers).indexOf('tests') + 1)).toEqual([
      'tests.timed_up_and_go',
      'tests.gait_speed_usual.distance',
      'tests.gait_speed_usual',
      'tests.gait_speed_usual.start',
      'tests.single_leg_stance_eyes_open.right',
      'tests.single_leg_stance_eyes_open.left',
      'tests.single_leg_stance_eyes_open.ceiling',
    ]);
  });
  it('--all asks for red flags and medicines too', () => {
    expect(ids({}, true)).toEqual(expect.arrayContaining(['redflags.chest_pain', 'medicines.count']));
  });
});

describe('what is typed', () => {
  it.each([
    ['12.8', 12.8],
    ['4.2 6.0 5.1', [4.2, 6, 5.1]],
    ['unable could not rise without arms', { unable: 'could not rise without arms' }],
    ['Declined: sore wrist', { declined: 'sore wrist' }],
    ['unsafe balance had to be caught', { unsafe: 'had to be caught', why: 'balance' }],
  ])('result %s', (text, value) => expect(resultTyped(text)).toEqual({ value }));
  it.each([
    ['12,8', 'write 12.8 with a point'],
    ['unable', 'write the reason'],
    ['12.8 s', 'write'],
    ['unsafe had to be caught', 'balance, medical or other'],
  ])('result %s is helped', (text, help) => expect(JSON.stringify(resultTyped(text))).toContain(help));
  it('answers, doses and pressures by their short forms', () => {
    expect(leafTyped({ kind: 'answer' }, 'u', '2026-05-20')).toEqual({ value: 'unknown' });
    expect(leafTyped({ kind: 'steroid' }, '7.5 mg 14 months', '2026-05-20')).toEqual({ value: { daily_mg: 7.5, months: 14 } });
    expect(leafTyped({ kind: 'pressure' }, '138 over 78', '2026-05-20')).toEqual({ value: '138/78' });
    expect(leafTyped({ kind: 'date' }, 't', '2026-05-20')).toEqual({ value: '2026-05-20' });
  });
  it('an o of other is not taken for osteoporosis, nor a for copd', () => {
    expect(leafTyped({ kind: 'choice', options: ['none', 'copd', 'asthma'] }, 'a', '')).toEqual({ value: 'asthma' });
    expect(leafTyped({ kind: 'choice', options: ['stick', 'seat'] }, 's', '')).toHaveProperty('problem');
  });
});

describe('names of tests', () => {
  const names = (text: string): unknown => {
    const chosen = chooseTests(text, evidence.tests);
    return 'tests' in chosen ? chosen.tests.map(({ id }) => id) : chosen.problem;
  };
  it('takes ids, short names and beginnings, in the order of the catalogue', () => {
    expect(names('sls, 5sts TUG')).toEqual(['timed_up_and_go', 'five_times_sit_to_stand', 'single_leg_stance_eyes_open']);
  });
  it('asks which one where a name fits several, and helps with a slip', () => {
    expect(names('gait')).toContain('gait_speed_usual or gait_speed_fast');
    expect(names('tugg')).toContain('perhaps');
  });
  it('enters a derived test by its parts', () => {
    expect(names('four_stage_balance')).toEqual(expect.arrayContaining(['side_by_side_stance', 'tandem_stance']));
  });
});

describe('what is said of an answer', () => {
  const question = (id: string, answers: Answers = {}) => {
    const found = questionsFor(answers, evidence, false).find((each) => each.id === id);
    if (found === undefined) throw new Error(`no question ${id}`);
    return found;
  };
  const answers: Answers = { 'client.ref': 'M-207', 'client.sex': 'f', 'client.age': '74', assessed: '2026-05-11', tests: 'tug' };
  it('the reader of files decides: impossible, unusual, fine', () => {
    const tug = question('tests.timed_up_and_go', answers);
    expect(judge(tug, '1.28', answers, options)).toMatchObject({ verdict: 'problem' });
    expect(judge(tug, '128', answers, options)).toMatchObject({ verdict: 'ask_again' });
    expect(judge(tug, '12.8', answers, options)).toEqual({ verdict: 'ok' });
  });
  it('a contradiction with an earlier answer is seen', () => {
    const lowest = question('vitals.spo2_lowest');
    expect(judge(lowest, '98', { ...answers, 'vitals.spo2_rest': '94' }, options)).toMatchObject({ verdict: 'ask_again' });
  });
  it('what every visit needs cannot be left out', () => {
    expect(judge(question('client.ref'), ' ', {}, options)).toMatchObject({ verdict: 'problem' });
    expect(judge(question('history.feels_unsteady'), '', {}, options)).toEqual({ verdict: 'ok' });
  });
  it('a day to come is refused', () => {
    expect(judge(question('assessed'), '2062-05-11', answers, options)).toMatchObject({ verdict: 'problem' });
  });
});

describe('the file that is written', () => {
  const text = (answers: Answers): string =>
    visitText({ tree: visitTree(answers, options), emptyKeys: [], emptyTests: [], tests: evidence.tests });
  const read = (file: string) => parseSession(file, { file: 'visit.yaml', catalogue: evidence, today: options.today });

  it('the visit of the 74-year-old, told question by question, is that of the example', () => {
    const told: Answers = {
      'client.ref': 'M-207',
      'client.sex': 'f',
      'client.age': '74',
      assessed: '2026-05-11',
      'client.setting': '',
      'history.falls_past_year': '1',
      'history.fall_injury': 'n',
      'history.unable_to_rise': 'n',
      'history.loss_of_consciousness': 'n',
      'history.feels_unsteady': 'y',
      'history.worries_about_falling': 'y',
      'health.lung_condition': 'c',
      'health.home_oxygen': 'y',
      'health.oral_steroid': '7.5 14',
      'health.osteoporosis': 'u',
      'health.vertebral_fracture': 'n',
      'health.clinical_frailty_scale': '4',
      'health.walking_aid': 'none',
      'vitals.spo2_rest': '94',
      'vitals.spo2_lowest': '88',
      'vitals.heart_rate_rest': '84',
      'vitals.bp_lying': '138/78',
      'vitals.bp_standing': '121/70',
      tests: 'tug gait_speed_usual 5sts sls tandem',
      'tests.timed_up_and_go': '12.8',
      'tests.gait_speed_usual.distance': '4',
      'tests.gait_speed_usual': '4.9',
      'tests.gait_speed_usual.start': 's',
      'tests.five_times_sit_to_stand': 'unable could not rise without arms',
      'tests.single_leg_stance_eyes_open.right': '4.2 6.0 5.1',
      'tests.single_leg_stance_eyes_open.left': '3.0 3.4 2.9',
      'tests.single_leg_stance_eyes_open.ceiling': '30',
      'tests.tandem_stance': '8.5',
    };
    const example = read(exampleFiles()['examples/copd-74.yaml'] ?? '');
    expect(read(text(told)).problems).toEqual([]);
    expect(read(text(told)).session).toEqual(example.session);
  });

  it('an empty form is a file whose lines without a value are not recorded', () => {
    const keys = questionsFor({}, evidence, true)
      .filter(({ section }) => section !== 'Tests')
      .map(({ id }) => id);
    const blank = visitText({ tree: {}, emptyKeys: keys, emptyTests: evidence.tests.map(({ id }) => id), tests: evidence.tests });
    expect(read(blank).problems.map(({ path }) => path)).toEqual(['client.ref', 'client.sex', 'client.age', 'assessed']);
    const filled = blank
      .replace('  ref:', '  ref: M-207')
      .replace('  sex:', '  sex: female')
      .replace('  age:', '  age: 74')
      .replace('assessed:', 'assessed: 2026-05-11');
    expect(read(filled).problems).toEqual([]);
    expect(read(filled).session?.fields).toEqual({});
    expect(read(filled).session?.tests).toEqual([]);
  });

  it('whatever is told in words of any kind, what is read back is what was told', () => {
    const words = fc.oneof(
      fc.string({ maxLength: 30 }),
      fc.constantFrom('no: yes', '# x', '- a', '"q"', 'NO', 'null', '{a}', "it's", '0x1f'),
    );
    fc.assert(
      fc.property(words, words, fc.float({ min: 4, max: 60, noNaN: true }), (reason, ref, seconds) => {
        const told: Answers = {
          'client.ref': ref,
          'client.sex': 'm',
          'client.age': '80',
          assessed: 't',
          tests: 'tug 5sts',
          'tests.timed_up_and_go': seconds.toFixed(1),
          'tests.five_times_sit_to_stand': `unable ${reason}`,
        };
        for (const question of questionsFor(told, evidence, false)) {
          if (judge(question, told[question.id] ?? '', told, options).verdict === 'problem') return;
        }
        const tree = visitTree(told, options);
        expect(parse(text(told))).toEqual(tree);
        expect(read(text(told)).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('every question of the long form takes its own example or is left out', () => {
    for (const question of questionsFor({}, evidence, true))
      expect(valueTyped(question, '', options) === undefined || question.usual !== undefined).toBe(true);
  });
});
