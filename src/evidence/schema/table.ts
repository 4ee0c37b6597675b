/**
 * `norms/tables/<test>/<source>.yaml`: one published (or computed) table of normal values as its source prints it.
 * A row holds what the source holds; which method of scoring it allows follows from its keys (see `scoring/methods.ts`).
 */
import { z } from 'zod';
import { ageBand, Interval, Prose, SexOrAll, SnakeId, SourceId, Status } from './common.ts';
import { TRIALS_RULES } from './words.ts';

/** Published percentile points, keyed `p5`, `p12_5` (= 12.5). */
const PercentileKey = z.string().regex(/^p\d{1,2}(_\d)?$/, 'p with the percentile, such as p5, p50 or p12_5');
const PercentilePoints = z.record(PercentileKey, z.number());

/**
 * Counts of people between printed marks, worst group first: `counts` has one entry more than `marks`.
 * Example: marks [16.7, 13.7, 11.2] s with counts [unable or slower..., ..., fastest]. A mark belongs to the better group
 * when `at_mark` is `better` (a time of exactly the mark counts as not worse than it), else to the worse one.
 * `unable` people are in the first count, or in a first count of their own with `unable_first: true` and one more entry.
 * Percentages may stand instead of counts where the source prints only these (then `percents`, each 0-100, same order).
 */
export const Shares = z
  .strictObject({
    marks: z.array(z.number()).min(1),
    counts: z.array(z.number().int().min(0)).optional(),
    percents: z.array(z.number().min(0).max(100)).optional(),
    unable_first: z.boolean().default(false),
    at_mark: z.enum(['better', 'worse']).default('better'),
    missing_to_worst: z
      .number()
      .int()
      .min(0)
      .default(0)
      .meta({ description: 'People of n in no printed cell; they belong to the lowest group' }),
  })
  .superRefine((shares, context) => {
    const cells = shares.counts ?? shares.percents;
    const wanted = shares.marks.length + 1 + (shares.unable_first ? 1 : 0);
    if (cells === undefined || (shares.counts !== undefined && shares.percents !== undefined))
      context.addIssue({ code: 'custom', message: 'give either counts or percents' });
    else if (cells.length !== wanted)
      context.addIssue({ code: 'custom', message: `${shares.marks.length} marks need ${wanted} cells, found ${cells.length}` });
  });
export type Shares = z.infer<typeof Shares>;

/** Predicted value = intercept + sum of coefficient x term; z = (value - predicted) / residual_sd. */
export const Equation = z.strictObject({
  intercept: z.number(),
  terms: z.array(
    z.strictObject({
      term: z.enum(['age_years', 'age_years_squared', 'male', 'female', 'height_cm', 'weight_kg', 'bmi']),
      coefficient: z.number(),
    }),
  ),
  residual_sd: z.number().positive().nullable(),
  residual_sd_by_age: z.strictObject({ intercept: z.number(), per_year: z.number() }).optional().meta({
    description:
      'Where the source prints the SD as a line on age in years (then residual_sd is null): intercept + per_year x age',
  }),
  lower_limit: z
    .number()
    .nullable()
    .default(null)
    .meta({ description: "Printed distance from prediction to the source's lower limit of normal" }),
});
export type Equation = z.infer<typeof Equation>;

