/** The plan part of the assessment: exercises with their starting rung, dose and limits, and the week they make. */
import type { Based, Caution } from './assessment-risk.ts';

export interface PlannedRung {
  /** From 1 (most support); 0 = held, or the seated variant. */
  readonly level: number;
  readonly of: number;
  readonly name: string;
  readonly support: string;
  readonly base: string;
  readonly surface: string;
  readonly vision: string;
  readonly task: string | null;
}

/** The dose in numbers, adapted to the client; null where the exercise has no such part. */
export interface DoseParts {
  readonly sets: number | null;
  /** From and to. */
  readonly repetitions: readonly [number, number] | null;
  readonly hold_s: number | null;
  readonly sides: 'each' | 'both_together' | 'not_applicable';
  /** From and to. */
  readonly days_per_week: readonly number[] | null;
  /** Rest between two sets, where it is set. */
  readonly rest_minutes: number | null;
  /** Time one session of it takes without and with those rests. */
  readonly working_minutes: number | null;
  readonly minutes: number | null;
}

/** The rung after the one in use, and who takes the client there. */
export interface NextRung {
  readonly level: number;
  readonly name: string;
  readonly by: 'client' | 'professional';
  /** Why the client does not go there alone; null where the client may. */
  readonly because: string | null;
}

/** What the professional set for an exercise in the visit file. */
export interface PlanOverride {
  readonly level: number | null;
  readonly dose: string | null;
  readonly days: number | null;
  readonly left_out: boolean;
  readonly reason: string | null;
  readonly by: string | null;
  /** What the program suggests. */
  readonly suggested: PlannedRung;
  /** Caps and tests that speak against the level that was set. */
  readonly warnings: readonly string[];
  /** Why the level is not applied; null where it is. */
  readonly refused: string | null;
}

export interface WeekDay {
  /** 1 = Monday. */
  readonly day: number;
  readonly exercises: readonly {
    readonly exercise: string;
    readonly minutes: number;
    /** What of it counts towards the weekly target. */
    readonly challenging_minutes: number;
  }[];
  readonly minutes: number;
}

/** A week of the exercises that go home. */
export interface Week {
  readonly days: readonly WeekDay[];
  readonly minutes: number;
  readonly challenging_minutes: number;
  readonly target_minutes: number;
  readonly target: string;
  readonly target_met: boolean;
  readonly notes: readonly string[];
  readonly basis: readonly Based[];
}

export interface PlannedExercise {
  readonly exercise: string;
  readonly name: string;
  readonly purpose: string;
  readonly start: PlannedRung;
  /** What put the start here, before any cap. */
  readonly because: readonly string[];
  /** Caps and holds that lowered it, each with what would lift it where that is known. */
  readonly limited_by: readonly string[];
  readonly held: boolean;
  readonly dose: string;
  readonly move_up: string;
  readonly move_down: string;
  readonly cautions: readonly string[];
  readonly supervision: string;
  readonly basis: readonly Based[];
  readonly dose_parts: DoseParts;
  /** How the dose or the way of working is adapted to this client. */
  readonly adaptations: readonly Caution[];
  /** Its minutes count towards the weekly target of challenging balance work. */
  readonly counts_as_challenge: boolean;
  /** null at the top, where a cap closes the next rung, and while held. */
  readonly next: NextRung | null;
  readonly override: PlanOverride | null;
  /** Among the exercises that go home. */
  readonly goes_home: boolean;
}
