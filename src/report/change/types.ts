/** What every format of a change report prints: ordered, rounded and in words. Formats lay this out; they never compute. */
import type { Move, TestChange, Verdict } from '../../change/types.ts';
import type { Cited, SourceView } from '../view/types.ts';

export interface ChangeTestView {
  readonly label: string;
  readonly verdict: Verdict;
  /** "12.8 s -> 11.4 s" as two parts. */
  readonly before: string;
  readonly after: string;
  /** "1.4 s better", "at least 18 s better", "same", "no number". */
  readonly change: string;
  /** "better, by more than error"; the word never hangs on colour. */
  readonly verdictWords: string;
  readonly disputed: string | null;
  readonly because: string;
  readonly matters: Cited;
  readonly standing: string | null;
  /** Marks that count for falls, each a sentence; the others together in one. */
  readonly crossed: readonly Cited[];
  readonly crossedOther: string | null;
  /** Marks that count, for the summary: "no longer: over 15 s". */
  readonly marksShort: string | null;
  readonly error: Cited | null;
  /** Errors that would change the verdict, each a sentence; the others together in one. */
  readonly otherErrors: readonly Cited[];
  readonly sameErrors: string | null;
  readonly notes: readonly string[];
  /** With three or more visits. */
  readonly visits: readonly string[];
  readonly dates: readonly { readonly date: string; readonly result: string }[];
  readonly source: TestChange;
}

export interface ChangeGroupView {
  readonly verdict: Verdict;
  readonly heading: string;
  /** "Timed up and go 12.8 s to 9.6 s", one a test. */
  readonly tests: readonly string[];
}

export interface ChangePlanView {
  readonly move: Move;
  readonly heading: string;
  /** What several of these exercises have in common, said once. */
  readonly shared: readonly string[];
  readonly exercises: readonly {
    readonly name: string;
    readonly levels: string;
    readonly from: string;
    readonly to: string;
    readonly lines: readonly string[];
  }[];
}

export interface ChangeView {
  readonly ref: string;
  readonly client: string;
  readonly span: string;
  /** How many results changed beyond error, and how many did not. */
  readonly counts: string;
  readonly groups: readonly ChangeGroupView[];
  /** What asks for a second look, most urgent first. */
  readonly look: readonly string[];
  readonly risk: {
    readonly headline: string;
    readonly lines: readonly string[];
  };
  readonly tests: readonly ChangeTestView[];
  /** Only at one visit: nothing to compare. */
  readonly onlyOnce: readonly string[];
  /** "2 may move up, 1 move down, 11 stay". */
  readonly moves: string;
  readonly plan: readonly ChangePlanView[];
  readonly howToRead: string;
  readonly chance: string | null;
  readonly notes: readonly string[];
  readonly sources: readonly SourceView[];
  readonly made: string;
}
