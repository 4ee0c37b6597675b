/**
 * Starting level, dose and cautions for every exercise. The mapping from test results to rungs is the program's own rule,
 * written as data in `norms/exercises/` for a professional to review; no published source states one.
 */
import type { Based, PlannedExercise, PlannedRung } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { Cap, Exercise, Rung } from '../evidence/schema/exercise.ts';
import { PURPOSES } from '../evidence/schema/words.ts';
import { type AppliedCap, allows, appliedCaps, capInWords, concerns, strictestSupervision } from './caps.ts';
import { startRung } from './start.ts';

export interface PlanInput {
  readonly exercises: readonly Exercise[];
  readonly caps: readonly Cap[];
  readonly facts: Facts;
  readonly testName: (test: string) => string;
}

function describeRung(exercise: Exercise, level: number): PlannedRung {
  const rung: Rung | undefined = exercise.ladder[level - 1];
  const of = exercise.ladder.length;
  if (rung === undefined)
    return {
      level: 0,
      of,
      name: exercise.seated_variant.name,
      support: 'seated',
      base: 'seated',
      surface: 'chair',
      vision: 'eyes_open',
      task: null,
    };
  return {
    level,
    of,
    name: rung.name,
    support: rung.support,
    base: rung.base,
    surface: rung.surface,
    vision: rung.vision,
    task: rung.task,
  };
}

/** Highest rung at or under `from` that no cap closes; 0 where there is none. */
function highestAllowed(exercise: Exercise, caps: readonly AppliedCap[], from: number): number {
  for (let level = from; level > 0; level -= 1) {
    const rung = exercise.ladder[level - 1];
    if (rung !== undefined && caps.every(({ cap }) => allows(cap, rung))) return level;
  }
  return 0;
}

/** A cap is worth a line when it closes a rung of this ladder; what lowered the start says so. */
function limits(exercise: Exercise, caps: readonly AppliedCap[], wanted: number): string[] {
  const top = exercise.ladder.length;
  return caps.flatMap((applied) => {
    const { effect } = applied.cap;
    const words = capInWords(applied);
    if (effect.hold) return [`held: ${words}`];
    if (effect.seated) return [`seated variant: ${words}`];
    if (highestAllowed(exercise, [applied], wanted) < wanted) return [`lowered: ${words}`];
    const reach = highestAllowed(exercise, [applied], top);
    const name = exercise.ladder[reach - 1]?.name;
    return reach < top && name !== undefined ? [`not beyond "${name}": ${words}`] : [];
  });
}

function planOne(exercise: Exercise, inForce: readonly AppliedCap[], { facts, testName }: PlanInput): PlannedExercise {
  const caps = inForce.filter(({ cap }) => concerns(cap, exercise));
  const wanted = startRung(exercise, facts, testName);
  const held = caps.some(({ cap }) => cap.effect.hold);
  const level = highestAllowed(exercise, caps, wanted.rung);
  const basis: Based[] = [
    exercise.ladder_basis,
    exercise.start.basis,
    exercise.dose.basis,
    ...caps.map(({ cap }) => cap.basis),
  ].map(basedOn);
  return {
    exercise: exercise.id,
    name: exercise.name,
    purpose: exercise.purpose,
    start: describeRung(exercise, level),
    because: wanted.because,
    limited_by: limits(exercise, caps, wanted.rung),
    held,
    dose: exercise.dose.text,
    move_up: exercise.move_up.text,
    move_down: exercise.move_down.text,
    cautions: exercise.cautions
      .filter((caution) => caution.when === undefined || evaluate(caution.when, facts) === 'yes')
      .map((caution) => caution.text),
    supervision: strictestSupervision([
      ...(level === 0 && !held ? (['someone_beside'] as const) : []),
      ...caps.flatMap(({ cap }) => cap.effect.supervision ?? []),
    ]),
    basis: [...new Map(basis.map((each) => [`${each.source}|${each.location}|${each.basis}`, each])).values()],
  };
}

/** Every exercise, always, in the order of a session: warm-up, strength, standing, moving, stretch. */
export function planExercises(input: PlanInput): PlannedExercise[] {
  const inForce = appliedCaps(input.caps, input.facts);
  const place = (exercise: Exercise): number => PURPOSES.indexOf(exercise.purpose) * 1000 + exercise.order;
  return [...input.exercises].sort((a, b) => place(a) - place(b)).map((exercise) => planOne(exercise, inForce, input));
}
