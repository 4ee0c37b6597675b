/**
 * Counts over a share of a cohort. Counts only, so that parts of a split cohort add up to exactly the part of the whole,
 * whatever the order. A part is not masked and holds first and last visits: it stays in the clinic.
 */

import type { BriefResult } from '../../scoring/brief.ts';
import type { Side } from '../../session.ts';
import type { Decided } from '../decide.ts';
import type { ScoredTest } from '../parts.ts';
import type { Accepted, RowScorer } from '../row-scorer.ts';
import type { Row } from '../tree.ts';

export type Counts = Record<string, number>;

export interface TestCounts {
  /** measured, unable, unsafe, declined, not_recorded. */
  readonly outcomes: Counts;
  /** Measured values to the test's own decimals. */
  readonly values: Counts;
  readonly standings: Counts;
  /** Exact percentiles by tens: 0 to 9. */
  readonly tens: Counts;
  /** yes, no, undecided. */
  readonly flags: Counts;
  /** Source of the table behind the standing. */
  readonly sources: Counts;
}

export interface GroupCounts {
  readonly rows: Counts;
  readonly sex: Counts;
  readonly ages: Counts;
  readonly levels: Counts;
  readonly redFlags: Counts;
  readonly factors: Counts;
  readonly starts: Record<string, Counts>;
  readonly tests: Record<string, TestCounts>;
}

/** The cells of a visit that mean something, and its day. */
export interface KeptVisit {
  /** ISO date. */
  readonly assessed: string;
  /** Cells of the kept columns with `BETWEEN` between them: one text holds on to no more of the input than itself. */
  readonly cells: string;
}
export interface KeptClient {
  readonly first: KeptVisit;
  readonly last: KeptVisit;
  readonly visits: number;
}

export interface Part {
  readonly accepted: number;
  readonly refused: number;
  /** By value of the column that parts the cohort; one group with the empty name where none does. */
  readonly groups: Record<string, GroupCounts>;
  /** By reference; null where there are too many to keep, or no column holds reference and day. */
  readonly clients: Record<string, KeptClient> | null;
}

/** Clients whose first and last visit are kept, for the change between them. */
export const MOST_CLIENTS = 50_000;
export const BETWEEN = '\u0001';

export const slotName = (test: string, side: Side | null): string => (side === null ? test : `${test}_${side}`);

const bare = <Value>(): Record<string, Value> => Object.create(null) as Record<string, Value>;

function add(counts: Counts, key: string, by = 1): void {
  counts[key] = (counts[key] ?? 0) + by;
}

const emptyTest = (): TestCounts => ({
  outcomes: bare(),
  values: bare(),
  standings: bare(),
  tens: bare(),
  flags: bare(),
  sources: bare(),
});
const emptyGroup = (): GroupCounts => ({
  rows: bare(),
  sex: bare(),
  ages: bare(),
  levels: bare(),
  redFlags: bare(),
  factors: bare(),
  starts: bare(),
  tests: bare(),
});
export const emptyPart = (withClients: boolean): Part => ({
  accepted: 0,
  refused: 0,
  groups: bare(),
  clients: withClients ? bare() : null,
});

const LAST_TEN = 9;

function addTest(counts: TestCounts, brief: BriefResult | undefined, decimals: number, by: number): void {
  add(counts.outcomes, brief?.outcome ?? 'not_recorded', by);
  if (brief === undefined) return;
  if (brief.value !== null) add(counts.values, brief.value.toFixed(decimals), by);
  if (brief.standing !== null) add(counts.standings, brief.standing, by);
  if (brief.standing !== null && brief.source !== null) add(counts.sources, brief.source, by);
  if (brief.bound === 'exact' && brief.percentile !== null)
    add(counts.tens, String(Math.min(LAST_TEN, Math.floor(brief.percentile / 10))), by);
  if (brief.outcome !== 'declined') add(counts.flags, brief.flagged === null ? 'undecided' : brief.flagged ? 'yes' : 'no', by);
}

/** The earlier and the later of two kept clients; of one day the one that comes first in the file, so pass it as `a`. */
export function joinClients(a: KeptClient, b: KeptClient): KeptClient {
  return {
    first: b.first.assessed < a.first.assessed ? b.first : a.first,
    last: b.last.assessed > a.last.assessed ? b.last : a.last,
    visits: a.visits + b.visits,
  };
}

export interface PartOptions {
  readonly scorer: RowScorer;
  /** Place of the column that parts the cohort, from 0. */
  readonly by: number | null;
  /** Places of the columns whose cells are kept for the change. */
  readonly kept: readonly number[];
}

/** How often each remembered thing turned up: rows of one kind share them, so that a row costs a few look-ups. */
interface Seen {
  readonly sex: Map<string, number>;
  readonly ages: Map<number, number>;
  readonly decided: Map<Decided, number>;
  /** For each test of the output. */
  readonly tests: readonly Map<ScoredTest, number>[];
}

function once<Key>(counts: Map<Key, number>, key: Key): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** Builds the part of a block. */
export class PartBuilder {
  #accepted = 0;
  #refused = 0;
  readonly #options: PartOptions;
  readonly #seen = new Map<string, Seen>();
  readonly #clients: Record<string, KeptClient> | null;

  constructor(options: PartOptions) {
    this.#options = options;
    const { layout } = options.scorer;
    this.#clients = layout.ref !== null && layout.assessed !== null ? bare() : null;
  }

