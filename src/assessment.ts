/**
 * The result of one visit: the contract other programs rely on. Key names are those of the JSON output, so that the
 * JSON report is this value and nothing is renamed on the way. Keys are only ever added.
 */

import type { PlannedExercise, Week } from './assessment-plan.ts';
import type { Caution, RiskResult } from './assessment-risk.ts';
import type { Citation, Status } from './evidence/schema/common.ts';
import type { Fields, Side } from './session.ts';

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
  /** A larger error that is published for people like this client too; absent where there is none. */
  readonly larger?: Omit<MeasurementErrorResult, 'larger'>;
}

export type Outcome = 'measured' | 'unable' | 'unsafe' | 'declined';

/** Which table decides, and why not another: for "how we got there" and for whoever reviews the choice. */
export interface Selection {
  /** Source of the primary comparison; null where no default table fits. */
  readonly chosen: string | null;
  readonly because: string;
  /** Other rows that hold this client, in order of fit. */
  readonly also_fit: readonly { readonly source: string; readonly part: string; readonly because: string }[];
  /** Tables of the test that hold nobody like this client; `part` is null where the whole table is of other people. */
  readonly do_not_fit: readonly { readonly source: string; readonly part: string | null; readonly because: string }[];
}

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
  /** Absent where the test was not done. */
  readonly selection?: Selection;
  readonly cut_points: readonly CutPointResult[];
  readonly measurement_error: MeasurementErrorResult | null;
  readonly notes: readonly string[];
  /** Reason given with unable / declined / unsafe. */
  readonly reason: string | null;
  readonly why: 'balance' | 'medical' | 'other' | null;
  /** For derived results: the test ids and values it came from. */
  readonly derived_from: readonly { readonly test: string; readonly value: number | null }[];
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
  /** Who made the assessment; null where the file does not say. */
  readonly assessor: string | null;
  /** What the client wants to be able to do. */
  readonly goals: readonly string[];
  readonly consent_to_share: 'yes' | 'no' | 'unknown' | null;
  readonly tests: readonly TestResult[];
  readonly risk: RiskResult;
  readonly plan: readonly PlannedExercise[];
  /** null where nothing goes home. */
  readonly week: Week | null;
  readonly cautions: readonly Caution[];
  readonly stop_signs: readonly Caution[];
  readonly notes: readonly string[];
  /** History, health and vital signs as read, by the path of the session file; what is absent was not recorded. */
  readonly recorded?: Fields;
  readonly sources: Readonly<Record<string, CitedSource>>;
}

export type { DoseParts, NextRung, PlannedExercise, PlannedRung, PlanOverride, Week, WeekDay } from './assessment-plan.ts';
export type {
  ActionResult,
  Based,
  Caution,
  CaveatResult,
  FactorResult,
  FallRateResult,
  FollowUp,
  MissingItem,
  OptionInUse,
  OtherPathway,
  OverrideResult,
  PathwayResult,
  Probability,
  ProbabilityPart,
  RedFlagResult,
  RiskResult,
  StepResult,
} from './assessment-risk.ts';
export type { Citation, Status };
