/**
 * `norms/pathways/*.yaml`: a published fall-risk pathway as data. Items are what must be known about the client, each with
 * a finite list of values from best to worst; steps are the questions of the flow chart; levels are where it ends.
 * The engine in `risk/` knows nothing of any guideline.
 */
import { z } from 'zod';
import { Basis, Prose, SnakeId, SourceId } from './common.ts';
import { Condition } from './condition.ts';
import { TIERS } from './words.ts';

export const Item = z.strictObject({
  id: SnakeId,
  question: Prose.meta({ description: 'What to ask or test when it is not known' }),
  label: Prose.meta({ description: 'Short, for "because" lines' }),
  kind: z
    .enum(['record', 'question', 'test'])
    .meta({ description: 'Cost order: a record is looked up, a question asked, a test timed' }),
  values: z.array(SnakeId).min(2).default(['no', 'yes']).meta({ description: 'From best to worst' }),
  /** First rule whose condition is true gives the values still possible; none true: all values are possible. */
  from: z.array(z.strictObject({ when: Condition, values: z.array(SnakeId).min(1), because: Prose.optional() })).min(1),
  basis: Basis,
  note: Prose.optional(),
});
export type Item = z.infer<typeof Item>;

const Next = z.union([z.strictObject({ level: SnakeId }), z.strictObject({ step: SnakeId })]);
export const Step = z.strictObject({
  id: SnakeId,
  question: Prose,
  condition: Condition.meta({ description: 'Only over items' }),
  yes: Next,
  no: Next,
  basis: Basis,
});
export type Step = z.infer<typeof Step>;

export const Level = z.strictObject({
  id: SnakeId,
  label: Prose,
  meaning: Prose,
  actions: z
    .array(
      z.strictObject({
        text: Prose,
        request: Prose.optional().meta({ description: 'The same as a courteous request to the doctor, for the letter' }),
        basis: Basis,
      }),
    )
    .min(1),
  follow_up: z.strictObject({ text: Prose, within_days: z.number().int().positive(), basis: Basis }),
});
export type Level = z.infer<typeof Level>;

const Caveat = z.strictObject({
  id: SnakeId,
  when: Condition,
  levels: z.array(SnakeId).optional().meta({ description: 'Only at these levels; absent = at any' }),
  text: Prose,
  basis: Basis,
});

/** An option that changes items or steps of the pathway; off unless asked for, and visible when on. */
const Variant = z.strictObject({
  id: SnakeId,
  name: Prose,
  text: Prose,
  basis: Basis,
  items: z.array(Item).default([]).meta({ description: 'Items that replace those of the same id' }),
  steps: z.array(Step).default([]).meta({ description: 'Steps that replace those of the same id' }),
});

export const PathwayFile = z.strictObject({
  id: SnakeId,
  name: Prose,
  source: SourceId,
  kind: z.enum(['three_level', 'two_level']),
  items: z.array(Item).min(1),
  steps: z.array(Step).min(1),
  levels: z.array(Level).min(2).meta({ description: 'From lowest to highest' }),
  caveats: z.array(Caveat).default([]),
  variants: z.array(Variant).default([]),
});
export type Pathway = z.infer<typeof PathwayFile>;

/** `norms/cautions/red-flags.yaml`. Texts may hold `{field}` placeholders such as `{vitals.spo2_rest}`. */
export const RedFlag = z.strictObject({
  id: SnakeId,
  tier: z.enum(TIERS),
  ask: Prose.meta({ description: 'Listed under "Not asked today" when it is not known' }),
  when: Condition,
  finding: Prose,
  because: Prose,
  action: Prose,
  basis: Basis,
  spread: Prose.optional().meta({ description: 'Where published limits differ: the spread' }),
  found_today: z.boolean().default(false).meta({
    description: 'A finding of this very visit: a clearance dated before it does not count. Always so in the tier emergency',
  }),
});
export type RedFlag = z.infer<typeof RedFlag>;
export const RedFlagsFile = z.strictObject({ red_flags: z.array(RedFlag).min(1) });

/** `norms/cautions/factors.yaml`: what else contributes, shown only when found. */
export const Factor = z.strictObject({
  id: SnakeId,
  name: Prose,
  about: z.enum(['fall', 'injury']).meta({ description: 'Likelihood of a fall, or what a fall would do' }),
  when: Condition,
  found: Prose,
  why: Prose,
  usual_action: Prose,
  request: Prose.optional().meta({ description: 'What is asked of the doctor, for the letter; absent where nothing is' }),
  who: Prose,
  basis: Basis,
});
export type Factor = z.infer<typeof Factor>;
export const FactorsFile = z.strictObject({ factors: z.array(Factor).min(1) });
