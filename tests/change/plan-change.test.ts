/** Every exercise before and after, on invented plans: the move, why, what fell away and what is advised. */
import { describe, expect, it } from 'vitest';
import type { PlannedExercise } from '../../src/assessment.ts';
import { planChange } from '../../src/change/plan-change.ts';
import type { Fields } from '../../src/session.ts';
import { at, exercise, planned } from '../plan/invented.ts';
import { session } from '../support/client.ts';

const rules = { sessions_before_up: 6, basis: exercise().ladder_basis };
const level = (start: number, over: Partial<PlannedExercise> = {}) => planned({ start: at(start), ...over });
const held = (over: Partial<PlannedExercise> = {}) => level(0, { held: true, ...over });

function changes(
  first: readonly PlannedExercise[],
  last: readonly PlannedExercise[],
  over: { previous?: readonly PlannedExercise[]; fields?: Fields } = {},
) {
  return planChange({
    first,
    previous: over.previous ?? first,
    last: { plan: last, session: session([], over.fields ?? { 'since_last.falls': 0, 'since_last.sessions_done': 6 }) },
    ladders: [exercise()],
    rules,
  });
}
function one(first: PlannedExercise, last: PlannedExercise, fields?: Fields, previous?: PlannedExercise) {
  const [found] = changes([first], [last], {
    ...(fields === undefined ? {} : { fields }),
    ...(previous === undefined ? {} : { previous: [previous] }),
  });
  if (found === undefined) throw new Error('no change');
  return found;
}

describe('the move', () => {
  it.each([
    ['up', level(1), level(3)],
    ['down', level(3), level(1)],
    ['stay', level(2), level(2)],
    ['hold', level(2), held()],
    ['hold', held(), held()],
    ['resume', held(), level(2)],
    ['resume', held(), level(0)],
  ] as const)('%s (%#)', (move, first, last) => expect(one(first, last).move).toBe(move));

  it('has both levels by name; held is no level', () => {
    expect(one(level(1), level(3))).toMatchObject({
      exercise: 'invented',
      name: 'Invented',
      before: 1,
      after: 3,
      of: 5,
      before_name: 'Rung 1',
      after_name: 'Rung 3',
    });
    expect(one(held(), level(3))).toMatchObject({ before_name: 'held', after_name: 'Rung 3' });
    expect(one(level(3), held())).toMatchObject({ before_name: 'Rung 3', after_name: 'held' });
  });
  it('the rule to earn a step stands with every move but down and hold', () => {
    expect(one(level(1), level(3)).rule).toBe('Earn it.');
    expect(one(level(2), level(2)).rule).toBe('Earn it.');
    expect(one(held(), level(2)).rule).toBe('Earn it.');
    expect(one(level(3), level(1)).rule).toBeNull();
    expect(one(level(3), held()).rule).toBeNull();
  });
  it('rests on what the later plan rests on', () => {
    const basis = [{ source: 'paper', basis: 'abstract', location: 'x' }] as const;
    expect(one(level(1), level(3, { basis })).basis).toEqual(basis);
  });
});

describe('why', () => {
  const earlier = level(3, { because: ['old test', 'both'], limited_by: ['old limit', 'both limits'] });
  const later = (start: number) => level(start, { because: ['both', 'new test'], limited_by: ['both limits', 'new limit'] });
  it('what is new: limits first, then tests; and what fell away', () => {
    expect(one(earlier, later(2))).toMatchObject({ because: ['new limit', 'new test'], no_longer: ['old limit'] });
    expect(one(earlier, later(4)).because).toEqual(['new limit', 'new test']);
  });
  it('where it stays the first reason comes first, and once', () => {
    expect(one(earlier, later(3)).because).toEqual(['both', 'new limit', 'new test']);
    const fresh = level(3, { because: ['new test'], limited_by: [] });
    expect(one(earlier, fresh).because).toEqual(['new test']);
  });
});

describe('exercises', () => {
  it('those that the first and the last plan have, each against itself, in the order of the last', () => {
    const named = (id: string, start: number) => level(start, { exercise: id });
    const found = changes([named('a', 1), named('b', 3)], [named('b', 1), named('new', 1), named('a', 2)]);
    expect(found.map(({ exercise: id, before, after, advised }) => [id, before, after, advised?.level])).toEqual([
      ['b', 3, 1, 1],
      ['a', 1, 2, 2],
    ]);
  });
});

describe('advised', () => {
  it('one rung from the visit before, by its name on the ladder', () => {
    expect(one(level(1), level(3)).advised).toMatchObject({ move: 'up', level: 2, name: 'Two' });
    expect(one(level(1), level(3), undefined, level(2)).advised).toMatchObject({ move: 'up', level: 3, name: 'Three' });
    expect(one(level(3), level(1)).advised).toMatchObject({ move: 'down', level: 1, name: 'One', because: ['by the tests'] });
  });
  it('at level 0 the seated variant, while held nothing, off the ladder the name of the plan', () => {
    expect(one(level(2), level(0)).advised).toMatchObject({ level: 0, name: 'Sitting' });
    expect(one(level(2), held()).advised).toMatchObject({ move: 'hold', level: 0, name: 'held' });
    const unknown = (start: number) => level(start, { exercise: 'not_on_file' });
    expect(one(unknown(2), unknown(2)).advised).toMatchObject({ level: 2, name: 'Rung 2' });
  });
  it('nothing where the visit before did not plan it', () => {
    const [found] = changes([level(1)], [level(2)], { previous: [] });
    expect([found?.move, found?.advised]).toEqual(['up', null]);
  });

  const up = (fields: Fields) => one(level(1), level(2), fields).advised?.move;
  const sessions = { 'since_last.sessions_done': 6 };
  it('no fall in the past year is none since the last visit; a number of them says nothing of when', () => {
    expect(up({ ...sessions, 'history.falls_past_year': 0 })).toBe('up');
    expect(up({ ...sessions, 'history.falls_past_year': 1 })).toBe('stay');
    expect(up(sessions)).toBe('stay');
    expect(up({ 'history.falls_past_year': 0 })).toBe('stay');
    expect(up({})).toBe('stay');
  });
  it('what is recorded of the time since counts before the year', () => {
    expect(up({ ...sessions, 'history.falls_past_year': 0, 'since_last.falls': 1 })).toBe('down');
    expect(up({ ...sessions, 'history.falls_past_year': 2, 'since_last.falls': 0 })).toBe('up');
    expect(up({ ...sessions, 'since_last.falls': 0, 'since_last.exacerbation': 'yes' })).toBe('down');
    expect(up({ ...sessions, 'since_last.falls': 0, 'since_last.adverse_events': 1 })).toBe('down');
  });
});
