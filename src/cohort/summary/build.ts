/** Counts -> the group summary, withheld where they are small. Pure. */

import { wilsonShare } from '../../change/group.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { roundTo } from '../../scoring/performance.ts';
import type { Side } from '../../session.ts';
import { toolName, toolVersion } from '../../version.ts';
import type { BetweenVisits } from './between-visits.ts';
import { summariseChange } from './change.ts';
import { LEAST_SHOWN } from './mask.ts';
import { type Counts, type GroupCounts, type Part, slotName, wholeOf } from './part.ts';
import { spreadOf } from './spread.ts';
import { type CountTable, countTable, type TableContext } from './tables.ts';
import type { NamedCount, ShareOf, Summary, SummaryGroup, SummaryTest } from './types.ts';

export interface SummarySlot {
  readonly test: TestDefinition;
  readonly side: Side | null;
}

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

const OUTCOMES = ['measured', 'unable', 'unsafe', 'declined', 'not_recorded'] as const;
const STANDINGS = ['well_below', 'below', 'expected', 'above'] as const;
const FLAGS = ['yes', 'no', 'undecided'] as const;
const SEXES = ['female', 'male', 'not recorded'] as const;
const TENS = Array.from({ length: 10 }, (_, index) => String(index));
const NO_COUNTS: Counts = {};

interface Rows {
  /** Groups, then all together where there are several. */
  readonly names: readonly (string | null)[];
  readonly groups: readonly GroupCounts[];
  readonly shown: readonly GroupCounts[];
  readonly known: readonly (readonly GroupCounts[])[];
  readonly masked: boolean;
  readonly withheld: readonly boolean[];
}

function contextOf(rows: Rows, pick: (group: GroupCounts) => Counts): TableContext {
  return { masked: rows.masked, withheld: rows.withheld, known: rows.known.map((part) => part.map(pick)) };
}

const table = (rows: Rows, categories: readonly string[], pick: (group: GroupCounts) => Counts): CountTable =>
  countTable(rows.groups.map(pick), categories, contextOf(rows, pick));

const record = <Key extends string>(keys: readonly Key[], of: CountTable, row: number) =>
  Object.fromEntries(keys.map((key) => [key, of.count(row, key)])) as Record<Key, number | null>;

/** Groups too small to be shown, and with them as many as it takes that none follows from the total. */
function withheldGroups(groups: readonly GroupCounts[]): boolean[] {
  const sizes = countTable(
    groups.map((group) => ({ n: group.rows.accepted ?? 0 })),
    ['n'],
    { masked: true, withheld: [], known: [] },
  );
  return [
    ...groups.map((_, row) => sizes.count(row, 'n') === null),
    ...(groups.length < 2 ? [] : [sizes.count(groups.length, 'n') === null]),
  ];
}

function rowsOf({ part, known, by, masked }: SummaryInput): Rows {
  const names = Object.keys(part.groups).sort((a, b) => (a < b ? -1 : 1));
  const groups = names.flatMap((name) => part.groups[name] ?? []);
  const whole = wholeOf(part);
  const several = by !== null && groups.length > 1;
  return {
    names: several ? [...names, null] : [by === null ? null : (names[0] ?? null)],
    groups: several ? groups : [whole],
    shown: several ? [...groups, whole] : [whole],
    known: known.map((each) => Object.values(each.groups)),
    masked,
    withheld: masked ? withheldGroups(several ? groups : [whole]) : [],
  };
}

/** Shown only where it gives no withheld standing away. */
function below25(standings: CountTable, counts: Counts, row: number): ShareOf | null {
  const of = standings.total(row);
  const hidden = (key: string): boolean => standings.count(row, key) === null;
  if (of === null || of === 0 || hidden('well_below') !== hidden('below') || hidden('expected') !== hidden('above')) return null;
  const n = (counts.well_below ?? 0) + (counts.below ?? 0);
  const small = [n, of - n].some((count) => count > 0 && count < LEAST_SHOWN);
  if (small && (hidden('well_below') || hidden('expected'))) return null;
  const { share, low, high } = wilsonShare(n, of);
  return { n, of, share: roundTo(share, 4), low: roundTo(low, 4), high: roundTo(high, 4) };
}

function summariseTest({ test, side }: SummarySlot, rows: Rows, evidence: Evidence): SummaryTest[] {
  const slot = slotName(test.id, side);
  const pick = (key: 'outcomes' | 'standings' | 'tens' | 'flags') => (group: GroupCounts) =>
    group.tests[slot]?.[key] ?? NO_COUNTS;
  const outcomes = table(rows, OUTCOMES, pick('outcomes'));
  const standings = table(rows, STANDINGS, pick('standings'));
  const tens = table(rows, TENS, pick('tens'));
  const flags = table(rows, FLAGS, pick('flags'));
  return rows.shown.map((group, row) => {
    const counts = group.tests[slot];
    const withheld = rows.withheld[row] === true;
    // Whoever was tested is flagged, not flagged or undecided; where that number would tell how many declined, it stays away.
    const tested = ['measured', 'unable', 'unsafe'].filter((key) => outcomes.count(row, key) === null).length;
    const flagged = record(FLAGS, flags, row);
    return {
      test: test.id,
      side,
      name: side === null ? test.name : `${test.name}, ${side}`,
      unit: test.unit_text,
      outcomes: record(OUTCOMES, outcomes, row),
      value: withheld || counts === undefined ? null : spreadOf(counts.values, rows.masked),
      standing: record(STANDINGS, standings, row),
      below_25: withheld ? null : below25(standings, counts?.standings ?? NO_COUNTS, row),
      reference: evidence.defaults.standing.below_under / 100,
      tens: TENS.map((ten) => tens.count(row, ten)),
      flagged: tested === 1 ? { yes: null, no: null, undecided: null } : flagged,
      sources: Object.keys(counts?.sources ?? {}).sort(),
    };
  });
}

