/** Red flags, red flags nobody asked about, and contributing factors. */
import type { FactorResult, RedFlagResult } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { Labels } from '../evidence/describe.ts';
import type { Factor, RedFlag } from '../evidence/schema/pathway.ts';
import { TIERS } from '../evidence/schema/words.ts';
import type { Clearance } from '../session.ts';
import { clearanceOf } from './clearance.ts';
import { fill } from './text.ts';

/** What was recorded as cleared, and the day of the visit (ISO date). */
export interface Cleared {
  readonly clearances: readonly Clearance[];
  readonly assessed: string;
}
const NOTHING_CLEARED: Cleared = { clearances: [], assessed: '' };

/** Red flags whose condition is true: those still open first, the most urgent first, then in file order. */
export function redFlagsOf(
  flags: readonly RedFlag[],
  facts: Facts,
  labels: Labels,
  { clearances, assessed }: Cleared = NOTHING_CLEARED,
): RedFlagResult[] {
  return flags
    .filter((flag) => evaluate(flag.when, facts) === 'yes')
    .map((flag) => {
      const { cleared, refusedBecause } = clearanceOf(flag, clearances, assessed);
      return {
        id: flag.id,
        tier: flag.tier,
        finding: fill(flag.finding, facts, labels),
        because: fill(flag.because, facts, labels),
        action: fill(flag.action, facts, labels),
        spread: flag.spread ?? null,
        cleared,
        clearance_refused: refusedBecause,
        ...basedOn(flag.basis),
      };
    })
    .sort((a, b) => Number(a.cleared !== null) - Number(b.cleared !== null) || TIERS.indexOf(a.tier) - TIERS.indexOf(b.tier));
}

/** What would have to be asked to rule each red flag in or out: an unknown flag is never read as none. Without repeats. */
export function notAsked(flags: readonly RedFlag[], facts: Facts): string[] {
  return [...new Set(flags.filter((flag) => evaluate(flag.when, facts) === 'unknown').map((flag) => flag.ask))];
}

/** Contributing factors that were found, in file order; those not found and those not asked are left out. */
export function factorsOf(factors: readonly Factor[], facts: Facts, labels: Labels): FactorResult[] {
  return factors
    .filter((factor) => evaluate(factor.when, facts) === 'yes')
    .map((factor) => ({
      id: factor.id,
      name: factor.name,
      about: factor.about,
      found: fill(factor.found, facts, labels),
      why: factor.why,
      usual_action: factor.usual_action,
      request: factor.request ?? null,
      who: factor.who,
      ...basedOn(factor.basis),
    }));
}
