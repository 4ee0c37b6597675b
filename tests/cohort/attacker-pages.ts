/** Published group summaries as the attacker's puzzle: every sum that must hold on them, between tables, groups and pages. */
import { bandOf } from '../../src/cohort/summary/bands.ts';
import type { Band, Count, Summary, SummaryGroup, SummaryTest } from '../../src/cohort/summary/types.ts';
import { MOST, Puzzle } from './attacker.ts';

interface Table {
  readonly name: string;
  /** With what they add up to. */
  readonly cells: readonly (readonly [string, Count | null])[];
  readonly margin: string | null;
}

const FIRST: Band = bandOf(0);
const groupName = (group: SummaryGroup): string => group.group ?? 'all';

function testTables(test: SummaryTest): Table[] {
  const slot = `${test.test} ${test.side}`;
  const { outcomes, quarter, flagged, tens, off_scale: ends } = test;
  const cells = (counts: Readonly<Record<string, Count>>, keys: readonly string[]) =>
    keys.map((key) => [key, counts[key] ?? null] as const);
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
        ['t2', null],
      ],
      margin: `${slot} quarter/below`,
    },
    {
      name: `${slot} best`,
      cells: [['t2', null], ...tens.slice(3).map((count, index) => [`t${index + 3}`, count] as const), ['end', ends.best]],
      margin: `${slot} quarter/not_below`,
    },
  ];
}

