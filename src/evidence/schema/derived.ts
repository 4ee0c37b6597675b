/**
 * `norms/derived.yaml`: results worked out from other recorded tests. Two forms are enough: points for each part of a
 * battery, added up, and a ladder of stances of which the number held is the result. The engine knows no test by name.
 */
import { z } from 'zod';
import { Basis, Citation, Prose, SnakeId } from './common.ts';

const marks = {
  at_least: z.number().optional(),
  above: z.number().optional(),
  at_most: z.number().optional(),
  below: z.number().optional(),
};
const MARK_KEYS = ['at_least', 'above', 'at_most', 'below'] as const;

/** Points for one stretch of the value. Bands run from most to fewest points; the first whose mark holds counts. */
export const PointBand = z.strictObject({
  points: z.number().int().min(0),
  ...marks,
  ...Citation.shape,
  note: Prose.optional(),
});
export type PointBand = z.infer<typeof PointBand>;

const markCount = (band: PointBand): number => MARK_KEYS.filter((key) => band[key] !== undefined).length;

/** Exactly one mark in every band but the last, which takes what is left; points fall from band to band. */
function bandsAreOrdered(bands: readonly PointBand[]): boolean {
  return bands.every((band, index) => {
    const next = bands[index + 1];
    return markCount(band) === (next === undefined ? 0 : 1) && (next === undefined || next.points < band.points);
  });
}

/** How the number that the bands speak of is got from the recorded result. */
const Reading = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('value') }),
  z.strictObject({
    kind: z
      .literal('time_over_course')
      .meta({ description: 'Seconds over the course, from a speed in m/s: course / speed, or the recorded time' }),
    course_m: z.number().positive(),
    start: z
      .enum(['standing', 'moving'])
      .meta({ description: 'A walk recorded with another start or over another course gives no points' }),
    course_not_recorded: z
      .enum(['take_as_stated', 'no_points'])
      .meta({ description: 'Where the file gives a speed without a course; `take_as_stated` is said with the result' }),
    basis: Basis,
  }),
]);

/** One recorded test that earns points. `unable` also covers a test stopped as unsafe for balance. */
export const PointItem = z.strictObject({
  test: SnakeId,
  reading: Reading.default({ kind: 'value' }),
  round_to: z
    .number()
    .positive()
    .optional()
    .meta({ description: 'The printed borders have this step; the value is rounded to it before it is compared' }),
  bands: z.array(PointBand).min(2).refine(bandsAreOrdered, 'one mark a band, none in the last, and points falling'),
  unable: z.strictObject({ points: z.literal(0), ...Citation.shape }),
});
export type PointItem = z.infer<typeof PointItem>;

/** What unrecorded steps of a sequence from easy to hard may be taken to be. Where neither rule speaks, the result is missing. */
export const SequenceRules = z.strictObject({
  not_tried_after_failure: z
    .strictObject({ basis: Basis })
    .optional()
    .meta({ description: 'After a step that was not held, harder ones without a record count as not held' }),
  implied_by_harder: z
    .strictObject({ by: z.array(SnakeId).min(1), basis: Basis })
    .optional()
    .meta({
      description: 'One of these steps, held for the full time (the most points), speaks for easier ones without a record',
    }),
});
export type SequenceRules = z.infer<typeof SequenceRules>;

export const PointPart = z.strictObject({
  id: SnakeId,
  name: Prose,
  max_points: z.number().int().positive(),
  items: z
    .array(PointItem)
    .min(1)
    .meta({ description: 'More than one: their points are added, from the easiest to the hardest' }),
  sequence: SequenceRules.optional(),
});
export type PointPart = z.infer<typeof PointPart>;

const best = (item: PointItem): number => item.bands[0]?.points ?? 0;

/** A total of points, for example 0 to 12; missing while any part is missing. */
export const PointTotal = z
  .strictObject({
    test: SnakeId.meta({ description: 'Id of the derived test' }),
    max_points: z.number().int().positive(),
    parts: z.array(PointPart).min(1),
    basis: Basis,
    notes: z.array(Prose).default([]).meta({ description: 'Shown with the result' }),
    remarks: Prose.optional().meta({ description: 'For reviewers; not shown in reports' }),
  })
  .superRefine((total, context) => {
    for (const part of total.parts) {
      const reachable = part.items.reduce((sum, item) => sum + best(item), 0);
      if (reachable !== part.max_points)
        context.addIssue({
          code: 'custom',
          message: `part ${part.id}: items give up to ${reachable} points, max_points says ${part.max_points}`,
        });
    }
    const sum = total.parts.reduce((points, part) => points + part.max_points, 0);
    if (sum !== total.max_points)
      context.addIssue({ code: 'custom', message: `parts give up to ${sum} points, max_points says ${total.max_points}` });
  });
export type PointTotal = z.infer<typeof PointTotal>;

/** A ladder of stances: the result is the number held for `hold_s`, counted from the first to the one before the first not held. */
export const StageLadder = z.strictObject({
  test: SnakeId.meta({ description: 'Id of the derived test' }),
  hold_s: z.number().positive(),
  stages: z
    .array(
      z.strictObject({
        test: SnakeId,
        name: Prose,
        side: z.enum(['worse', 'better']).optional().meta({ description: 'Which side counts, for tests done on either leg' }),
        side_basis: Basis.optional(),
      }),
    )
    .min(2),
  sequence: SequenceRules,
  basis: Basis,
  notes: z.array(Prose).default([]).meta({ description: 'Shown with the result' }),
  remarks: Prose.optional().meta({ description: 'For reviewers; not shown in reports' }),
});
export type StageLadder = z.infer<typeof StageLadder>;

/** 100 x (with the second task - without) / without, in per cent: what a second task costs. */
export const RelativeCost = z.strictObject({
  test: SnakeId.meta({ description: 'Id of the derived test' }),
  single: SnakeId,
  dual: SnakeId,
  basis: Basis,
  notes: z.array(Prose).default([]).meta({ description: 'Shown with the result' }),
});
export type RelativeCost = z.infer<typeof RelativeCost>;

export const DerivedFile = z.strictObject({
  point_totals: z.array(PointTotal).default([]),
  stage_ladders: z.array(StageLadder).default([]),
  relative_costs: z.array(RelativeCost).default([]),
});
export type DerivedFile = z.infer<typeof DerivedFile>;
