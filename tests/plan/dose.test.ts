/** Adaptations of a dose, its words, and which time counts as challenging balance work. */
import { describe, expect, it } from 'vitest';
import { adaptationsFor, adaptedDose, concernsPurpose, countsAsChallenge, doseInWords } from '../../src/plan/dose.ts';
import { testEvidence } from '../support/evidence.ts';
import { adaptation, dose, exercise, facts, rung, weekRules } from './invented.ts';

describe('which adaptations', () => {
  const rules = { ...testEvidence().dose, adaptations: [adaptation({}, { id: 'a' }), adaptation({}, { id: 'b' })] };
  it('those whose condition holds; a missing answer adapts nothing', () => {
    expect(adaptationsFor(rules, facts({ it: 'yes' })).map(({ id }) => id)).toEqual(['a', 'b']);
    for (const fields of [{}, { it: 'no' }, { it: 'unknown' }]) expect(adaptationsFor(rules, facts(fields))).toEqual([]);
  });
  it('of the purposes it names, or of all', () => {
    const squat = exercise({ purpose: 'strength' });
    expect(concernsPurpose(adaptation({}), squat)).toBe(true);
    expect(concernsPurpose(adaptation({}, { purposes: ['warm_up', 'strength'] }), squat)).toBe(true);
    expect(concernsPurpose(adaptation({}, { purposes: ['stretch'] }), squat)).toBe(false);
  });
});

describe('an adapted dose', () => {
  it('without an adaptation is that of the exercise', () =>
    expect(adaptedDose(dose(), [])).toEqual({
      sets: 3,
      repetitions: [8, 12],
      hold_s: null,
      sides: 'not_applicable',
      days_per_week: [2, 3],
      rest_minutes: null,
      working_minutes: 6,
      minutes: 6,
    }));
  it('an adaptation that lowers nothing leaves it as it is', () =>
    expect(adaptedDose(dose(), [adaptation({})])).toEqual(adaptedDose(dose(), [])));
  it('of several the lowest sets and repetitions and the longest rest; minutes follow the sets and the rests', () =>
    // a third of 6 minutes a set: 2 sets are 4 minutes, and one rest of 3 lies between them
    expect(
      adaptedDose(dose(), [
        adaptation({ sets_at_most: 2, repetitions_at_most: 10, rest_minutes_between_sets: 3 }),
        adaptation({ repetitions_at_most: 9, rest_minutes_between_sets: 2 }),
      ]),
    ).toMatchObject({ sets: 2, repetitions: [8, 9], rest_minutes: 3, working_minutes: 4, minutes: 7 }));
  it('two rests lie between three sets', () =>
    expect(adaptedDose(dose(), [adaptation({ rest_minutes_between_sets: 2 })])).toMatchObject({
      minutes: 10,
      working_minutes: 6,
    }));
  it('never more than the exercise has', () =>
    expect(adaptedDose(dose(), [adaptation({ sets_at_most: 9, repetitions_at_most: 20 })])).toMatchObject({
      sets: 3,
      repetitions: [8, 12],
      minutes: 6,
    }));
  it('both ends of the repetitions come down to the limit', () =>
    expect(adaptedDose(dose(), [adaptation({ repetitions_at_most: 5 })]).repetitions).toEqual([5, 5]));
  it('one set has no rest', () =>
    expect(adaptedDose(dose({ sets: 1 }), [adaptation({ rest_minutes_between_sets: 2 })])).toMatchObject({
      rest_minutes: null,
      minutes: 6,
    }));
  it('minutes of fewer sets are rounded up', () =>
    expect(adaptedDose(dose({ minutes: 4 }), [adaptation({ sets_at_most: 1 })]).working_minutes).toBe(2));
  it('what the exercise does not say stays unsaid', () => {
    const bare = dose({ sets: null, repetitions: null, days_per_week: null, minutes: null, hold_s: 30, sides: 'each' });
    expect(adaptedDose(bare, [adaptation({ sets_at_most: 1, repetitions_at_most: 5, rest_minutes_between_sets: 2 })])).toEqual({
      sets: null,
      repetitions: null,
      hold_s: 30,
      sides: 'each',
      days_per_week: null,
      rest_minutes: null,
      working_minutes: null,
      minutes: null,
    });
  });
  it('without sets the minutes stay', () =>
    expect(adaptedDose(dose({ sets: null }), [adaptation({ sets_at_most: 1 })])).toMatchObject({ sets: null, minutes: 6 }));
});

describe('the words of a dose', () => {
  const words = (given: Parameters<typeof dose>[0], effect: Parameters<typeof adaptation>[0]) =>
    doseInWords(dose(given), adaptedDose(dose(given), [adaptation(effect)]));
  it('are those of the exercise while nothing is fewer', () => {
    expect(words({}, {})).toBe('3 sets of 8 to 12.');
    expect(words({}, { rest_minutes_between_sets: 2 })).toBe('3 sets of 8 to 12.');
    expect(words({ repetitions: null }, {})).toBe('3 sets of 8 to 12.');
  });
  it('name the lower numbers first', () => {
    expect(words({}, { sets_at_most: 2 })).toBe('2 sets of up to 12 to begin with. Later: 3 sets of 8 to 12.');
    expect(words({}, { sets_at_most: 1, repetitions_at_most: 8 })).toBe(
      '1 set of up to 8 to begin with. Later: 3 sets of 8 to 12.',
    );
    expect(words({}, { repetitions_at_most: 10 })).toBe('3 sets of up to 10 to begin with. Later: 3 sets of 8 to 12.');
    expect(words({ repetitions: null }, { sets_at_most: 1 })).toBe('1 set to begin with. Later: 3 sets of 8 to 12.');
    expect(words({ sets: null }, { repetitions_at_most: 8 })).toBe('of up to 8 to begin with. Later: 3 sets of 8 to 12.');
  });
});

describe('challenging balance work: two of three of narrow base, whole body moving, little support', () => {
  // evidence-based-exercise-criteria-bmjopen, Table 2
  const counts = (
    over: Parameters<typeof exercise>[0],
    support: 'one_hand_firm' | 'light_touch' | 'hands_free',
    balance = true,
  ) => countsAsChallenge(exercise({ dose: dose({ counts_as_balance: balance }), ...over }), rung({ support }), weekRules());
  it.each([
    [{}, 'hands_free', false],
    [{ narrow_base: true }, 'one_hand_firm', false],
    [{ narrow_base: true }, 'light_touch', true],
    [{ narrow_base: true }, 'hands_free', true],
    [{ whole_body: true }, 'one_hand_firm', false],
    [{ whole_body: true }, 'light_touch', true],
    [{ narrow_base: true, whole_body: true }, 'one_hand_firm', true],
  ] as const)('%j with %s: %s', (over, support, expected) => expect(counts(over, support)).toBe(expected));
  it('never of an exercise that is no balance work, nor of none', () => {
    expect(counts({ narrow_base: true, whole_body: true }, 'hands_free', false)).toBe(false);
    expect(countsAsChallenge(exercise({ dose: dose({ counts_as_balance: true }) }), undefined, weekRules())).toBe(false);
  });
});
