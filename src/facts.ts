/** What the conditions of `norms/` can see of a client: the recorded fields, a few derived ones, and the worse side of each test. */
import type { TestResult } from './assessment.ts';
import type { Facts, TestFact } from './evidence/condition.ts';
import type { Evidence } from './evidence/data.ts';
import type { TestDefinition } from './evidence/schema/catalogue.ts';
import { isWorse } from './scoring/performance.ts';
import { catalogueValue, isFlagged } from './scoring/score-test.ts';
import type { Subject } from './scoring/select.ts';
import type { Fields, FieldValue, RecordedTest, Session, Side } from './session.ts';
import type { DERIVED_FIELDS } from './session-keys.ts';

type FieldSource = (path: string) => FieldValue | undefined;

type Pressure = 'systolic' | 'diastolic';
const STANDING = ['bp_standing', 'bp_standing_1min', 'bp_standing_3min'];

/** The long-term lung condition as recorded; null where there is none or it is not known which. */
function lungConditionOf(fields: Fields): string | null {
  const recorded = fields['health.lung_condition'];
  return typeof recorded === 'string' && !['none', 'unknown', 'no'].includes(recorded) ? recorded : null;
}

/** Whom the tables are chosen for. `preferredCountry` as two letters (ISO 3166). */
export const subjectOf = ({ client, fields }: Pick<Session, 'client' | 'fields'>, preferredCountry?: string): Subject => ({
  client,
  lungCondition: lungConditionOf(fields),
  preferredCountry,
});

/** The lowest of the standing readings, in mmHg. */
function lowestStanding(field: FieldSource, which: Pressure): number | undefined {
  const readings = STANDING.map((key) => field(`vitals.${key}_${which}`)).filter((value) => typeof value === 'number');
  return readings.length === 0 ? undefined : Math.min(...readings);
}

/** Lying (or sitting) minus the lowest standing reading in mmHg: a fall on standing is positive, and the larger counts. */
function drop(field: FieldSource, from: 'lying' | 'sitting', which: Pressure): number | undefined {
  const before = field(`vitals.bp_${from}_${which}`);
  const standing = lowestStanding(field, which);
  return typeof before === 'number' && standing !== undefined ? before - standing : undefined;
}

/** Whether the saturation at rest reaches the lower end of the client's own target; unknown without a recorded target. */
function withinTarget(field: FieldSource): 'yes' | 'no' | undefined {
  const rest = field('vitals.spo2_rest');
  const lowest = field('vitals.spo2_target_low');
  if (typeof rest !== 'number' || typeof lowest !== 'number') return undefined;
  return rest >= lowest ? 'yes' : 'no';
}

/** Points by which saturation fell on effort; 0 where it did not fall. */
function saturationFall(field: FieldSource): number | undefined {
  const rest = field('vitals.spo2_rest');
  const lowest = field('vitals.spo2_lowest');
  return typeof rest === 'number' && typeof lowest === 'number' ? Math.max(0, rest - lowest) : undefined;
}

/** Fields worked out from recorded ones, by path. */
const DERIVED: Readonly<Record<string, (field: FieldSource) => FieldValue | undefined>> = {
  'vitals.bp_standing_lowest_systolic': (field) => lowestStanding(field, 'systolic'),
  'vitals.bp_standing_lowest_diastolic': (field) => lowestStanding(field, 'diastolic'),
  'vitals.systolic_drop': (field) => drop(field, 'lying', 'systolic'),
  'vitals.diastolic_drop': (field) => drop(field, 'lying', 'diastolic'),
  'vitals.sitting_systolic_drop': (field) => drop(field, 'sitting', 'systolic'),
  'vitals.sitting_diastolic_drop': (field) => drop(field, 'sitting', 'diastolic'),
  'vitals.spo2_within_target': withinTarget,
  'vitals.spo2_fall': saturationFall,
} satisfies Record<Exclude<(typeof DERIVED_FIELDS)[number], `client.${string}`>, (field: FieldSource) => FieldValue | undefined>;

/** `tests.<test>.aid`: help or an aid used in a test, on whichever side; `none` only where it is said of a measured side. */
function aidOf(session: Session, test: string): string | undefined {
  const aids = session.tests.flatMap(({ test: id, reading }) =>
    id === test && reading.outcome === 'measured' ? (reading.aid ?? []) : [],
  );
  return aids.find((aid) => aid !== 'none') ?? aids[0];
}

/** Fields of the session plus `client.*` and those worked out from others. */
export function fieldsOf(session: Session): FieldSource {
  const recorded: FieldSource = (path) => session.fields[path];
  return (path) => {
    if (path === 'client.age') return session.client.age;
    if (path === 'client.sex') return session.client.sex === 'not recorded' ? undefined : session.client.sex;
    if (path === 'client.setting') return session.client.setting;
    const aid = /^tests\.([a-z0-9_]+)\.aid$/.exec(path)?.[1];
    if (aid !== undefined) return aidOf(session, aid);
    return recorded(path) ?? DERIVED[path]?.(recorded);
  };
}

