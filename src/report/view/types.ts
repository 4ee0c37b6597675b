/** What every format prints: ordered, rounded and in words. Formats lay this out; they never compute or choose. */
import type { SourceView } from './citations.ts';

/** A sentence with where it comes from: `mark` is "[3, read in the abstract]" or empty. */
export interface Cited {
  readonly text: string;
  readonly mark: string;
}

export interface RedFlagView {
  readonly tier: string;
  readonly finding: string;
  readonly because: string;
  readonly action: string;
  readonly spread: string | null;
  /** Why a recorded clearance does not count; null where none was recorded. */
  readonly clearanceRefused: string | null;
  readonly mark: string;
}

/** Probability of a fall, only where asked for. The warnings are part of it: no format shows the number without them. */
export interface ProbabilityView {
  /** null where it cannot be worked out. */
  readonly figure: string | null;
  readonly because: string | null;
  readonly parts: readonly Cited[];
  readonly formula: string | null;
  readonly notUsed: readonly string[];
  readonly warnings: readonly Cited[];
}

export interface StepView {
  readonly question: string;
  /** "yes", "no", "unknown", "not reached", "perhaps reached: unknown". */
  readonly answer: string;
  readonly because: string;
  readonly mark: string;
}

export interface RiskView {
  readonly pathway: string;
  /** "High risk", or "Cannot be settled yet: at least low, at most high"; caveats that forbid comfort stand in the same line. */
  readonly headline: string;
  readonly settled: boolean;
  readonly caveats: readonly Cited[];
  readonly why: readonly string[];
  readonly doNext: readonly Cited[];
  /** "Ask: ...", "Look up: ...", "Time: ...". */
  readonly missing: readonly string[];
  readonly review: Cited | null;
  readonly others: readonly string[];
  readonly probability: ProbabilityView | null;
  readonly steps: readonly StepView[];
}

/** `linked`: in the range linked with falls, or unable. `unclear`: too close to such a mark, or stopped before it. */
export type TestMark = 'linked' | 'unclear' | 'not_tested' | 'none';

export interface TestView {
  readonly test: string;
  readonly label: string;
  readonly mark: TestMark;
  /** "12.8 s", "at least 30 s", "unable", "not tested". */
  readonly result: string;
  readonly standing: string;
  readonly reason: string | null;
  readonly trials: string | null;
  /** "about the 18th percentile of women 75-79". */
  readonly place: Cited | null;
  /** Counting marks met, near or undecided, each a sentence. */
  readonly marks: readonly Cited[];
  /** Counting marks not met, in one sentence; or that there are none. */
  readonly otherMarks: string | null;
  readonly error: Cited | null;
  readonly notes: readonly string[];
}

export interface ExerciseView {
  readonly exercise: string;
  readonly name: string;
  readonly held: boolean;
  /** "level 2 of 6", "seated variant", "held, not today". */
  readonly level: string;
  /** From 1; 0 where it is held or the seated variant. */
  readonly rung: number;
  readonly rungs: number;
  readonly start: string;
  /** What the professional set, and what speaks against it; empty where nothing was set. */
  readonly setByHand: readonly string[];
  readonly because: readonly string[];
  readonly limitedBy: readonly string[];
  readonly dose: string;
  readonly supervision: string | null;
  readonly moveUp: string | null;
  readonly moveDown: string | null;
  /** The next rung, and who takes the client there; null where none is open. */
  readonly next: string | null;
  readonly cautions: readonly string[];
}
export interface PlanGroupView {
  readonly purpose: string;
  readonly exercises: readonly ExerciseView[];
}
/** What applies to several exercises is said once, under a letter; what applies to all of them without one. */
export interface SharedLine {
  readonly letter: string | null;
  readonly text: string;
}
export interface PlanView {
  readonly shared: readonly SharedLine[];
  readonly groups: readonly PlanGroupView[];
  /** How dose and way of working are adapted to this client. */
  readonly adapted: readonly string[];
  /** Which exercises on which days, the minutes and the weekly target. */
  readonly week: readonly string[];
  readonly basis: readonly string[];
}

export interface FactorGroupView {
  readonly heading: string;
  readonly factors: readonly { readonly name: string; readonly text: string; readonly action: string; readonly mark: string }[];
}

/** The row used, the formula with this client's numbers, how far the row fits. */
export interface BasisEntry {
  readonly label: string;
  readonly lines: readonly { readonly label: string; readonly text: string }[];
}

export interface ReportView {
  readonly ref: string;
  readonly client: string;
  readonly visit: string;
  /** Who assessed, what the client wants, whether the report may be shared; only what was recorded. */
  readonly about: readonly string[];
  /** Those that are open. */
  readonly redFlags: readonly RedFlagView[];
  /** Said whenever there are none, so that silence is never comfort. */
  readonly noRedFlags: string;
  /** How to record that the open ones have been dealt with; null where none is open. */
  readonly toClear: string | null;
  /** Findings that were cleared, by whom and when. */
  readonly clearedFlags: readonly Cited[];
  readonly risk: RiskView;
  /** Unusual values and other remarks from reading the file. */
  readonly check: readonly string[];
  readonly tests: readonly TestView[];
  readonly plan: PlanView;
  readonly factors: readonly FactorGroupView[];
  readonly notAsked: readonly string[];
  readonly basis: readonly BasisEntry[];
  readonly stopSigns: readonly Cited[];
  readonly cautions: readonly Cited[];
  readonly sources: readonly SourceView[];
  /** Sources of tables and rules that the report counts but does not print: they stand in the JSON record. */
  readonly furtherSources: string | null;
  readonly made: string;
}

export type { SourceView };