  refused(): void {
    this.#refused += 1;
  }

  accepted(scored: Accepted, row: Row): void {
    this.#accepted += 1;
    const { by } = this.#options;
    const name = by === null ? '' : (row[by] ?? '').trim();
    let seen = this.#seen.get(name);
    if (seen === undefined) {
      seen = this.#nothingSeen();
      this.#seen.set(name, seen);
    }
    const { sex, ages, decided, tests } = seen;
    once(sex, scored.sex);
    once(ages, scored.age);
    once(decided, scored.decided);
    for (let index = 0; index < tests.length; index += 1) {
      const result = scored.tests[index];
      const counts = tests[index];
      if (result !== undefined && counts !== undefined) once(counts, result);
    }
    this.#keep(scored, row);
  }

  #nothingSeen(): Seen {
    const tests = this.#options.scorer.outputTests.map(() => new Map<ScoredTest, number>());
    return { sex: new Map(), ages: new Map(), decided: new Map(), tests };
  }

  #keep({ ref, assessed }: Accepted, row: Row): void {
    if (this.#clients === null || assessed === null) return;
    const visit: KeptVisit = { assessed, cells: this.#options.kept.map((place) => row[place] ?? '').join(BETWEEN) };
    const seen: KeptClient = { first: visit, last: visit, visits: 1 };
    const before = this.#clients[ref];
    this.#clients[ref] = before === undefined ? seen : joinClients(before, seen);
  }

  /** What was counted so far. */
  part(): Part {
    const groups: Record<string, GroupCounts> = bare();
    for (const [name, seen] of this.#seen) groups[name] = this.#countsOf(seen);
    return { accepted: this.#accepted, refused: this.#refused, groups, clients: this.#clients };
  }

  #countsOf({ sex, ages, decided, tests }: Seen): GroupCounts {
    const group = emptyGroup();
    for (const [key, count] of sex) add(group.sex, key, count);
    for (const [key, count] of ages) add(group.ages, String(key), count);
    for (const [decision, count] of decided) {
      add(group.rows, 'accepted', count);
      add(group.levels, decision.level, count);
      for (const flag of decision.redFlags) add(group.redFlags, flag.id, count);
      for (const factor of decision.factors) add(group.factors, factor, count);
      for (const [exercise, level] of Object.entries(decision.starts)) {
        const counts = group.starts[exercise] ?? bare();
        group.starts[exercise] = counts;
        add(counts, String(level), count);
      }
    }
    for (const [index, results] of tests.entries()) this.#countTest(group, index, results);
    return group;
  }

  #countTest(group: GroupCounts, index: number, results: ReadonlyMap<ScoredTest, number>): void {
    const { scorer } = this.#options;
    const test = scorer.outputTests[index];
    if (test === undefined) return;
    for (const side of scorer.sidesOf(test.id)) {
      const counts = emptyTest();
      group.tests[slotName(test.id, side)] = counts;
      for (const [result, count] of results)
        addTest(counts, result.results.find((each) => each.side === side)?.brief, test.decimals, count);
    }
  }
}

function addCounts(into: Counts, from: Counts): void {
  for (const [key, count] of Object.entries(from)) add(into, key, count);
}

function addGroup(into: GroupCounts, from: GroupCounts): void {
  for (const key of ['rows', 'sex', 'ages', 'levels', 'redFlags', 'factors'] as const) addCounts(into[key], from[key]);
  for (const [exercise, counts] of Object.entries(from.starts)) {
    const own = into.starts[exercise] ?? bare();
    into.starts[exercise] = own;
    addCounts(own, counts);
  }
  for (const [slot, counts] of Object.entries(from.tests)) {
    const own = into.tests[slot] ?? emptyTest();
    into.tests[slot] = own;
    for (const key of ['outcomes', 'values', 'standings', 'tens', 'flags', 'sources'] as const) addCounts(own[key], counts[key]);
  }
}

/** Adds parts up in the order of the file. */
export class PartSum {
  #accepted = 0;
  #refused = 0;
  #clients: Record<string, KeptClient> | null;
  #held = 0;
  readonly #groups: Record<string, GroupCounts> = bare();

  constructor(withClients = true) {
    this.#clients = withClients ? bare() : null;
  }

  add(part: Part): void {
    this.#accepted += part.accepted;
    this.#refused += part.refused;
    for (const [name, group] of Object.entries(part.groups)) {
      const own = this.#groups[name] ?? emptyGroup();
      this.#groups[name] = own;
      addGroup(own, group);
    }
    if (part.clients === null) this.#clients = null;
    else this.#addClients(part.clients);
  }

  #addClients(clients: Record<string, KeptClient>): void {
    for (const [ref, client] of Object.entries(clients)) {
      if (this.#clients === null) return;
      const before = this.#clients[ref];
      if (before === undefined) this.#held += 1;
      this.#clients[ref] = before === undefined ? client : joinClients(before, client);
      if (this.#held > MOST_CLIENTS) this.#clients = null;
    }
  }

  part(): Part {
    return { accepted: this.#accepted, refused: this.#refused, groups: this.#groups, clients: this.#clients };
  }
}

/** All groups together. */
export function wholeOf(part: Part): GroupCounts {
  const whole = emptyGroup();
  for (const group of Object.values(part.groups)) addGroup(whole, group);
  return whole;
}
