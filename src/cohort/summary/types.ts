/** The group summary as programs read it. On a page that leaves the clinic every count is a band. */
import type { Side } from '../../session.ts';

/** Whole numbers, both ends in it. */
export interface Band {
  readonly from: number;
  readonly to: number;
}
export type Count = number | Band;

/** Share of the people whose tables place every possible result. */
export interface ShareOf {
  readonly n: Count;
  readonly of: Count;
  /** Of `of`, people whose side is left open, such as by a watch that was stopped early. */
  readonly open: Count;
  /** 0 to 1; null where somebody's side is open or the counts are bands, and then only the two ends hold. */
  readonly share: number | null;
  /** Were none of the open ones below, and were all of them; at the ends of the bands. */
  readonly lowest: number;
  readonly highest: number;
  /** 95 % Wilson interval, from that of the lowest to that of the highest share. */
  readonly low: number;
  readonly high: number;
}

/** A number in the test's unit, or the worst result. */
export type Place = number | 'unable';

export interface Spread {
  readonly median: Place;
  /** Middle half; null for small groups, where it would be single people. */
  readonly p25: Place | null;
  readonly p75: Place | null;
}

export interface NamedCount {
  readonly id: string;
  readonly name: string;
  readonly n: Count;
}

export interface SummaryTest {
  readonly test: string;
  readonly side: Side | null;
  readonly name: string;
  readonly unit: string;
  readonly better: 'higher' | 'lower';
  /** Measured or unable, and everybody else. */
  readonly tested: Count;
  readonly no_result: Count;
  /** Unable, for balance too, is a result and the worst one; stopped is for another reason and none. */
  readonly outcomes: Readonly<Record<'measured' | 'unable' | 'stopped' | 'declined' | 'not_recorded', Count>>;
  /** Over all tested, the unable as the worst. */
  readonly value: Spread | null;
  /** Of those tested: their tables place every possible result, or do not (no table for the age and sex, a mean alone, marks that leave one side open). Depends on age and sex and not on the result. */
  readonly judged: Count;
  readonly not_judged: Count;
  /** Of the judged: on which side of the 25th percentile for age and sex; `open` where the result does not settle it. */
  readonly quarter: Readonly<Record<'below' | 'not_below' | 'open', Count>>;
  readonly below_25: ShareOf | null;
  /** Why there is no share to show; null where there is. */
  readonly no_share_because: string | null;
  /** Of the reference group this share stand below their 25th percentile. */
  readonly reference: number;
  /** The judged by tenths of the reference group (0-10, 10-20, ...), of which each holds a tenth of it. */
  readonly tens: readonly Count[];
  /** The judged without a place: at the worst end (unable, or worse than the table's worst mark) and at the best end. */
  readonly off_scale: Readonly<Record<'worst' | 'best', Count>>;
  /** Of those tested: a mark that counts is met; undecided where none could be decided. */
  readonly flagged: Readonly<Record<'yes' | 'no' | 'undecided', Count>>;
  /** Of all rows of the page together where counts are bands. */
  readonly sources: readonly string[];
}

export interface SummaryGroup {
  /** null for all rows together. */
  readonly group: string | null;
  /** Each count is the sum of so many bands: of the groups, or of the parts that may have pages of their own. */
  readonly summed: number;
  /** Visits: a client with two counts twice. */
  readonly n: Count;
  readonly sex: Readonly<Record<string, Count>>;
  readonly age: Spread | null;
  readonly levels: readonly NamedCount[];
  /** Those that anybody on the page has; where counts are bands, those above the first band in this row. */
  readonly red_flags: readonly NamedCount[];
  readonly factors: readonly NamedCount[];
  readonly tests: readonly SummaryTest[];
  readonly starts: readonly { readonly exercise: string; readonly name: string; readonly levels: readonly NamedCount[] }[];
}

export interface SummaryEstimate {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface SummaryChange {
  readonly test: string;
  readonly side: Side | null;
  readonly name: string;
  readonly unit: string;
  readonly better: 'higher' | 'lower';
  readonly pairs: Count;
  /** Those of the pairs with a number at both visits: means and medians are of them alone, and not given where they are under half. */
  readonly measured: Count;
  readonly mean_before: number | null;
  readonly mean_after: number | null;
  readonly mean_change: SummaryEstimate | null;
  readonly median_change: SummaryEstimate | null;
  readonly verdicts: Readonly<Record<'improved' | 'worsened' | 'within_error' | 'cannot_tell', Count>>;
}

/** First visit of those who came again beside that of those who did not. Sizes alone where counts are bands and one of them is small. */
export interface SummaryKind {
  readonly n: Count;
  readonly age: Spread | null;
  readonly levels: readonly NamedCount[];
  readonly tests: readonly {
    readonly test: string;
    readonly side: Side | null;
    readonly name: string;
    readonly value: Spread | null;
  }[];
}

export interface SummaryBetween {
  readonly completers: SummaryKind;
  readonly left: SummaryKind;
  readonly tests: readonly SummaryChange[];
  /** References whose two visits differ in sex or go back in age: left out here. */
  readonly mixed_up: Count;
  readonly caution: string;
}

export interface Summary {
  readonly format: 1;
  readonly kind: 'cohort_summary';
  readonly tool: { readonly name: string; readonly version: string };
  readonly evidence: { readonly version: string; readonly digest: string; readonly folders: readonly string[] };
  readonly pathway: { readonly id: string; readonly name: string };
  /** How counts are given; null where they are numbers. */
  readonly bands: {
    readonly first_to: number;
    readonly width: number;
  } | null;
  readonly rows: { readonly read: Count; readonly accepted: Count; readonly refused: Count };
  readonly by: string | null;
  /** Those that are shown, then all together. */
  readonly groups: readonly SummaryGroup[];
  /** There are more, in the first band; not which nor how many, since each has at least one visit. */
  readonly groups_withheld: boolean;
  /** Why there are no groups though there is `by`; null where there are. */
  readonly no_groups_because: string | null;
  readonly change: SummaryBetween | null;
  /** Why there is no change to show; null where there is. */
  readonly no_change_because: string | null;
  readonly sources: Readonly<Record<string, { readonly citation: string; readonly doi: string | null }>>;
}
