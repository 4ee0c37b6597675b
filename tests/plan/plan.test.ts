/** A plan of invented exercises under invented caps: rung, limits, supervision, order and what it rests on. */
import { describe, expect, it } from 'vitest';
import type { PlannedExercise } from '../../src/assessment.ts';
import type { Cap, Exercise } from '../../src/evidence/schema/exercise.ts';
import { cautionsFor, type PlanInput, planExercises } from '../../src/plan/plan.ts';
import { testEvidence } from '../support/evidence.ts';
import { adaptation, cap, dose, exercise, fact, facts, rung } from './invented.ts';

const IT = { it: 'yes' } as const;
const by = (level: number): Exercise['start'] => ({
  ...exercise().start,
  by_test: [
    {
      test: 'grip',
      required: true,
      margin: 0,
      unable: 0,
      untested: 1,
      steps: [{ at_least: 0, rung: level, because: 'ok' }],
      below_all: 1,
    },
  ],
});

function plan(exercises: readonly Exercise[], caps: readonly Cap[] = [], over: Partial<PlanInput> = {}): PlannedExercise[] {
  return planExercises({
    exercises,
    caps,
    facts: facts(IT, { grip: fact(1) }),
    testName: (test) => test,
    dose: { ...testEvidence().dose, adaptations: [], not_beyond_hands_free_alone: [] },
    ...over,
  });
}
function first(given: Exercise, caps: readonly Cap[] = [], over: Partial<PlanInput> = {}): PlannedExercise {
  const [found] = plan([given], caps, over);
  if (found === undefined) throw new Error('no plan');
  return found;
}

describe('the rung', () => {
  const ladder = [
    rung({ name: 'One' }),
    rung({ name: 'Two', support: 'fingertip', surface: 'foam', task: 'a ball', base: 'On one leg', vision: 'eyes_closed' }),
    rung({ name: 'Three', support: 'hands_free', features: ['loaded'] }),
  ];
  it('is described in full', () =>
    expect(first(exercise({ ladder, start: by(2) })).start).toEqual({
      level: 2,
      of: 3,
      name: 'Two',
      support: 'fingertip',
      base: 'On one leg',
      surface: 'foam',
      vision: 'eyes_closed',
      task: 'a ball',
    }));
  it('of level 0 is the seated variant', () =>
    expect(first(exercise({ ladder, start: by(0) })).start).toEqual({
      level: 0,
      of: 3,
      name: 'Sitting',
      support: 'seated',
      base: 'seated',
      surface: 'chair',
      vision: 'eyes_open',
      task: null,
    }));
  it('goes down to the highest that every cap leaves open, past those that one closes', () => {
    const unloaded = cap({ effect: { forbid: ['loaded'] } });
    const firm = cap({ effect: { forbid: ['foam'] } });
    expect(first(exercise({ ladder, start: by(3) }), [unloaded]).start.level).toBe(2);
    expect(first(exercise({ ladder, start: by(3) }), [unloaded, firm]).start.level).toBe(1);
    expect(first(exercise({ ladder, start: by(2) }), [unloaded]).start.level).toBe(2);
    expect(first(exercise({ ladder, start: by(3) }), [cap({ effect: { least_support: 'seated' } })]).start.level).toBe(0);
  });
  it('a cap of other exercises lowers nothing', () => {
    const found = first(exercise({ ladder, start: by(3) }), [cap({ exercises: ['other'], effect: { hold: true } })]);
    expect([found.start.level, found.held, found.limited_by]).toEqual([3, false, []]);
  });
});

describe('limits', () => {
  it('each cap that closes a rung has its line, by what it does; one that closes none has none', () => {
    const caps = [
      cap({ reason: 'Held', effect: { hold: true } }),
      cap({ reason: 'Seated', effect: { seated: true } }),
      cap({ reason: 'Lowered', effect: { least_support: 'both_hands_firm' } }),
      cap({ reason: 'Further on', effect: { least_support: 'fingertip' } }),
      cap({ reason: 'Nothing here', effect: { forbid: ['foam'] } }),
    ];
    expect(first(exercise({ start: by(2) }), caps).limited_by).toEqual([
      'held: Held',
      'seated variant: Seated',
      'lowered: Lowered',
      'not beyond "Two": Further on',
    ]);
  });
  it('where every rung is closed and the start is seated by the tests, none is named as the last one', () => {
    const closes = cap({ effect: { least_support: 'seated' } });
    expect(first(exercise({ start: by(0) }), [closes]).limited_by).toEqual([]);
  });
  it('a cap that closes only the rung in the middle does not end the ladder', () => {
    const ladder = [rung({ name: 'One' }), rung({ name: 'Two', surface: 'foam' }), rung({ name: 'Three' })];
    expect(first(exercise({ ladder, start: by(1) }), [cap({ effect: { forbid: ['foam'] } })]).limited_by).toEqual([]);
  });
});

describe('held', () => {
  it('has no next rung, no challenge, no adaptations and no seated supervision of its own', () => {
    const given = exercise({
      start: by(2),
      narrow_base: true,
      whole_body: true,
      dose: dose({ counts_as_balance: true }),
    });
    const rules = { ...testEvidence().dose, adaptations: [adaptation({})], not_beyond_hands_free_alone: [] };
    const free = first(given, [], { dose: rules });
    expect(free).toMatchObject({ held: false, counts_as_challenge: true, supervision: 'on_own' });
    expect([free.next?.level, free.adaptations.length]).toEqual([3, 1]);
    const held = first(given, [cap({ effect: { hold: true } })], { dose: rules });
    expect(held).toMatchObject({ held: true, counts_as_challenge: false, supervision: 'on_own', next: null, adaptations: [] });
    expect(held.start.level).toBe(0);
  });
});

