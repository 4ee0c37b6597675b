/** Tables of counts by group and category, masked or not, read back group by group. */

import { maskTable } from './mask.ts';
import type { Counts } from './part.ts';
import type { Count } from './types.ts';

/** Rows are the groups in order; where there are several, the last row is all of them together. */
export interface CountTable {
  readonly count: (row: number, category: string) => Count;
  /** Sum over the categories. */
  readonly total: (row: number) => Count;
}

export interface TableContext {
  readonly masked: boolean;
  /** Groups that are withheld as a whole. */
  readonly withheld: readonly boolean[];
  /** Parts whose own pages may be known: each is a set of groups like these. */
  readonly known: readonly (readonly Counts[])[];
}

type Categories = readonly string[];
const numbersOf = (counts: Counts, categories: Categories): number[] => categories.map((category) => counts[category] ?? 0);

function sums(rows: readonly Counts[], categories: Categories): Counts {
  return Object.fromEntries(categories.map((category) => [category, rows.reduce((sum, row) => sum + (row[category] ?? 0), 0)]));
}

/**
 * Where pages of single parts are known, the whole minus the others would give a part back: a count of which exactly one part
 * withholds is withheld in the whole too.
 */
function givenAway(known: TableContext['known'], categories: Categories): boolean[] {
  if (known.length < 2) return [];
  const hidden = known.map((rows) => maskTable([numbersOf(sums(rows, categories), categories)]).hidden[0] ?? []);
  return [...categories, 'total'].map((_, index) => hidden.filter((cells) => cells[index] === true).length === 1);
}

/** `rows`: one entry a group, without the row of all. */
export function countTable(rows: readonly Counts[], categories: Categories, context: TableContext): CountTable {
  const place = new Map(categories.map((category, index) => [category, index]));
  const wide = categories.length + 1;
  const also = rows.map((_, row) => Array.from({ length: wide }, () => context.withheld[row] ?? false));
  const away = context.masked ? givenAway(context.known, categories) : [];
  const last = rows.length < 2 ? [] : [away];
  const first = rows.length < 2 ? also.map((cells) => cells.map((hide, index) => hide || (away[index] ?? false))) : also;
  const masked = maskTable(
    rows.map((row) => numbersOf(row, categories)),
    [...first, ...last],
  );
  const at = (row: number, column: number): Count =>
    context.masked && masked.hidden[row]?.[column] === true ? null : (masked.counts[row]?.[column] ?? 0);
  return { count: (row, category) => at(row, place.get(category) ?? -1), total: (row) => at(row, wide - 1) };
}
