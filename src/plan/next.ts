/** The rung after the one in use: which, and whether the client may go there alone at home. */
import type { NextRung } from '../assessment.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { DoseRules } from '../evidence/schema/dose.ts';
import type { Exercise, Supervision } from '../evidence/schema/exercise.ts';
import { type AppliedCap, allows } from './caps.ts';

/** Why this client does not move beyond hands free alone; empty where nothing speaks against it. */
export function barsBeyondHandsFree(rules: DoseRules, facts: Facts): string[] {
  return rules.not_beyond_hands_free_alone.flatMap((bar) => {
    const truth = evaluate(bar.when, facts);
    const applies = truth === 'yes' || (truth === 'unknown' && bar.when_unknown === 'apply');
    return applies ? [bar.reason] : [];
  });
}

/** The first rung with free hands is still "hands free"; every later rung is beyond it, whatever its own support. */
export function isBeyondHandsFree(exercise: Exercise, level: number): boolean {
  const first = exercise.ladder.findIndex((rung) => rung.support === 'hands_free');
  return first >= 0 && level > first + 1;
}

export interface NextInput {
  readonly exercise: Exercise;
  readonly level: number;
  readonly caps: readonly AppliedCap[];
  readonly supervision: Supervision;
  readonly bars: readonly string[];
}

/** null at the top of the ladder and where a cap closes the next rung: one rung at a time, none is jumped. */
export function nextRung({ exercise, level, caps, supervision, bars }: NextInput): NextRung | null {
  const rung = exercise.ladder[level];
  if (rung === undefined || !caps.every(({ cap }) => allows(cap, rung))) return null;
  const because =
    supervision === 'professional'
      ? 'supervised one to one first'
      : level === 0
        ? 'the first try in standing'
        : !rung.self_progress
          ? 'a rung that nobody tries first alone'
          : isBeyondHandsFree(exercise, level + 1)
            ? (bars[0] ?? null)
            : null;
  return { level: level + 1, name: rung.name, by: because === null ? 'client' : 'professional', because };
}
