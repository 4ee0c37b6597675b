/** First visit against last, client by client, by the rules of `footing change`; and who came only once. */

import { type GroupChange, groupChange, type PairedResult, pairedResult } from '../../change/group.ts';
import { type DoneTest, doneTest, isUnable } from '../../change/readings.ts';
import { comparePair } from '../../change/test-change.ts';
import { evaluate } from '../../evidence/condition.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { rawFactsOf, subjectOf } from '../../facts.ts';
import { scoreSession } from '../../scoring/score-session.ts';
import type { Session, Side } from '../../session.ts';
import type { KeptClient, KeptVisit } from './part.ts';

export interface ReadVisit {
  readonly session: Session;
  /** Level of the pathway that decides. */
  readonly level: string;
}

export interface SlotChange {
  readonly test: TestDefinition;
  readonly side: Side | null;
  readonly change: GroupChange;
}

/** One of the two kinds of clients at their first visit. */
export interface AtFirstVisit {
  readonly ages: readonly number[];
  readonly levels: readonly string[];
  /** By slot. */
  readonly results: ReadonlyMap<string, FirstResults>;
}

export interface FirstResults {
  readonly values: readonly number[];
  /** For balance too. */
  readonly unable: number;
}

export interface BetweenVisits {
  /** Clients with two visits of different days, and those with one. */
  readonly completers: AtFirstVisit;
  readonly left: AtFirstVisit;
  readonly tests: readonly SlotChange[];
  /** References whose two visits cannot be of one person; they are in nothing here. */
  readonly mixedUp: number;
}

/** Another sex, or younger at the later visit: two people under one reference, or a slip of typing. */
function cannotBeOnePerson({ session: { client: before } }: ReadVisit, { session: { client: after } }: ReadVisit): boolean {
  const sexes = [before.sex, after.sex].filter((sex) => sex !== 'not recorded');
  return new Set(sexes).size > 1 || after.age < before.age;
}

interface Slot {
  readonly test: TestDefinition;
  readonly side: Side | null;
}

/** Results of one visit by slot, ready to be compared. */
function doneTests({ session }: ReadVisit, slots: readonly Slot[], evidence: Evidence): (DoneTest | null)[] {
  const facts = rawFactsOf(session, evidence);
  const { tests } = scoreSession(session, {
    evidence,
    subject: subjectOf(session),
    applies: (condition) => evaluate(condition, facts) === 'yes',
  });
  const visit = { session, assessment: { assessed: session.assessed, tests } };
  return slots.map(({ test, side }) => {
    const done = doneTest(visit, test.id, side);
    return done.result === null ? null : done;
  });
}

const slotKey = ({ test, side }: Slot): string => `${test.id}|${side}`;

function atFirstVisit(visits: readonly ReadVisit[], slots: readonly Slot[], evidence: Evidence): AtFirstVisit {
  const results = new Map<string, { values: number[]; unable: number }>();
  for (const slot of slots) results.set(slotKey(slot), { values: [], unable: 0 });
  for (const visit of visits)
    doneTests(visit, slots, evidence).forEach((done, index) => {
      const slot = slots[index];
      const held = slot === undefined ? undefined : results.get(slotKey(slot));
      if (held === undefined || done === null || done.result === null) return;
      const { value } = done.result;
      if (value !== null) held.values.push(value);
      else if (isUnable(done.result)) held.unable += 1;
    });
  return { ages: visits.map(({ session }) => session.client.age), levels: visits.map(({ level }) => level), results };
}

export const resultsAt = (group: AtFirstVisit, slot: Slot): FirstResults =>
  group.results.get(slotKey(slot)) ?? { values: [], unable: 0 };

/** null where no client has a second visit. `read` gives null for a visit that can no longer be read. */
export function betweenVisits(
  clients: readonly KeptClient[],
  slots: readonly Slot[],
  evidence: Evidence,
  read: (visit: KeptVisit) => ReadVisit | null,
): BetweenVisits | null {
  const pairs = new Map<Slot, PairedResult[]>(slots.map((slot) => [slot, []]));
  const completers: ReadVisit[] = [];
  const left: ReadVisit[] = [];
  let mixedUp = 0;
  for (const { first, last } of clients) {
    const before = read(first);
    if (before === null) continue;
    const after = last.assessed > first.assessed ? read(last) : null;
    if (after === null) {
      left.push(before);
      continue;
    }
    if (cannotBeOnePerson(before, after)) {
      mixedUp += 1;
      continue;
    }
    completers.push(before);
    const [done, then] = [doneTests(before, slots, evidence), doneTests(after, slots, evidence)];
    slots.forEach((slot, index) => {
      const [from, to] = [done[index] ?? null, then[index] ?? null];
      if (from === null || to === null) return;
      const context = { evidence, test: slot.test, conditions: new Set<string>(), holds: () => false };
      pairs.get(slot)?.push(pairedResult(comparePair(from, to, context).compared));
    });
  }
  if (completers.length === 0) return null;
  const tests = [...pairs].flatMap(([{ test, side }, list]): SlotChange[] => {
    const change = groupChange(list);
    return change === null ? [] : [{ test, side, change }];
  });
  return { completers: atFirstVisit(completers, slots, evidence), left: atFirstVisit(left, slots, evidence), tests, mixedUp };
}
