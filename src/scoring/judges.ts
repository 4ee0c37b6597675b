/**
 * Can the tables that fit a client tell for every possible result on which side of the border of "below" it lies? Only then may
 * such clients stand in a share of a group: a table of one mark places those who pass it and is silent on those who fail, so
 * that a share over whoever got a standing would leave out the very people it is about.
 */
import type { Row } from '../evidence/schema/table.ts';
import { type CompareContext, compareBare } from './compare.ts';
import type { Candidate } from './select.ts';

interface Ends {
  readonly lowest: boolean;
  readonly highest: boolean;
}

/** A row is of one test and the bands are of its evidence, so what its ends say is the same for everybody. */
const endsOf = new WeakMap<Row, Ends>();

function ends(candidate: Candidate, context: Omit<CompareContext, 'measured'>): Ends {
  const { row } = candidate;
  const known = endsOf.get(row);
  if (known !== undefined) return known;
  const { below, above } = context.test.impossible;
  const isPlaced = (value: number | undefined): boolean =>
    value !== undefined &&
    compareBare(candidate, { ...context, measured: { outcome: 'measured', trials: [value] } }).standing !== null;
  const found = { lowest: isPlaced(below), highest: isPlaced(above) };
  // An equation predicts for one client and not for the next.
  if (row.equation === undefined) endsOf.set(row, found);
  return found;
}

/**
 * `fitting`: the rows that may give the standing. True where both the lowest and the highest possible result (by the limits of the
 * catalogue) get one; between them a table with a spread leaves nothing open but watches stopped early.
 */
export function judgesEveryResult(fitting: readonly Candidate[], context: Omit<CompareContext, 'measured'>): boolean {
  const all = fitting.map((candidate) => ends(candidate, context));
  return all.some(({ lowest }) => lowest) && all.some(({ highest }) => highest);
}
