/** Counts the accepted rows of a block. */
import type { BriefResult } from '../../scoring/brief.ts';
import type { Decided } from '../decide.ts';
import type { ScoredTest } from '../parts.ts';
import type { Accepted, RowScorer } from '../row-scorer.ts';
import type { Row } from '../tree.ts';
import {
  add,
  BETWEEN,
  bare,
  emptyGroup,
  emptyTest,
  type GroupCounts,
  joinClients,
  type KeptClient,
  type KeptVisit,
  type Part,
  slotName,
  type TestCounts,
} from './part.ts';
import { placeOf } from './places.ts';

/** `unsafe` for balance is the worst result, like unable; for another reason nothing was tested. */
function outcomeOf({ outcome, why }: BriefResult): string {
  if (outcome !== 'unsafe') return outcome;
  return why === 'balance' ? 'unable' : 'stopped';
}

function addTest(counts: TestCounts, brief: BriefResult | undefined, decimals: number, by: number): void {
  const outcome = brief === undefined ? 'not_recorded' : outcomeOf(brief);
  add(counts.outcomes, outcome, by);
  if (brief === undefined || (outcome !== 'measured' && outcome !== 'unable')) return;
  if (brief.value !== null) add(counts.values, brief.value.toFixed(decimals), by);
  add(counts.places, placeOf(brief), by);
  if (brief.standing !== null && brief.source !== null) add(counts.sources, brief.source, by);
  add(counts.flags, brief.flagged === null ? 'undecided' : brief.flagged ? 'yes' : 'no', by);
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
    if (this.#clients === null || assessed === null || !this.#hasReference(row)) return;
    const visit: KeptVisit = { assessed, cells: this.#options.kept.map((place) => row[place] ?? '').join(BETWEEN) };
    const seen: KeptClient = { first: visit, last: visit, visits: 1 };
    const before = this.#clients[ref];
    this.#clients[ref] = before === undefined ? seen : joinClients(before, seen);
  }

  /** A row without a reference is named by its number, which another piece of the cohort has too: it is nobody's visit. */
  #hasReference(row: Row): boolean {
    const { ref } = this.#options.scorer.layout;
    return ref !== null && typeof ref.read(row[ref.index] ?? '') === 'string';
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
