/** The assessment of a whole visit as a row of a cohort shows it. */
import type { Assessment, TestResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { factFrom, factOfSides, subjectOf } from '../facts.ts';
import { type BriefResult, isJudged } from '../scoring/brief.ts';
import { strongerSide } from '../scoring/score-session.ts';
import { isFlagged, type ScoringContext } from '../scoring/score-test.ts';
import type { RecordedTest, Session } from '../session.ts';
import { TIER_WORDS } from './decide.ts';
import { type ScoredTest, triedInWords } from './parts.ts';
import type { Accepted } from './row-scorer.ts';

/** What a brief result would be, out of a full one. */
export function briefOf(result: TestResult): Omit<BriefResult, 'judged'> {
  const primary = result.comparisons.find((comparison) => comparison.primary);
  return {
    outcome: result.outcome,
    value: result.value,
    at_least: result.at_least,
    why: result.why,
    percentile: primary?.percentile ?? null,
    bound: primary?.percentile_bound ?? null,
    standing: primary?.standing ?? null,
    flagged: isFlagged(result),
    source: primary?.source ?? null,
  };
}

/** A derived result has no reading of its own. */
const recordedOf = ({ test, side, value }: TestResult, session: Session): RecordedTest | null =>
  session.tests.find((each) => each.test === test && each.side === side) ??
  (value === null ? null : { test, side, reading: { outcome: 'measured', trials: [value] } });

function isJudgedIn(
  session: Session,
  { evidence, population }: WholeContext,
): (result: TestResult, test: TestDefinition) => boolean {
  const context: ScoringContext = { evidence, subject: subjectOf(session, population), applies: () => false };
  return (result, test) => {
    const recorded = recordedOf(result, session);
    return recorded !== null && isJudged(recorded, test, strongerSide(session.tests, test), context);
  };
}

interface WholeContext {
  readonly evidence: Evidence;
  /** Tests of the output, in order. */
  readonly tests: readonly TestDefinition[];
  readonly render: (test: TestDefinition, results: ScoredTest['results']) => string;
  /** Country whose tables are preferred, as the assessment was made. */
  readonly population?: string | undefined;
}

function scoredOf(
  test: TestDefinition,
  assessment: Assessment,
  render: WholeContext['render'],
  judged: ReturnType<typeof isJudgedIn>,
): ScoredTest {
  const results = assessment.tests
    .filter((result) => result.test === test.id)
    .map((result) => ({ side: result.side, brief: { ...briefOf(result), judged: judged(result, test) } }));
  const fact = factOfSides(results.map(({ side, brief }) => ({ side, fact: factFrom(brief, test.better) })));
  return {
    recorded: [],
    notes: [],
    tried: triedInWords(test, results),
    noted: 0,
    results,
    fact,
    signature: 0,
    rendered: render(test, results),
  };
}

/** Every note of the visit itself, then open red flags first of all. */
export function fromAssessment(assessment: Assessment, session: Session, context: WholeContext): Accepted {
  const { evidence, tests, render } = context;
  const { risk } = assessment;
  const open = risk.red_flags.filter((flag) => flag.cleared === null);
  const level = risk.override?.level ?? risk.level;
  const judged = isJudgedIn(session, context);
  const unformed = assessment.notes.filter((note) => tests.some((test) => note.startsWith(`${test.name} cannot be formed`)));
  const scored = tests.map((test) => scoredOf(test, assessment, render, judged));
  return {
    kind: 'accepted',
    ref: session.client.ref,
    assessed: session.assessed,
    age: session.client.age,
    sex: session.client.sex,
    tests: scored,
    decided: {
      level,
      missing: risk.override === null ? risk.missing.map((item) => item.item) : [],
      redFlags: open.flatMap((flag) => evidence.redFlags.find((each) => each.id === flag.id) ?? []),
      factors: risk.factors.map((factor) => factor.id),
      starts: Object.fromEntries(assessment.plan.map(({ exercise, start }) => [exercise, start.level])),
    },
    notes: [
      ...open.map((flag) => `red flag (${TIER_WORDS[flag.tier]}): ${flag.finding}`),
      ...(risk.override === null ? [] : [`level set by the professional: ${risk.override.reason}`]),
      ...session.notes,
      ...unformed,
      ...scored.flatMap((test) => test.tried),
    ].join('; '),
  };
}
