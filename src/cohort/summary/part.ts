/**
 * Counts over a share of a cohort. Counts only, so that parts of a split cohort add up to exactly the part of the whole,
 * whatever the order. A part is not masked and holds first and last visits: it stays in the clinic.
 */

import type { Side } from '../../session.ts';

export type Counts = Record<string, number>;

export interface TestCounts {
  /** measured; unable (for balance too); stopped for another reason; declined; not_recorded. */
  readonly outcomes: Counts;
  /** Measured values to the test's own decimals. */
  readonly values: Counts;
  /** Where everybody who was tested stands, see places.ts. */
  readonly places: Counts;
  /** Of everybody who was tested: yes, no, undecided. */
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

export const bare = <Value>(): Record<string, Value> => Object.create(null) as Record<string, Value>;

/** Adds to the count of `key`. */
export function add(counts: Counts, key: string, by = 1): void {
  counts[key] = (counts[key] ?? 0) + by;
}

export const emptyTest = (): TestCounts => ({
  outcomes: bare(),
  values: bare(),
  places: bare(),
  flags: bare(),
  sources: bare(),
});
export const emptyGroup = (): GroupCounts => ({
  rows: bare(),
  sex: bare(),
  ages: bare(),
  levels: bare(),
  redFlags: bare(),
  factors: bare(),
  starts: bare(),
  tests: bare(),
});
/** Of two rows of one day one counts, by a rule that does not hang on the order in which parts are added up. */
const isBefore = (a: KeptVisit, b: KeptVisit): boolean =>
  a.assessed === b.assessed ? a.cells < b.cells : a.assessed < b.assessed;

/** The earlier and the later of two kept clients. */
export function joinClients(a: KeptClient, b: KeptClient): KeptClient {
  return {
    first: isBefore(b.first, a.first) ? b.first : a.first,
    last: isBefore(a.last, b.last) ? b.last : a.last,
    visits: a.visits + b.visits,
  };
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
    for (const key of ['outcomes', 'values', 'places', 'flags', 'sources'] as const) addCounts(own[key], counts[key]);
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
