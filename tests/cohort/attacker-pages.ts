/** Published group summaries as the attacker's puzzle: every sum that must hold on them, between groups and between pages. */
import type { Count, Summary, SummaryGroup, SummaryTest } from '../../src/cohort/summary/types.ts';
import { MOST, Puzzle } from './attacker.ts';

interface Table {
  readonly name: string;
  /** With what they add up to. */
  readonly cells: readonly (readonly [string, Count])[];
  readonly margin: string | null;
}

const groupName = (group: SummaryGroup): string => group.group ?? 'all';

function testTables(test: SummaryTest): Table[] {
  const slot = `${test.test} ${test.side}`;
  const { outcomes, quarter, flagged, tens, off_scale: ends } = test;
  const cells = (counts: Readonly<Record<string, Count>>, keys: readonly string[]) =>
    keys.map((key) => [key, counts[key] ?? null] as const);
  const half = (count: Count): Count => (count === 0 ? 0 : null);
  return [
    {
      name: `${slot} done`,
      cells: [
        ['tested', test.tested],
        ['no_result', test.no_result],
      ],
      margin: 'n',
    },
    {
      name: `${slot} judging`,
      cells: [
        ['judged', test.judged],
        ['not_judged', test.not_judged],
      ],
      margin: `${slot} done/tested`,
    },
    { name: `${slot} results`, cells: cells(outcomes, ['measured', 'unable']), margin: `${slot} done/tested` },
    { name: `${slot} absent`, cells: cells(outcomes, ['stopped', 'declined', 'not_recorded']), margin: `${slot} done/no_result` },
    { name: `${slot} flags`, cells: cells(flagged, ['yes', 'no', 'undecided']), margin: `${slot} done/tested` },
    { name: `${slot} quarter`, cells: cells(quarter, ['below', 'not_below', 'open']), margin: `${slot} judging/judged` },
    {
      name: `${slot} worst`,
      cells: [
        ['end', ends.worst],
        ['t0', tens[0] ?? null],
        ['t1', tens[1] ?? null],
        ['t2', half(tens[2] ?? null)],
      ],
      margin: `${slot} quarter/below`,
    },
    {
      name: `${slot} best`,
      cells: [
        ['t2', half(tens[2] ?? null)],
        ...tens.slice(3).map((count, index) => [`t${index + 3}`, count] as const),
        ['end', ends.best],
      ],
      margin: `${slot} quarter/not_below`,
    },
  ];
}

function tablesOf(group: SummaryGroup): Table[] {
  const named = (list: SummaryGroup['levels']) => list.map(({ id, n }) => [id, n] as const);
  return [
    { name: 'sex', cells: Object.entries(group.sex), margin: 'n' },
    { name: 'levels', cells: named(group.levels), margin: 'n' },
    ...[...group.red_flags, ...group.factors].map(
      ({ id, n }): Table => ({
        name: `found ${id}`,
        cells: [
          ['found', n],
          ['rest', null],
        ],
        margin: 'n',
      }),
    ),
    ...group.starts.map(({ exercise, levels }): Table => ({ name: `start ${exercise}`, cells: named(levels), margin: 'n' })),
    ...group.tests.flatMap(testTables),
  ];
}

/** What the median and the middle half tell of how many were unable. */
function unableBounds({ value, tested, better, outcomes }: SummaryTest, mayBeCompared: boolean): readonly [number, number] {
  let [low, high] = [0, tested ?? MOST];
  if (tested === null || outcomes.unable !== null) return [low, high];
  // Of all groups, more than twenty people, a spread is left out only where a quarter of them or more are unable.
  if (value === null) return tested > 20 && !mayBeCompared ? [Math.ceil(tested / 4), high] : [low, high];
  const worstQuarter = better === 'higher' ? value.p25 : value.p75;
  const bestQuarter = better === 'higher' ? value.p75 : value.p25;
  for (const [place, share] of [
    [worstQuarter, 0.25],
    [value.median, 0.5],
    [bestQuarter, 0.75],
  ] as const) {
    if (place === 'unable') low = Math.max(low, Math.ceil(share * tested));
    else if (place !== null) high = Math.min(high, Math.ceil(share * tested) - 1);
  }
  return [low, high];
}

/** A group that the page does not show, but that the attacker may know of. */
const unseen = (all: SummaryGroup, name: string): SummaryGroup => ({
  ...(JSON.parse(JSON.stringify(all, (_, value) => (typeof value === 'number' ? null : value))) as SummaryGroup),
  group: name,
});

/** Every group of the page in the order of the true one, then all together; the attacker knows all groups by name. */
function rowsOf(page: Summary, real: Summary): SummaryGroup[] {
  const all = page.groups.at(-1);
  if (all === undefined) throw new Error('the page is empty');
  const names = real.groups.slice(0, -1).map(groupName);
  const shown = page.groups.slice(0, -1);
  return [...names.map((name) => shown.find((group) => groupName(group) === name) ?? unseen(all, name)), all];
}

