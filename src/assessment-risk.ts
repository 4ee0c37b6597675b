/**
 * What the risk room found, and what every statement rests on: part of the contract in assessment.ts. Key names are those
 * of the JSON output; keys are only ever added.
 */
import type { Status } from './evidence/schema/common.ts';

/** Source of a statement: a citation, or null for a rule of the trade or the program's own (then `basis` says which). */
export interface Based {
  readonly source: string | null;
  readonly basis: Status | 'own-rule';
  readonly location: string | null;
}

export interface Caution extends Based {
  readonly text: string;
  /** Of general cautions: said because of something recorded about this client. */
  readonly specific?: boolean;
}

export interface RedFlagResult extends Based {
  readonly id: string;
  readonly tier: 'emergency' | 'same_day' | 'clear_first';
  readonly finding: string;
  readonly because: string;
  readonly action: string;
  readonly spread: string | null;
  /** By whom and when (ISO date) it was cleared; null while it is open, and an open flag holds the plan and the handout. */
  readonly cleared: { readonly by: string; readonly date: string } | null;
  /** Why a recorded clearance does not count. */
  readonly clearance_refused: string | null;
}

export interface StepResult extends Based {
  readonly id: string;
  readonly question: string;
  readonly answer: 'yes' | 'no' | 'unknown';
  readonly because: string;
  readonly reached: 'yes' | 'no' | 'perhaps';
}

export interface MissingItem {
  readonly item: string;
  readonly question: string;
  readonly kind: 'record' | 'question' | 'test';
}

export interface ActionResult extends Based {
  readonly text: string;
  /** The same as a request to the doctor, for the letter. */
  readonly request?: string | null;
}

export interface CaveatResult extends Based {
  readonly id: string;
  readonly text: string;
  /** Said because of something recorded about this client, not of everybody at this level. */
  readonly specific?: boolean;
}

export interface FactorResult extends Based {
  readonly id: string;
  readonly name: string;
  readonly about: 'fall' | 'injury';
  readonly found: string;
  readonly why: string;
  readonly usual_action: string;
  /** What is asked of the doctor, for the letter. */
  readonly request?: string | null;
  readonly who: string;
}

export interface FollowUp extends Based {
  readonly text: string;
  readonly within_days: number;
}

/** An option of a pathway that was asked for. */
export interface OptionInUse {
  readonly id: string;
  readonly name: string;
}

export interface PathwayResult {
  readonly pathway: string;
  readonly name: string;
  readonly options: readonly OptionInUse[];
  readonly level: string;
  readonly label: string;
  readonly at_least: string;
  readonly at_most: string;
  readonly steps: readonly StepResult[];
  /** The shortest list of questions or tests that would settle the level, cheapest first; empty when it is settled. */
  readonly missing: readonly MissingItem[];
  readonly caveats: readonly CaveatResult[];
  readonly actions: readonly ActionResult[];
  readonly follow_up: FollowUp | null;
}

export interface OtherPathway extends PathwayResult {
  /** One sentence on why it differs; null where it does not. */
  readonly differs_because: string | null;
}

/** The level set by the professional in place of the pathway's; the pathway's own stays in `level`. */
export interface OverrideResult {
  readonly level: string;
  readonly label: string;
  readonly reason: string;
  readonly by: string | null;
  readonly actions: readonly ActionResult[];
  readonly follow_up: FollowUp;
}

/** How many people like this fall, as one source has it; the client's own answers are not in it. */
export interface FallRateResult extends Based {
  readonly id: string;
  readonly outcome: string;
  readonly population: string;
  /** null for people in general. */
  readonly condition: string | null;
  /** 0 to 1. */
  readonly probability: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly rate_per_person_year: number | null;
  readonly note: string | null;
}

export interface RiskResult extends PathwayResult {
  readonly red_flags: readonly RedFlagResult[];
  readonly not_asked: readonly string[];
  readonly other_pathways: readonly OtherPathway[];
  readonly factors: readonly FactorResult[];
  readonly fall_rates: readonly FallRateResult[];
  readonly override: OverrideResult | null;
  /** null unless it was asked for and can be worked out. */
  readonly probability: Probability | null;
  /** Why there is none although it was asked for. */
  readonly no_probability_because: string | null;
}

/** One part of the arithmetic: the figure before, or a likelihood ratio. */
export interface ProbabilityPart extends Based {
  readonly id: string;
  readonly kind: 'before' | 'history' | 'test';
  readonly text: string;
  /** A probability of 0 to 1 for `before`, else a ratio; with its 95 % interval. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Of one or more falls in 12 months, 0 to 1. `low` and `high` are a 95 % interval. */
export interface Probability {
  readonly before: number;
  readonly after: number;
  readonly low: number;
  readonly high: number;
  /** Ids of the likelihood ratios. */
  readonly used: readonly string[];
  readonly parts: readonly ProbabilityPart[];
  /** The odds form in this client's numbers. */
  readonly formula: string;
  readonly not_used: readonly string[];
  readonly warnings: readonly Caution[];
}
