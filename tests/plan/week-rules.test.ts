/** A week of invented exercises: which day has what, what is left out, and what is said about it. */
import { describe, expect, it } from 'vitest';
import type { PlannedExercise, Week } from '../../src/assessment.ts';
import { planWeek, spreadDays, weekBases } from '../../src/plan/week.ts';
import type { PlanWishes } from '../../src/session.ts';
import { parts, planned, weekRules } from './invented.ts';

const one = (id: string, purpose: string, minutes: number | null = 5, over: Partial<PlannedExercise> = {}) =>
  planned({ exercise: id, name: id.toUpperCase(), purpose, dose_parts: parts({ minutes, working_minutes: minutes }), ...over });

function week(home: readonly PlannedExercise[], wishes?: PlanWishes, rules = weekRules()): Week {
  const found = planWeek(home, rules, wishes);
  if (found === null) throw new Error('no week');
  return found;
}
const placed = (found: Week) =>
  found.days.map(({ day, exercises }) => [day, exercises.map(({ exercise }) => exercise).join(' ')]);

describe('days', () => {
  it('never fewer than one nor more than seven, whole ones', () => {
    expect([0, -1, 1.4].map(spreadDays)).toEqual([[1], [1], [1]]);
    expect(spreadDays(9)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(spreadDays(2.5)).toEqual([1, 3, 5]);
  });
  it('those of the rules where no wish says otherwise', () => {
    expect(week([one('a', 'stretch')]).days.map(({ day }) => day)).toEqual([1, 3, 5]);
    expect(week([one('a', 'stretch')], { days: 2 }).days.map(({ day }) => day)).toEqual([1, 4]);
  });
  it('nothing goes home: no week', () => expect(planWeek([], weekRules())).toBeNull());
});

describe('which exercise on which day', () => {
  it('as many days as its dose allows, the first of them; those set by hand count before the dose', () => {
    const twice = one('a', 'stretch', 5, { dose_parts: parts({ days_per_week: [1, 2] }) });
    expect(placed(week([twice]))).toEqual([
      [1, 'a'],
      [3, 'a'],
    ]);
    const override = {
      level: null,
      dose: null,
      days: 1,
      left_out: false,
      reason: null,
      by: null,
      suggested: twice.start,
      warnings: [],
      refused: null,
    };
    expect(placed(week([{ ...twice, override }]))).toEqual([[1, 'a']]);
    expect(placed(week([{ ...twice, override: { ...override, days: null } }]))).toHaveLength(2);
  });
  it('a rest day lies between those of strength, over the weekend too; others need none', () => {
    expect(placed(week([one('s', 'strength'), one('x', 'stretch')], { days: 7 }))).toEqual([
      [1, 's x'],
      [2, 'x'],
      [3, 's x'],
      [4, 'x'],
      [5, 's x'],
      [6, 'x'],
      [7, 'x'],
    ]);
  });
  it('of every purpose that needs one, and two days over the weekend are enough', () => {
    const rules = weekRules({ rest_day_between: ['warm_up', 'strength'] });
    const on = (purpose: string) => placed(week([one('a', purpose)], { days: 4 }, rules)).map(([day]) => day);
    expect(on('strength')).toEqual([1, 4, 6]);
    expect(on('warm_up')).toEqual([1, 4, 6]);
    expect(on('stretch')).toEqual([1, 2, 4, 6]);
  });
  it('in the order of a session', () => {
    const home = ['stretch', 'moving_balance', 'standing_balance', 'strength', 'warm_up'].map((purpose) => one(purpose, purpose));
    expect(placed(week(home, { days: 1 }))).toEqual([[1, 'warm_up strength standing_balance moving_balance stretch']]);
  });
});

describe('a limit of minutes a day', () => {
  const home = [
    one('w1', 'warm_up'),
    one('w2', 'warm_up'),
    one('s', 'strength'),
    one('b1', 'standing_balance'),
    one('m', 'moving_balance'),
    one('x', 'stretch'),
  ];
  it('a warm-up comes first, then standing balance, moving balance, strength, stretch, further warm-ups', () => {
    expect(placed(week(home, { days: 1, minutesADay: 5 }))).toEqual([[1, 'w1']]);
    expect(placed(week(home, { days: 1, minutesADay: 10 }))).toEqual([[1, 'w1 b1']]);
    expect(placed(week(home, { days: 1, minutesADay: 15 }))).toEqual([[1, 'w1 b1 m']]);
    expect(placed(week(home, { days: 1, minutesADay: 20 }))).toEqual([[1, 'w1 s b1 m']]);
    expect(placed(week(home, { days: 1, minutesADay: 25 }))).toEqual([[1, 'w1 s b1 m x']]);
    expect(placed(week(home, { days: 1, minutesADay: 30 }))).toEqual([[1, 'w1 w2 s b1 m x']]);
  });
  it('what came least often so far has its turn on the next day', () => {
    const two = [one('b1', 'standing_balance'), one('b2', 'standing_balance'), one('x', 'stretch')];
    expect(placed(week(two, { days: 4, minutesADay: 5 }))).toEqual([
      [1, 'b1'],
      [2, 'b2'],
      [4, 'x'],
      [6, 'b1'],
    ]);
  });
  it('a further warm-up that has not come yet goes before balance that has', () => {
    const given = [one('b', 'standing_balance'), one('w1', 'warm_up'), one('w2', 'warm_up')];
    expect(placed(week(given, { days: 2, minutesADay: 10 }))).toEqual([
      [1, 'w1 b'],
      [4, 'w1 w2'],
    ]);
  });
  it('one that is too long is passed over, and a shorter one behind it still fits', () => {
    const given = [one('long', 'standing_balance', 9), one('short', 'stretch', 3)];
    const found = week(given, { days: 3, minutesADay: 8 });
    expect(placed(found)[0]).toEqual([1, 'short']);
    expect(found.notes).toContain('LONG does not fit into 8 minutes a day');
    expect(found.notes.join()).not.toContain('SHORT');
  });
  it('a day on which nothing fits is no day of the week', () => {
    const given = [
      one('long', 'standing_balance', 9),
      one('s', 'strength', 3, { dose_parts: parts({ days_per_week: [1, 1], minutes: 3 }) }),
    ];
    const found = week(given, { days: 3, minutesADay: 8 });
    expect(placed(found)).toEqual([[1, 's']]);
    expect(found.minutes).toBe(3);
  });
  it('without a limit all of it comes', () => expect(placed(week(home, { days: 1 }))[0]?.[1]).toBe('w1 w2 s b1 m x'));
});

describe('minutes', () => {
  const balance = (counts: boolean) =>
    one('b', 'standing_balance', 7, {
      counts_as_challenge: counts,
      dose_parts: parts({ minutes: 7, working_minutes: 5 }),
    });
  it('of the day and the week are sums; challenging ones leave out rests and what does not count', () => {
    const found = week([balance(true), one('x', 'stretch', 3)]);
    expect(found.days[0]).toEqual({
      day: 1,
      minutes: 10,
      exercises: [
        { exercise: 'b', minutes: 7, challenging_minutes: 5 },
        { exercise: 'x', minutes: 3, challenging_minutes: 0 },
      ],
    });
    expect([found.minutes, found.challenging_minutes]).toEqual([30, 15]);
    expect(week([balance(false)]).challenging_minutes).toBe(0);
  });
  it('an exercise without minutes takes none', () => {
    const found = week([one('b', 'standing_balance', null, { counts_as_challenge: true })]);
    expect([found.minutes, found.challenging_minutes]).toEqual([0, 0]);
    expect(found.days).toHaveLength(3);
  });
  it('the target is met from its minutes on', () => {
    const met = (minutes: number) => {
      const rules = weekRules({ target: { ...weekRules().target, minutes } });
      const { target_met, target_minutes, target } = week([balance(true)], {}, rules);
      return [target_met, target_minutes, target];
    };
    expect(met(15)).toEqual([true, 15, 'Half an hour']);
    expect(met(16)).toEqual([false, 16, 'Half an hour']);
  });
});

describe('notes', () => {
  const strength = one('s', 'strength');
  it('nothing where the week is as the guidance asks, nor of one that comes on some of the days', () => {
    expect(week([strength]).notes).toEqual([]);
    expect(week([strength, one('x', 'stretch', 5, { dose_parts: parts({ days_per_week: [1, 1] }) })]).notes).toEqual([]);
  });
  it('fewer days, and fewer of strength, than asked for, with the number', () => {
    expect(week([strength], { days: 2 }).notes).toEqual(['Three days or more: here 2']);
    expect(week([strength], { days: 1 }).notes).toEqual(['Three days or more: here 1', 'Strength twice: here 1']);
    expect(week([one('x', 'stretch')]).notes).toEqual(['Strength twice: here 0']);
  });
  it('who is supervised one to one first: some, or all of them', () => {
    const with1 = one('p', 'stretch', 5, { supervision: 'professional' });
    expect(week([strength, with1]).notes).toEqual([
      '1 of these are supervised one to one first: days at home count from when a professional says so',
    ]);
    expect(week([{ ...strength, supervision: 'professional' }]).notes[0]).toContain(
      'All of these are supervised one to one first',
    );
  });
});

it('rests on the target, the days, the days of strength and the rule of what is challenging', () => {
  expect(week([one('a', 'stretch')]).basis.map(({ source }) => source)).toEqual(['target', 'days', 'strength', null]);
  expect(weekBases(weekRules())).toHaveLength(4);
});
