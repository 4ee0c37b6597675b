/** All tests of one visit, sides brought together, derived results added; in the order of the catalogue. */
import type { TestResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { RecordedTest, Session, Side } from '../session.ts';
import { type Derived, deriveCost, derivePoints, deriveStages, lookupOf, type RecordedLookup } from './derive.ts';
import { bestOf } from './performance.ts';
import { catalogueValue, type ScoringContext, scoreTest } from './score-test.ts';

export interface ScoredSession {
  readonly tests: readonly TestResult[];
  /** Derived results that could not be formed, and other remarks. */
  readonly notes: readonly string[];
}

/** The side with the better result, where both were measured. */
export function strongerSide(recorded: readonly RecordedTest[], test: TestDefinition): Side | null {
  const sides = recorded.flatMap((each) => {
    const value = each.test === test.id ? catalogueValue(each, test) : undefined;
    return each.side === null || value === undefined || value === null ? [] : [{ side: each.side, value }];
  });
  if (sides.length < 2) return null;
  const best = bestOf(
    sides.map((each) => each.value),
    test.better,
  );
  return sides.find((each) => each.value === best)?.side ?? null;
}

function differenceNote(results: readonly TestResult[], test: TestDefinition): readonly TestResult[] {
  const right = results.find((result) => result.side === 'right');
  const left = results.find((result) => result.side === 'left');
  if (right?.value === undefined || left?.value === undefined || right.value === null || left.value === null) return results;
  const difference = Math.abs(right.value - left.value);
  if (difference === 0) return results;
  const better = bestOf([right.value, left.value], test.better) === right.value ? 'right' : 'left';
  const note = `${better} is the better side by ${difference.toFixed(test.decimals)}${test.unit_text === '' ? '' : ` ${test.unit_text}`}; the worse side decides risk and plan`;
  return results.map((result) => (result.value === null ? result : { ...result, notes: [...result.notes, note] }));
}

/** Every derived result that the recorded tests touch, formed or not. */
export function deriveAll(evidence: Evidence, lookup: RecordedLookup): Derived[] {
  const { derived } = evidence;
  return [
    ...derived.stage_ladders.map((ladder) => deriveStages(ladder, lookup)),
    ...derived.point_totals.map((total) => derivePoints(total, lookup)),
    ...derived.relative_costs.map((cost) => deriveCost(cost, lookup)),
  ].filter((each) => each !== null);
}

/** A derived result as if it had been measured. */
export const asRecorded = (derived: Extract<Derived, { kind: 'formed' }>): RecordedTest => ({
  test: derived.test,
  side: null,
  reading: { outcome: 'measured', trials: [derived.value] },
});

function derivedResult(derived: Extract<Derived, { kind: 'formed' }>, context: ScoringContext): TestResult | null {
  const test = context.evidence.testById.get(derived.test);
  if (test === undefined) return null;
  const result = scoreTest(asRecorded(derived), test, context);
  // A total at the end of its scale is a result, not a watch stopped early.
  return { ...result, at_least: false, derived_from: derived.from, notes: [...result.notes, ...derived.notes] };
}

/** In words, with the range that is still possible; a walk over another course is another test, and a watch can be stopped too early. */
export function missingNote(derived: Extract<Derived, { kind: 'cannot_be_formed' }>, evidence: Evidence): string {
  const name = (id: string): string => evidence.testById.get(id)?.name ?? id;
  const why = (id: string): string => {
    if (derived.unable?.includes(id) === true) return 'unable';
    if (!derived.unusable.includes(id)) return 'not recorded';
    return evidence.testById.get(id)?.course === true ? 'recorded over another course or start' : 'stopped too early to tell';
  };
  const parts = derived.missing.map((id) => `${name(id).toLowerCase()} ${why(id)}`);
  const range = derived.low === undefined ? '' : `; still possible: ${derived.low} to ${derived.high}`;
  return `${name(derived.test)} cannot be formed: ${parts.join(', ')}${range}`;
}

/** Tests in catalogue order, right before left. Recorded results win over derived ones of the same test. */
export function scoreSession(session: Session, context: ScoringContext): ScoredSession {
  const tests: TestResult[] = [];
  const { evidence } = context;
  for (const test of evidence.tests) {
    const recorded = session.tests.filter((each) => each.test === test.id);
    const stronger = strongerSide(recorded, test);
    const results = recorded.map((each) => scoreTest(each, test, context, stronger));
    tests.push(...differenceNote(results, test));
  }
  const lookup = lookupOf(
    session.tests,
    (each) => {
      const test = evidence.testById.get(each.test);
      return test === undefined ? undefined : catalogueValue(each, test);
    },
    (id) => evidence.testById.get(id)?.better ?? 'higher',
  );
  const notes: string[] = [];
  for (const derived of deriveAll(evidence, lookup)) {
    if (session.tests.some((each) => each.test === derived.test)) continue;
    if (derived.kind === 'cannot_be_formed') notes.push(missingNote(derived, evidence));
    else {
      const result = derivedResult(derived, context);
      if (result !== null) tests.push(result);
    }
  }
  return { tests, notes };
}
