/** What limits or holds an exercise whatever the tests allow. Every cap is data; this only adds them up. */
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { Cap, Exercise, Feature, Rung, Supervision } from '../evidence/schema/exercise.ts';
import { SUPERVISIONS, SUPPORTS } from '../evidence/schema/words.ts';

export interface AppliedCap {
  readonly cap: Cap;
  /** In force only because an answer is missing. */
  readonly becauseUnknown: boolean;
}

/** Caps in force for this client, in file order. */
export function appliedCaps(caps: readonly Cap[], facts: Facts): AppliedCap[] {
  return caps.flatMap((cap): AppliedCap[] => {
    const truth = evaluate(cap.when, facts);
    if (truth === 'yes') return [{ cap, becauseUnknown: false }];
    return truth === 'unknown' && cap.when_unknown === 'apply' ? [{ cap, becauseUnknown: true }] : [];
  });
}

/** Is this exercise among those that the cap is for? Without a list it is for all. */
export function concerns(cap: Cap, exercise: Exercise): boolean {
  if (cap.exercises !== undefined && !cap.exercises.includes(exercise.id)) return false;
  return cap.purposes === undefined || cap.purposes.includes(exercise.purpose);
}

/** Features written on the rung and those that its description implies. */
export function featuresOf(rung: Rung): Set<Feature> {
  const features = new Set(rung.features);
  if (rung.surface === 'foam') features.add('foam');
  if (rung.vision === 'eyes_closed') features.add('eyes_closed');
  if (rung.head === 'turning') features.add('head_turns');
  if (rung.task !== null) features.add('second_task');
  return features;
}

/** Does this cap leave the rung open? Holds and seated variants close every rung. */
export function allows(cap: Cap, rung: Rung): boolean {
  const { effect } = cap;
  if (effect.hold || effect.seated) return false;
  if (effect.least_support !== undefined && SUPPORTS.indexOf(rung.support) > SUPPORTS.indexOf(effect.least_support)) return false;
  const features = featuresOf(rung);
  return !effect.forbid.some((feature) => features.has(feature));
}

/** Reason, and what would lift it. */
export function capInWords({ cap, becauseUnknown }: AppliedCap): string {
  const reason = becauseUnknown ? (cap.reason_unknown ?? `${cap.reason} (not recorded, so taken as possible)`) : cap.reason;
  return cap.lifts === undefined ? reason : `${reason}; ${cap.lifts.charAt(0).toLowerCase()}${cap.lifts.slice(1)}`;
}

/** The one that asks most; on one's own where there is none. */
export const strictestSupervision = (levels: readonly Supervision[]): Supervision =>
  SUPERVISIONS[Math.max(0, ...levels.map((level) => SUPERVISIONS.indexOf(level)))] ?? 'professional';
