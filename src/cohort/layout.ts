/** The header of a cohort -> which column feeds which part of a visit. Compiled once; every row is read by it. */
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Side } from '../session.ts';
import { FIELD_GROUPS } from '../session-keys.ts';
import { cellReader, type ReadCell } from './cells.ts';
import { recognise } from './headings.ts';
import type { ColumnRule, ColumnSettings } from './settings.ts';
import type { Target, Targets } from './targets.ts';

export interface Column {
  /** Place in the row, from 0. */
  readonly index: number;
  readonly heading: string;
  readonly name: string;
  readonly rule: ColumnRule;
  readonly read: ReadCell;
}

export interface FieldPart {
  readonly kind: 'field';
  readonly group: string;
  readonly key: string;
  /** The key itself, and columns for parts of it (dose, systolic). */
  readonly whole: Column | null;
  readonly pieces: readonly { readonly part: string; readonly column: Column }[];
  readonly form: 'plain' | 'steroid' | 'pressure';
}

export interface TestSide {
  readonly side: Side | null;
  /** One column, or one a trial in the order of the trials. */
  readonly columns: readonly Column[];
}
export interface TestPart {
  readonly kind: 'test';
  readonly test: TestDefinition;
  readonly sides: readonly TestSide[];
}

export interface Layout {
  readonly headings: readonly string[];
  /** What is said of a cell that cannot be read hangs on it. */
  readonly dates: ColumnSettings['dates'];
  readonly ref: Column | null;
  readonly assessed: Column | null;
  /** By key of the client: sex, age, born, setting, ... */
  readonly client: Readonly<Record<string, Column>>;
  readonly fields: readonly FieldPart[];
  /** In the order of the catalogue. */
  readonly tests: readonly TestPart[];
}

export interface Compiled {
  /** null where the header is such that no row can be read. */
  readonly layout: Layout | null;
  readonly problems: readonly string[];
  /** What a person should know but that stops nothing. */
  readonly notes: readonly string[];
}

interface Assigned {
  readonly target: Target;
  readonly column: Column;
}

function checkHeadings(headings: readonly string[]): string[] {
  const problems: string[] = [];
  const seen = new Map<string, number>();
  headings.forEach((heading, index) => {
    const before = seen.get(heading);
    if (before !== undefined) problems.push(`columns ${before + 1} and ${index + 1} have the same heading "${heading}"`);
    seen.set(heading, index);
  });
  const empty = headings.flatMap((heading, index) => (heading.trim() === '' ? [index + 1] : []));
  if (empty.length > 0)
    problems.push(
      `${empty.length === 1 ? 'column' : 'columns'} ${empty.join(', ')} of the header ${empty.length === 1 ? 'has' : 'have'} no heading`,
    );
  return problems;
}

/** Headings named in one note: a table of three hundred columns is not read out. */
const MOST_NAMED = 12;

function unreadInWords(headings: readonly string[]): string {
  const named = headings.slice(0, MOST_NAMED).map((heading) => `"${heading}"`);
  const more = headings.length - named.length;
  return `passed on unread, since the headings say nothing known: ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}; a map file can say what they hold`;
}

function assign(
  headings: readonly string[],
  settings: ColumnSettings,
  targets: Targets,
  evidence: Evidence,
  used: string | null,
) {
  const assigned: Assigned[] = [];
  const notes: string[] = [];
  const problems: string[] = [];
  const stated = new Map(Object.entries(settings.columns));
  const unknown: string[] = [];
  headings.forEach((heading, index) => {
    const rule = stated.get(heading.trim());
    stated.delete(heading.trim());
    if (rule?.to === null) return;
    const recognised = rule === undefined ? recognise(heading, targets, evidence.testById) : null;
    if (recognised?.kind === 'near' && heading !== used)
      notes.push(`column "${heading}" is passed on unread: ${recognised.why}; name it in a map file, or write pass there`);
    const name = rule?.to ?? (recognised?.kind === 'known' ? recognised.name : undefined);
    const target = name === undefined ? undefined : targets.byName.get(name);
    if (recognised?.kind === 'unknown' && heading !== used) unknown.push(heading);
    if (name === undefined || target === undefined) return;
    const own = rule ?? { to: name };
    assigned.push({ target, column: { index, heading, name, rule: own, read: cellReader(target, own, settings) } });
  });
  if (unknown.length > 0) notes.push(unreadInWords(unknown));
  for (const heading of stated.keys()) problems.push(`the map names a column "${heading}", which the header does not have`);
  return { assigned, notes, problems };
}

/** Two columns for one thing: which of them counts is not for the program to say. */
function clashes(assigned: readonly Assigned[]): string[] {
  const byName = new Map<string, string>();
  const problems: string[] = [];
  for (const { column } of assigned) {
    const before = byName.get(column.name);
    if (before !== undefined)
      problems.push(
        `columns "${before}" and "${column.heading}" are both read as ${column.name}; write pass for one of them in a map file`,
      );
    byName.set(column.name, column.heading);
  }
  return problems;
}

