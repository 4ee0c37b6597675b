/**
 * The small declarative language in which pathways, red flags, factors, caps and start rules are written.
 * It has no loops, variables or arithmetic: a clinician can read it, and three-valued logic can evaluate it.
 */
import { z } from 'zod';
import { SnakeId } from './common.ts';

const bounds = {
  at_least: z.number().optional(),
  above: z.number().optional(),
  at_most: z.number().optional(),
  below: z.number().optional(),
};

/** A field of the session, such as `history.feels_unsteady` or `health.oral_steroid.daily_mg`, or derived (`client.age`, `vitals.systolic_drop`). */
const FieldCondition = z.strictObject({
  field: z.string().regex(/^[a-z_]+(\.[a-z0-9_]+)*$/),
  is: z.union([z.string(), z.number(), z.array(z.string())]).optional(),
  recorded: z.boolean().optional(),
  ...bounds,
});

/**
 * A test result; the worse side counts. `unable` (and unsafe for balance) satisfies every "worse than" comparison and no
 * "better than" one; a time stopped at its ceiling satisfies `at_least` up to the ceiling and no `below`.
 */
const TestCondition = z.strictObject({
  test: SnakeId,
  outcome: z.enum(['unable', 'measured', 'unsafe_medical', 'not_tested']).optional(),
  standing: z.array(z.enum(['well_below', 'below', 'expected', 'above'])).optional(),
  flagged: z.boolean().optional(),
  near: z
    .array(SnakeId)
    .optional()
    .meta({ description: 'One of these cut-points is not met, yet lies inside the measurement error' }),
  ...bounds,
});

export type FieldCondition = z.infer<typeof FieldCondition>;
export type TestCondition = z.infer<typeof TestCondition>;
export type Condition =
  | FieldCondition
  | TestCondition
  | { item: string; is?: string | string[] | undefined }
  | { any: Condition[] }
  | { all: Condition[] }
  | { not: Condition }
  /** Several instruments for one question: yes when any says yes, unknown only when none is recorded. */
  | { any_recorded: Condition[] };

export const Condition: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    FieldCondition,
    TestCondition,
    z.strictObject({ item: SnakeId, is: z.union([z.string(), z.array(z.string())]).optional() }),
    z.strictObject({ any: z.array(Condition).min(1) }),
    z.strictObject({ all: z.array(Condition).min(1) }),
    z.strictObject({ not: Condition }),
    z.strictObject({ any_recorded: z.array(Condition).min(1) }),
  ]),
) as z.ZodType<Condition>;
