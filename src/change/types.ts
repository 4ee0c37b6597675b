/**
 * What two or more visits of one client tell about change. Key names are those of the JSON output of `footing change`;
 * keys are only ever added. Values are in the test's own unit.
 */
import type { Assessment, Band, Based, Outcome, Standing, Status } from '../assessment.ts';
import type { Truth } from '../evidence/condition.ts';
import type { Side } from '../session.ts';

/** `improved` and `worsened` only beyond the measurement error; `cannot_tell` where nothing can be said either way. */
export type Verdict = 'improved' | 'worsened' | 'within_error' | 'cannot_tell';
/** Which way the numbers moved, whether that is more than error or not. */
export type Direction = 'better' | 'worse' | 'same';
/** A watch stopped at its ceiling makes a change a bound: of the raw number, not of performance. */
export type ChangeBound = 'exact' | 'at_least' | 'at_most' | 'unknown';

/** Published measurement error as it was used for this pair of results. */
export interface ErrorUsed {
  readonly id: string;
  readonly source: string;
  readonly location: string;
  readonly status: Status;
  readonly population: string;
  readonly interval: string | null;
  /** Test's unit, rounded to 0.01; a change is beyond error only when strictly larger. */
  readonly mdc95: number;
  /** How MDC95 follows from what is printed; null where it is printed as such. */
  readonly conversion: string | null;
  readonly note: string | null;
}

/** Another published error of the same test. */
export interface OtherError extends ErrorUsed {
  /** Found in people who may be like this client; one of another condition is shown but disputes nothing. */
  readonly concerns_client: boolean;
  /** What the verdict would be by this error. */
  readonly verdict: Verdict;
}

/** Published important change, as a point or a range. */
export interface ImportantChange {
  readonly id: string;
  readonly source: string;
  readonly location: string;
  readonly status: Status;
  readonly population: string;
  readonly method: string | null;
  readonly least: number;
  /** The strict end; equal to `least` where one number is printed. */
  readonly most: number;
  readonly concerns_client: boolean;
}

/** A published mark that the client stood on the other side of before. */
export interface CrossedMark {
  readonly id: string;
  readonly source: string;
  readonly location: string;
  readonly status: Status;
  readonly rule: string;
  readonly outcome: string;
  readonly counts: boolean;
  /** `into`: the mark is met now and was not before. */
  readonly way: 'into' | 'out_of';
  /** The later result lies within the measurement error of the mark. */
  readonly near: boolean | null;
}

/** One result of one visit, as the comparison saw it. */
export interface ResultAt {
  readonly assessed: string;
  readonly outcome: Outcome | 'not_recorded';
  readonly value: number | null;
  readonly at_least: boolean;
  readonly aid: string | null;
  readonly reason: string | null;
  readonly standing: Standing | null;
  readonly percentile: number | null;
  readonly band: Band | null;
  readonly norm_source: string | null;
}

/** The bare comparison of two results. */
export interface Compared {
  readonly from: string;
  readonly to: string;
  readonly before: number | null;
  readonly after: number | null;
  /** Later minus earlier, raw number. */
  readonly change: number | null;
  readonly change_bound: ChangeBound | null;
  /** null where one of the two results is missing. */
  readonly direction: Direction | null;
  readonly real: Truth;
  readonly verdict: Verdict;
  /** false where a result is missing or the test was done in another way (aid, chair, course). */
  readonly comparable: boolean;
  readonly mdc95: number | null;
  /** The verdict's reason in a sentence. */
  readonly because: string;
}

/** Theil-Sen slope over three or more measured visits. */
export interface Trend {
  /** Raw number a month of 30.44 days. */
  readonly per_month: number;
  readonly direction: Direction;
  readonly visits: number;
  readonly days: number;
}

/** Raw values between which the middle of the reference group lies; an end that the table cannot give is null. */
export interface NormBand {
  readonly low: number | null;
  readonly high: number | null;
  /** Mean, median or predicted value. */
  readonly centre: number | null;
  readonly band: Band;
  readonly source: string;
  readonly status: Status;
}

export interface ChartMark {
  readonly value: number;
  readonly rule: string;
  readonly source: string;
}

