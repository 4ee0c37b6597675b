/** At least three printed cells of every table, first and last row of each part among them, each with its paper and place in it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { loadNormsItems, loadTables, type NormsItem } from './norms-items.ts';

const Age = z.number().nullable();
const PrintedCell = z.strictObject({
  /** Folder and file under norms/tables. */
  table: z.string(),
  part: z.string(),
  sex: z.string(),
  age_min: Age,
  age_max: Age,
  tags: z.record(z.string(), z.union([z.string(), z.number(), z.null()])).optional(),
  /** Key of the row; `table_n` is the size of the whole study, `age_min` and `age_max` the limits of the band. */
  key: z.string(),
  value: z.number(),
  citation: z.string(),
  location: z.string(),
});
type PrintedCell = z.infer<typeof PrintedCell>;
const cells = z.array(PrintedCell).parse(JSON.parse(readFileSync(new URL('three-cells.json', import.meta.url), 'utf8')));
const rows = loadNormsItems().filter((item) => item.kind === 'table');
const tables = loadTables();
const nameOfTable = (item: NormsItem): string => (item.place.split(' ')[0] ?? '').replace('tables/', '');

const isRowOf = (cell: PrintedCell, item: NormsItem): boolean =>
  nameOfTable(item) === cell.table &&
  item.tags.part === cell.part &&
  item.sex === cell.sex &&
  item.age_min === cell.age_min &&
  item.age_max === cell.age_max &&
  Object.entries(cell.tags ?? {}).every(([tag, value]) => item.tags[tag] === value);

function valueIn(cell: PrintedCell, item: NormsItem): number | null | undefined {
  if (cell.key === 'age_min' || cell.key === 'age_max') return item[cell.key];
  if (cell.key === 'table_n') return tables.find((table) => `${table.test}/${table.source}` === cell.table)?.n;
  return item.numbers.get(cell.key);
}

describe('three printed cells of every table', () => {
  test.each(cells)('$table $part $sex $age_min-$age_max $key ($citation: $location)', (cell) => {
    const found = rows.filter((item) => isRowOf(cell, item));
    expect(found.length).toBeGreaterThan(0);
    expect(found.map((item) => valueIn(cell, item))).toContain(cell.value);
  });

  /** Sources that print less than three numbers in all. */
  const PRINTS_LESS: Readonly<Record<string, string>> = {
    'functional_reach/bohannon-2017': 'one pooled mean of more than 7000 tests, without ages',
    'timed_up_and_go/tromso-5-tug-mortality': 'one mean of everybody of 65 and over, without the size of the group',
  };

  test.each(tables.map((table) => `${table.test}/${table.source}`))('%s has at least three', (name) => {
    const own = cells.filter((cell) => cell.table === name);
    expect(own.length).toBeGreaterThanOrEqual(name in PRINTS_LESS ? 2 : 3);
    expect(own.every((cell) => cell.citation !== '' && cell.location !== '')).toBe(true);
  });

  test.each(tables.flatMap((table) => table.parts.map((part) => [`${table.test}/${table.source}`, part] as const)))(
    '%s: first and last row of every part',
    (name, part) => {
      const own = rows.filter((item) => nameOfTable(item) === name && item.tags.part === part.id);
      const ends = [own[0], own.at(-1)].map((end) => end !== undefined && cells.some((cell) => isRowOf(cell, end)));
      expect(ends).toEqual([true, true]);
    },
  );
});
