/** The dose for this client: that of the exercise, with less at a time or more rest where an adaptation asks for it. */
import type { DoseParts } from '../assessment.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { DoseAdaptation, DoseRules } from '../evidence/schema/dose.ts';
import type { Dose, Exercise, Rung } from '../evidence/schema/exercise.ts';
import { SUPPORTS } from '../evidence/schema/words.ts';

/** Adaptations that hold for this client, in file order; an answer that is missing adapts nothing. */
export const adaptationsFor = (rules: DoseRules, facts: Facts): DoseAdaptation[] =>
  rules.adaptations.filter((adaptation) => evaluate(adaptation.when, facts) === 'yes');

export const concernsPurpose = (adaptation: DoseAdaptation, exercise: Exercise): boolean =>
  adaptation.purposes === undefined || adaptation.purposes.includes(exercise.purpose);

/** The lowest of the limits that are set; `usual` where none is. */
function atMost(usual: number | null, limits: readonly (number | undefined)[]): number | null {
  if (usual === null) return null;
  return Math.min(usual, ...limits.filter((limit) => limit !== undefined));
}

/**
 * The parts of the dose with every adaptation in force. Never more sets or repetitions than the exercise has; minutes shrink
 * with the sets and grow with the rests between them.
 */
export function adaptedDose(dose: Dose, adaptations: readonly DoseAdaptation[]): DoseParts {
  const effects = adaptations.map(({ effect }) => effect);
  const sets = atMost(
    dose.sets,
    effects.map((effect) => effect.sets_at_most),
  );
  const most = effects.flatMap((effect) => effect.repetitions_at_most ?? []);
  const repetitions = dose.repetitions?.map((count) => Math.min(count, ...most)) ?? null;
  const rests = effects.flatMap((effect) => effect.rest_minutes_between_sets ?? []);
  const rest = rests.length > 0 && (sets ?? 1) > 1 ? Math.max(...rests) : null;
  const working = dose.minutes === null ? null : Math.ceil((dose.minutes * (sets ?? 1)) / (dose.sets ?? 1));
  return {
    sets,
    repetitions: repetitions === null ? null : [repetitions[0] ?? 0, repetitions[1] ?? 0],
    hold_s: dose.hold_s,
    sides: dose.sides,
    days_per_week: dose.days_per_week === null ? null : [...dose.days_per_week],
    rest_minutes: rest,
    working_minutes: working,
    minutes: working === null ? null : working + (rest ?? 0) * ((sets ?? 1) - 1),
  };
}

/** The words of the exercise; where an adaptation lowers the numbers, the lower ones first. */
export function doseInWords(dose: Dose, parts: DoseParts): string {
  const fewer = parts.sets !== dose.sets || parts.repetitions?.[1] !== dose.repetitions?.[1];
  if (!fewer) return dose.text;
  const sets = parts.sets === null ? [] : [`${parts.sets} ${parts.sets === 1 ? 'set' : 'sets'}`];
  const repetitions = parts.repetitions === null ? [] : [`of up to ${parts.repetitions[1]}`];
  return `${[...sets, ...repetitions].join(' ')} to begin with. Later: ${dose.text}`;
}

/**
 * Whether time on this rung counts as challenging balance work: enough of three hold - feet close together, on one leg or
 * moving from leg to leg; the whole body moving in standing; little hand support.
 */
export function countsAsChallenge(exercise: Exercise, rung: Rung | undefined, { challenge }: DoseRules['week']): boolean {
  if (rung === undefined || !exercise.dose.counts_as_balance) return false;
  const little = SUPPORTS.indexOf(rung.support) >= SUPPORTS.indexOf(challenge.little_support_from);
  return [exercise.narrow_base, exercise.whole_body, little].filter(Boolean).length >= challenge.criteria_needed;
}