function outcomeOf(result: Pick<TestResult, 'outcome' | 'value' | 'why'>): TestFact['outcome'] {
  if (result.outcome === 'measured' && result.value !== null) return 'measured';
  if (result.outcome === 'unable' || (result.outcome === 'unsafe' && result.why === 'balance')) return 'unable';
  return result.outcome === 'unsafe' ? 'unsafe_medical' : 'not_tested';
}

const WORST_FIRST: readonly TestFact['outcome'][] = ['unable', 'measured', 'unsafe_medical', 'not_tested'];

const hasResult = ({ outcome }: TestFact): boolean => outcome === 'measured' || outcome === 'unable';

function otherSideOf(first: TestFact, { outcome }: TestFact): Pick<TestFact, 'otherSide'> {
  return hasResult(first) && (outcome === 'unsafe_medical' || outcome === 'not_tested') ? { otherSide: outcome } : {};
}

/** All sides of one test as conditions see them; of one side alone it is kept that the other was not tested. */
export function factOfSides(sides: readonly { readonly side: Side | null; readonly fact: TestFact }[]): TestFact | undefined {
  const [first, ...others] = sides;
  if (first === undefined) return undefined;
  if (others.length === 0)
    return first.side !== null && hasResult(first.fact) ? { ...first.fact, otherSide: 'not_tested' } : first.fact;
  return others.map(({ fact }) => fact).reduce(worseFact, first.fact);
}

function factsBySide(
  sides: readonly { readonly test: string; readonly side: Side | null; readonly fact: TestFact }[],
): (id: string) => TestFact | undefined {
  const byTest = new Map<string, { side: Side | null; fact: TestFact }[]>();
  for (const each of sides) byTest.set(each.test, [...(byTest.get(each.test) ?? []), each]);
  const facts = new Map([...byTest].map(([test, all]) => [test, factOfSides(all)]));
  return (id) => facts.get(id);
}

/** The worse of two sides: unable before any value, a worse value before a better one, a value before nothing. */
function worseFact(a: TestFact, b: TestFact): TestFact {
  if (a.outcome !== b.outcome) {
    const [first, second] = WORST_FIRST.indexOf(a.outcome) < WORST_FIRST.indexOf(b.outcome) ? [a, b] : [b, a];
    const flagged = first.flagged === true || second.flagged === true ? true : (first.flagged ?? second.flagged);
    return { ...first, flagged, ...otherSideOf(first, second) };
  }
  const [worse, other] = a.worst !== null && b.worst !== null && isWorse(b.worst, a.worst, a.better) ? [b, a] : [a, b];
  return { ...worse, flagged: worse.flagged === true || other.flagged === true ? true : (worse.flagged ?? other.flagged) };
}

/** What of a result conditions can see. */
export type Factual = Pick<TestResult, 'outcome' | 'value' | 'why' | 'at_least'> &
  Pick<TestFact, 'standing' | 'flagged' | 'nearlyMet'>;

export function factFrom(result: Factual, better: TestFact['better']): TestFact {
  return {
    outcome: outcomeOf(result),
    worst: result.value,
    better,
    atLeast: result.at_least,
    standing: result.standing,
    flagged: result.flagged,
    ...(result.nearlyMet === undefined ? {} : { nearlyMet: result.nearlyMet }),
  };
}

function factOf(result: TestResult, evidence: Evidence): TestFact {
  const standing = result.comparisons.find((comparison) => comparison.primary)?.standing ?? null;
  const nearlyMet = result.cut_points.filter((cut) => cut.near === true && cut.met === false).map((cut) => cut.id);
  const factual = { ...result, standing, flagged: isFlagged(result), nearlyMet };
  return factFrom(factual, evidence.testById.get(result.test)?.better ?? 'higher');
}

/** One recorded test before any scoring: its outcome and value, no standing and no flag. */
function rawFact(recorded: RecordedTest, test: TestDefinition): TestFact {
  const value = catalogueValue(recorded, test);
  const outcome =
    value === undefined
      ? recorded.reading.outcome === 'unsafe'
        ? 'unsafe_medical'
        : 'not_tested'
      : value === null
        ? 'unable'
        : 'measured';
  return { outcome, worst: value ?? null, better: test.better, atLeast: false, standing: null, flagged: null };
}

/** What conditions can see before the tests are scored: fields and raw results. */
export function rawFactsOf(session: Session, evidence: Evidence): Facts {
  const sides = session.tests.flatMap((recorded) => {
    const test = evidence.testById.get(recorded.test);
    return test === undefined ? [] : [{ test: test.id, side: recorded.side, fact: rawFact(recorded, test) }];
  });
  return { field: fieldsOf(session), test: factsBySide(sides) };
}

/** Facts over a session and its scored tests; `more` adds derived fields such as `risk.at_most`. */
export function factsOf(
  session: Session,
  results: readonly TestResult[],
  evidence: Evidence,
  more: FieldSource = () => undefined,
): Facts {
  const sides = results.map((result) => ({ test: result.test, side: result.side, fact: factOf(result, evidence) }));
  const fields = fieldsOf(session);
  return { field: (path) => more(path) ?? fields(path), test: factsBySide(sides) };
}
