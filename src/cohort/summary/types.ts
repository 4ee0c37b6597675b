/** The group summary as programs read it. A count that is withheld is null; so is everything that would give it away. */
import type { Side } from '../../session.ts';

export type Count = number | null;

export interface ShareOf {
  readonly n: number;
  readonly of: number;
  /** 0 to 1, with its 95 % Wilson interval. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

export interface Spread {
  readonly median: number;
  /** Middle half; null for small groups, where it would be single people. */
  readonly p25: number | null;
  readonly p75: number | null;
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
  readonly outcomes: Readonly<Record<'measured' | 'unable' | 'unsafe' | 'declined' | 'not_recorded', Count>>;
  readonly value: Spread | null;
  readonly standing: Readonly<Record<'well_below' | 'below' | 'expected' | 'above', Count>>;
  /** Against tables with a spread only; of the reference group `reference` stand there. */
  readonly below_25: ShareOf | null;
  readonly reference: number;
  /** People by tens of the percentile (0-10, 10-20, ...), where it is exact; of the reference group a tenth in each. */
  readonly tens: readonly Count[];
  readonly flagged: Readonly<Record<'yes' | 'no' | 'undecided', Count>>;
  readonly sources: readonly string[];
}

export interface SummaryGroup {
  /** null for all rows together. */
  readonly group: string | null;
  /** Visits: a client with two counts twice. */
  readonly n: Count;
  readonly sex: Readonly<Record<string, Count>>;
  readonly age: Spread | null;
  readonly levels: readonly NamedCount[];
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
  readonly mean_before: number | null;
  readonly mean_after: number | null;
  readonly mean_change: SummaryEstimate | null;
  readonly median_change: SummaryEstimate | null;
  readonly verdicts: Readonly<Record<'improved' | 'worsened' | 'within_error' | 'cannot_tell', Count>>;
}

/** First visit of those who came again beside that of those who did not. */
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
  readonly caution: string;
}

export interface Summary {
  readonly format: 1;
  readonly kind: 'cohort_summary';
  readonly tool: { readonly name: string; readonly version: string };
  readonly evidence: { readonly version: string; readonly digest: string; readonly folders: readonly string[] };
  readonly pathway: { readonly id: string; readonly name: string };
  /** Counts under this are withheld; null where nothing is. */
  readonly least_shown: number | null;
  readonly rows: { readonly read: Count; readonly accepted: Count; readonly refused: Count };
  readonly by: string | null;
  readonly groups: readonly SummaryGroup[];
  readonly change: SummaryBetween | null;
  /** Why there is no change to show; null where there is. */
  readonly no_change_because: string | null;
  readonly sources: Readonly<Record<string, { readonly citation: string; readonly doi: string | null }>>;
}