function addPage(puzzle: Puzzle, page: Summary, real: Summary, prefix: string, besideParts: boolean): void {
  const rows = rowsOf(page, real);
  for (const [index, group] of rows.entries()) {
    const isAll = index === rows.length - 1;
    const row = `${prefix}:${isAll ? 'all' : groupName(group)}`;
    // A group may be known of from elsewhere, but not that it is on this page.
    puzzle.count(`${row}:n`, group.n, isAll ? 1 : 0);
    for (const { name, cells, margin } of tablesOf(group)) {
      for (const [cell, count] of cells) puzzle.count(`${row}:${name}/${cell}`, count);
      if (margin !== null)
        puzzle.equal(
          cells.map(([cell]) => `${row}:${name}/${cell}`),
          [`${row}:${margin}`],
        );
    }
    for (const test of group.tests) {
      const at = `${row}:${test.test} ${test.side}`;
      const [low, high] = unableBounds(test, besideParts || !isAll);
      puzzle.count(`${at}:unable by value`, null, low, high);
      puzzle.equal([`${at}:unable by value`], [`${at} results/unable`]);
      // The unable are below, or their tables judge nobody.
      puzzle.count(`${at}:other below or not judged`, null);
      puzzle.equal(
        [`${at} results/unable`, `${at}:other below or not judged`],
        [`${at} quarter/below`, `${at} quarter/open`, `${at} judging/not_judged`],
      );
      // The unable meet every mark that there is for them.
      puzzle.count(`${at}:other flagged or undecided`, null);
      puzzle.equal([`${at} results/unable`, `${at}:other flagged or undecided`], [`${at} flags/yes`, `${at} flags/undecided`]);
      puzzle.count(`${at}:third tenth`, test.tens[2] ?? null);
      puzzle.equal([`${at} worst/t2`, `${at} best/t2`], [`${at}:third tenth`]);
    }
  }
  const names = puzzle.names
    .filter((name) => name.startsWith(`${prefix}:all:`))
    .map((name) => name.slice(`${prefix}:all:`.length));
  const groups = rows.slice(0, -1).map(groupName);
  if (groups.length > 0)
    for (const name of names)
      puzzle.equal(
        groups.map((group) => `${prefix}:${group}:${name}`),
        [`${prefix}:all:${name}`],
      );
}

/** A page as it is handed out and as it is with nothing withheld, of which only the names of the groups are used. */
export interface Seen {
  readonly page: Summary;
  readonly real: Summary;
}

/** The pages of the parts, if any, and that of the whole. Groups of the parts are found again by their names. */
export function puzzleOf(whole: Seen, parts: readonly Seen[] = []): Puzzle {
  const puzzle = new Puzzle();
  addPage(puzzle, whole.page, whole.real, 'whole', parts.length > 0);
  for (const [index, { page, real }] of parts.entries()) addPage(puzzle, page, real, `part ${index}`, false);
  if (parts.length === 0) return puzzle;
  for (const name of puzzle.names.filter((each) => each.startsWith('whole:'))) {
    const rest = name.slice('whole:'.length);
    const [row = ''] = rest.split(':');
    const inParts = parts.flatMap(({ real }, index) => {
      const only = real.groups.length === 1 && groupName(real.groups[0] ?? ({ group: null } as SummaryGroup)) === row;
      const found = only ? `part ${index}:all${rest.slice(row.length)}` : `part ${index}:${rest}`;
      return puzzle.has(found) ? [found] : [];
    });
    // A part on which nobody has a finding does not list it.
    if (!/unable by value$|:found .*\/rest$/.test(name)) puzzle.equal(inParts, [name]);
  }
  return puzzle;
}

/** The true counts by the same names, from pages on which nothing is withheld. */
export function truthOf(whole: Summary, parts: readonly Summary[] = []): Map<string, number> {
  const truth = new Map<string, number>();
  addTruth(truth, whole, 'whole');
  for (const [index, part] of parts.entries()) addTruth(truth, part, `part ${index}`);
  return truth;
}

function addTruth(truth: Map<string, number>, page: Summary, prefix: string): void {
  // The only group of a page has no row of its own there.
  const [first] = page.groups;
  if (page.groups.length === 1 && first !== undefined) truth.set(`${prefix}:${groupName(first)}:n`, first.n ?? 0);
  for (const [index, group] of page.groups.entries()) {
    const row = `${prefix}:${index === page.groups.length - 1 ? 'all' : groupName(group)}`;
    const n = group.n ?? 0;
    truth.set(`${row}:n`, n);
    const cells = tablesOf(group).flatMap((table) =>
      table.cells.map(([cell, count]) => [`${table.name}/${cell}`, count] as const),
    );
    for (const [name, count] of cells) truth.set(`${row}:${name}`, count ?? 0);
    for (const test of group.tests) truth.set(`${row}:${test.test} ${test.side}:third tenth`, test.tens[2] ?? 0);
    for (const found of [...group.red_flags, ...group.factors]) truth.set(`${row}:found ${found.id}/rest`, n - (found.n ?? 0));
  }
}