describe('supervision', () => {
  it('somebody is beside who could only do it seated; caps may ask for more, never for less', () => {
    expect(first(exercise({ start: by(1) })).supervision).toBe('on_own');
    expect(first(exercise({ start: by(0) })).supervision).toBe('someone_beside');
    const nearby = cap({ effect: { supervision: 'someone_nearby' } });
    const one = cap({ effect: { supervision: 'professional' } });
    expect(first(exercise({ start: by(1) }), [nearby]).supervision).toBe('someone_nearby');
    expect(first(exercise({ start: by(0) }), [nearby]).supervision).toBe('someone_beside');
    expect(first(exercise({ start: by(0) }), [one]).supervision).toBe('professional');
  });
});

describe('adaptations', () => {
  const rules = (given: ReturnType<typeof adaptation>) => ({ ...testEvidence().dose, adaptations: [given] });
  it('those of its purpose, with what they rest on', () => {
    const basis = { source: 'paper', location: 'Table 1', status: 'abstract' } as const;
    const found = first(exercise(), [], { dose: rules(adaptation({ sets_at_most: 1 }, { basis })) });
    expect(found.adaptations).toEqual([{ text: 'Less', source: 'paper', location: 'Table 1', basis: 'abstract' }]);
    expect(found.dose_parts.sets).toBe(1);
    expect(found.dose).toMatch(/^1 set of up to 12 to begin with/);
    const other = first(exercise(), [], { dose: rules(adaptation({ sets_at_most: 1 }, { purposes: ['stretch'] })) });
    expect([other.adaptations, other.dose_parts.sets, other.dose]).toEqual([[], 3, '3 sets of 8 to 12.']);
  });
});

describe('set by the professional', () => {
  const wishes = (level: number) => ({ wishes: { exercises: { invented: { level } } }, assessor: 'A. Physio' });
  it('the level is described, its dose stays, and the next rung is the one above it', () => {
    const found = first(exercise({ start: by(1) }), [], wishes(2));
    expect(found.start).toMatchObject({ level: 2, name: 'Two' });
    expect(found.override).toMatchObject({ by: 'A. Physio', suggested: { level: 1, name: 'One' } });
    expect(found.next?.level).toBe(3);
  });
  it('what is set for another exercise changes nothing, and without an assessor nobody is named', () => {
    expect(first(exercise({ id: 'other' }), [], wishes(2)).override).toBeNull();
    const found = first(exercise(), [], { wishes: wishes(2).wishes });
    expect(found.override?.by).toBeNull();
  });
});

describe('cautions', () => {
  const basis = exercise().ladder_basis;
  const given = exercise({
    cautions: [
      { text: 'Always', basis },
      { text: 'If it is so', when: { field: 'it', is: 'yes' }, basis },
      { text: 'Never', when: { field: 'it', is: 'no' }, basis },
    ],
  });
  it('those without a condition, and those whose condition holds; a missing answer shows none', () => {
    expect(cautionsFor(given, facts(IT))).toEqual([0, 1]);
    expect(cautionsFor(given, facts({}))).toEqual([0]);
    expect(first(given).cautions).toEqual(['Always', 'If it is so']);
  });
});

describe('what it rests on', () => {
  const cited = { source: 'paper', location: 'Table 1', status: 'abstract' } as const;
  it('ladder, start, dose and every cap that concerns it, each once', () => {
    const given = exercise({
      ladder_basis: cited,
      start: { ...by(1), basis: cited },
      dose: dose({ basis: { ...cited, location: 'Table 2' } }),
    });
    const found = first(given, [cap({ basis: { ...cited, location: 'Table 3' } }), cap({ exercises: ['other'] })]);
    expect(found.basis.map(({ source, location }) => [source, location])).toEqual([
      ['paper', 'Table 1'],
      ['paper', 'Table 2'],
      ['paper', 'Table 3'],
    ]);
  });
  it('one place of two sources is two, as is one place read in two ways', () => {
    const given = exercise({
      ladder_basis: cited,
      start: { ...by(1), basis: { ...cited, source: 'other' } },
      dose: dose({ basis: { ...cited, status: 'full-text' } }),
    });
    expect(first(given).basis).toHaveLength(3);
  });
});

describe('the whole plan', () => {
  const named = (id: string, purpose: Exercise['purpose'], order: number, core = true) => exercise({ id, purpose, order, core });
  const exercises = [
    named('x', 'stretch', 1),
    named('s2', 'strength', 9),
    named('s1', 'strength', 2, false),
    named('m', 'moving_balance', 3),
    named('b', 'standing_balance', 40),
    named('w', 'warm_up', 50),
  ];
  it('has every exercise in the order of a session, those of one purpose by their order', () =>
    expect(plan(exercises).map((each) => each.exercise)).toEqual(['w', 's1', 's2', 'b', 'm', 'x']));
  it('says of each whether it goes home', () => {
    const home = (found: readonly PlannedExercise[]) => found.filter((each) => each.goes_home).map((each) => each.exercise);
    expect(home(plan(exercises))).toEqual(['w', 's2', 'b', 'm', 'x']);
    expect(home(plan(exercises, [], { wishes: { choose: ['s1', 'x'] } }))).toEqual(['s1', 'x']);
  });
});
