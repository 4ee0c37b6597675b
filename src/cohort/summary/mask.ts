/**
 * Keeps small numbers out of a page that leaves the clinic. Everything is a table of groups by categories in which every
 * group's size is known. A count of 1 to 4 is withheld, and with it as many others as it takes that no such count follows
 * from the sizes and totals. Method: cell suppression with complementary suppression, the result audited exactly (Hundepool
 * et al., Statistical Disclosure Control, 2012, ch. 4): in a table with margins a withheld count can have another value
 * exactly when people can be moved round a cycle of withheld counts.
 *
 * Which count is withheld beside a small one follows from the order of the categories and not from the counts, or else the
 * choice itself would tell something. Counts of nought are shown where that is possible: they say of nobody anything.
 */

/** Counts under this are withheld. */
export const LEAST_SHOWN = 5;

type Counts = readonly number[];
type Hidden = boolean[];

export const isSmall = (count: number): boolean => count > 0 && count < LEAST_SHOWN;
const sum = (counts: Counts): number => counts.reduce((total, count) => total + count, 0);
const sumOf = (counts: Counts, hidden: readonly boolean[]): number => sum(counts.filter((_, index) => hidden[index] === true));

/** Places from behind `from` on, then those before it, the nearest first. */
function neighbours(from: number, length: number): number[] {
  const places = Array.from({ length }, (_, index) => index);
  return [...places.slice(from + 1), ...places.slice(0, from).reverse()];
}

/** The nearest count that is shown and not nought; -1 where there is none. */
function nextShown(counts: Counts, hidden: readonly boolean[]): number {
  const shown = neighbours(hidden.indexOf(true), counts.length).filter((index) => hidden[index] !== true);
  return shown.find((index) => (counts[index] ?? 0) > 0) ?? -1;
}

/** Counts of one line whose sum is known: a single withheld one would follow from the others, and a small sum is small itself. */
function cover(counts: Counts, hidden: Hidden): void {
  for (;;) {
    const [withheld, people] = [hidden.filter((each) => each).length, sumOf(counts, hidden)];
    if (people === 0 || (withheld > 1 && people >= LEAST_SHOWN)) return;
    const next = nextShown(counts, hidden);
    if (next === -1) return;
    hidden[next] = true;
  }
}

/** Counts that add up to a known size. `also` are withheld for another reason. */
export function maskLine(counts: Counts, also: readonly boolean[] = []): Hidden {
  if (isSmall(sum(counts))) return counts.map(() => true);
  const hidden = counts.map((count, index) => isSmall(count) || also[index] === true);
  cover(counts, hidden);
  return hidden;
}

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Groups by categories with the totals of all groups below, whose own masking is settled before. */
class GroupTable {
  readonly hidden: readonly Hidden[];
  readonly #counts: readonly Counts[];
  readonly #total: Counts;
  readonly #totalHidden: readonly boolean[];
  /** Small counts that were looked at, in order: withholding more never undoes what was found of them. */
  #seen = 0;

  constructor(counts: readonly Counts[], hidden: readonly Hidden[], totalHidden: readonly boolean[]) {
    this.#counts = counts;
    this.hidden = hidden;
    this.#totalHidden = totalHidden;
    this.#total = totalHidden.map((_, column) => sum(counts.map((row) => row[column] ?? 0)));
  }

  /** The total row stands behind the last group. */
  #count({ row, column }: Place): number {
    return (row < this.#counts.length ? this.#counts[row]?.[column] : this.#total[column]) ?? 0;
  }

  /** Of all groups, then of the total. */
  #places(): Place[] {
    return [...this.#counts, this.#total].flatMap((row, index) => row.map((_, column) => ({ row: index, column })));
  }

  #hide({ row, column }: Place): void {
    const [counts, hidden] = [this.#counts[row], this.hidden[row]];
    if (counts === undefined || hidden === undefined) return;
    hidden[column] = true;
    cover(counts, hidden);
  }

  /** Withholds more where a column with a known total gives a count away; false where none does. */
  coverColumns(): boolean {
    return this.#totalHidden.some((totalHidden, column) => {
      if (totalHidden) return false;
      const counts = this.#counts.map((row) => row[column] ?? 0);
      const before = this.hidden.map((row) => row[column] === true);
      const after = [...before];
      cover(counts, after);
      const added = after.flatMap((hide, row) => (hide && before[row] !== true ? [{ row, column }] : []));
      for (const place of added) this.#hide(place);
      return added.length > 0;
    });
  }

  /** Withholds one more count where a small one can still be worked out; false where none can. */
  coverSmall(): boolean {
    const places = this.#places();
    while (this.#seen < places.length && !this.#isGivenAway(places[this.#seen])) this.#seen += 1;
    const open = places[this.#seen];
    if (open === undefined) return false;
    const shown = places.filter(({ row, column }) => this.hidden[row]?.[column] === false);
    const near = [
      ...shown.filter(({ row }) => row === open.row),
      ...shown.filter(({ column }) => column === open.column),
      ...shown,
    ];
    const next = near.find((place) => this.#count(place) > 0) ?? near[0];
    if (next === undefined) return false;
    this.#hide(next);
    return true;
  }

  /** A small count that can have no other value. */
  #isGivenAway(place: Place | undefined): boolean {
    if (place === undefined || !isSmall(this.#count(place))) return false;
    return !this.#canMove(place, 1) && !this.#canMove(place, -1);
  }

  /** May the withheld count of this row and column change by `step`? */
  #mayChange({ row, column }: Place, step: number): boolean {
    if (row < this.#counts.length) return this.hidden[row]?.[column] === true && (step > 0 || this.#count({ row, column }) > 0);
    // A total enters its column with the other sign.
    return this.#totalHidden[column] === true && (step < 0 || this.#count({ row, column }) > 0);
  }

  /** Is there a cycle through `start` on which every second count grows by one and the others shrink by one? */
  #canMove(start: Place, step: number): boolean {
    if (!this.#mayChange(start, step)) return false;
    const reached = new Set([start.column]);
    const waiting = [start.column];
    const rows = Array.from({ length: this.#counts.length + 1 }, (_, row) => row);
    for (let column = waiting.shift(); column !== undefined; column = waiting.shift()) {
      for (const row of rows) {
        const isStart = row === start.row && column === start.column;
        if (isStart || !this.#mayChange({ row, column }, -step)) continue;
        if (row === start.row) return true;
        for (const next of this.#totalHidden.keys()) {
          if (reached.has(next) || !this.#mayChange({ row, column: next }, step)) continue;
          reached.add(next);
          waiting.push(next);
        }
      }
    }
    return false;
  }
}

/**
 * `rows`: at least two groups. `totalHidden`: what is withheld of all groups together, as on a page without groups, so that
 * pages of the same people by different groups do not differ there.
 */
export function maskGroups(
  rows: readonly Counts[],
  totalHidden: readonly boolean[],
  also: readonly (readonly boolean[])[] = [],
): readonly Hidden[] {
  const hidden = rows.map((row, index) => maskLine(row, also[index]));
  const table = new GroupTable(rows, hidden, totalHidden);
  while (table.coverColumns() || table.coverSmall());
  return table.hidden;
}
