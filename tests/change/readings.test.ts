/** How one test of one visit was done, what forbids a comparison, and what only belongs beside it. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import {
  type DoneTest,
  doneTest,
  isUnable,
  kindOf,
  protocolConflicts,
  protocolRemarks,
  resultAt,
} from '../../src/change/readings.ts';
import type { RecordedTest } from '../../src/session.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { comparison, done, doneResult, missingDone, result, unableDone } from './invented.ts';
import { evidence, FIRST, visit } from './support.ts';

describe('kinds of result', () => {
  it('unable, or left out because the balance was not good enough, is the worst result', () => {
    expect(isUnable(result(null, { outcome: 'unable' }))).toBe(true);
    expect(isUnable(result(null, { outcome: 'unsafe', why: 'balance' }))).toBe(true);
    expect(isUnable(result(null, { outcome: 'unsafe', why: 'medical' }))).toBe(false);
    expect(isUnable(result(null, { outcome: 'declined', why: 'balance' }))).toBe(false);
    expect(isUnable(result(3))).toBe(false);
  });
  it.each([
    ['value', done(0)],
    ['unable', unableDone],
    ['unable', doneResult(null, { outcome: 'unsafe', why: 'balance' })],
    ['missing', doneResult(null, { outcome: 'unsafe', why: 'medical' })],
    ['missing', doneResult(null, { outcome: 'declined' })],
    ['missing', done(null)],
    ['missing', doneResult(3, { outcome: 'not_tested' as 'declined' })],
    ['missing', missingDone],
  ])('%s (%#)', (kind, given) => expect(kindOf(given)).toBe(kind));
});

describe('how a test was done', () => {
  const of = (tests: readonly RecordedTest[], test: string, side: 'right' | 'left' | null = null): DoneTest => {
    const session = visit(FIRST, tests);
    return doneTest({ session, assessment: assess(session, evidence) }, test, side);
  };
  it('as it was written down, the aid without capitals and blanks', () => {
    const course = { distanceM: 4, start: 'standing' as const };
    const reading = measured(0.9, { aid: ' Stick ', course });
    expect(of([recorded('gait_speed_usual', reading)], 'gait_speed_usual')).toMatchObject({
      assessed: FIRST,
      aid: 'stick',
      chairCm: null,
      ceiling: null,
      course,
    });
    expect(of([recorded('five_times_sit_to_stand', measured(12, { chairCm: 43 }))], 'five_times_sit_to_stand').chairCm).toBe(43);
    expect(of([recorded('tandem_stance', measured(20, { ceiling: 30 }))], 'tandem_stance').ceiling).toBe(30);
  });
  it('of its own side only', () => {
    const leg = 'single_leg_stance_eyes_open';
    const both = [
      recorded(leg, measured(20, { ceiling: 30 }), 'right'),
      recorded(leg, measured(40, { ceiling: 45, aid: 'rail' }), 'left'),
    ];
    expect([of(both, leg, 'right').ceiling, of(both, leg, 'right').aid]).toEqual([30, null]);
    expect([of(both, leg, 'left').ceiling, of(both, leg, 'left').aid]).toEqual([45, 'rail']);
    expect([of(both, leg, 'right').result?.value, of(both, leg, 'left').result?.value]).toEqual([20, 40]);
  });
  it('nothing where it is not in the file or gave no number', () => {
    const none = { aid: null, chairCm: null, ceiling: null, course: null };
    expect(of([], 'timed_up_and_go')).toEqual({ assessed: FIRST, result: null, ...none });
    expect(of([recorded('timed_up_and_go', unable)], 'timed_up_and_go')).toMatchObject(none);
  });
  it('of a total what its parts say, the first of several, and no ceiling of its own', () => {
    const total = of(
      [
        recorded('gait_speed_usual', measured(0.9, { aid: 'stick', course: { distanceM: 4, start: 'standing' } })),
        recorded('five_times_sit_to_stand', measured(12, { chairCm: 45, aid: 'table' })),
        ...['tandem_stance', 'semi_tandem_stance', 'side_by_side_stance'].map((test) =>
          recorded(test, measured(10, { ceiling: 10 })),
        ),
      ],
      'short_physical_performance_battery',
    );
    expect(total).toMatchObject({ aid: 'stick', chairCm: 45, ceiling: null, course: { distanceM: 4 } });
  });
});

it('of a total the aid of a part that has sides counts too', () => {
  const session = visit(FIRST, [recorded('leg', measured(20, { aid: 'rail' }), 'right')]);
  const total = result(3, { test: 'total', derived_from: [{ test: 'leg', value: 20 }] });
  const assessment = { ...assess(visit(FIRST, []), evidence), tests: [total] };
  expect(doneTest({ session, assessment }, 'total', null).aid).toBe('rail');
});

describe('conflicts', () => {
  const course = (distanceM?: number, start?: 'standing' | 'moving') => ({
    course: {
      ...(distanceM === undefined ? {} : { distanceM }),
      ...(start === undefined ? {} : { start }),
    } as NonNullable<DoneTest['course']>,
  });
  it.each<[string, Partial<DoneTest>, Partial<DoneTest>, string[]]>([
    ['nothing recorded', {}, {}, []],
    ['the same aid', { aid: 'stick' }, { aid: 'stick' }, []],
    ['another aid', { aid: 'stick' }, { aid: 'frame' }, ['done with another aid (stick before, frame now)']],
    ['an aid or not a word of one', {}, { aid: 'stick' }, ['done with another aid (none before, stick now)']],
    ['no aid, said or not', { aid: 'none' }, {}, []],
    ['another chair', { chairCm: 43 }, { chairCm: 48 }, ['done from another chair (seat 43 cm before, 48 cm now)']],
    ['the same chair', { chairCm: 43 }, { chairCm: 43 }, []],
    ['a chair at one visit only', { chairCm: 43 }, {}, []],
    ['a chair at the other visit only', {}, { chairCm: 43 }, []],
    ['another course', course(4), course(10), ['walked over 4 m before and 10 m now']],
    ['the same course', course(4), course(4), []],
    ['a course at one visit only', course(4), {}, []],
    ['a course at the other visit only', {}, course(4), []],
    ['another start', course(4, 'standing'), course(4, 'moving'), ['standing start before and moving start now']],
    ['the same start', course(4, 'moving'), course(4, 'moving'), []],
    ['a start at one visit only', course(4), course(4, 'moving'), []],
    ['a start at one visit and no course at the other', course(4, 'standing'), {}, []],
    ['no course at one visit and a start at the other', {}, course(4, 'standing'), []],
    ['a start at the other visit only', course(4, 'moving'), course(4), []],
    [
      'several',
      { aid: 'stick', chairCm: 43, ...course(4, 'standing') },
      { chairCm: 48, ...course(10, 'moving') },
      [
        'done with another aid (stick before, none now)',
        'done from another chair (seat 43 cm before, 48 cm now)',
        'walked over 4 m before and 10 m now',
        'standing start before and moving start now',
      ],
    ],
  ])('%s', (_, before, after, expected) => expect(protocolConflicts(done(1, before), done(2, after))).toEqual(expected));
  it('only of two numbers', () => {
    const other = { aid: 'stick' };
    expect(protocolConflicts(unableDone, done(2, other))).toEqual([]);
    expect(protocolConflicts(done(2, other), unableDone)).toEqual([]);
    expect(protocolConflicts(missingDone, done(2, other))).toEqual([]);
  });
});

describe('remarks', () => {
  const tried = (...trials: number[]) => doneResult(1, { trials });
  it('more trials at one of the visits', () => {
    expect(protocolRemarks(tried(1), tried(1, 2))).toEqual(['1 trial before and 2 now: more trials favour the better value']);
    expect(protocolRemarks(tried(1, 2, 3), tried(1))).toEqual(['3 trials before and 1 now: more trials favour the better value']);
    expect(protocolRemarks(tried(1, 2), tried(2, 3))).toEqual([]);
  });
  const walked = { course: { distanceM: 4, start: 'standing' as const } };
  it('a course at one of the visits only, beside the trials', () => {
    const words = 'the course walked is recorded at one of the two visits only';
    expect(protocolRemarks(done(1, walked), done(1))).toEqual([words]);
    expect(protocolRemarks(done(1), done(1, walked))).toEqual([words]);
    expect(protocolRemarks(done(1, walked), done(1, walked))).toEqual([]);
    expect(protocolRemarks(tried(1), doneResult(1, { trials: [1, 2] }, walked))).toHaveLength(2);
  });
  it('only of two numbers', () => {
    expect(protocolRemarks(unableDone, done(1, walked))).toEqual([]);
    expect(protocolRemarks(done(1, walked), missingDone)).toEqual([]);
  });
});

describe('a result as it is shown', () => {
  it('with the standing of the primary table only', () => {
    const others = comparison({ primary: false, percentile: 9, source: 'table-b', standing: 'well_below' });
    const shown = doneResult(12, { comparisons: [others, comparison()], reason: 'slow', at_least: true }, { aid: 'stick' });
    expect(resultAt(shown)).toEqual({
      assessed: '2026-02-02',
      outcome: 'measured',
      value: 12,
      at_least: true,
      aid: 'stick',
      reason: 'slow',
      standing: 'expected',
      percentile: 40,
      band: { sex: 'all', age_min: 70, age_max: 74 },
      norm_source: 'table-a',
    });
    expect(resultAt(doneResult(12, { comparisons: [others] }))).toMatchObject({ standing: null, norm_source: null });
  });
  it('of a test that is not in the file says so', () =>
    expect(resultAt(missingDone)).toEqual({
      assessed: '2026-02-02',
      outcome: 'not_recorded',
      value: null,
      at_least: false,
      aid: null,
      reason: null,
      standing: null,
      percentile: null,
      band: null,
      norm_source: null,
    }));
});
