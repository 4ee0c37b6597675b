/**
 * Keeps small numbers out of a page that leaves the clinic. A count of 1 to 4 is withheld, and with it as many others as it
 * takes that no withheld count follows from the totals: neither along a row (categories of one group and its size) nor along a
 * column (one category over all groups and its total). Method: cell suppression with complementary suppression along the
 * lines of a table with margins (Hundepool et al., Statistical Disclosure Control, 2012, ch. 4).
 */

/** Counts under this are withheld. */
export const LEAST_SHOWN = 5;

const isSmall = (count: number): boolean => count > 0 && count < LEAST_SHOWN;
const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0);

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Rows are groups, columns categories; the last of each is the margin and is added here. */
export interface MaskedTable {
  /** With the margins: one row and one column more than the input, a single group without the row. */
  readonly counts: readonly (readonly number[])[];
  readonly hidden: readonly (readonly boolean[])[];
}

function withMargins(table: readonly (readonly number[])[]): number[][] {
  const rows = table.map((row) => [...row, sum(row)]);
  const width = rows[0]?.length ?? 0;
  if (rows.length < 2) return rows;
  return [...rows, Array.from({ length: width }, (_, column) => sum(rows.map((row) => row[column] ?? 0)))];
}

class Masking {
  readonly counts: number[][];
  readonly hidden: boolean[][];

  constructor(counts: number[][]) {
    this.counts = counts;
    this.hidden = counts.map((row) => row.map(isSmall));
  }

  at({ row, column }: Place): number {
    return this.counts[row]?.[column] ?? 0;
  }

  isHidden({ row, column }: Place): boolean {
    return this.hidden[row]?.[column] ?? false;
  }

  hide({ row, column }: Place): void {
    const cells = this.hidden[row];
    if (cells !== undefined) cells[column] = true;
  }

  /** Each row with its size, each column with its total; the margin stands last. */
  lines(): Place[][] {
    const columns = this.counts[0]?.length ?? 0;
    const rows = this.counts.map((row, index) => row.map((_, column) => ({ row: index, column })));
    if (this.counts.length < 2) return rows;
    return [...rows, ...Array.from({ length: columns }, (_, column) => this.counts.map((_row, row) => ({ row, column })))];
  }

  /** Could one withheld count, or their sum being small, be worked out along this line? */
  private gives(line: readonly Place[]): boolean {
    const withheld = line.filter((place) => this.isHidden(place));
    if (withheld.length === 0) return false;
    if (withheld.length === 1) return true;
    const margin = line.at(-1);
    return margin !== undefined && !this.isHidden(margin) && sum(withheld.map((place) => this.at(place))) < LEAST_SHOWN;
  }

  /** The smallest count that is left, none before zeros, the margin last of all. */
  private next(line: readonly Place[]): Place | undefined {
    const inside = line.slice(0, -1).filter((place) => !this.isHidden(place));
    const smallest = [...inside].sort(
      (a, b) => Number(this.at(a) === 0) - Number(this.at(b) === 0) || this.at(a) - this.at(b),
    )[0];
    const margin = line.at(-1);
    return smallest ?? (margin !== undefined && !this.isHidden(margin) ? margin : undefined);
  }

  /** Withholds one more count; false where no line needs it. */
  step(): boolean {
    for (const line of this.lines()) {
      if (!this.gives(line)) continue;
      const place = this.next(line);
      if (place === undefined) continue;
      this.hide(place);
      return true;
    }
    return false;
  }
}

/** `also` are places that are withheld for another reason, such as a group that is itself too small. */
export function maskTable(table: readonly (readonly number[])[], also: readonly (readonly boolean[])[] = []): MaskedTable {
  const masking = new Masking(withMargins(table));
  also.forEach((cells, row) => {
    cells.forEach((hide, column) => {
      if (hide) masking.hide({ row, column });
    });
  });
  while (masking.step());
  return { counts: masking.counts, hidden: masking.hidden };
}
