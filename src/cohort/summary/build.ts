/** Counts -> the group summary; on a page that leaves the clinic in bands. Pure. */

import type { Evidence } from '../../evidence/data.ts';
import { toolName, toolVersion } from '../../version.ts';
import { BANDS, bandOf, countOf, isSmall } from './bands.ts';
import type { BetweenVisits } from './between-visits.ts';
import { summariseChange } from './change.ts';
import { type SummarySlot, summariseTest } from './of-test.ts';
import { type Counts, type GroupCounts, type Part, wholeOf } from './part.ts';
import { spreadOfAges } from './spread.ts';
import type { NamedCount, Summary, SummaryGroup } from './types.ts';

export interface SummaryInput {
  readonly part: Part;
  /** Parts whose own pages may be known: this one then shows nothing that those do not show together. Empty where there are none. */
  readonly known: readonly Part[];
  readonly slots: readonly SummarySlot[];
  readonly evidence: Evidence;
  readonly pathway: string;
  /** Heading of the column that parts the cohort. */
  readonly by: string | null;
  /** Counts as bands. */
  readonly masked: boolean;
  readonly between: BetweenVisits | null;
  readonly noChangeBecause: string | null;
}

const SEXES = ['female', 'male', 'not recorded'] as const;
const NO_COUNTS: Counts = {};

const NO_GROUPS_BESIDE_PARTS =
  'The parts may have pages of their own by groups, and beside them the groups of the whole could give small numbers away. Where they have none, merge with --split.';

interface Id {
  readonly id: string;
  readonly name: string;
}

interface Page {
  readonly input: SummaryInput;
  /** By name; empty where the page has fewer than two, or shows none. */
  readonly groups: readonly (readonly [string, GroupCounts])[];
  readonly whole: GroupCounts;
  /** Name of the only group, which is then the whole; null where there are several or none. */
  readonly only: string | null;
}

const isBesideParts = ({ masked, known }: SummaryInput): boolean => masked && known.length > 1;

function pageOf(input: SummaryInput): Page {
  const { part, by } = input;
  const groups = by === null || isBesideParts(input) ? [] : Object.entries(part.groups).sort(([a], [b]) => (a < b ? -1 : 1));
  const [first] = groups;
  const several = groups.length > 1;
  return { input, groups: several ? groups : [], whole: wholeOf(part), only: several ? null : (first?.[0] ?? null) };
}

function levelsOf(evidence: Evidence, pathway: string): Id[] {
  const levels = evidence.pathways.find((each) => each.id === pathway)?.levels ?? [];
  return [...levels.map(({ id, label }) => ({ id, name: label })), { id: 'undetermined', name: 'Undetermined' }];
}

/** Groups that a masked page lists. Those of the first band are not, nor beside few people of theirs the next larger one: all others taken from the whole would leave those few. */
function listedOf(groups: Page['groups']): Page['groups'] {
  const sizes = groups.map(([, group]) => sizeOf(group)).sort((a, b) => a - b);
  let [left, hidden] = [0, 0];
  for (const size of sizes) {
    if (!isSmall(bandOf(size)) && (hidden === 0 || !isSmall(bandOf(left)))) break;
    left += size;
    hidden = size;
  }
  return groups.filter(([, group]) => sizeOf(group) > hidden);
}

const sizeOf = ({ rows }: GroupCounts): number => rows.accepted ?? 0;

interface Row {
  readonly name: string | null;
  readonly group: GroupCounts;
  /** What makes it up on other pages, or itself. */
  readonly pieces: readonly GroupCounts[];
}

