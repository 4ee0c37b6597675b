/** What the conditions of `norms/` can see of a client: the recorded fields, a few derived ones, and the worse side of each test. */
import type { TestResult } from './assessment.ts';
import type { Facts, TestFact } from './evidence/condition.ts';
import type { Evidence } from './evidence/data.ts';
import { isWorse } from './scoring/performance.ts';
import { isFlagged } from './scoring/score-test.ts';
import type { FieldValue, Session } from './session.ts';

type FieldSource = (path: string) => FieldValue | undefined;

/** Lying minus standing, where both are recorded: a fall in pressure on standing is positive. */
function drop(field: FieldSource, which: 'systolic' | 'diastolic'): number | undefined {
  const lying = field(`vitals.bp_lying_${which}`);
  const standing = field(`vitals.bp_standing_${which}`);
  return typeof lying === 'number' && typeof standing === 'number' ? lying - standing : undefined;
}

/** `tests.<test>.aid`: help or an aid used in a test, on whichever side; `none` only where it is said of a measured side. */
function aidOf(session: Session, test: string): string | undefined {
  const aids = session.tests.flatMap(({ test: id, reading }) =>
    id === test && reading.outcome === 'measured' ? (reading.aid ?? []) : [],
  );
  return aids.find((aid) => aid !== 'none') ?? aids[0];
}

/** Fields of the session plus `client.*` and the drops in blood pressure. */
export function fieldsOf(session: Session): FieldSource {
  const recorded: FieldSource = (path) => session.fields[path];
  return (path) => {
    if (path === 'client.age') return session.client.age;
    if (path === 'client.sex') return session.client.sex === 'not recorded' ? undefined : session.client.sex;
    if (path === 'client.setting') return session.client.setting;
    if (path === 'vitals.systolic_drop') return recorded(path) ?? drop(recorded, 'systolic');
    if (path === 'vitals.diastolic_drop') return recorded(path) ?? drop(recorded, 'diastolic');
    const aid = /^tests\.([a-z0-9_]+)\.aid$/.exec(path)?.[1];
    return aid === undefined ? recorded(path) : aidOf(session, aid);
  };
}

function outcomeOf(result: TestResult): TestFact['outcome'] {
  if (result.outcome === 'measured' && result.value !== null) return 'measured';
  if (result.outcome === 'unable' || (result.outcome === 'unsafe' && result.why === 'balance')) return 'unable';
  return result.outcome === 'unsafe' ? 'unsafe_medical' : 'not_tested';
}

const WORST_FIRST: readonly TestFact['outcome'][] = ['unable', 'measured', 'unsafe_medical', 'not_tested'];

/** The worse of two sides: unable before any value, a worse value before a better one, a value before nothing. */
function worseFact(a: TestFact, b: TestFact): TestFact {
  if (a.outcome !== b.outcome) {
    const [first, second] = WORST_FIRST.indexOf(a.outcome) < WORST_FIRST.indexOf(b.outcome) ? [a, b] : [b, a];
    return { ...first, flagged: first.flagged === true || second.flagged === true ? true : (first.flagged ?? second.flagged) };
  }
  const [worse, other] = a.worst !== null && b.worst !== null && isWorse(b.worst, a.worst, a.better) ? [b, a] : [a, b];
  return { ...worse, flagged: worse.flagged === true || other.flagged === true ? true : (worse.flagged ?? other.flagged) };
}

function factOf(result: TestResult, evidence: Evidence): TestFact {
  return {
    outcome: outcomeOf(result),
    worst: result.value,
    better: evidence.testById.get(result.test)?.better ?? 'higher',
    atLeast: result.at_least,
    standing: result.comparisons.find((comparison) => comparison.primary)?.standing ?? null,
    flagged: isFlagged(result),
  };
}

/** Facts over a session and its scored tests; `more` adds derived fields such as `risk.at_most`. */
export function factsOf(
  session: Session,
  results: readonly TestResult[],
  evidence: Evidence,
  more: FieldSource = () => undefined,
): Facts {
  const tests = new Map<string, TestFact>();
  for (const result of results) {
    const fact = factOf(result, evidence);
    const before = tests.get(result.test);
    tests.set(result.test, before === undefined ? fact : worseFact(before, fact));
  }
  const fields = fieldsOf(session);
  return { field: (path) => more(path) ?? fields(path), test: (id) => tests.get(id) };
}
