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

const derivedIds = ({ derived: { stage_ladders, point_totals, relative_costs } }: Evidence): Set<string> =>
  new Set([...stage_ladders, ...point_totals, ...relative_costs].map(({ test }) => test));

/** Tests that any derived result asks for. */
function partsOfDerived(evidence: Evidence): Set<string> {
  const asked = new Set<string>();
  deriveAll(evidence, (id) => {
    asked.add(id);
    return undefined;
  });
  return asked;
}

/**
 * Every result that some filling of these columns forms; one that is a column itself is not formed. Each part is tried well done
 * and not done beside each other: a stance that was held before one that was not settles what either alone leaves open.
 */
export function derivableTests(layout: Layout, evidence: Evidence): TestDefinition[] {
  const present = new Set(layout.tests.map((part) => part.test.id));
  const asked = partsOfDerived(evidence);
  const parts = layout.tests.filter(({ test }) => asked.has(test.id));
  const wanted = evidence.tests.filter((test) => !present.has(test.id) && derivedIds(evidence).has(test.id));
  const formed = new Set<string>();
  // The first filling is all well done, which forms nearly everything at once.
  for (let filled = 0; filled < 2 ** parts.length && formed.size < wanted.length; filled += 1) {
    const cells = new Map(parts.map((part, place) => [part.test.id, filling(part, (filled & (1 << place)) === 0)]));
    for (const each of deriveAll(evidence, (id) => cells.get(id)))
      if (each.kind === 'formed' && !present.has(each.test)) formed.add(each.test);
  }
  return wanted.filter((test) => formed.has(test.id));
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