export const Row = z.strictObject({
  sex: SexOrAll,
  ...ageBand,
  n: z.number().int().positive().nullable().optional(),
  n_effective: z.number().positive().optional(),
  status: Status.optional().meta({ description: 'Where this row was read otherwise than its table' }),
  // strata beside age and sex
  setting: z.enum(['community', 'residential_care', 'hospital', 'mixed']).optional(),
  side: z.enum(['right', 'left', 'dominant', 'non_dominant', 'stronger']).optional(),
  stance: Prose.optional(),
  language: Prose.optional(),
  height_min_cm: z.number().nullable().optional(),
  height_max_cm: z.number().nullable().optional(),
  group: Prose.optional().meta({ description: 'Any other stratum, in the words of the source' }),
  // what is printed
  percentiles: PercentilePoints.optional().meta({ description: 'Percentiles of the raw number' }),
  performance_percentiles: PercentilePoints.optional().meta({ description: 'Percentiles of performance (p5 = worst)' }),
  percentile_ci95: z.record(PercentileKey, Interval).optional(),
  shares: Shares.optional(),
  mean: z.number().optional(),
  sd: z.number().positive().optional(),
  mean_ci95: Interval.optional(),
  range: Interval.optional(),
  median: z.number().optional(),
  worse_than_average: z
    .strictObject({ above: z.number().optional(), below: z.number().optional() })
    .optional()
    .meta({ description: "The source's own limit of 'worse than average'" }),
  percent_at_ceiling: z.number().min(0).max(100).optional(),
  percent_unable: z.number().min(0).max(100).optional(),
  equation: Equation.optional(),
  note: Prose.optional(),
});
export type Row = z.infer<typeof Row>;

/** How the people of the table did the test. Absent = the source, as read, does not say. */
export const Protocol = z.strictObject({
  trials_rule: z.enum(TRIALS_RULES).default('unknown'),
  trials: z.number().int().positive().optional(),
  ceiling: z.number().positive().optional(),
  pace: z.enum(['usual', 'fast']).optional(),
  distance_m: z.number().positive().optional(),
  start: z.enum(['standing', 'moving']).optional(),
  watch_stop: z.enum(['standing', 'sitting']).optional().meta({ description: 'Five-times sit-to-stand: where the watch stops' }),
  arms: z.enum(['crossed', 'allowed']).optional(),
  chair_cm: z.number().positive().optional(),
  aid_allowed: z.boolean().optional(),
  note: Prose.optional(),
});
export type Protocol = z.infer<typeof Protocol>;

export const Population = z.strictObject({
  description: Prose,
  kind: z.enum(['general', 'healthy', 'clinical', 'at_risk', 'athletic']).meta({
    description:
      'general = population-based; healthy = volunteers or people without limitation; clinical and at_risk are orientation only',
  }),
  country: z
    .array(z.string().regex(/^[A-Z]{2}$/, 'a country code of two capitals (ISO 3166), such as NO'))
    .default([])
    .meta({ description: 'ISO 3166 codes; empty = several or not said' }),
  setting: z.enum(['community', 'residential_care', 'hospital', 'mixed']).default('community'),
  condition: z
    .enum([
      'copd',
      'asthma',
      'bronchiectasis',
      'interstitial',
      'parkinson',
      'stroke',
      'vestibular',
      'multiple_sclerosis',
      'diabetes',
      'arthritis',
      'other',
    ])
    .optional(),
});
export type Population = z.infer<typeof Population>;

/** Tables of one paper whose bands overlap stand apart (all-ages rows by sex; age rows for both sexes). */
export const TablePart = z.strictObject({
  id: SnakeId,
  location: Prose,
  no_standing_because: Prose.optional().meta({
    description:
      'The part is shown for orientation only: no percentile, z or standing, for this reason (e.g. quartiles of adults of 21 to 80 together)',
  }),
  rows: z.array(Row).min(1),
  gaps: z.array(Prose).default([]).meta({ description: 'Declared holes between bands, with the reason' }),
});

export const TableFile = z.strictObject({
  source: SourceId,
  test: SnakeId,
  unit: z.string().min(1),
  status: Status,
  location: Prose,
  population: Population,
  n: z.number().int().positive().nullable(),
  protocol: Protocol,
  sd_rounding: z.number().positive().optional().meta({
    description:
      'Half the last printed digit of the SDs, where that is coarse: no z or percentile, and a standing only where SD - and + this agree',
  }),
  notes: z.array(Prose).default([]).meta({ description: 'Shown with every comparison: what the reader must know' }),
  remarks: Prose.optional().meta({ description: 'For reviewers; not shown in reports' }),
  parts: z.array(TablePart).min(1),
});
export type TableFile = z.infer<typeof TableFile>;
export type TablePart = z.infer<typeof TablePart>;
