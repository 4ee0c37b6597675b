/**
 * The battery of three parts by sex and age (Bergland A, Strand BH. BMC Geriatr. 2019;19:234, Table 2): printed as people at each
 * number of points, carried as people between the marks that the points stand for.
 */
import { describe, expect, test } from 'vitest';
import type { TableFile } from '../../src/evidence/schema/table.ts';
import { type PrintedRow, printedEntries } from './extract.ts';
import { loadTables } from './norms-items.ts';

/** Marks from most to fewest points, as the battery's scoring prints them: seconds held, m/s over 4 m (4.82, 6.20, 8.70 s), seconds for five stands. */
const MARKS: Readonly<Record<string, readonly number[]>> = {
  tandem_stance: [10, 3],
  gait_speed_usual: [0.83, 0.65, 0.46],
  five_times_sit_to_stand: [11.2, 13.7, 16.7],
};

const tables = loadTables().filter((table) => table.source === 'bergland-2019-sppb-subtests');
const printed = (area: string): readonly PrintedRow[] =>
  printedEntries.find((entry) => entry.file === area && entry.id === 'bergland-2019-sppb-subtests')?.rows ?? [];

/** People at 4, 3, 2 ... points. The last printed number is 4 points. */
function fromBest(row: PrintedRow): readonly number[] {
  const counts = row.cells.counts_left_to_right;
  return Array.isArray(counts) ? counts.filter((each) => each !== null).toReversed() : [];
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

function rowOf(table: TableFile, row: PrintedRow) {
  return table.parts
    .flatMap((part) => part.rows)
    .find((each) => each.sex === row.sex && each.age_min === row.age_min && each.age_max === row.age_max);
}

/** Women of 40-59: 1224 people are printed at 4 points of a group of 1252 of whom 128 others are printed. */
const isMisprint = (row: PrintedRow): boolean => fromBest(row)[0] === 1224;

describe('shares of the battery by sex and age', () => {
  test('29 rows were read, ten of each part but one; every row but the misprint is carried', () => {
    expect(printed('norms-round-2')).toHaveLength(29);
    expect(tables.map((table) => [table.test, table.parts.flatMap((part) => part.rows).length])).toEqual(
      expect.arrayContaining([
        ['tandem_stance', 10],
        ['gait_speed_usual', 10],
        ['five_times_sit_to_stand', 8],
      ]),
    );
    expect(tables).toHaveLength(3);
  });

  test.each(printed('norms-round-2').filter((row) => !isMisprint(row)))('$test $sex $age_min', (row) => {
    const table = tables.find((each) => each.test === row.test);
    const held = table === undefined ? undefined : rowOf(table, row);
    const shares = held?.shares;
    const counts = shares?.counts?.toReversed() ?? [];
    const groups = fromBest(row);
    const last = counts.length - 1;
    expect(held?.n).toBe(row.cells.n);
    expect(counts.slice(0, last)).toEqual(Array.from({ length: last }, (_, index) => groups[index] ?? 0));
    expect(counts[last]).toBe(sum(groups.slice(last)));
    expect(shares?.missing_to_worst).toBe(Number(row.cells.n) - sum(groups));
    expect(shares?.marks.toReversed()).toEqual((MARKS[String(row.test)] ?? []).slice(0, shares?.marks.length));
    expect(shares?.unable_first).toBe(row.test === 'five_times_sit_to_stand' && groups.length === 5);
  });

  test('both readings of the table agree', () => {
    const both = printed('mobility').map((row, index) => {
      const later = printed('norms-round-2')[index];
      const points = ['n4', 'n3', 'n2', 'n1', 'n0'].map((key) => row.cells[key]).filter((each) => each !== undefined);
      return [points, later === undefined ? [] : fromBest(later)];
    });
    expect(both.filter(([points, later]) => JSON.stringify(points) !== JSON.stringify(later))).toEqual([]);
  });
});
