/** `norms/exercises/*.yaml` (one exercise a file) and `norms/cautions/caps.yaml`, `general.yaml`. */
import { z } from 'zod';
import { Basis, Prose, SnakeId } from './common.ts';
import { Condition } from './condition.ts';
import { FIGURES, PURPOSES, SEATED_FIGURES, SUPERVISIONS, SUPPORTS } from './words.ts';

export const Support = z.enum(SUPPORTS);
export type Support = z.infer<typeof Support>;
export const Supervision = z.enum(SUPERVISIONS);
export type Supervision = z.infer<typeof Supervision>;

/** Features that caps may forbid. */
export const Feature = z.enum([
  'standing',
  'foam',
  'eyes_closed',
  'head_turns',
  'backward',
  'second_task',
  'step_height',
  'high_step',
  'single_leg',
  'loaded',
  'impact',
  'deep_bend',
  'trunk_bend',
  'trunk_twist',
  'turning',
  'fast',
]);
export type Feature = z.infer<typeof Feature>;

export const Rung = z.strictObject({
  name: Prose.meta({ description: 'A plain description, e.g. "Light touch on the bench"' }),
  support: Support,
  base: Prose.meta({ description: 'How the feet stand' }),
  surface: z.enum(['firm', 'foam', 'chair']),
  vision: z.enum(['eyes_open', 'eyes_closed']),
  head: z.enum(['still', 'turning']).default('still'),
  task: Prose.nullable().default(null).meta({ description: 'Second task, e.g. "ball passed from hand to hand"' }),
  direction: Prose.nullable().default(null),
  speed: Prose.nullable().default(null),
  features: z.array(Feature).default([]),
  self_progress: z.boolean().default(true).meta({ description: 'May a client at low risk move here alone at home' }),
  hold: Prose.optional().meta({ description: 'Where the hands go, for the client; else the words of the support' }),
  how: Prose.optional().meta({ description: 'What this rung asks, for the client: takes the place of {how} in the steps' }),
  set_up: Prose.optional().meta({ description: 'In place of the set-up of the exercise' }),
  steps: z.array(Prose).min(1).optional().meta({ description: 'In place of the steps of the exercise' }),
  note: Prose.optional(),
});
export type Rung = z.infer<typeof Rung>;

/**
 * How one test result limits the start. Steps run from worst to best; the value must reach the mark on the better side,
 * less `margin` (so that a value near a mark takes the lower rung). `unable` gives rung `unable` (0 = the seated variant).
 */
export const StartByTest = z.strictObject({
  test: SnakeId,
  required: z.boolean().meta({ description: 'Required: untested starts at rung 1. Otherwise it limits only when recorded' }),
  margin: z.number().nonnegative().default(0),
  unable: z.number().int().min(0),
  untested: z.number().int().min(0).default(1).meta({ description: 'Rung where a required test was not done' }),
  steps: z
    .array(
      z.strictObject({
        at_least: z.number().optional(),
        at_most: z.number().optional(),
        rung: z.number().int().min(0),
        because: Prose,
      }),
    )
    .min(1),
  below_all: z.number().int().min(0).meta({ description: 'Rung for a value that reaches no mark' }),
});
export type StartByTest = z.infer<typeof StartByTest>;

const StartWhen = z.strictObject({
  when: Condition,
  rung: z.number().int().min(0),
  because: Prose,
});

export const Dose = z.strictObject({
  text: Prose,
  sets: z.number().int().positive().nullable().default(null),
  repetitions: z.tuple([z.number().int().positive(), z.number().int().positive()]).nullable().default(null),
  hold_s: z.number().positive().nullable().default(null),
  sides: z.enum(['each', 'both_together', 'not_applicable']).default('not_applicable'),
  days_per_week: z
    .tuple([z.number().int().min(1).max(7), z.number().int().min(1).max(7)])
    .nullable()
    .default(null),
  minutes: z.number().positive().nullable().default(null).meta({ description: 'Time one session of this exercise takes' }),
  counts_as_balance: z
    .boolean()
    .default(false)
    .meta({ description: 'Counts towards the weekly target of challenging balance work' }),
  basis: Basis,
});
export type Dose = z.infer<typeof Dose>;

