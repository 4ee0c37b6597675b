/** Counts -> the group summary; on a page that leaves the clinic in bands. Pure. */

import type { Evidence } from '../../evidence/data.ts';
import { toolName, toolVersion } from '../../version.ts';
import { BANDS, isSmall, showAs } from './bands.ts';
import type { BetweenVisits } from './between-visits.ts';
import { summariseChange } from './change.ts';
import { type SummarySlot, summariseTest } from './of-test.ts';
import { type Counts, type GroupCounts, type Part, wholeOf } from './part.ts';
import { spreadOfAges } from './spread.ts';
import type { NamedCount, Summary, SummaryGroup } from './types.ts';

export interface SummaryInput {
  readonly part: Part;
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

interface Id {
  readonly id: string;
  readonly name: string;
}

interface Page {
  readonly input: SummaryInput;
  /** By name; empty where the page has fewer than two. */
  readonly groups: readonly (readonly [string, GroupCounts])[];
  readonly whole: GroupCounts;
  /** Name of the only group, which is then the whole; null where there are several or none. */
  readonly only: string | null;
}

function pageOf(input: SummaryInput): Page {
  const { part, by } = input;
  const groups = by === null ? [] : Object.entries(part.groups).sort(([a], [b]) => (a < b ? -1 : 1));
  const [first] = groups;
  const several = groups.length > 1;
  return { input, groups: several ? groups : [], whole: wholeOf(part), only: several ? null : (first?.[0] ?? null) };
}

function levelsOf(evidence: Evidence, pathway: string): Id[] {
  const levels = evidence.pathways.find((each) => each.id === pathway)?.levels ?? [];
  return [...levels.map(({ id, label }) => ({ id, name: label })), { id: 'undetermined', name: 'Undetermined' }];
}

const sizeOf = ({ rows }: GroupCounts): number => rows.accepted ?? 0;

/** One row of the page: a group, or all of them together. */
function summariseGroup(name: string | null, group: GroupCounts, { input, whole }: Page): SummaryGroup {
  const { evidence, pathway, masked, slots } = input;
  const show = showAs(masked);
  const named = (ids: readonly Id[], counts: Counts): NamedCount[] =>
    ids.map(({ id, name: words }) => ({ id, name: words, n: show(counts[id] ?? 0) }));
  const findings = (ids: readonly Id[], counts: Counts, ofAll: Counts): NamedCount[] =>
    named(ids, counts).filter(({ id, n }) => (masked ? !isSmall(n) : (ofAll[id] ?? 0) > 0));
  const flags = evidence.redFlags.map(({ id }) => ({ id, name: id.replaceAll('_', ' ') }));
  const starts = evidence.exercises
    .filter(({ id }) => whole.starts[id] !== undefined)
    .map(({ id, name: exercise, ladder }) => {
      const rungs = ladder.map((rung, index) => ({ id: String(index + 1), name: rung.name }));
      const levels = named([{ id: '0', name: 'held or seated' }, ...rungs], group.starts[id] ?? NO_COUNTS);
      return { exercise: id, name: exercise, levels };
    });
  return {
    group: name,
    n: show(sizeOf(group)),
    sex: Object.fromEntries(SEXES.map((sex) => [sex, show(group.sex[sex] ?? 0)])),
    age: spreadOfAges(group.ages, masked),
    levels: named(levelsOf(evidence, pathway), group.levels),
    red_flags: findings(flags, group.redFlags, whole.redFlags),
    factors: findings(evidence.factors, group.factors, whole.factors),
    tests: slots.map((slot) => summariseTest(slot, group, { evidence, masked, whole })),
    starts,
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
  const { part, evidence, pathway, by, masked } = input;
  const page = pageOf(input);
  const show = showAs(masked);
  const listed = page.groups.filter(([, group]) => !masked || !isSmall(show(sizeOf(group))));
  const rows = [...listed.map(([name, group]) => summariseGroup(name, group, page)), summariseGroup(page.only, page.whole, page)];
  const cited = new Set(rows.flatMap((group) => group.tests.flatMap((test) => test.sources)));
  return {
    format: 1,
    kind: 'cohort_summary',
    tool: { name: toolName, version: toolVersion },
    evidence: { version: evidence.version, digest: evidence.digest, folders: evidence.folders },
    pathway: { id: pathway, name: evidence.pathways.find((each) => each.id === pathway)?.name ?? pathway },
    bands: masked ? BANDS : null,
    rows: { read: show(part.accepted + part.refused), accepted: show(part.accepted), refused: show(part.refused) },
    by,
    groups: rows,
    groups_withheld: listed.length < page.groups.length,
    ...changeOf(input),
    sources: Object.fromEntries(
      [...cited].sort().flatMap((id) => {
        const source = evidence.sources[id];
        return source === undefined ? [] : [[id, { citation: source.citation, doi: source.doi ?? null }]];
      }),
    ),
  };
}
