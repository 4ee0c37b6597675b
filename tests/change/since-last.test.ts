/** Falls since the last visit: old falls of the past year are never counted as new. */
import { describe, expect, it } from 'vitest';
import { fallsInWords, onNewFallsOnly, sinceLastOf } from '../../src/change/since-last.ts';
import type { Fields } from '../../src/session.ts';
import { recorded } from '../support/client.ts';
import { change, FIRST, LATER, visit } from './support.ts';

const steady: Fields = {
  'history.fall_injury': 'no',
  'history.unable_to_rise': 'no',
  'history.loss_of_consciousness': 'no',
  'history.feels_unsteady': 'yes',
  'history.worries_about_falling': 'no',
  'health.clinical_frailty_scale': 3,
};
const tests = [recorded('gait_speed_usual', 1.1), recorded('timed_up_and_go', 9)];
const two = (earlier: Fields, later: Fields, dates: readonly [string, string] = [FIRST, LATER]) =>
  change([visit(dates[0], tests, { ...steady, ...earlier }), visit(dates[1], tests, { ...steady, ...later })]).risk;

describe('falls already counted', () => {
  it('the level of the pathway stands, and beside it what only new falls would give', () => {
    const risk = two({ 'history.falls_past_year': 2 }, { 'history.falls_past_year': 2, 'since_last.falls': 0 });
    expect(risk).toMatchObject({ before: 'high', after: 'high', direction: 'same', on_new_falls_only: { level: 'low' } });
    expect(risk.falls).toBe('no fall since the last visit');
    expect(risk.since_last).toMatchObject({ falls: 0, injury: null });
  });

  it('an old injury is not counted again either', () => {
    const risk = two(
      { 'history.falls_past_year': 1, 'history.fall_injury': 'yes' },
      { 'history.falls_past_year': 1, 'history.fall_injury': 'yes', 'since_last.falls': 0 },
    );
    expect(risk).toMatchObject({ after: 'high', on_new_falls_only: { level: 'low' } });
  });

  it('new falls make no difference to the level', () => {
    const risk = two(
      { 'history.falls_past_year': 0 },
      { 'history.falls_past_year': 2, 'since_last.falls': 2, 'since_last.injury': 'yes' },
    );
    expect(risk).toMatchObject({ before: 'low', after: 'high', direction: 'higher', on_new_falls_only: null });
    expect(risk.falls).toBe('2 falls since the last visit, with an injury');
    expect(risk.because.length).toBeGreaterThan(0);
  });

  it('a year or more apart nothing can be counted twice', () => {
    const earlier = visit('2025-05-04', tests, { ...steady, 'history.falls_past_year': 2 });
    const later = visit('2026-05-04', tests, { ...steady, 'history.falls_past_year': 2, 'since_last.falls': 0 });
    expect(onNewFallsOnly(earlier, later)).toBeNull();
    expect(onNewFallsOnly({ ...earlier, assessed: '2025-05-05' }, later)).not.toBeNull();
  });

  it('not recorded is not nought', () => {
    const risk = two({ 'history.falls_past_year': 1 }, { 'history.falls_past_year': 1 });
    expect(risk.on_new_falls_only).toBeNull();
    expect(risk.falls).toContain('which of them happened since the last visit is not recorded');
    expect(two({}, {}).falls).toBe('falls since the last visit not recorded');
    expect(two({ 'history.falls_past_year': 1 }, { 'history.falls_past_year': 0 }).falls).toBe('no fall in the past year');
  });

  it('says where the two answers cannot both be right, or the past year is missing', () => {
    const later = (fields: Fields) => fallsInWords(visit(FIRST, []), visit(LATER, [], fields));
    expect(later({ 'since_last.falls': 2, 'history.falls_past_year': 1 })).toContain('one of the two cannot be right');
    expect(later({ 'since_last.falls': 1 })).toContain('record them');
    expect(later({ 'since_last.falls': 2, 'since_last.falls_text': 'several', 'history.falls_past_year': 2 })).toBe(
      'several falls since the last visit',
    );
  });
});

describe('risk and plan', () => {
  it('an open level is never called lower or higher while the ranges overlap', () => {
    const risk = two({ 'history.falls_past_year': 0 }, {});
    expect(risk).toMatchObject({ before: 'low', after: 'undetermined', direction: 'unclear' });
  });

  it('every exercise has a move, a reason and the rule to meet before moving up', () => {
    const all = (tug: number, stands: number, speed: number, leg: number, tandem: number) => [
      recorded('timed_up_and_go', tug),
      recorded('five_times_sit_to_stand', stands),
      recorded('gait_speed_usual', speed),
      recorded('single_leg_stance_eyes_open', leg, 'right'),
      recorded('single_leg_stance_eyes_open', leg, 'left'),
      ...['side_by_side_stance', 'semi_tandem_stance'].map((test) => recorded(test, 10)),
      recorded('tandem_stance', tandem),
    ];
    const known: Fields = {
      ...steady,
      'history.falls_past_year': 0,
      'history.feels_unsteady': 'no',
      'health.lung_condition': 'none',
      'health.osteoporosis': 'no',
      'health.vertebral_fracture': 'no',
      'health.oral_steroid': 'no',
      'health.walking_aid': 'none',
    };
    const found = change([visit(FIRST, all(20, 20, 0.6, 2, 3), known), visit(LATER, all(8, 10, 1.2, 29, 10), known)]);
    expect(found.plan.length).toBeGreaterThan(5);
    for (const exercise of found.plan) {
      const wanted =
        exercise.after > exercise.before
          ? ['up', 'resume']
          : exercise.after < exercise.before
            ? ['down', 'hold']
            : ['stay', 'hold', 'resume'];
      expect(wanted, exercise.exercise).toContain(exercise.move);
      if (exercise.move === 'up') expect(exercise.rule).not.toBeNull();
    }
    expect(found.plan.some((exercise) => exercise.move === 'up')).toBe(true);
  });

  it('a flare-up since the last visit stands in the notes', () => {
    const found = change([
      visit(FIRST, tests, steady),
      visit(LATER, tests, { ...steady, 'since_last.exacerbation': 'yes', 'since_last.adverse_events': 1 }),
    ]);
    expect(found.notes).toEqual([
      'a flare-up of the lung condition since the last visit may explain a worse result',
      '1 unwanted event in exercise since the last visit',
    ]);
  });
});

