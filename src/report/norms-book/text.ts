/** One paper of the collection as text: the tables as printed, for reading beside the paper itself. */

import stringWidth from 'string-width';
import { bullet, heading, labelled, type Page, paragraph } from '../text/layout.ts';
import { padTo } from '../text/wrap.ts';
import type { Grid } from './grid.ts';
import type { ItemSheet } from './items.ts';
import type { SourceSheet, TableSheet } from './sheets.ts';

const LABELS = 14;

/** Tables may be wider than text: where nobody looks at a terminal they are never broken up. */
export interface SheetPage extends Page {
  readonly gridWidth: number;
}

/** Columns side by side while they fit the page; else one row after the other, each cell under its header. */
function gridLines({ headers, rows }: Grid, page: SheetPage): string[] {
  const widths = headers.map((header, column) =>
    Math.max(stringWidth(header), ...rows.map((row) => stringWidth(row[column] ?? ''))),
  );
  const total = widths.reduce((sum, width) => sum + width + 2, 2);
  if (total <= page.gridWidth) {
    const line = (cells: readonly string[]): string =>
      `  ${cells.map((cell, column) => padTo(cell, widths[column] ?? 0)).join('  ')}`.trimEnd();
    return [line(headers), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)];
  }
  return rows.flatMap((row) => {
    const said = headers.flatMap((header, column) =>
      (row[column] ?? '') === '' || column < 2 ? [] : [`${header} ${row[column]}`],
    );
    return bullet(`${row[0]}, ${row[1]}: ${said.join('; ')}`, 2, page);
  });
}

function tableLines(table: TableSheet, page: SheetPage): string[] {
  return [
    ...heading(table.testName, page),
    ...table.lines.flatMap(([label, text]) => labelled(label, [text], page, { indent: 0, column: LABELS })),
    ...table.parts.flatMap((part) => [
      '',
      ...paragraph(`${part.id} - ${part.location}`, 0, page).map((line) => page.colour.bold(line)),
      ...part.notes.flatMap((note) => paragraph(note, 2, page)),
      ...gridLines(part.grid, page),
    ]),
  ];
}

function itemLines(item: ItemSheet, page: Page): string[] {
  const title = item.test === null ? item.heading : `${item.test}: ${item.heading}`;
  return [
    '',
    ...paragraph(title, 0, page).map((line) => page.colour.bold(line)),
    ...item.lines.flatMap(([label, text]) =>
      labelled(`${label}  `, [text], page, { indent: 2, column: Math.max(LABELS, label.length + 2) }),
    ),
  ];
}

/** Ends with a line feed. */
export function renderSourceSheet(sheet: SourceSheet, page: SheetPage): string {
  const lines = [
    ...paragraph(`${sheet.source}: ${sheet.citation}`, 0, page),
    ...(sheet.doi === null ? ['No DOI.'] : [`doi:${sheet.doi}`]),
    ...(sheet.note === null ? [] : paragraph(sheet.note, 0, page)),
    ...sheet.tables.flatMap((table) => tableLines(table, page)),
    ...(sheet.items.length === 0 ? [] : heading('Other numbers of this source', page)),
    ...sheet.items.flatMap((item) => itemLines(item, page)),
    ...(sheet.tables.length + sheet.items.length === 0
      ? [
          '',
          'It gives no table, cut-point, error, ratio or rate: it is cited by a protocol, a pathway, a caution or an exercise.',
        ]
      : []),
  ];
  return `${lines.join('\n')}\n`;
}