const FIELD_ORDER = Object.entries(FIELD_GROUPS).flatMap(([group, keys]) => Object.keys(keys).map((key) => `${group}.${key}`));
/** As a visit is read, since its notes come in that order. */
const placeOfField = ({ group, key }: Pick<FieldPart, 'group' | 'key'>): number => FIELD_ORDER.indexOf(`${group}.${key}`);

function fieldParts(assigned: readonly Assigned[]): FieldPart[] {
  const parts = new Map<string, { -readonly [Key in keyof FieldPart]: FieldPart[Key] }>();
  for (const { target, column } of assigned) {
    if (target.kind !== 'field') continue;
    const id = `${target.group}.${target.key}`;
    const kind = target.leaf.kind;
    const part = parts.get(id) ?? { kind: 'field', group: target.group, key: target.key, whole: null, pieces: [], form: 'plain' };
    if (target.part === null) part.whole = column;
    else part.pieces = [...part.pieces, { part: target.part, column }];
    if (kind === 'steroid' || target.part === 'daily_mg' || target.part === 'months') part.form = 'steroid';
    if (kind === 'pressure' || target.part === 'systolic' || target.part === 'diastolic') part.form = 'pressure';
    parts.set(id, part);
  }
  return [...parts.values()].sort((a, b) => placeOfField(a) - placeOfField(b));
}

const trialOf = ({ target }: Assigned): number => (target.kind === 'test' ? (target.trial ?? 0) : 0);

const statedIn = ({ rule: { ceiling, distance, start, chair_cm, as } }: Column): string =>
  JSON.stringify([ceiling, distance, start, chair_cm, as]);

function testPart(test: TestDefinition, of: readonly Assigned[], problems: string[]): TestPart {
  const sides = [...new Set(of.map(({ target }) => (target.kind === 'test' ? target.side : null)))];
  const part = (['right', 'left', null] as const)
    .filter((side) => sides.includes(side))
    .map((side) => {
      const columns = of.filter(({ target }) => target.kind === 'test' && target.side === side);
      return { side, assigned: columns.sort((a, b) => trialOf(a) - trialOf(b)) };
    });
  const headings = of.map(({ column }) => `"${column.heading}"`).join(', ');
  if (sides.includes(null) && sides.length > 1)
    problems.push(`columns ${headings}: ${test.id} with a side and without; write pass for one kind in a map file`);
  if (part.some(({ assigned }) => assigned.length > 1 && assigned.some((each) => trialOf(each) === 0)))
    problems.push(`columns ${headings}: ${test.id} as a result and as trials; write pass for one kind in a map file`);
  if (part.some(({ assigned }) => new Set(assigned.map(({ column }) => statedIn(column))).size > 1))
    problems.push(
      `columns ${headings}: the trials of ${test.id} do not have the same ceiling, distance, start, chair_cm and as in the map file`,
    );
  return {
    kind: 'test',
    test,
    sides: part.map(({ side, assigned }) => ({ side, columns: assigned.map(({ column }) => column) })),
  };
}

/** `problems` stop the work before the first row; none of them depends on a row. `used`: a column that need not be read, since it parts the cohort. */
export function compileLayout(
  headings: readonly string[],
  settings: ColumnSettings,
  targets: Targets,
  evidence: Evidence,
  used: string | null = null,
): Compiled {
  const wrong = checkHeadings(headings);
  if (wrong.length > 0) return { layout: null, problems: wrong, notes: [] };
  const { assigned, notes, problems } = assign(headings, settings, targets, evidence, used);
  problems.push(...clashes(assigned));
  const only = (kind: 'ref' | 'assessed'): Column | null => assigned.find(({ target }) => target.kind === kind)?.column ?? null;
  const client = Object.fromEntries(
    assigned.flatMap(({ target, column }) => (target.kind === 'client' ? [[target.key, column] as const] : [])),
  );
  const tests = evidence.tests.flatMap((test) => {
    const of = assigned.filter(({ target }) => target.kind === 'test' && target.test === test.id);
    return of.length === 0 ? [] : [testPart(test, of, problems)];
  });
  if (client.age === undefined && client.born === undefined)
    problems.push('no column holds the age or the date of birth; name it in a map file, as in columns: {Years: age}');
  if (tests.length === 0) notes.push('no column is the result of a test: only the level of risk can be worked out');
  if (client.sex === undefined) notes.push('no column holds the sex: tables by sex cannot be used');
  const layout: Layout = {
    headings,
    dates: settings.dates,
    ref: only('ref'),
    assessed: only('assessed'),
    client,
    fields: fieldParts(assigned),
    tests,
  };
  return { layout: problems.length > 0 ? null : layout, problems, notes };
}
