/** The interview about tests, on an invented catalogue: which test is meant, and what is asked of it. */
import { describe, expect, it } from 'vitest';
import { chooseTests } from '../../src/intake/interview/choose-tests.ts';
import type { Answers } from '../../src/intake/interview/questions.ts';
import { testQuestions } from '../../src/intake/interview/test-questions.ts';
import { definition } from './invented.ts';
import { TESTS } from './invented-interview.ts';

describe('names of tests', () => {
  const names = (text: string): string => {
    const chosen = chooseTests(text, TESTS);
    return 'tests' in chosen ? chosen.tests.map(({ id }) => id).join(' ') : `problem: ${chosen.problem}`;
  };
  it('in any order and with any sign between, in the order of the catalogue, each once', () => {
    expect(names('sls, WLK;walk  leg')).toBe('walk leg');
    expect(names('')).toBe('');
    expect(names(' , ')).toBe('');
  });
  it('by the beginning of one; of several it is asked which', () => {
    expect(names('tand')).toBe('tandem');
    expect(names('gait_u')).toBe('gait_usual');
    expect(names('gai')).toBe('problem: gai can be gait_usual or gait_fast; write which');
    expect(names('walk st')).toBe('stance walk'.split(' ').reverse().join(' '));
  });
  it('one that is worked out is entered by its parts', () => {
    expect(names('both')).toBe('walk tandem');
    expect(names('bot')).toBe('walk tandem');
  });
  it('none: perhaps the nearest, or where they are listed', () => {
    expect(names('walk tandmm')).toBe('problem: there is no test tandmm; perhaps tandem');
    expect(names('zzzzzz')).toBe('problem: there is no test zzzzzz; ? lists them');
  });
});

describe('questions of a test', () => {
  const of = (id: string, answers: Answers = {}) => {
    const test = TESTS.find((each) => each.id === id);
    if (test === undefined) throw new Error(id);
    return testQuestions(test, answers);
  };
  it('a result, with what is usual', () => {
    expect(of('walk')).toEqual([
      {
        id: 'tests.walk',
        section: 'Tests',
        ask: 'Walk',
        hint: 'usually 5 to 60 s; trials apart by blanks; or unable ..., declined ... with the reason',
        form: { kind: 'result' },
        path: ['tests', 'walk'],
        required: false,
        card: 'walk',
        detail: 'x',
      },
    ]);
    expect(of('score')[0]?.hint).toMatch(/^in points; trials/);
    expect(of('stance')[0]?.hint).toMatch(/^in s, seldom over 50; trials/);
    expect(testQuestions(definition({ unusual: { below: 5, why: 'x' } }), {})[0]?.hint).toMatch(/^in s; trials/);
  });
  it('each side, and where the watch is stopped once there is a number', () => {
    expect(of('leg').map(({ id, ask: words, path }) => [id, words, path.join('.')])).toEqual([
      ['tests.leg.right', 'One leg, right', 'tests.leg.right'],
      ['tests.leg.left', 'One leg, left', 'tests.leg.left'],
    ]);
    for (const side of ['right', 'left'])
      expect(of('leg', { [`tests.leg.${side}`]: '9' }).map(({ id }) => id)).toEqual([
        'tests.leg.right',
        'tests.leg.left',
        'tests.leg.ceiling',
      ]);
    expect(of('leg', { 'tests.leg.right': '9' }).at(-1)).toEqual({
      id: 'tests.leg.ceiling',
      section: 'Tests',
      ask: 'One leg, where the watch is stopped at the latest, in s',
      hint: 'such as 30, 45; leave empty where it runs on',
      form: { kind: 'leaf', leaf: { kind: 'number' } },
      path: ['tests', 'leg', 'ceiling'],
      required: false,
      card: 'leg',
    });
    expect(of('leg', { 'tests.leg.right': 'unable 9' })).toHaveLength(2);
    expect(of('stance', { 'tests.stance': '9' })).toHaveLength(2);
  });
  it('not where the catalogue has a ceiling, or none is usual', () => {
    expect(of('tandem', { 'tests.tandem': '9' })).toHaveLength(1);
    expect(of('walk', { 'tests.walk': '9' })).toHaveLength(1);
  });
  it('a walk: its course, its time or speed, and how it began', () => {
    const course = { 'tests.gait_usual.distance': '4' };
    expect(of('gait_usual').map(({ id, ask: words, hint }) => [id, words, hint.split(';')[0]])).toEqual([
      [
        'tests.gait_usual.distance',
        'Gait, usual, length of the timed course in m',
        'leave empty where you have the speed in m/s',
      ],
      ['tests.gait_usual', 'Gait, usual', 'usually 0.3 to 2 m/s'],
    ]);
    expect(of('gait_usual', course)[1]).toMatchObject({
      ask: 'Gait, usual, time over 4 m',
      hint: expect.stringMatching(/^in s; /),
    });
    expect(of('gait_usual', course)).toHaveLength(2);
    expect(of('gait_usual', { 'tests.gait_usual': '4.9' })).toHaveLength(2);
    expect(of('gait_usual', { ...course, 'tests.gait_usual': 'unable x' })).toHaveLength(2);
    expect(of('gait_usual', { ...course, 'tests.gait_usual': '4.9' })[2]).toMatchObject({
      id: 'tests.gait_usual.start',
      ask: 'Gait, usual, start of the timed part',
      hint: 'standing or moving',
      form: { leaf: { kind: 'choice', options: ['standing', 'moving'] } },
    });
  });
});
