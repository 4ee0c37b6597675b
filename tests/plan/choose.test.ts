/** What goes home from an invented plan: seated ones give way, the list is cut evenly, a choice counts. */
import { describe, expect, it } from 'vitest';
import type { PlannedExercise } from '../../src/assessment.ts';
import { exercisesForHome } from '../../src/plan/choose.ts';
import { testEvidence } from '../support/evidence.ts';
import { adaptation, at, exercise, planned, weekRules } from './invented.ts';

const NOT_LEFT_OUT = {
  level: null,
  dose: null,
  days: null,
  left_out: false,
  reason: null,
  by: null,
  suggested: at(1),
  warnings: [],
  refused: null,
};
const one = (id: string, purpose: string, over: Partial<PlannedExercise> = {}) => planned({ exercise: id, purpose, ...over });
const seated = { start: at(0) };

function home(
  plan: readonly PlannedExercise[],
  core: readonly string[],
  over: { most?: number; chosen?: readonly string[]; adaptations?: ReturnType<typeof adaptation>[] } = {},
): string[] {
  return exercisesForHome({
    plan,
    exercises: plan.map((each) => exercise({ id: each.exercise, core: core.includes(each.exercise) })),
    rules: { ...testEvidence().dose, week: weekRules({ most_exercises: over.most ?? 9 }) },
    adaptations: over.adaptations ?? [],
    chosen: over.chosen,
  });
}

describe('the usual list', () => {
  it('is the core, in the order of the plan', () =>
    expect(home([one('a', 'strength'), one('b', 'strength'), one('c', 'stretch')], ['c', 'a'])).toEqual(['a', 'c']));

  it('a seated one gives its place to a standing one of its purpose that is not in it', () => {
    const plan = [one('a', 'strength', seated), one('b', 'stretch'), one('c', 'strength'), one('d', 'strength')];
    expect(home(plan, ['a', 'b'])).toEqual(['b', 'c']);
  });
  it('one place is given once', () => {
    const plan = [one('a', 'strength', seated), one('b', 'strength', seated), one('c', 'strength'), one('d', 'strength')];
    expect(home(plan, ['a', 'b'])).toEqual(['c', 'd']);
    expect(home(plan.slice(0, 3), ['a', 'b'])).toEqual(['b', 'c']);
  });
  it('a seated one stays where only seated ones or others of the core could take its place', () => {
    expect(home([one('a', 'strength', seated), one('b', 'strength', seated)], ['a'])).toEqual(['a']);
    expect(home([one('a', 'strength', seated), one('b', 'strength')], ['a', 'b'])).toEqual(['a', 'b']);
    expect(home([one('a', 'strength', seated), one('b', 'stretch')], ['a'])).toEqual(['a']);
  });
  it('neither what is held nor what is left out goes home, nor takes a place', () => {
    const plan = [
      one('a', 'strength', seated),
      one('b', 'strength', { held: true }),
      one('c', 'strength', { override: { ...NOT_LEFT_OUT, left_out: true } }),
      one('d', 'stretch', { held: true }),
      one('e', 'stretch', { override: NOT_LEFT_OUT }),
    ];
    expect(home(plan, ['a', 'd', 'e'])).toEqual(['a', 'e']);
  });
});

describe('a list that is too long', () => {
  const plan = [
    one('w1', 'warm_up'),
    one('s1', 'strength'),
    one('s2', 'strength'),
    one('s3', 'strength'),
    one('b1', 'standing_balance'),
    one('b2', 'standing_balance'),
    one('x1', 'stretch'),
  ];
  const all = plan.map((each) => each.exercise);
  it('loses the last of the purpose that has most, one by one, and of equals the earlier in a session', () => {
    expect(home(plan, all, { most: 7 })).toEqual(all);
    expect(home(plan, all, { most: 6 })).toEqual(['w1', 's1', 's2', 'b1', 'b2', 'x1']);
    expect(home(plan, all, { most: 5 })).toEqual(['w1', 's1', 'b1', 'b2', 'x1']);
    expect(home(plan, all, { most: 4 })).toEqual(['w1', 's1', 'b1', 'x1']);
  });
  it('the shortest of the lists asked for counts', () => {
    const adaptations = [adaptation({ most_exercises: 6 }), adaptation({ most_exercises: 4 }), adaptation({})];
    expect(home(plan, all, { adaptations })).toHaveLength(4);
    expect(home(plan, all, { most: 3, adaptations })).toHaveLength(3);
  });
});

describe('chosen by the professional', () => {
  const plan = [one('a', 'strength', seated), one('b', 'strength'), one('c', 'stretch', { held: true })];
  it('is taken whole, seated or not, however long, in the order of the plan; held ones are not', () => {
    expect(home(plan, ['b'], { chosen: ['c', 'b', 'a'], most: 1 })).toEqual(['a', 'b']);
    expect(home(plan, ['b'], { chosen: [] })).toEqual([]);
  });
});
