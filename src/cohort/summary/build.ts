/** Counts -> the group summary, withheld where they are small. Pure. */

import type { Evidence } from '../../evidence/data.ts';
import { toolName, toolVersion } from '../../version.ts';
import type { BetweenVisits } from './between-visits.ts';
import { summariseChange } from './change.ts';
import { LEAST_SHOWN } from './mask.ts';
import { type SummarySlot, summariseTest } from './of-test.ts';
import { type Counts, type GroupCounts, type Part, wholeOf } from './part.ts';
import { spreadOfAges } from './spread.ts';
import { type PageGroups, type Partition, type RowName, Tables } from './tables.ts';
import type { NamedCount, Summary, SummaryGroup } from './types.ts';

export interface SummaryInput {
  readonly part: Part;
  /** Parts whose own pages may be known; empty where the cohort was never parted or its parts had no page. */
  readonly known: readonly Part[];
  readonly slots: readonly SummarySlot[];
  readonly evidence: Evidence;
  readonly pathway: string;
  readonly by: string | null;
  readonly masked: boolean;
  readonly between: BetweenVisits | null;
  readonly noChangeBecause: string | null;
}

const SEXES = ['female', 'male', 'not recorded'] as const;
const NO_COUNTS: Counts = {};

/** Change is not a sum over the parts: from their pages and that of the whole, who came to two of them could be worked out. */
const NO_CHANGE_BESIDE_PARTS =
  'The parts may have pages of their own, and beside them the change of the whole could give single clients away. Where they have none, merge with --split.';

interface Id {
  readonly id: string;
  readonly name: string;
}

function pageOf(part: Part, by: string | null): PageGroups {
  const names = by === null ? [] : Object.keys(part.groups).sort((a, b) => (a < b ? -1 : 1));
  const groups = new Map(names.flatMap((name) => (part.groups[name] === undefined ? [] : [[name, part.groups[name]] as const])));
  const several = groups.size > 1;
  return { groups: several ? groups : new Map(), whole: wholeOf(part), only: several ? null : (names[0] ?? null) };
}

/** Findings that any number of people may have beside others: each is a table of its own, found or not. */
const finding = (kind: string, { id }: Id, pick: (group: GroupCounts) => Counts): Partition => ({
  key: `${kind} ${id}`,
  categories: ['found', 'rest'],
  pick: (group) => {
    const found = pick(group)[id] ?? 0;
    return { found, rest: (group.rows.accepted ?? 0) - found };
  },
});

function levelsOf(evidence: Evidence, pathway: string): Id[] {
  const levels = evidence.pathways.find((each) => each.id === pathway)?.levels ?? [];
  return [...levels.map(({ id, label }) => ({ id, name: label })), { id: 'undetermined', name: 'Undetermined' }];
}

interface Page {
  readonly input: SummaryInput;
  readonly tables: Tables;
  readonly groups: PageGroups;
}

/** Counts of one row of the page. */
class RowSummary {
  readonly #page: Page;
  readonly #name: RowName;
  readonly #group: GroupCounts;

  constructor(page: Page, name: RowName, group: GroupCounts) {
    this.#page = page;
    this.#name = name;
    this.#group = group;
  }

