/** Every answer of the rule between two visits, on invented plans. */
import { describe, expect, it } from 'vitest';
import type { PlannedExercise, PlanOverride } from '../../src/assessment.ts';
import { NOTHING_RECORDED, progressBetween, type Since, setbacks } from '../../src/plan/progress.ts';
import { testEvidence } from '../support/evidence.ts';
import { at, planned } from './invented.ts';

const WELL: Since = { falls: 0, exacerbation: 'no', adverse_events: 0, sessions_done: 6 };
const rules = { ...testEvidence().dose.between_visits, sessions_before_up: 6 };
const level = (start: number, over: Partial<PlannedExercise> = {}) => planned({ start: at(start), ...over });

function between(before: PlannedExercise, after: PlannedExercise, since: Partial<Since> = {}) {
  const [found] = progressBetween({ before: [before], after: [after], since: { ...WELL, ...since }, rules });
  if (found === undefined) throw new Error('no move');
  return found;
}
const NEXT = { level: 9, name: 'Nine', by: 'client', because: null } as const;

describe('setbacks', () => {
  it('each takes its own words; what is missing is none', () => {
    expect(setbacks(WELL)).toEqual([]);
    expect(setbacks({ falls: null, exacerbation: null, adverse_events: null, sessions_done: null })).toEqual([]);
    expect(setbacks({ ...WELL, exacerbation: 'unknown' })).toEqual([]);
    expect(setbacks({ falls: 1, exacerbation: 'yes', adverse_events: 2, sessions_done: 6 })).toEqual([
      'a fall since the last visit',
      'a flare-up since the last visit',
      'an unwanted event in exercise since the last visit',
    ]);
  });
});

describe('up', () => {
  it('one rung, with the rule to meet, where the results allow it and the sessions were done', () =>
    expect(between(level(2), level(3))).toEqual({
      exercise: 'invented',
      name: 'Invented',
      move: 'up',
      from: 2,
      to: 3,
      because: ['by the tests'],
      rule: 'Earn it.',
    }));
  it('not more than one at a time, and said', () =>
    expect(between(level(2), level(4))).toMatchObject({
      to: 3,
      because: ['by the tests', 'the results would allow more; one change at a time'],
    }));
  it('a flare-up that was not asked about does not stop it', () =>
    expect(between(level(2), level(3), { exacerbation: null }).move).toBe('up'));
  it.each<[Partial<Since>, string]>([
    [{ falls: null }, 'falls since the last visit not recorded, so nothing moves up'],
    [{ exacerbation: 'unknown' }, 'flare-ups since the last visit not recorded, so nothing moves up'],
    [{ sessions_done: null }, 'sessions done since the last visit not recorded, so nothing moves up'],
    [{ sessions_done: 5 }, '5 sessions done; a step up comes after 6'],
  ])('not yet with %j', (since, because) =>
    expect(between(level(2), level(4), since)).toMatchObject({ move: 'stay', to: 2, because: [because], rule: 'Earn it.' }),
  );
  it('not while nothing at all is recorded', () =>
    expect(between(level(2), level(4), NOTHING_RECORDED)).toMatchObject({
      move: 'stay',
      because: ['falls since the last visit not recorded, so nothing moves up'],
    }));
  it('not after a setback, even where no level is left to take away', () =>
    expect(between(level(0), level(2), { falls: 1 })).toMatchObject({
      move: 'stay',
      to: 0,
      because: ['a fall since the last visit'],
      rule: 'Earn it.',
    }));
});

describe('stay', () => {
  it('by the same results, with the rule for the rung that is next', () =>
    expect(between(level(3), level(3, { next: NEXT }))).toMatchObject({
      move: 'stay',
      to: 3,
      because: ['by the tests'],
      rule: 'Earn it.',
    }));
  it('without a rule where there is no next rung', () => expect(between(level(3), level(3)).rule).toBeNull());
});

describe('down', () => {
  it('to what the results allow, with the limits that lowered it and the tests', () =>
    expect(between(level(4), level(2, { limited_by: ['lowered: frail', 'not beyond "x": steroid'] }))).toMatchObject({
      move: 'down',
      from: 4,
      to: 2,
      because: ['lowered: frail', 'by the tests'],
      rule: null,
    }));
  it('a level after a setback, which alone is the reason', () =>
    expect(between(level(3), level(5), { exacerbation: 'yes' })).toMatchObject({
      move: 'down',
      to: 2,
      because: ['a flare-up since the last visit'],
    }));
  it('to the lower of both', () => {
    expect(between(level(4), level(1), { falls: 1 })).toMatchObject({
      to: 1,
      because: ['a fall since the last visit', 'by the tests'],
    });
    expect(between(level(4), level(3), { falls: 1 }).to).toBe(3);
    expect(between(level(4), level(4), { falls: 1 })).toMatchObject({ to: 3, because: ['a fall since the last visit'] });
  });
});

describe('held', () => {
  const held = (over: Partial<PlannedExercise> = {}) => level(0, { held: true, limited_by: ['held: chest pain'], ...over });
  it('now: nothing is done, whatever was done before', () =>
    expect(between(level(3), held())).toMatchObject({ move: 'hold', from: 3, to: 0, because: ['held: chest pain'], rule: null }));
  it('before: begins where the results say, a level lower after a setback, never under the seat', () => {
    expect(between(held({ start: at(2) }), level(3))).toMatchObject({
      move: 'resume',
      from: 0,
      to: 3,
      because: ['no longer held'],
      rule: 'Earn it.',
    });
    expect(between(held(), level(3), { falls: 2 })).toMatchObject({
      to: 2,
      because: ['no longer held', 'a fall since the last visit'],
    });
    expect(between(held(), level(0), { falls: 2 }).to).toBe(0);
  });
});

describe('set by the professional', () => {
  const set = (over: Partial<PlanOverride>): Partial<PlannedExercise> => ({
    override: {
      level: 4,
      dose: null,
      days: null,
      left_out: false,
      reason: null,
      by: 'A. Physio',
      suggested: at(2),
      warnings: ['too high'],
      refused: null,
      ...over,
    },
  });
  it.each([
    [2, 'up'],
    [4, 'stay'],
    [5, 'down'],
  ] as const)('from %d: %s, with who set it and what warns', (from, move) =>
    expect(between(level(from), level(4, set({})), { falls: 1 })).toMatchObject({
      move,
      to: 4,
      because: ['set by A. Physio', 'too high'],
      rule: null,
    }),
  );
  it('without a name it is the professional', () =>
    expect(between(level(2), level(4, set({ by: null }))).because[0]).toBe('set by the professional'));
  it('only a level that is applied: a dose alone or a refused level leaves the rule as it is', () => {
    expect(between(level(2), level(3, set({ level: null })))).toMatchObject({ move: 'up', because: ['by the tests'] });
    expect(between(level(2), level(3, set({ refused: 'held' })))).toMatchObject({ move: 'up', because: ['by the tests'] });
  });
});

it('exercises that both plans have, each with its own earlier level, in the order of the later plan', () => {
  const named = (exercise: string, start: number) => level(start, { exercise, name: exercise.toUpperCase() });
  const found = progressBetween({
    before: [named('a', 1), named('b', 3), named('gone', 2)],
    after: [named('b', 3), named('new', 2), named('a', 2)],
    since: WELL,
    rules,
  });
  expect(found.map(({ exercise, name, from, to }) => [exercise, name, from, to])).toEqual([
    ['b', 'B', 3, 3],
    ['a', 'A', 1, 2],
  ]);
});