const ExerciseCaution = z.strictObject({
  when: Condition.optional().meta({ description: 'Absent = always shown' }),
  text: Prose,
  basis: Basis,
});

export const ExerciseFile = z.strictObject({
  id: SnakeId,
  name: Prose,
  plain_name: Prose.optional().meta({ description: 'For the client, where the name is a word of the trade' }),
  purpose: z.enum(PURPOSES),
  order: z.number().int().positive().meta({ description: 'Order within the session' }),
  what_for: Prose,
  set_up: Prose,
  steps: z
    .array(Prose)
    .min(1)
    .meta({ description: 'Plain words for the client, one step a line; {hold} and {how} are filled in by the rung' }),
  feel: Prose,
  avoid: z.array(Prose).min(1),
  equipment: z.array(Prose).min(1),
  seated_variant: z
    .strictObject({ name: Prose, steps: z.array(Prose).min(1), figure: z.enum(SEATED_FIGURES).default('sit') })
    .meta({ description: 'Also the easier variant' }),
  figure: z.enum(FIGURES).default('stand').meta({ description: 'Which drawing the page for the client shows' }),
  core: z.boolean().default(false).meta({ description: 'Goes home unless others are chosen' }),
  narrow_base: z.boolean().default(false).meta({ description: 'Feet close together, on one leg, or moving from leg to leg' }),
  whole_body: z.boolean().default(false).meta({ description: 'The whole body moves in standing' }),
  ladder: z.array(Rung).min(2),
  ladder_basis: Basis,
  start: z.strictObject({
    basis: Basis,
    by_test: z.array(StartByTest).min(1),
    also: z.array(StartWhen).default([]),
  }),
  dose: Dose,
  move_up: z.strictObject({ text: Prose, basis: Basis }),
  move_down: z.strictObject({ text: Prose, basis: Basis }),
  cautions: z.array(ExerciseCaution).min(1),
});
export type Exercise = z.infer<typeof ExerciseFile>;

/**
 * A cap limits every exercise (or those named). `when_unknown: apply` makes a missing answer cap like a yes, and then
 * `lifts` says what would lift it.
 */
export const Cap = z.strictObject({
  id: SnakeId,
  when: Condition,
  when_unknown: z.enum(['apply', 'ignore']).default('ignore'),
  reason: Prose,
  reason_unknown: Prose.optional(),
  lifts: Prose.optional(),
  exercises: z.array(SnakeId).optional().meta({ description: 'Absent = all' }),
  purposes: z.array(z.enum(PURPOSES)).optional(),
  effect: z.strictObject({
    hold: z.boolean().default(false).meta({ description: 'Level 0, nothing is suggested' }),
    seated: z.boolean().default(false).meta({ description: 'Level 0, the seated variant' }),
    least_support: Support.optional().meta({ description: 'No rung with less support than this' }),
    forbid: z.array(Feature).default([]),
    supervision: Supervision.optional().meta({ description: 'At least this much' }),
  }),
  basis: Basis,
});
export type Cap = z.infer<typeof Cap>;
export const CapsFile = z.strictObject({ caps: z.array(Cap).min(1) });

/** Cautions printed with every report. */
const GeneralCaution = z.strictObject({
  id: SnakeId,
  when: Condition.optional(),
  text: Prose,
  basis: Basis,
});
export const GeneralFile = z.strictObject({
  cautions: z.array(GeneralCaution).min(1),
  stop_signs: z.array(z.strictObject({ text: Prose, basis: Basis })).min(1),
});
export type General = z.infer<typeof GeneralFile>;