  #named(key: string, ids: readonly Id[], pick: (group: GroupCounts) => Counts): NamedCount[] {
    const partition = { key, categories: ids.map(({ id }) => id), pick };
    return ids.map(({ id, name }) => ({ id, name, n: this.#page.tables.count(partition, this.#name, id) }));
  }

  /** Those that anybody has. */
  #findings(kind: 'redFlags' | 'factors', ids: readonly Id[]): NamedCount[] {
    const { tables, groups } = this.#page;
    return ids
      .filter(({ id }) => (groups.whole[kind][id] ?? 0) > 0)
      .map((each) => ({
        id: each.id,
        name: each.name,
        n: tables.count(
          finding(kind, each, (group) => group[kind]),
          this.#name,
          'found',
        ),
      }));
  }

  #starts(): SummaryGroup['starts'] {
    const { input, groups } = this.#page;
    return input.evidence.exercises
      .filter(({ id }) => groups.whole.starts[id] !== undefined)
      .map(({ id, name, ladder }) => {
        const levels = [
          { id: '0', name: 'held or seated' },
          ...ladder.map((rung, index) => ({ id: String(index + 1), name: rung.name })),
        ];
        return { exercise: id, name, levels: this.#named(`start ${id}`, levels, (group) => group.starts[id] ?? NO_COUNTS) };
      });
  }

  summary(): SummaryGroup {
    const { input, tables, groups } = this.#page;
    const { evidence, pathway, masked, slots } = input;
    const withheld = tables.isWithheld(this.#name);
    const sex: Partition = { key: 'sex', categories: SEXES, pick: (group) => group.sex };
    return {
      group: this.#name ?? groups.only,
      n: withheld ? null : (this.#group.rows.accepted ?? 0),
      sex: Object.fromEntries(SEXES.map((each) => [each, tables.count(sex, this.#name, each)])),
      age: withheld ? null : spreadOfAges(this.#group.ages, masked),
      levels: this.#named('levels', levelsOf(evidence, pathway), (group) => group.levels),
      red_flags: this.#findings(
        'redFlags',
        evidence.redFlags.map(({ id }) => ({ id, name: id.replaceAll('_', ' ') })),
      ),
      factors: this.#findings('factors', evidence.factors),
      tests: slots.map((slot) => summariseTest(slot, this.#group, this.#name, { tables, evidence, masked, whole: groups.whole })),
      starts: this.#starts(),
    };
  }
}

function groupsOf(page: Page): SummaryGroup[] {
  const shown = [...page.groups.groups].filter(([name]) => !page.tables.isWithheld(name));
  const rows: [RowName, GroupCounts][] = [...shown, [null, page.groups.whole]];
  return rows.map(([name, group]) => new RowSummary(page, name, group).summary());
}

function changeOf(input: SummaryInput, tables: Tables): Pick<Summary, 'change' | 'no_change_because'> {
  const { evidence, pathway, slots, masked, known, between } = input;
  if (masked && known.length > 1) return { change: null, no_change_because: NO_CHANGE_BESIDE_PARTS };
  if (tables.tooFew) return { change: null, no_change_because: 'There are too few visits to be shown.' };
  if (between === null) return { change: null, no_change_because: input.noChangeBecause };
  return { change: summariseChange(between, levelsOf(evidence, pathway), slots, masked), no_change_because: null };
}

export function buildSummary(input: SummaryInput): Summary {
  const { part, evidence, pathway, by, masked, known } = input;
  const groups = pageOf(part, by);
  const parts = masked ? known.map((each) => new Tables(pageOf(each, by), true)) : [];
  const tables = new Tables(groups, masked, parts);
  const rows = groupsOf({ input, tables, groups });
  const cited = new Set(rows.flatMap((group) => group.tests.flatMap((test) => test.sources)));
  return {
    format: 1,
    kind: 'cohort_summary',
    tool: { name: toolName, version: toolVersion },
    evidence: { version: evidence.version, digest: evidence.digest, folders: evidence.folders },
    pathway: { id: pathway, name: evidence.pathways.find((each) => each.id === pathway)?.name ?? pathway },
    least_shown: masked ? LEAST_SHOWN : null,
    rows: {
      read: tables.tooFew ? null : part.accepted + part.refused,
      accepted: tables.tooFew ? null : part.accepted,
      refused: part.refused,
    },
    by,
    groups: rows,
    groups_withheld: [...groups.groups.keys()].some((name) => tables.isWithheld(name)),
    ...changeOf(input, tables),
    sources: Object.fromEntries(
      [...cited].sort().flatMap((id) => {
        const source = evidence.sources[id];
        return source === undefined ? [] : [[id, { citation: source.citation, doi: source.doi ?? null }]];
      }),
    ),
  };
}