/** `ids` of flags and factors that there are; those that a row does not list have a count in `unlisted`. */
function tablesOf(group: SummaryGroup, ids: readonly string[], unlisted: Band = FIRST): Table[] {
  const listed = new Map([...group.red_flags, ...group.factors].map(({ id, n }) => [id, n]));
  const findings = ids.map((id) => [id, listed.get(id) ?? unlisted] as const);
  const named = (list: SummaryGroup['levels']) => list.map(({ id, n }) => [id, n] as const);
  return [
    { name: 'sex', cells: Object.entries(group.sex), margin: 'n' },
    { name: 'levels', cells: named(group.levels), margin: 'n' },
    ...findings.map(
      ([id, n]): Table => ({
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
function unableBounds({ value, better }: SummaryTest, tested: Band): readonly [number, number] {
  let [low, high] = [0, MOST];
  if (value === null) return [low, high];
  const worstQuarter = better === 'higher' ? value.p25 : value.p75;
  const bestQuarter = better === 'higher' ? value.p75 : value.p25;
  for (const [place, share] of [
    [worstQuarter, 0.25],
    [value.median, 0.5],
    [bestQuarter, 0.75],
  ] as const) {
    if (place === 'unable') low = Math.max(low, Math.ceil(share * tested.from));
    else if (place !== null) high = Math.min(high, Math.ceil(share * tested.to) - 1);
  }
  return [low, high];
}

/** A group that the page does not list, but that the attacker may know of: anything may be true of it. */
const unseen = (all: SummaryGroup, name: string): SummaryGroup => {
  const open = JSON.parse(JSON.stringify(all, (_, value) => (isBand(value) ? ANYTHING : value))) as SummaryGroup;
  return { ...open, group: name, red_flags: [], factors: [], tests: open.tests.map((test) => ({ ...test, value: null })) };
};
const ANYTHING: Band = { from: 0, to: MOST };
const isBand = (value: unknown): value is Band => typeof value === 'object' && value !== null && 'from' in value && 'to' in value;
const asBand = (count: Count): Band => (typeof count === 'number' ? { from: count, to: count } : count);

/** Every group of the page in the order of the true one, then all together; the attacker knows all groups by name. */
function rowsOf(page: Summary, real: Summary): SummaryGroup[] {
  const all = page.groups.at(-1);
  if (all === undefined) throw new Error('the page is empty');
  const names = real.groups.slice(0, -1).map(groupName);
  const shown = page.groups.slice(0, -1);
  return [...names.map((name) => shown.find((group) => groupName(group) === name) ?? unseen(all, name)), all];
}

/** What holds between the tables of one test in one row. */
function linkTest(puzzle: Puzzle, at: string, test: SummaryTest): void {
  const [low, high] = unableBounds(test, asBand(test.tested));
  puzzle.count(`${at}:unable by value`, null, low, high);
  puzzle.equal([`${at}:unable by value`], [`${at} results/unable`]);
  const atMost = (name: string, these: readonly string[]): void => {
    puzzle.count(`${at}:${name}`, null);
    puzzle.equal([`${at} results/unable`, `${at}:${name}`], these);
  };
  // The unable are below and at the worst end, or their tables judge nobody; and they meet every mark that there is for them.
  atMost('other below', [`${at} quarter/below`, `${at} quarter/open`, `${at} judging/not_judged`]);
  atMost('other worst', [`${at} worst/end`, `${at} judging/not_judged`]);
  atMost('other flagged', [`${at} flags/yes`, `${at} flags/undecided`]);
  puzzle.count(`${at}:third tenth`, test.tens[2] ?? null);
  puzzle.equal([`${at} worst/t2`, `${at} best/t2`], [`${at}:third tenth`]);
}

/** What the attacker knows beside the pages: which findings stand for which, and, if wanted, how many people each row has. */
export interface Known {
  readonly flags: readonly [string, string];
  readonly factor: string;
  readonly exercise: string;
  readonly slot: string;
  readonly sizes: boolean;
}

/** The factor is that the mark is met; who has a red flag, and nobody else, starts held. */
function linkRow(puzzle: Puzzle, row: string, { flags: [one, other], factor, exercise, slot }: Known): void {
  puzzle.equal([`${row}:found ${factor}/found`], [`${row}:${slot} flags/yes`]);
  puzzle.count(`${row}:both flags`, null);
  puzzle.equal([`${row}:found ${one}/found`, `${row}:found ${other}/found`], [`${row}:start ${exercise}/0`, `${row}:both flags`]);
}

/** What a row says, and the sums in it. `unlisted`: what is known of a finding that it does not list. */
function addRow(puzzle: Puzzle, row: string, group: SummaryGroup, known: Known, unlisted: Band): void {
  for (const { name, cells, margin } of tablesOf(group, [...known.flags, known.factor], unlisted)) {
    const names = cells.map(([cell]) => `${row}:${name}/${cell}`);
    for (const [index, [, count]] of cells.entries()) puzzle.count(names[index] ?? '', count);
    if (margin !== null) puzzle.equal(names, [`${row}:${margin}`]);
  }
  for (const test of group.tests) linkTest(puzzle, `${row}:${test.test} ${test.side}`, test);
  linkRow(puzzle, row, known);
}

function addPage(puzzle: Puzzle, { page, real }: Seen, prefix: string, known: Known): void {
  const rows = rowsOf(page, real);
  for (const [index, group] of rows.entries()) {
    const row = `${prefix}:${index === rows.length - 1 ? 'all' : groupName(group)}`;
    puzzle.count(`${row}:n`, known.sizes ? (real.groups[index]?.n ?? null) : group.n);
    addRow(puzzle, row, group, known, asBand(group.n).to === MOST ? ANYTHING : { from: 0, to: FIRST.to * group.summed });
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
export function puzzleOf(whole: Seen, parts: readonly Seen[], known: Known): Puzzle {
  const puzzle = new Puzzle();
  addPage(puzzle, whole, 'whole', known);
  for (const [index, part] of parts.entries()) addPage(puzzle, part, `part ${index}`, known);
  if (parts.length === 0) return puzzle;
  for (const name of puzzle.names.filter((each) => each.startsWith('whole:'))) {
    const rest = name.slice('whole:'.length);
    const [row = ''] = rest.split(':');
    const inParts = parts.flatMap(({ real }, index) => {
      const only = real.groups.length === 1 && groupName(real.groups[0] ?? ({ group: null } as SummaryGroup)) === row;
      const found = only ? `part ${index}:all${rest.slice(row.length)}` : `part ${index}:${rest}`;
      return puzzle.has(found) ? [found] : [];
    });
    puzzle.equal(inParts, [name]);
  }
  return puzzle;
}

/** The true counts by the same names, from pages with exact counts. */
export function truthOf(whole: Seen, parts: readonly Seen[], known: Known): Map<string, number> {
  const truth = new Map<string, number>();
  addTruth(truth, whole.real, 'whole', known);
  for (const [index, { real }] of parts.entries()) addTruth(truth, real, `part ${index}`, known);
  return truth;
}

const exact = (count: Count | null | undefined): number => {
  if (count === null || count === undefined) return 0;
  if (typeof count !== 'number') throw new Error('not an exact page');
  return count;
};

function addTruth(truth: Map<string, number>, page: Summary, prefix: string, { flags, factor, exercise }: Known): void {
  for (const [index, group] of page.groups.entries()) {
    const row = `${prefix}:${index === page.groups.length - 1 ? 'all' : groupName(group)}`;
    const n = exact(group.n);
    truth.set(`${row}:n`, n);
    const listed = new Map([...group.red_flags, ...group.factors].map((each) => [each.id, exact(each.n)]));
    for (const { name, cells } of tablesOf(group, [...flags, factor]))
      for (const [cell, count] of cells) if (!name.startsWith('found ')) truth.set(`${row}:${name}/${cell}`, exact(count));
    for (const id of [...flags, factor]) {
      truth.set(`${row}:found ${id}/found`, listed.get(id) ?? 0);
      truth.set(`${row}:found ${id}/rest`, n - (listed.get(id) ?? 0));
    }
    const of = (name: string): number => truth.get(`${row}:${name}`) ?? 0;
    const [one = '', other = ''] = flags;
    truth.set(`${row}:both flags`, of(`found ${one}/found`) + of(`found ${other}/found`) - of(`start ${exercise}/0`));
    for (const test of group.tests) {
      const slot = `${test.test} ${test.side}`;
      const beyondUnable = (name: string, sum: number): unknown =>
        truth.set(`${row}:${slot}:${name}`, sum - exact(test.outcomes.unable));
      beyondUnable('other below', exact(test.quarter.below) + exact(test.quarter.open) + exact(test.not_judged));
      beyondUnable('other worst', exact(test.off_scale.worst) + exact(test.not_judged));
      beyondUnable('other flagged', exact(test.flagged.yes) + exact(test.flagged.undecided));
      truth.set(`${row}:${slot}:unable by value`, exact(test.outcomes.unable));
      truth.set(`${row}:${slot}:third tenth`, exact(test.tens[2]));
    }
  }
}