describe('the visit on new falls only', () => {
  const later = (fields: Fields) => visit(LATER, [], { 'history.falls_past_year': 3, ...fields });
  const fields = (given: Fields) => onNewFallsOnly(visit(FIRST, []), later(given))?.fields;

  it('takes the number since the last visit and nothing of the older falls', () => {
    expect(
      fields({
        'since_last.falls': 1,
        'since_last.injury': 'yes',
        'history.falls_past_year_text': 'several',
        'history.fall_injury': 'no',
        'history.unable_to_rise': 'yes',
        'history.feels_unsteady': 'yes',
      }),
    ).toEqual({
      'since_last.falls': 1,
      'since_last.injury': 'yes',
      'history.falls_past_year': 1,
      'history.fall_injury': 'yes',
      'history.unable_to_rise': 'yes',
      'history.feels_unsteady': 'yes',
    });
    expect(fields({ 'since_last.falls': 1, 'history.fall_injury': 'yes' })).not.toHaveProperty(['history.fall_injury']);
  });
  it('of no new fall nobody was hurt, lay long or fell without a cause', () =>
    expect(fields({ 'since_last.falls': 0, 'since_last.injury': 'yes', 'history.unexplained_fall': 'yes' })).toEqual({
      'since_last.falls': 0,
      'since_last.injury': 'yes',
      'history.falls_past_year': 0,
      'history.fall_injury': 'no',
      'history.unable_to_rise': 'no',
      'history.unexplained_fall': 'no',
    }));
  it('there is none where falls since then, or of the year, are not recorded', () => {
    expect(fields({})).toBeUndefined();
    expect(fields({ 'since_last.exacerbation': 'no' })).toBeUndefined();
    expect(onNewFallsOnly(visit(FIRST, []), visit(LATER, [], { 'since_last.falls': 0 }))).toBeNull();
  });
});

describe('falls in words', () => {
  const words = (given: Fields, first = FIRST) => fallsInWords(visit(first, []), visit(LATER, [], given));
  const A_YEAR_BEFORE = '2025-05-04';
  it.each<[Fields, string]>([
    [{ 'since_last.falls': 0 }, 'no fall since the last visit'],
    [{ 'since_last.falls': 1, 'history.falls_past_year': 1 }, '1 fall since the last visit'],
    [{ 'since_last.falls': 2, 'history.falls_past_year': 2 }, '2 falls since the last visit'],
    [
      { 'since_last.falls': 1, 'history.falls_past_year': 1, 'since_last.injury': 'yes' },
      '1 fall since the last visit, with an injury',
    ],
    [{ 'since_last.falls': 1, 'history.falls_past_year': 1, 'since_last.injury': 'no' }, '1 fall since the last visit'],
    [
      { 'since_last.falls': 2, 'history.falls_past_year': 1 },
      '2 falls since the last visit; but only 1 fall in the past year: one of the two cannot be right',
    ],
    [
      { 'since_last.falls': 1 },
      '1 fall since the last visit; falls of the past year are not recorded, so the pathway does not count them: record them',
    ],
    [
      { 'since_last.falls': 3, 'history.falls_past_year': 2, 'history.falls_past_year_text': 'several' },
      '3 falls since the last visit; but only several falls in the past year: one of the two cannot be right',
    ],
    [{ 'history.falls_past_year': 0 }, 'no fall in the past year'],
    [
      { 'history.falls_past_year': 2, 'history.falls_past_year_text': 'several' },
      expect.stringMatching(/^several falls in the past year; which/),
    ],
  ])('%j', (given, expected) => expect(words(given)).toEqual(expected));
  it('after a year or more none is counted twice', () => {
    expect(words({ 'history.falls_past_year': 2 }, A_YEAR_BEFORE)).toBe('2 falls in the past year');
    expect(words({ 'since_last.falls': 2, 'history.falls_past_year': 1 }, A_YEAR_BEFORE)).toBe('2 falls since the last visit');
  });
});

describe('what happened since', () => {
  const since = (given: Fields) => sinceLastOf(visit(LATER, [], given));
  it('every part that is recorded, the others missing; nothing where none is', () => {
    expect(since({})).toBeNull();
    expect(since({ 'history.falls_past_year': 2 })).toBeNull();
    expect(
      since({
        'since_last.falls': 1,
        'since_last.injury': 'no',
        'since_last.exacerbation': 'unknown',
        'since_last.adverse_events': 2,
        'since_last.sessions_done': 12,
      }),
    ).toEqual({ falls: 1, injury: 'no', exacerbation: 'unknown', adverse_events: 2, sessions_done: 12 });
    expect(since({ 'since_last.sessions_done': 0 })).toEqual({
      falls: null,
      injury: null,
      exacerbation: null,
      adverse_events: null,
      sessions_done: 0,
    });
  });
});
