/**
 * Building blocks shared by every kind of file under `norms/`: identifiers, the status that says how a number was read,
 * age bands and citations. Every object is strict, so a misspelt key is an error and not a silent loss.
 */
import { z } from 'zod';
import { STATUSES } from './words.ts';

/** How a value was read. `memory` and `common-practice` are shown as such wherever the value appears. */
export const Status = z.enum(STATUSES).meta({ description: 'How the value was read from its source' });
export type Status = z.infer<typeof Status>;

/** Source ids: lower-case words and digits joined by hyphens, kept for ever once released. */
export const SourceId = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words and digits joined by hyphens');

/** Ids of tests, items, exercises and rules: snake_case. */
export const SnakeId = z.string().regex(/^[a-z][a-z0-9]*(_[a-z0-9]+)*$/, 'snake_case');

export const Sex = z.enum(['female', 'male']);
export const SexOrAll = z.enum(['female', 'male', 'all']);
export const Setting = z.enum(['community', 'residential_care', 'hospital']);

/** A line of prose: not empty, no leading or trailing blanks. */
export const Prose = z
  .string()
  .min(1)
  .regex(/^\S(.*\S)?$/s, 'no blank at either end');

/** Completed years. `age_max: null` means open above, `age_min: null` open below. */
export const ageBand = {
  age_min: z.number().int().min(0).max(130).nullable(),
  age_max: z.number().int().min(0).max(130).nullable(),
};

/** Where a statement comes from: an entry of sources.yaml, a place in it, and how it was read. */
export const Citation = z.strictObject({
  source: SourceId,
  location: Prose.meta({ description: 'Table, figure, page or section where the number stands' }),
  status: Status,
});
export type Citation = z.infer<typeof Citation>;

/** A citation for statements that may also be a rule of the trade or the program's own, which have no paper behind them. */
export const Basis = z.union([
  Citation,
  z.strictObject({
    status: z.literal('common-practice'),
    note: Prose.meta({ description: 'Why the trade does it so' }),
  }),
  z.strictObject({
    own_rule: z
      .literal(true)
      .meta({ description: "The program's own rule, written to be reviewed and edited by a professional" }),
    note: Prose,
    informed_by: z.array(Citation).default([]),
  }),
]);
export type Basis = z.infer<typeof Basis>;

export const Interval = z.tuple([z.number(), z.number()]);
