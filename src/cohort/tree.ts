/** One row -> the tree that a session file of the same visit would hold, part by part. What is not recorded is left out. */
import type { Path } from '../intake/problems.ts';
import type { Column, FieldPart, Layout, TestPart, TestSide } from './layout.ts';

export type Row = readonly string[];
export type Tree = Record<string, unknown>;

const BETWEEN = '\u0001';

/** Text of several cells as one key; of a single cell its own text. */
export function keyOf(row: Row, columns: readonly { readonly index: number }[]): string {
  const [first] = columns;
  if (columns.length === 1 && first !== undefined) return row[first.index] ?? '';
  let key = '';
  for (const column of columns) key += `${row[column.index] ?? ''}${BETWEEN}`;
  return key;
}

const cellOf = (row: Row, column: Column): unknown => column.read(row[column.index] ?? '');
/** What the intake refuses among trials with a number. */
export const UNABLE_TRIAL = 'unable at this trial';

const isMapping = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Pieces without the whole, or a whole that the pieces do not gainsay; else a text that the intake refuses. */
function steroid(whole: unknown, pieces: Tree): unknown {
  if (Object.keys(pieces).length === 0) return whole;
  return whole === undefined || whole === 'yes' ? pieces : `${String(whole)}, with ${Object.keys(pieces).join(' and ')}`;
}

const pressure = (whole: unknown, pieces: Tree): unknown =>
  whole ?? (Object.keys(pieces).length === 0 ? undefined : `${String(pieces.systolic ?? '')}/${String(pieces.diastolic ?? '')}`);

export function fieldValue(part: FieldPart, row: Row): unknown {
  const whole = part.whole === null ? undefined : cellOf(row, part.whole);
  if (part.form === 'plain' || part.pieces.length === 0) return whole;
  const pieces: Tree = {};
  for (const piece of part.pieces) {
    const value = cellOf(row, piece.column);
    if (value !== undefined) pieces[piece.part] = value;
  }
  return part.form === 'steroid' ? steroid(whole, pieces) : pressure(whole, pieces);
}

/** Keys that the map states for a column beside its result. */
function statedFor({ rule }: Column): Tree {
  const { ceiling, distance, start, chair_cm } = rule;
  const stated: Tree = { ceiling, distance, start, chair_cm };
  return Object.fromEntries(Object.entries(stated).filter(([, value]) => value !== undefined));
}

function sideValue({ columns }: TestSide, row: Row): unknown {
  const cells = columns.map((column) => cellOf(row, column)).filter((cell) => cell !== undefined);
  const [first] = cells;
  const [column] = columns;
  if (first === undefined || column === undefined) return undefined;
  const outcomes = cells.filter(isMapping);
  if (outcomes.length === cells.length) return outcomes.find((outcome) => 'unable' in outcome) ?? first;
  // A trial that was not wanted leaves the others; one that could not be done does not go with a number beside it.
  const results = cells
    .filter((cell) => !(isMapping(cell) && 'declined' in cell))
    .map((cell) => (isMapping(cell) ? UNABLE_TRIAL : cell));
  const stated = statedFor(column);
  const plain = columns.length === 1 ? first : results;
  if (column.rule.as === 'time') return { time: plain, ...stated };
  if (Object.keys(stated).length === 0) return plain;
  return columns.length === 1 ? { value: first, ...stated } : { trials: results, ...stated };
}

export function testValue(part: TestPart, row: Row): unknown {
  const [only] = part.sides;
  if (only === undefined) return undefined;
  if (only.side === null) return sideValue(only, row);
  const sides: Tree = {};
  for (const side of part.sides) {
    const value = sideValue(side, row);
    if (side.side !== null && value !== undefined) sides[side.side] = value;
  }
  return Object.keys(sides).length === 0 ? undefined : sides;
}

/** What a row is taken to say where it has no such column or an empty cell. */
export interface Assumed {
  /** Of the row, as the reference of one without. */
  readonly number: number;
  /** ISO date: stands in for the day of the visit where the age is given, since nothing else then depends on it. */
  readonly today: string;
}

export function clientTree(layout: Layout, row: Row, ref: string): Tree {
  const client: Tree = { ref };
  for (const [key, column] of Object.entries(layout.client)) {
    const value = cellOf(row, column);
    if (value !== undefined) client[key] = value;
  }
  client.sex ??= 'not recorded';
  return client;
}

export function refOf(layout: Layout, row: Row, number: number): string {
  const ref = layout.ref === null ? undefined : cellOf(row, layout.ref);
  return typeof ref === 'string' ? ref : `row ${number}`;
}

/** Day of the visit as written; the day of the run only where the age does not hang on it. */
export function assessedOf(layout: Layout, row: Row, client: Tree, today: string): unknown {
  const given = layout.assessed === null ? undefined : cellOf(row, layout.assessed);
  return given ?? (client.born === undefined ? today : undefined);
}

/** The whole visit, for `buildSession`. */
export function treeOf(layout: Layout, row: Row, { number, today }: Assumed): Tree {
  const client = clientTree(layout, row, refOf(layout, row, number));
  const tree: Tree = { format: 1, client, assessed: assessedOf(layout, row, client, today) };
  for (const part of layout.fields) {
    const value = fieldValue(part, row);
    if (value === undefined) continue;
    const group = isMapping(tree[part.group]) ? (tree[part.group] as Tree) : {};
    group[part.key] = value;
    tree[part.group] = group;
  }
  const tests: Tree = {};
  for (const part of layout.tests) {
    const value = testValue(part, row);
    if (value !== undefined) tests[part.test.id] = value;
  }
  tree.tests = tests;
  return tree;
}

/** The column that a finding speaks of; null where it is about a column that is not there. */
export function columnAt(layout: Layout, row: Row, path: Path): Column | null {
  const [group, key] = path;
  if (group === 'assessed') return layout.assessed;
  if (group === 'client') {
    if (key === 'ref') return layout.ref;
    return layout.client[String(key)] ?? (key === 'age' ? (layout.client.born ?? null) : null);
  }
  if (group === 'tests') return testColumn(layout, row, path);
  const part = layout.fields.find((each) => each.group === group && each.key === key);
  return part?.pieces.find((piece) => piece.part === path[2])?.column ?? part?.whole ?? part?.pieces[0]?.column ?? null;
}

function testColumn(layout: Layout, row: Row, path: Path): Column | null {
  const part = layout.tests.find((each) => each.test.id === path[1]);
  const side = part?.sides.find((each) => each.side === path[2]) ?? part?.sides[0];
  if (side === undefined) return null;
  const place = path.findLast((key) => typeof key === 'number');
  const recorded = side.columns.filter((column) => cellOf(row, column) !== undefined);
  return (typeof place === 'number' ? recorded[place] : recorded[0]) ?? side.columns[0] ?? null;
}
