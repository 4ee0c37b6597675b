/** The book of norms: everything is in it, every link leads somewhere, nothing is loaded from elsewhere. */
import { describe, expect, test } from 'vitest';
import { indexEvidence } from '../../src/evidence/data.ts';
import type { TablePart } from '../../src/evidence/schema/table.ts';
import { equationInWords, gridOf } from '../../src/report/norms-book/grid.ts';
import { renderBook } from '../../src/report/norms-book/html.ts';
import { itemSheets } from '../../src/report/norms-book/items.ts';
import { sourceSheet } from '../../src/report/norms-book/sheets.ts';
import { renderSourceSheet } from '../../src/report/norms-book/text.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const book = renderBook(evidence);

describe('the book', () => {
  test('holds every table, every item and every source', () => {
    for (const table of evidence.tables) expect(book).toContain(`id="table-${table.test}-${table.source}"`);
    for (const id of Object.keys(evidence.sources)) expect(book).toContain(`id="source-${id}"`);
    expect(book.split('<section class="item">').length - 1).toBe(itemSheets(evidence).length);
  });

  test('has ids that stand once and links that lead to them', () => {
    const ids = [...book.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const known = new Set(ids);
    for (const [, target] of book.matchAll(/href="#([^"]+)"/g)) expect(known.has(target), target).toBe(true);
  });

  test('loads nothing: no script, no image, no style sheet', () => {
    expect(book).not.toMatch(/<script|<img|<link|url\(|@import|src=/i);
    for (const [, address] of book.matchAll(/href="(?!#)([^"]*)"/g)) expect(address).toMatch(/^https:\/\/doi\.org\//);
  });

  test('escapes what a clinic writes', () => {
    const [first, ...rest] = evidence.tables;
    if (first === undefined) throw new Error('no tables');
    const hostile = indexEvidence({ ...evidence, tables: [{ ...first, notes: ['<script>alert(1)</script>'] }, ...rest] });
    expect(renderBook(hostile)).toContain('&lt;script&gt;');
  });

  test('prints every number of every row', () => {
    for (const table of evidence.tables)
      for (const part of table.parts) {
        const cells = gridOf(part).rows.map((row) => row.join(' '));
        part.rows.forEach((row, index) => {
          const numbers = [row.mean, row.sd, row.median, ...Object.values(row.percentiles ?? {}), ...(row.shares?.counts ?? [])];
          const printed = new Set((cells[index] ?? '').split(/[^\d.]+/).map(Number));
          for (const number of numbers)
            if (number !== undefined) expect(printed.has(Math.abs(number)), `${table.source} ${part.id} ${number}`).toBe(true);
        });
      }
  });
});

describe('the grid of a part', () => {
  const part = (rows: TablePart['rows']): TablePart => ({ id: 'p', location: 'Table 1', gaps: [], rows });

  test('has only columns that say something, numbers of one kind with the same decimals', () => {
    const grid = gridOf(
      part([
        { sex: 'all', age_min: 60, age_max: 69, mean: 8.1, mean_ci95: [7.1, 9], worse_than_average: { above: 9 } },
        { sex: 'female', age_min: 70, age_max: null, mean: 9, mean_ci95: [8.2, 10.2], worse_than_average: { above: 10.2 } },
      ]),
    );
    expect(grid).toEqual({
      headers: ['Sex', 'Age', 'Mean', '95 % interval of the mean', 'Worse than average'],
      rows: [
        ['both', '60-69', '8.1', '7.1 to 9.0', 'over 9.0'],
        ['women', '70 and over', '9.0', '8.2 to 10.2', 'over 10.2'],
      ],
    });
  });

  test('sets counts between marks under their group, worst first, and tells the unable apart', () => {
    const shares = { marks: [16.7, 13.7], unable_first: true, at_mark: 'worse' as const, missing_to_worst: 0 };
    const grid = gridOf(
      part([
        { sex: 'male', age_min: 60, age_max: 69, shares: { ...shares, counts: [7, 17, 41, 160] } },
        {
          sex: 'male',
          age_min: 70,
          age_max: 79,
          shares: { ...shares, unable_first: false, counts: [12, 17, 96], missing_to_worst: 4 },
        },
      ]),
    );
    expect(grid.headers).toEqual([
      'Sex',
      'Age',
      'unable',
      'worse than 16.7',
      '16.7 to 13.7',
      'better than 13.7',
      'not printed, counted as worst',
    ]);
    expect(grid.rows).toEqual([
      ['men', '60-69', '7', '17', '41', '160', ''],
      ['men', '70-79', '', '12', '17', '96', '4'],
    ]);
  });

  test('percentile points stand in order with their intervals', () => {
    const grid = gridOf(
      part([
        {
          sex: 'male',
          age_min: null,
          age_max: 69,
          percentiles: { p50: 3, p5: 1.5, p12_5: 2 },
          percentile_ci95: { p50: [2.5, 3.5] },
        },
      ]),
    );
    expect(grid.headers).toEqual(['Sex', 'Age', 'P5', 'P12.5', 'P50']);
    expect(grid.rows).toEqual([['men', 'up to 69', '1.5', '2.0', '3.0 (2.5-3.5)']]);
  });

  test('an equation is written out', () => {
    const words = equationInWords({
      intercept: 7.5,
      terms: [
        { term: 'age_years', coefficient: 0.05 },
        { term: 'male', coefficient: -0.4 },
      ],
      residual_sd: 1.2,
      lower_limit: null,
    });
    expect(words).toBe('7.5 + 0.05 x age (years) - 0.4 x 1 if male; SD 1.2');
  });
});

test('a sheet wraps its table only where the page is too narrow for it', () => {
  const sheet = sourceSheet(evidence, 'bohannon-2006-tug');
  if (sheet === null) throw new Error('no such source');
  const plain = { bold: String, dim: String, cyan: String };
  expect(renderSourceSheet(sheet, { width: 80, gridWidth: 200, colour: plain })).toMatch(/^ {2}both +60-69 +8\.1/m);
  expect(renderSourceSheet(sheet, { width: 60, gridWidth: 40, colour: plain })).toContain('- both, 60-69: Mean 8.1;');
  expect(sourceSheet(evidence, 'nobody-1900')).toBeNull();
});
