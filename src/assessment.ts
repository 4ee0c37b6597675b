/**
 * The result of one visit: the contract other programs rely on. Key names are those of the JSON output, so that the
 * JSON report is this value and nothing is renamed on the way. Keys are only ever added.
 */
import type { Citation, Status } from './evidence/schema/common.ts';
import type { Side } from './session.ts';

export type Standing = 'well_below' | 'below' | 'expected' | 'above';
export type PercentileBound = 'exact' | 'at_most' | 'at_least';
export type Method = 'percentile_points' | 'cumulative_share' | 'mean_sd' | 'mean_only' | 'mean_ci' | 'median_only' | 'equation';

export interface Band {
  readonly sex: 'female' | 'male' | 'all';
  readonly age_min: number | null;
  readonly age_max: number | null;
  /** Further strata of the row: setting, side, stance, height_min_cm, ... */
  readonly [stratum: string]: string | number | null;
}

/** One line of "how we got there", for `explain` and the basis section: a label and the arithmetic in this client's numbers. */
export interface Working {
  readonly row: string;
  readonly formula: string;
}

export interface Comparison {
  readonly source: string;
  readonly part: string;
  readonly location: string;
  readonly status: Status;
  readonly primary: boolean;
  readonly band: Band;
  readonly population: string;
  readonly value: number | null;
  readonly trials_rule: 'best' | 'mean' | 'first' | 'unknown';
  readonly method: Method;
  /** 0-100 to 0.1, higher = better performance. */
  readonly percentile: number | null;
  readonly percentile_bound: PercentileBound | null;
  readonly approximate: boolean;
  /** To 0.01, positive = better. */
  readonly z: number | null;
  readonly standing: Standing | null;
  readonly against_mean: 'worse' | 'not_worse' | null;
  /** Mean, median, predicted value or P50 of people like this, in the test's unit. */
  readonly expected: number | null;
  readonly mismatches: readonly string[];
  readonly notes: readonly string[];
  /** Why this table gives no standing, where it gives none. */
  readonly no_standing_because: string | null;
  readonly working: Working;
}

export interface CutPointResult {
  readonly id: string;
  readonly source: string;
  readonly location: string;
  readonly status: Status;
  readonly rule: string;
  /** null where a value stopped at its ceiling cannot decide it. */
  readonly met: boolean | null;
  /** The cut lies inside the measurement error; null where no error is published. */
  readonly near: boolean | null;
  readonly sensitivity: number | null;
  readonly specificity: number | null;
  readonly outcome: string;
  readonly counts: boolean;
  readonly below_average: boolean;
  readonly population: string;
  readonly note: string | null;
  /** For clients with COPD: what is known of a mark made for others. */
  readonly in_copd: { readonly text: string; readonly source: string; readonly location: string; readonly status: Status } | null;
}

export interface MeasurementErrorResult {
  readonly id: string;
  readonly source: string;
  readonly location: string;
  readonly status: Status;
  readonly population: string;
  readonly interval: string | null;
  readonly sem: number | null;
  readonly mdc95: number | null;
  /** value +/- 1.96 SEM, null where the value or the SEM is missing. */
  readonly low: number | null;
  readonly high: number | null;
  readonly note: string | null;
}

export type Outcome = 'measured' | 'unable' | 'unsafe' | 'declined';

export interface TestResult {
  readonly test: string;
  readonly name: string;
  readonly side: Side | null;
  readonly outcome: Outcome;
  /** As entered, or worked out by the trials rule; null when not measured. */
  readonly value: number | null;
  readonly unit: string;
  readonly trials: readonly number[];
  readonly at_least: boolean;
  readonly category: string | null;
  readonly comparisons: readonly Comparison[];
  /** Why there is no comparison, when `comparisons` is empty. */
  readonly no_comparison_because: string | null;
  readonly cut_points: readonly CutPointResult[];
  readonly measurement_error: MeasurementErrorResult | null;
  readonly notes: readonly string[];
  /** Reason given with unable / declined / unsafe. */
  readonly reason: string | null;
  readonly why: 'balance' | 'medical' | 'other' | null;
  /** For derived results: the test ids and values it came from. */
  readonly derived_from: readonly { readonly test: string; readonly value: number | null }[];
}

/** Source of a statement: a citation, or null for a rule of the trade or the program's own (then `basis` says which). */
export interface Based {
  readonly source: string | null;
  readonly basis: Status | 'own-rule';
  readonly location: string | null;
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
}

export interface CaveatResult extends Based {
  readonly id: string;
  readonly text: string;
}

export interface FactorResult extends Based {
  readonly id: string;
  readonly name: string;
  readonly about: 'fall' | 'injury';
  readonly found: string;
  readonly why: string;
  readonly usual_action: string;
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
}

export interface Caution extends Based {
  readonly text: string;
}

export interface CitedSource {
  readonly citation: string;
  readonly doi: string | null;
  readonly location: string;
  readonly status: Status;
}

export interface Assessment {
  readonly format: 1;
  readonly tool: { readonly name: string; readonly version: string };
  readonly evidence: { readonly version: string; readonly digest: string; readonly folders: readonly string[] };
  readonly client: {
    readonly ref: string;
    readonly sex: string;
    readonly age: number;
    readonly setting: string;
    readonly setting_assumed: boolean;
    readonly lung_condition: string | null;
  };
  readonly assessed: string;
  readonly tests: readonly TestResult[];
  readonly risk: RiskResult;
  readonly plan: readonly PlannedExercise[];
  readonly cautions: readonly Caution[];
  readonly stop_signs: readonly Caution[];
  readonly notes: readonly string[];
  readonly sources: Readonly<Record<string, CitedSource>>;
}

export type { Citation, Status };