function summariseRow({ name, group, pieces }: Row, { input, whole }: Page): SummaryGroup {
  const { evidence, pathway, masked, slots } = input;
  const count = countOf(pieces, masked);
  const named = (ids: readonly Id[], pick: (of: GroupCounts) => Counts): NamedCount[] =>
    ids.map(({ id, name: words }) => ({ id, name: words, n: count((each) => pick(each)[id] ?? 0) }));
  const findings = (ids: readonly Id[], pick: (of: GroupCounts) => Counts): NamedCount[] =>
    named(ids, pick).filter(({ id, n }) => (masked ? !isSmall(n) : (pick(whole)[id] ?? 0) > 0));
  const flags = evidence.redFlags.map(({ id }) => ({ id, name: id.replaceAll('_', ' ') }));
  const starts = evidence.exercises
    .filter(({ id }) => whole.starts[id] !== undefined)
    .map(({ id, name: exercise, ladder }) => {
      const rungs = ladder.map((rung, index) => ({ id: String(index + 1), name: rung.name }));
      const levels = named([{ id: '0', name: 'held or seated' }, ...rungs], ({ starts: all }) => all[id] ?? NO_COUNTS);
      return { exercise: id, name: exercise, levels };
    });
  return {
    group: name,
    summed: pieces.length,
    n: count(sizeOf),
    sex: Object.fromEntries(SEXES.map((sex) => [sex, count((each) => each.sex[sex] ?? 0)])),
    age: spreadOfAges(group.ages, masked),
    levels: named(levelsOf(evidence, pathway), ({ levels }) => levels),
    red_flags: findings(flags, ({ redFlags }) => redFlags),
    factors: findings(evidence.factors, ({ factors }) => factors),
    tests: slots.map((slot) => summariseTest(slot, { evidence, masked, count, group, whole })),
    starts,
  };
}

/** What the row of all is made of on this page or others: its bands are the sums of theirs, so that it tells nothing about them. */
function piecesOf({ input, groups, whole }: Page): readonly GroupCounts[] {
  if (isBesideParts(input)) return input.known.map(wholeOf);
  return input.masked && groups.length > 0 ? groups.map(([, group]) => group) : [whole];
}

/** Rows read, accepted and refused, as the pages of the parts have them where there are any. */
function rowsOf(input: SummaryInput): Summary['rows'] {
  const count = countOf(isBesideParts(input) ? input.known : [input.part], input.masked);
  return {
    read: count(({ accepted, refused }) => accepted + refused),
    accepted: count(({ accepted }) => accepted),
    refused: count(({ refused }) => refused),
  };
}

function changeOf({
  between,
  evidence,
  pathway,
  slots,
  masked,
  noChangeBecause,
}: SummaryInput): Pick<Summary, 'change' | 'no_change_because'> {
  if (between === null) return { change: null, no_change_because: noChangeBecause };
  return { change: summariseChange(between, levelsOf(evidence, pathway), slots, masked), no_change_because: null };
}

export function buildSummary(input: SummaryInput): Summary {
  const { evidence, pathway, by, masked } = input;
  const page = pageOf(input);
  const { groups, whole, only } = page;
  const besideParts = isBesideParts(input);
  const listed = masked ? listedOf(groups) : groups;
  const all = { name: only, group: whole, pieces: piecesOf(page) };
  const rows = [...listed.map(([name, group]) => ({ name, group, pieces: [group] })), all].map((row) => summariseRow(row, page));
  const cited = new Set(rows.flatMap((group) => group.tests.flatMap((test) => test.sources)));
  return {
    format: 1,
    kind: 'cohort_summary',
    tool: { name: toolName, version: toolVersion },
    evidence: { version: evidence.version, digest: evidence.digest, folders: evidence.folders },
    pathway: { id: pathway, name: evidence.pathways.find((each) => each.id === pathway)?.name ?? pathway },
    bands: masked ? BANDS : null,
    rows: rowsOf(input),
    by,
    groups: rows,
    groups_withheld: listed.length < groups.length,
    no_groups_because: by !== null && besideParts ? NO_GROUPS_BESIDE_PARTS : null,
    ...changeOf(input),
    sources: Object.fromEntries(
      [...cited].sort().flatMap((id) => {
        const source = evidence.sources[id];
        return source === undefined ? [] : [[id, { citation: source.citation, doi: source.doi ?? null }]];
      }),
    ),
  };
}