export interface TestChange extends Compared {
  readonly test: string;
  readonly side: Side | null;
  readonly name: string;
  readonly unit: string;
  readonly better: 'higher' | 'lower';
  readonly matters: Truth;
  readonly mcid: number | null;
  readonly crossed: readonly CrossedMark[];
  readonly disputed: boolean;
  readonly sources: readonly string[];
  readonly before_result: ResultAt;
  readonly after_result: ResultAt;
  readonly error: ErrorUsed | null;
  readonly other_errors: readonly OtherError[];
  readonly important: ImportantChange | null;
  readonly other_important: readonly ImportantChange[];
  readonly notes: readonly string[];
  /** Why somebody should look again, whatever the verdict; null where nothing asks for it. */
  readonly review: string | null;
  /** With three or more visits: against the visit before the last, and against the best earlier result. */
  readonly since_previous: Compared | null;
  readonly against_best: Compared | null;
  readonly trend: Trend | null;
  readonly series: readonly ResultAt[];
  readonly norm_band: NormBand | null;
  readonly marks: readonly ChartMark[];
}

/** What happened between the visits, as recorded in the later file. */
export interface SinceLast {
  readonly falls: number | null;
  readonly injury: string | null;
  readonly exacerbation: string | null;
  readonly adverse_events: number | null;
  readonly sessions_done: number | null;
}

/** Level that the professional set in place of the pathway's own. */
export interface LevelSet {
  readonly level: string;
  readonly label: string;
  readonly reason: string;
  readonly by: string | null;
}

/** Levels, bounds and direction are those of the pathway itself; what was set by hand stands beside them. */
export interface RiskChange {
  readonly before: string;
  readonly after: string;
  readonly before_label: string;
  readonly after_label: string;
  readonly before_bounds: { readonly at_least: string; readonly at_most: string };
  readonly after_bounds: { readonly at_least: string; readonly at_most: string };
  /** null where none was set at that visit. */
  readonly before_override: LevelSet | null;
  readonly after_override: LevelSet | null;
  /** `unclear` where an open level overlaps the other. */
  readonly direction: 'higher' | 'lower' | 'same' | 'unclear';
  readonly pathway: string;
  /** Steps of the pathway whose answer changed. */
  readonly because: readonly string[];
  readonly red_flags: {
    readonly new: readonly string[];
    readonly still: readonly string[];
    readonly no_longer_found: readonly string[];
  };
  readonly since_last: SinceLast | null;
  /** The level if only falls since the last visit counted; null where that is not recorded or makes no difference. */
  readonly on_new_falls_only: { readonly level: string; readonly label: string } | null;
  readonly falls: string;
}

export type Move = 'up' | 'stay' | 'down' | 'hold' | 'resume';

export interface PlanChange {
  readonly exercise: string;
  readonly name: string;
  /** Levels; 0 = seated variant or held. */
  readonly before: number;
  readonly after: number;
  readonly of: number;
  readonly before_name: string;
  readonly after_name: string;
  readonly move: Move;
  /** What put the later level there and was not so before. */
  readonly because: readonly string[];
  /** Limits and holds of the earlier plan that have fallen away. */
  readonly no_longer: readonly string[];
  /** The exercise's own rule for moving up, to be met before any step up is taken. */
  readonly rule: string | null;
  /** What to do now: from the plan of the visit before, by what happened since; one level at a time. Null where that visit did not plan it. */
  readonly advised: {
    readonly move: Move;
    readonly level: number;
    readonly name: string;
    readonly because: readonly string[];
  } | null;
  readonly basis: readonly Based[];
}

export interface Change {
  readonly format: 1;
  readonly tool: Assessment['tool'];
  readonly evidence: Assessment['evidence'];
  readonly client: Assessment['client'];
  readonly from: string;
  readonly to: string;
  readonly days: number;
  readonly visits: readonly string[];
  readonly tests: readonly TestChange[];
  readonly risk: RiskChange;
  readonly plan: readonly PlanChange[];
  /** How many changes beyond error chance alone would give. */
  readonly chance: string | null;
  readonly notes: readonly string[];
  readonly sources: Assessment['sources'];
}
