/**
 * Starting level, dose and cautions for every exercise. The mapping from test results to rungs is the program's own rule,
 * written as data in `norms/exercises/` for a professional to review; no published source states one.
 */
import type { Based, PlannedExercise, PlannedRung } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { DoseAdaptation, DoseRules } from '../evidence/schema/dose.ts';
import type { Cap, Exercise, Rung, Supervision } from '../evidence/schema/exercise.ts';
import { PURPOSES } from '../evidence/schema/words.ts';
import type { PlanWishes } from '../session.ts';
import { type AppliedCap, allows, appliedCaps, capInWords, concerns, strictestSupervision } from './caps.ts';
import { exercisesForHome } from './choose.ts';
import { adaptationsFor, adaptedDose, concernsPurpose, countsAsChallenge, doseInWords } from './dose.ts';
import { barsBeyondHandsFree, nextRung } from './next.ts';
import { applyOverride, levelInUse } from './override.ts';
import { startRung } from './start.ts';

export interface PlanInput {
  readonly exercises: readonly Exercise[];
  readonly caps: readonly Cap[];
  readonly facts: Facts;
  readonly testName: (test: string) => string;
  readonly dose: DoseRules;
  /** What the professional set in the visit file, and who that is. */
  readonly wishes?: PlanWishes | undefined;
  readonly assessor?: string | undefined;
}

/** What is the same for every exercise of this client. */
interface ForAll {
  readonly inForce: readonly AppliedCap[];
  readonly adaptations: readonly DoseAdaptation[];
  readonly bars: readonly string[];
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

function basisOf(exercise: Exercise, caps: readonly AppliedCap[]): Based[] {
  const basis = [exercise.ladder_basis, exercise.start.basis, exercise.dose.basis, ...caps.map(({ cap }) => cap.basis)].map(
    basedOn,
  );
  return [...new Map(basis.map((each) => [`${each.source}|${each.location}|${each.basis}`, each])).values()];
}

/** Cautions of the exercise that concern this client. */
export const cautionsFor = (exercise: Exercise, facts: Facts): number[] =>
  exercise.cautions.flatMap((caution, index) =>
    caution.when === undefined || evaluate(caution.when, facts) === 'yes' ? [index] : [],
  );

function supervisionOf(caps: readonly AppliedCap[], level: number, held: boolean): Supervision {
  const seated = level === 0 && !held ? (['someone_beside'] as const) : [];
  return strictestSupervision([...seated, ...caps.flatMap(({ cap }) => cap.effect.supervision ?? [])]);
}

function planOne(
  exercise: Exercise,
  input: PlanInput,
  { inForce, adaptations, bars }: ForAll,
): Omit<PlannedExercise, 'goes_home'> {
  const { facts } = input;
  const caps = inForce.filter(({ cap }) => concerns(cap, exercise));
  const wanted = startRung(exercise, facts, input.testName);
  const held = caps.some(({ cap }) => cap.effect.hold);
  const suggested = describeRung(exercise, highestAllowed(exercise, caps, wanted.rung));
  const set = input.wishes?.exercises?.[exercise.id];
  const by = input.assessor ?? null;
  const override = set === undefined ? null : applyOverride({ exercise, set, caps, held, byTests: wanted, suggested, by });
  const level = levelInUse(override, suggested.level);
  const adapting = adaptations.filter((adaptation) => concernsPurpose(adaptation, exercise));
  const parts = adaptedDose(exercise.dose, adapting);
  const supervision = supervisionOf(caps, level, held);
  return {
    exercise: exercise.id,
    name: exercise.name,
    purpose: exercise.purpose,
    start: describeRung(exercise, level),
    because: wanted.because,
    limited_by: limits(exercise, caps, wanted.rung),
    held,
    dose: override?.dose ?? doseInWords(exercise.dose, parts),
    move_up: exercise.move_up.text,
    move_down: exercise.move_down.text,
    cautions: cautionsFor(exercise, facts).flatMap((index) => exercise.cautions[index]?.text ?? []),
    supervision,
    basis: basisOf(exercise, caps),
    dose_parts: parts,
    adaptations: held ? [] : adapting.map(({ text, basis }) => ({ text, ...basedOn(basis) })),
    counts_as_challenge: !held && countsAsChallenge(exercise, exercise.ladder[level - 1], input.dose.week),
    next: held ? null : nextRung({ exercise, level, caps, supervision, bars }),
    override,
  };
}

/** Every exercise, always, in the order of a session: warm-up, strength, standing, moving, stretch. */
export function planExercises(input: PlanInput): PlannedExercise[] {
  const { exercises, facts, dose, wishes } = input;
  const adaptations = adaptationsFor(dose, facts);
  const forAll: ForAll = { inForce: appliedCaps(input.caps, facts), adaptations, bars: barsBeyondHandsFree(dose, facts) };
  const place = (exercise: Exercise): number => PURPOSES.indexOf(exercise.purpose) * 1000 + exercise.order;
  const plan = [...exercises].sort((a, b) => place(a) - place(b)).map((exercise) => planOne(exercise, input, forAll));
  const home = exercisesForHome({ plan, exercises, rules: dose, adaptations, chosen: wishes?.choose });
  return plan.map((exercise) => ({ ...exercise, goes_home: home.includes(exercise.exercise) }));
}
