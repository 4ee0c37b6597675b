/** Cut-points, measurement error, likelihood ratios and the order of defaults: `norms/cutpoints`, `error`, `accuracy`, `defaults.yaml`. */
import { z } from 'zod';
import { ageBand, Basis, Citation, Interval, Prose, SexOrAll, SnakeId, SourceId } from './common.ts';
import { Condition } from './condition.ts';

/** Who a number was found in; shown beside it. */
const Studied = z.strictObject({
  description: Prose,
  condition: z.enum(['copd', 'parkinson', 'vestibular', 'stroke', 'frail', 'other']).optional(),
  setting: z.enum(['community', 'residential_care', 'hospital', 'clinic', 'mixed']).optional(),
  n: z.number().int().positive().nullable().optional(),
});

export const Accuracy = z.strictObject({
  sensitivity: z.number().min(0).max(1).nullable().default(null),
  specificity: z.number().min(0).max(1).nullable().default(null),
  sensitivity_ci95: Interval.optional(),
  specificity_ci95: Interval.optional(),
  auc: z.number().min(0).max(1).optional(),
  odds_ratio: z.number().positive().optional(),
  odds_ratio_ci95: Interval.optional(),
  rate_ratio: z
    .number()
    .positive()
    .optional()
    .meta({ description: 'Ratio of fall rates, where the source counts falls over time' }),
  rate_ratio_ci95: Interval.optional(),
});

export const CutPoint = z.strictObject({
  id: SnakeId,
  ...Citation.shape,
  test: SnakeId,
  rule: Prose.meta({ description: 'The rule in words, e.g. "12 s or more"' }),
  /** `met` when the value lies on the worse side of the mark; exactly one of the four; `unable` always meets a cut. */
  met_when: z
    .strictObject({
      at_least: z.number().optional(),
      above: z.number().optional(),
      at_most: z.number().optional(),
      below: z.number().optional(),
    })
    .refine((rule) => Object.values(rule).filter((mark) => mark !== undefined).length === 1, 'exactly one mark'),
  sex: SexOrAll.default('all'),
  age_min: ageBand.age_min.default(null),
  age_max: ageBand.age_max.default(null),
  outcome: Prose.meta({ description: 'What it was linked with' }),
  counts: z
    .boolean()
    .meta({ description: 'Reviewed: the outcome is falls in people like these, or the mark belongs to a falls guideline' }),
  counts_because: Prose,
  applies_to: z
    .enum(['everyone', 'copd', 'other_condition'])
    .default('everyone')
    .meta({ description: 'A condition cut counts only for clients with it' }),
  below_average: z.boolean().default(false).meta({ description: 'A below-average mark by age and sex' }),
  accuracy: Accuracy.optional(),
  population: Studied,
  in_copd: z
    .strictObject({ text: Prose, ...Citation.shape })
    .optional()
    .meta({
      description: 'What is known of this mark in people with COPD, where it was made for others; shown to clients with COPD',
    }),
  note: Prose.optional(),
});
export type CutPoint = z.infer<typeof CutPoint>;
export const CutPointsFile = z.strictObject({ cut_points: z.array(CutPoint).min(1) });

/** Measurement error and important change of one study. All in the test's unit unless `percent`. */
export const MeasurementError = z.strictObject({
  id: SnakeId,
  ...Citation.shape,
  test: SnakeId,
  population: Studied,
  interval: Prose.nullable().default(null).meta({ description: 'Time between the two measurements' }),
  interval_days: z.number().nonnegative().nullable().default(null),
  method: Prose.optional(),
  sem: z.number().positive().optional(),
  sem_converted: z.boolean().default(false).meta({ description: 'SEM worked out here from a printed MDC or from SD and ICC' }),
  mdc95: z.number().positive().optional(),
  mdc90: z.number().positive().optional(),
  mdc_level_unstated: z.number().positive().optional(),
  mdc_percent: z.number().positive().optional(),
  icc: z.number().min(-1).max(1).optional(),
  by_score: z
    .array(z.strictObject({ min: z.number(), max: z.number(), mdc95: z.number().positive() }))
    .optional()
    .meta({ description: 'Error that depends on the starting score' }),
  mcid: z.number().positive().optional(),
  mcid_range: Interval.optional(),
  mcid_substantial: z.number().positive().optional(),
  mcid_method: Prose.optional(),
  practice: Prose.optional().meta({ description: 'What the source says of getting better merely by doing the test again' }),
  note: Prose.optional(),
});
export type MeasurementError = z.infer<typeof MeasurementError>;
export const ErrorFile = z.strictObject({ errors: z.array(MeasurementError).min(1) });

