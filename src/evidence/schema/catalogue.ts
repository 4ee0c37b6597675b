/** `norms/tests.yaml` (the catalogue of tests), `norms/fields.yaml` (limits of history, health and vitals) and `norms/sources.yaml`. */
import { z } from 'zod';
import { Basis, Prose, SnakeId, SourceId } from './common.ts';

/** `impossible` values are refused, `unusual` ones kept and noted. Both ends are optional; `why` is shown to the person. */
export const Limit = z.strictObject({
  below: z.number().optional(),
  above: z.number().optional(),
  why: Prose,
});
export type Limit = z.infer<typeof Limit>;

export const TestDefinition = z.strictObject({
  id: SnakeId,
  name: Prose,
  short_name: Prose.meta({ description: 'For tables and tight lines' }),
  unit: z.string().min(1).meta({ description: 'UCUM code' }),
  unit_text: z
    .string()
    .meta({ description: 'What people read after the number, e.g. "s", "stands", "m/s"; empty for a bare score' }),
  kind: z.enum(['time', 'speed', 'count', 'distance', 'force', 'score', 'stage', 'percent']),
  better: z.enum(['higher', 'lower']),
  decimals: z.number().int().min(0).max(2).meta({ description: 'Decimals shown to people' }),
  whole: z.boolean().default(false).meta({ description: 'Only whole numbers can be results' }),
  sided: z.boolean().default(false),
  ceiling: z.number().nullable().default(null).meta({ description: 'The watch is stopped here unless the file says otherwise' }),
  common_ceilings: z
    .array(z.number())
    .default([])
    .meta({ description: 'Ceilings in use where none is assumed: a time of exactly one of them is asked about' }),
  trials: z.enum(['best', 'mean', 'first']).meta({ description: 'Which trial counts where no table states a rule' }),
  course: z.boolean().default(false).meta({ description: 'Accepts {time, distance, start}' }),
  impossible: Limit,
  unusual: Limit,
  protocol: Prose.meta({ description: 'One line: chair, arms, start and stop of the watch' }),
  protocol_basis: Basis,
  headings: z.array(z.string()).default([]).meta({ description: 'Other column headings people use' }),
  derived_from: z.array(SnakeId).default([]),
  bands: z
    .array(z.strictObject({ min: z.number(), max: z.number(), category: SnakeId, label: Prose, basis: Basis }))
    .default([])
    .meta({ description: 'Published bands of a total, e.g. low / moderate / high concern' }),
});
export type TestDefinition = z.infer<typeof TestDefinition>;
export const TestsFile = z.strictObject({ tests: z.array(TestDefinition).min(1) });

/** Limits of the number fields of a session other than tests, e.g. `vitals.spo2_rest`. */
export const FieldLimits = z.strictObject({
  field: z.string().regex(/^[a-z_]+(\.[a-z0-9_]+)*$/),
  name: Prose,
  unit_text: z.string(),
  whole: z.boolean().default(false),
  impossible: Limit,
  unusual: Limit.optional(),
});
export type FieldLimits = z.infer<typeof FieldLimits>;
export const FieldsFile = z.strictObject({ fields: z.array(FieldLimits).min(1) });

export const Source = z.strictObject({
  citation: Prose,
  doi: z
    .string()
    .regex(/^10\.\d{4,9}\/\S+$/, 'a DOI such as 10.1000/182, or null where there is none')
    .nullable(),
  open_access: z.union([z.boolean(), z.literal('unknown')]).default('unknown'),
  title: Prose.optional(),
  year: z.number().int().optional(),
  note: Prose.optional(),
});
export type Source = z.infer<typeof Source>;
export const SourcesFile = z.strictObject({ sources: z.record(SourceId, Source) });