function named(rows: Rows, ids: readonly { id: string; name: string }[], pick: (group: GroupCounts) => Counts): NamedCount[][] {
  const of = table(
    rows,
    ids.map(({ id }) => id),
    pick,
  );
  return rows.shown.map((_, row) => ids.map(({ id, name }) => ({ id, name, n: of.count(row, id) })));
}

/** Findings that any number of people may have beside others: each is a table of its own, found or not. */
function findings(
  rows: Rows,
  ids: readonly { id: string; name: string }[],
  pick: (group: GroupCounts) => Counts,
): NamedCount[][] {
  const tables = ids.map(({ id }) =>
    table(rows, ['found', 'rest'], (group) => {
      const found = pick(group)[id] ?? 0;
      return { found, rest: (group.rows.accepted ?? 0) - found };
    }),
  );
  return rows.shown.map((_, row) =>
    ids.map(({ id, name }, index) => ({ id, name, n: tables[index]?.count(row, 'found') ?? null })),
  );
}

function levelsOf(evidence: Evidence, pathway: string): { id: string; name: string }[] {
  const levels = evidence.pathways.find((each) => each.id === pathway)?.levels ?? [];
  return [...levels.map(({ id, label }) => ({ id, name: label })), { id: 'undetermined', name: 'Undetermined' }];
}

function startsOf(rows: Rows, evidence: Evidence): SummaryGroup['starts'][] {
  const tables = evidence.exercises.map((exercise) => {
    const levels = [
      { id: '0', name: 'held or seated' },
      ...exercise.ladder.map((rung, index) => ({ id: String(index + 1), name: rung.name })),
    ];
    return { exercise, levels: named(rows, levels, (group) => group.starts[exercise.id] ?? NO_COUNTS) };
  });
  return rows.shown.map((group, row) =>
    tables
      .filter(({ exercise }) => group.starts[exercise.id] !== undefined)
      .map(({ exercise, levels }) => ({ exercise: exercise.id, name: exercise.name, levels: levels[row] ?? [] })),
  );
}

function groupsOf(input: SummaryInput, rows: Rows): SummaryGroup[] {
  const { evidence, slots, pathway } = input;
  const tests = slots.map((slot) => summariseTest(slot, rows, evidence));
  const sex = table(rows, SEXES, (group) => group.sex);
  const levels = named(rows, levelsOf(evidence, pathway), (group) => group.levels);
  const flags = findings(
    rows,
    evidence.redFlags.map(({ id }) => ({ id, name: id.replaceAll('_', ' ') })),
    (group) => group.redFlags,
  );
  const factors = findings(rows, evidence.factors, (group) => group.factors);
  const starts = startsOf(rows, evidence);
  return rows.shown.map((group, row) => ({
    group: rows.names[row] ?? null,
    n: rows.withheld[row] === true ? null : (group.rows.accepted ?? 0),
    sex: record(SEXES, sex, row),
    age: rows.withheld[row] === true ? null : spreadOf(group.ages, rows.masked),
    levels: levels[row] ?? [],
    red_flags: (flags[row] ?? []).filter(({ id }) => (rows.shown.at(-1)?.redFlags[id] ?? 0) > 0),
    factors: (factors[row] ?? []).filter(({ id }) => (rows.shown.at(-1)?.factors[id] ?? 0) > 0),
    tests: tests.flatMap((each) => each[row] ?? []),
    starts: starts[row] ?? [],
  }));
}

export function buildSummary(input: SummaryInput): Summary {
  const { part, evidence, pathway, by, masked, between } = input;
  const rows = rowsOf(input);
  const groups = groupsOf(input, rows);
  const cited = new Set(groups.flatMap((group) => group.tests.flatMap((test) => test.sources)));
  const all = groups.at(-1)?.n ?? null;
  return {
    format: 1,
    kind: 'cohort_summary',
    tool: { name: toolName, version: toolVersion },
    evidence: { version: evidence.version, digest: evidence.digest, folders: evidence.folders },
    pathway: { id: pathway, name: evidence.pathways.find((each) => each.id === pathway)?.name ?? pathway },
    least_shown: masked ? LEAST_SHOWN : null,
    rows: {
      read: all === null ? null : part.accepted + part.refused,
      accepted: all === null ? null : part.accepted,
      refused: part.refused,
    },
    by,
    groups,
    change: between === null ? null : summariseChange(between, levelsOf(evidence, pathway), input.slots, masked),
    no_change_because: between === null ? input.noChangeBecause : null,
    sources: Object.fromEntries(
      [...cited].sort().flatMap((id) => {
        const source = evidence.sources[id];
        return source === undefined ? [] : [[id, { citation: source.citation, doi: source.doi ?? null }]];
      }),
    ),
  };
}