/** Likelihood ratios and pre-test rates for the post-test probability. */
export const LikelihoodRatio = z.strictObject({
  id: SnakeId,
  ...Citation.shape,
  kind: z.enum(['history', 'test', 'screen']),
  finding: Prose,
  test: SnakeId.optional(),
  rule: Prose,
  when: Condition.optional().meta({
    description: 'The finding as a condition on the visit; without it the ratio is shown and never computed with',
  }),
  sex: SexOrAll.default('all'),
  age_min: ageBand.age_min.default(null),
  age_max: ageBand.age_max.default(null),
  lr_positive: z.number().positive(),
  lr_negative: z.number().positive().optional(),
  lr_positive_ci95: Interval.optional(),
  lr_negative_ci95: Interval.optional(),
  lr_positive_range: Interval.optional().meta({ description: 'A range across studies is not an interval' }),
  lr_negative_range: Interval.optional(),
  outcome: Prose,
  population: Studied,
  note: Prose.optional(),
});
export type LikelihoodRatio = z.infer<typeof LikelihoodRatio>;

export const FallRate = z.strictObject({
  id: SnakeId,
  ...Citation.shape,
  outcome: Prose,
  probability: z.number().min(0).max(1).optional(),
  probability_ci95: Interval.optional(),
  probability_range: Interval.optional().meta({ description: 'A range across cohorts is not an interval' }),
  rate_per_person_year: z.number().nonnegative().optional(),
  rate_ci95: Interval.optional(),
  pretest_for: z
    .array(z.enum(['general', 'copd']))
    .optional()
    .meta({
      description: 'The figure before any answer or test for people like these; it must be of 12 months and have an interval',
    }),
  conditioned_on: z
    .array(z.string().regex(/^[a-z_]+(\.[a-z0-9_]+)*$/))
    .default([])
    .meta({
      description: 'Fields the people were chosen by, e.g. history.falls_past_year: no ratio of these is multiplied with it',
    }),
  population: Studied,
  sex: SexOrAll.default('all'),
  age_min: ageBand.age_min.default(null),
  age_max: ageBand.age_max.default(null),
  note: Prose.optional(),
});
export type FallRate = z.infer<typeof FallRate>;
export const AccuracyFile = z.strictObject({
  likelihood_ratios: z.array(LikelihoodRatio).default([]),
  fall_rates: z.array(FallRate).default([]),
  cautions: z
    .array(z.strictObject({ text: Prose, basis: Basis }))
    .default([])
    .meta({ description: 'Said wherever a probability is worked out' }),
});
export type AccuracyCaution = z.infer<typeof AccuracyFile>['cautions'][number];

/**
 * `norms/defaults.yaml`: which table may be primary, in which order, which measurement error is the default, and where the
 * words for a standing change. Of the errors of a test the first whose condition is true is taken; one without a condition
 * is the general default.
 */
export const Defaults = z.strictObject({
  standing: z.strictObject({
    well_below_under: z.number(),
    below_under: z.number(),
    above_over: z.number(),
    basis: Basis,
  }),
  tests: z.record(
    SnakeId,
    z.strictObject({
      tables: z
        .array(
          z.strictObject({
            source: SourceId,
            part: SnakeId.optional(),
            age_min: z
              .number()
              .optional()
              .meta({ description: 'Primary only from this age, where the source states no limits of its own' }),
            distance_m: z.number().optional().meta({ description: 'Primary only where the course was this long' }),
            why: Prose.optional(),
          }),
        )
        .default([]),
      no_table_because: Prose.optional(),
      error: z.array(z.strictObject({ id: SnakeId, when: Condition.optional(), why: Prose.optional() })).default([]),
    }),
  ),
});
export type Defaults = z.infer<typeof Defaults>;
export type StandingBands = Defaults['standing'];

/** A clinic's own `defaults.yaml` names only the tests it changes; the built-in file also says where the words change. */
export const DefaultsFile = Defaults.extend({
  standing: Defaults.shape.standing.optional(),
  tests: Defaults.shape.tests.default({}),
});
export type DefaultsFile = z.infer<typeof DefaultsFile>;
