/** The professional's own level in place of the pathway's: what it brings with it, and which of the two others go by. */
import type { OverrideResult, RiskResult } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import type { Pathway } from '../evidence/schema/pathway.ts';
import type { RiskOverride } from '../session.ts';

/**
 * The level of the deciding pathway that was set by hand, with what that level calls for. Null where none was set, and where
 * the pathway has no such level (a visit written for another pathway): then the pathway's own level stands, and the
 * report says so.
 */
export function overrideOf(
  pathway: Pathway,
  override: RiskOverride | undefined,
  assessor: string | undefined,
): OverrideResult | null {
  const level = pathway.levels.find((candidate) => candidate.id === override?.level);
  if (override === undefined || level === undefined) return null;
  const { text, within_days, basis } = level.follow_up;
  return {
    level: level.id,
    label: level.label,
    reason: override.reason,
    by: assessor ?? null,
    actions: level.actions.map((action) => ({ text: action.text, request: action.request ?? null, ...basedOn(action.basis) })),
    follow_up: { text, within_days, ...basedOn(basis) },
  };
}

/** Level and bounds that the plan, the letter and the lists go by: the professional's where one was set. */
export function levelInForce(risk: Pick<RiskResult, 'level' | 'at_least' | 'at_most' | 'override'>): {
  readonly level: string;
  readonly at_least: string;
  readonly at_most: string;
} {
  const set = risk.override?.level;
  return set === undefined
    ? { level: risk.level, at_least: risk.at_least, at_most: risk.at_most }
    : { level: set, at_least: set, at_most: set };
}
