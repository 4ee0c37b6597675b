/**
 * One side of one test as a row of a cohort shows it: the same choice of table, the same numbers and the same cut-points as
 * `scoreTest`, without the words. A property test holds the two equal.
 */
import type { Comparison, Outcome, TestResult } from '../assessment.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { RecordedTest, Side } from '../session.ts';
import { type BareComparison, type CompareContext, compareBare } from './compare.ts';
import { type CutValue, countedCuts, isMet } from './cut-points.ts';
import { judgesEveryResult } from './judges.ts';
import { anyMet, askedOf, countsAsUnable, type ScoringContext, takenValue } from './score-test.ts';
import { type Candidate, candidatesFor, mayBePrimary } from './select.ts';

export interface BriefResult {
  readonly outcome: Outcome;
  /** In the test's unit to 0.001; null when not measured. */
  readonly value: number | null;
  readonly at_least: boolean;
  readonly why: TestResult['why'];
  /** 0-100 to 0.1, higher = better performance. */
  readonly percentile: number | null;
  readonly bound: Comparison['percentile_bound'];
  readonly standing: Comparison['standing'];
  /** A cut-point that counts is met; null where none could be decided. */
  readonly flagged: boolean | null;
  /** Source of the table behind the percentile; null where no default table fits. */
  readonly source: string | null;
  /** The tables that fit give every possible result a standing; else this client must not stand in a share of a group. */
  readonly judged: boolean;
}

/** Rows that fit, in order of fit, for one way of doing the test. */
export type Fitting = readonly Candidate[];

/** Of the candidates only those that may give the standing: the others change nothing in a brief result. */
export function fittingFor(recorded: RecordedTest, strongerSide: Side | null, context: ScoringContext): Fitting {
  return candidatesFor(context.evidence, context.subject, askedOf(recorded, strongerSide)).filter(mayBePrimary);
}

/** First in order of fit that yields a standing, else the first that fits. */
function primaryOf(fitting: Fitting, context: CompareContext): { source: string; compared: BareComparison } | null {
  let first: { source: string; compared: BareComparison } | null = null;
  for (const candidate of fitting) {
    const compared = compareBare(candidate, context);
    if (compared.standing !== null) return { source: candidate.table.source, compared };
    first ??= { source: candidate.table.source, compared };
  }
  return first;
}

/** `fitting` must be that of `fittingFor` for the same reading and client. */
export function scoreBriefly(
  recorded: RecordedTest,
  test: TestDefinition,
  context: ScoringContext,
  fitting: Fitting,
): BriefResult {
  const { reading } = recorded;
  const why = reading.outcome === 'unsafe' ? (reading.why ?? null) : null;
  if (reading.outcome !== 'measured' && !countsAsUnable(reading)) return { ...NOTHING, outcome: reading.outcome, why };
  const measured = reading.outcome === 'measured' ? reading : null;
  const taken = takenValue(measured, test);
  const { evidence, subject } = context;
  const compareContext = { test, client: subject.client, bands: evidence.defaults.standing, measured };
  const primary = primaryOf(fitting, compareContext);
  const cutValue: CutValue = {
    value: taken?.value ?? null,
    atLeast: taken?.atLeast ?? false,
    better: test.better,
    halfInterval: null,
  };
  const cuts = countedCuts(evidence.cutPointsByTest.get(test.id) ?? [], subject).map((cut) => isMet(cut, cutValue));
  return {
    outcome: reading.outcome,
    value: taken?.value ?? null,
    at_least: taken?.atLeast ?? false,
    why,
    percentile: primary?.compared.percentile ?? null,
    bound: primary?.compared.percentile_bound ?? null,
    standing: primary?.compared.standing ?? null,
    flagged: anyMet(cuts),
    source: primary?.source ?? null,
    judged: judgesEveryResult(fitting, compareContext),
  };
}

/** `judged` of `scoreBriefly`, for a result that was scored in full; a test that was not done is not judged. */
export function isJudged(
  recorded: RecordedTest,
  test: TestDefinition,
  strongerSide: Side | null,
  context: ScoringContext,
): boolean {
  const { reading } = recorded;
  if (reading.outcome !== 'measured' && !countsAsUnable(reading)) return false;
  const { evidence, subject } = context;
  const compareContext = { test, client: subject.client, bands: evidence.defaults.standing };
  return judgesEveryResult(fittingFor(recorded, strongerSide, context), compareContext);
}

const NOTHING: BriefResult = {
  outcome: 'declined',
  value: null,
  at_least: false,
  why: null,
  percentile: null,
  bound: null,
  standing: null,
  flagged: null,
  source: null,
  judged: false,
};
