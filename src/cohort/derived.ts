/** Results that a row's columns can form together (four stances, the short battery, the cost of a second task). */
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { type Derived, lookupOf, type Recorded } from '../scoring/derive.ts';
import { deriveAll } from '../scoring/score-session.ts';
import { catalogueValue } from '../scoring/score-test.ts';
import type { RecordedTest } from '../session.ts';
import type { Layout, TestPart } from './layout.ts';

/** What the columns of a test would hold if all went well, or nothing at all. */
function filling({ test, sides }: TestPart, well: boolean): Recorded {
  const [column] = sides.flatMap((side) => side.columns);
  const { distance, start } = column?.rule ?? {};
  const course = { ...(distance === undefined ? {} : { distanceM: distance }), ...(start === undefined ? {} : { start }) };
  if (!well) return { worse: null, better: null, course };
  const top = test.ceiling ?? test.impossible.above ?? 1;
  const best = test.better === 'higher' ? top : Math.max(test.impossible.below ?? 0, 1);
  return { worse: best, better: best, course };
}

/** Every result that some filling of these columns forms; one that is a column itself is not formed. */
export function derivableTests(layout: Layout, evidence: Evidence): TestDefinition[] {
  const present = new Map(layout.tests.map((part) => [part.test.id, part]));
  const fillings = [true, false].map((well) => (id: string): Recorded | undefined => {
    const part = present.get(id);
    return part === undefined ? undefined : filling(part, well);
  });
  const formed = new Set(
    fillings.flatMap((lookup) => deriveAll(evidence, lookup).flatMap((each) => (each.kind === 'formed' ? [each.test] : []))),
  );
  return evidence.tests.filter((test) => formed.has(test.id) && !present.has(test.id));
}

/** The derived results of one row, formed or not, of the tests named. */
export function deriveFor(
  recorded: readonly RecordedTest[],
  wanted: readonly TestDefinition[],
  evidence: Evidence,
): Map<string, Derived> {
  const lookup = lookupOf(
    recorded,
    (each) => {
      const test = evidence.testById.get(each.test);
      return test === undefined ? undefined : catalogueValue(each, test);
    },
    (id) => evidence.testById.get(id)?.better ?? 'higher',
  );
  const derived = deriveAll(evidence, lookup).filter((each) => wanted.some((test) => test.id === each.test));
  return new Map(derived.map((each) => [each.test, each]));
}
