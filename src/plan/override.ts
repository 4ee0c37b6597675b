/** The professional's own level, dose or choice for an exercise: it counts, is shown as theirs, and caps still warn. */
import type { PlannedRung, PlanOverride } from '../assessment.ts';
import type { Exercise } from '../evidence/schema/exercise.ts';
import type { ExerciseOverride } from '../session.ts';
import { type AppliedCap, allows, capInWords } from './caps.ts';

export interface OverrideInput {
  readonly exercise: Exercise;
  readonly set: ExerciseOverride;
  readonly caps: readonly AppliedCap[];
  readonly held: boolean;
  /** Rung by the tests alone. */
  readonly byTests: { readonly rung: number; readonly because: readonly string[] };
  readonly suggested: PlannedRung;
  readonly by: string | null;
}

/** What speaks against the level that was set: every cap that closes it, and the tests where they allow less. */
function warningsFor({ exercise, caps, byTests }: OverrideInput, level: number): string[] {
  const rung = exercise.ladder[level - 1];
  if (rung === undefined) return [];
  const closed = caps.filter(({ cap }) => !allows(cap, rung)).map(capInWords);
  const tests = level > byTests.rung ? [`higher than the tests allow: ${byTests.because.join('; ')}`] : [];
  return [...closed, ...tests];
}

/** A level is not applied while something holds the exercise, nor where the ladder has no such rung; the reason is in `refused`. */
export function applyOverride(input: OverrideInput): PlanOverride {
  const { exercise, set, held, suggested, by } = input;
  const level = set.level ?? null;
  const refused =
    level === null
      ? null
      : held
        ? 'not applied: the exercise is held until what holds it is cleared'
        : level > exercise.ladder.length
          ? `not applied: the ladder ends at level ${exercise.ladder.length}`
          : null;
  return {
    level,
    dose: set.dose ?? null,
    days: set.days ?? null,
    left_out: set.leaveOut === true,
    reason: set.reason ?? null,
    by,
    suggested,
    warnings: level === null || refused !== null ? [] : warningsFor(input, level),
    refused,
  };
}

/** The level in use: the professional's where it was set and applies. */
export const levelInUse = (override: PlanOverride | null, suggested: number): number =>
  override === null || override.level === null || override.refused !== null ? suggested : override.level;
