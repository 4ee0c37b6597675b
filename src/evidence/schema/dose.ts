/** `norms/dose.yaml`: how a dose is adapted to the client, what a week of it comes to, and who moves up alone at home. */
import { z } from 'zod';
import { Basis, Citation, Prose, SnakeId } from './common.ts';
import { Condition } from './condition.ts';
import { PURPOSES, SUPPORTS } from './words.ts';

/**
 * Applies to every exercise (or those named) while `when` holds. Effects only ever ask for less at a time or more rest; where
 * two set the same thing, the lower dose and the longer rest count.
 */
export const DoseAdaptation = z.strictObject({
  id: SnakeId,
  when: Condition,
  purposes: z.array(z.enum(PURPOSES)).optional().meta({ description: 'Absent = all' }),
  text: Prose.meta({ description: 'For the professional' }),
  effect: z
    .strictObject({
      sets_at_most: z.number().int().positive().optional(),
      repetitions_at_most: z.number().int().positive().optional(),
      rest_minutes_between_sets: z.number().positive().optional(),
      most_exercises: z.number().int().positive().optional().meta({ description: 'Exercises that go home at most' }),
    })
    .default({}),
  basis: Basis,
});
export type DoseAdaptation = z.infer<typeof DoseAdaptation>;

const Reason = z.strictObject({
  id: SnakeId,
  when: Condition,
  when_unknown: z.enum(['apply', 'ignore']).default('ignore'),
  reason: Prose,
  basis: Basis,
});

export const WeekRules = z.strictObject({
  days: z.number().int().min(1).max(7).meta({ description: 'Days with a session where the visit file names none' }),
  most_exercises: z.number().int().positive().meta({ description: 'Exercises that go home at most, unless they are chosen' }),
  target: z.strictObject({ minutes: z.number().positive(), text: Prose, basis: Citation }),
  least_days: z.strictObject({ days: z.number().int().positive(), text: Prose, basis: Citation }),
  least_strength_days: z.strictObject({ days: z.number().int().positive(), text: Prose, basis: Citation }),
  rest_day_between: z.array(z.enum(PURPOSES)).meta({ description: 'Purposes that never come on two days in a row' }),
  /** Minutes count towards the target where this many of three hold: narrow base, whole body moving, little hand support. */
  challenge: z.strictObject({
    criteria_needed: z.number().int().min(1).max(3),
    little_support_from: z.enum(SUPPORTS).meta({ description: 'Support that is little, with all that is less' }),
    basis: Basis,
  }),
});
export type WeekRules = z.infer<typeof WeekRules>;

export const DoseFile = z.strictObject({
  week: WeekRules,
  adaptations: z.array(DoseAdaptation),
  /** While one of these holds, a client does not move beyond hands free alone. */
  not_beyond_hands_free_alone: z.array(Reason),
  between_visits: z.strictObject({
    sessions_before_up: z.number().int().positive().meta({ description: 'Sessions since the last visit before a step up' }),
    basis: Basis,
  }),
});
export type DoseRules = z.infer<typeof DoseFile>;
