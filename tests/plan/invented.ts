/** Invented exercises, caps and plans, so that a rule can be looked at by itself. The numbers mean nothing. */
import type { DoseParts, PlannedExercise, PlannedRung } from '../../src/assessment.ts';
import type { Facts, TestFact } from '../../src/evidence/condition.ts';
import type { DoseAdaptation, DoseRules } from '../../src/evidence/schema/dose.ts';
import type { Cap, Dose, Exercise, Rung } from '../../src/evidence/schema/exercise.ts';
import type { FieldValue } from '../../src/session.ts';

const note = (text: string) => ({ own_rule: true as const, note: text, informed_by: [] });

export const facts = (
  fields: Readonly<Record<string, FieldValue>> = {},
  tests: Readonly<Record<string, TestFact>> = {},
): Facts => ({ field: (path) => fields[path], test: (id) => tests[id] });

export const fact = (worst: number | null, over: Partial<TestFact> = {}): TestFact => ({
  outcome: 'measured',
  worst,
  better: 'higher',
  atLeast: false,
  standing: null,
  flagged: null,
  ...over,
});

export const rung = (over: Partial<Rung> = {}): Rung => ({
  name: 'A rung',
  support: 'both_hands_firm',
  base: 'Feet apart',
  surface: 'firm',
  vision: 'eyes_open',
  head: 'still',
  task: null,
  direction: null,
  speed: null,
  features: [],
  self_progress: true,
  ...over,
});

export const dose = (over: Partial<Dose> = {}): Dose => ({
  text: '3 sets of 8 to 12.',
  sets: 3,
  repetitions: [8, 12],
  hold_s: null,
  sides: 'not_applicable',
  days_per_week: [2, 3],
  minutes: 6,
  counts_as_balance: false,
  basis: note('dose'),
  ...over,
});

/** Three rungs: both hands, fingertip, hands free. */
export const exercise = (over: Partial<Exercise> = {}): Exercise => ({
  id: 'invented',
  name: 'Invented',
  purpose: 'strength',
  order: 1,
  what_for: 'x',
  set_up: 'x',
  steps: ['x'],
  feel: 'x',
  avoid: ['x'],
  equipment: ['x'],
  seated_variant: { name: 'Sitting', steps: ['x'], figure: 'sit' },
  figure: 'stand',
  core: true,
  narrow_base: false,
  whole_body: false,
  ladder: [
    rung({ name: 'One', support: 'both_hands_firm' }),
    rung({ name: 'Two', support: 'fingertip' }),
    rung({ name: 'Three', support: 'hands_free' }),
  ],
  ladder_basis: note('ladder'),
  start: {
    basis: note('start'),
    by_test: [{ test: 'grip', required: true, margin: 0, unable: 0, untested: 1, steps: [], below_all: 1 }],
    also: [],
  },
  dose: dose(),
  move_up: { text: 'Up.', basis: note('up') },
  move_down: { text: 'Down.', basis: note('down') },
  cautions: [{ text: 'Always.', basis: note('caution') }],
  ...over,
});

/** In force where the field `it` is yes. */
export const cap = ({ effect = {}, ...over }: Partial<Omit<Cap, 'effect'>> & { effect?: Partial<Cap['effect']> } = {}): Cap => ({
  id: 'invented_cap',
  when: { field: 'it', is: 'yes' },
  when_unknown: 'ignore',
  reason: 'It is so',
  basis: note('cap'),
  ...over,
  effect: { hold: false, seated: false, forbid: [], ...effect },
});

export const applied = (given: Parameters<typeof cap>[0], becauseUnknown = false) => ({ cap: cap(given), becauseUnknown });

export const adaptation = (effect: DoseAdaptation['effect'], over: Partial<DoseAdaptation> = {}): DoseAdaptation => ({
  id: 'invented_adaptation',
  when: { field: 'it', is: 'yes' },
  text: 'Less',
  effect,
  basis: note('adaptation'),
  ...over,
});

export const weekRules = (over: Partial<DoseRules['week']> = {}): DoseRules['week'] => ({
  days: 3,
  most_exercises: 9,
  target: { minutes: 30, text: 'Half an hour', basis: { source: 'target', location: 'x', status: 'abstract' } },
  least_days: { days: 3, text: 'Three days or more', basis: { source: 'days', location: 'x', status: 'abstract' } },
  least_strength_days: { days: 2, text: 'Strength twice', basis: { source: 'strength', location: 'x', status: 'abstract' } },
  rest_day_between: ['strength'],
  challenge: { criteria_needed: 2, little_support_from: 'light_touch', basis: note('challenge') },
  ...over,
});

export const parts = (over: Partial<DoseParts> = {}): DoseParts => ({
  sets: 1,
  repetitions: null,
  hold_s: null,
  sides: 'not_applicable',
  days_per_week: null,
  rest_minutes: null,
  working_minutes: 5,
  minutes: 5,
  ...over,
});

export const at = (level: number, over: Partial<PlannedRung> = {}): PlannedRung => ({
  level,
  of: 5,
  name: `Rung ${level}`,
  support: 'light_touch',
  base: 'x',
  surface: 'firm',
  vision: 'eyes_open',
  task: null,
  ...over,
});

export const planned = (over: Partial<PlannedExercise> = {}): PlannedExercise => ({
  exercise: 'invented',
  name: 'Invented',
  purpose: 'strength',
  start: at(3),
  because: ['by the tests'],
  limited_by: [],
  held: false,
  dose: 'x',
  move_up: 'Earn it.',
  move_down: 'Down.',
  cautions: [],
  supervision: 'on_own',
  basis: [],
  dose_parts: parts(),
  adaptations: [],
  counts_as_challenge: false,
  next: null,
  override: null,
  goes_home: true,
  ...over,
});
