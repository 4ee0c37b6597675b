/** The words of a map that no cell of their column could hold: found once, and not again in every row. */
import type { Evidence } from '../evidence/data.ts';
import { buildSession } from '../intake/build.ts';
import { isRefusal } from '../intake/problems.ts';
import type { Column, Layout } from './layout.ts';
import { reasonsOf } from './reasons.ts';
import { columnAt, treeOf } from './tree.ts';

export interface WrongWord {
  readonly heading: string;
  /** As the map has it, in lower case. */
  readonly cell: string;
  readonly reason: string;
}

/** Columns that are read by themselves: half a blood pressure is refused whatever it says. */
const singleColumns = (layout: Layout): Column[] => [
  ...Object.values(layout.client),
  ...layout.fields.flatMap(({ whole }) => (whole === null ? [] : [whole])),
  ...layout.tests.flatMap(({ sides }) => sides.flatMap(({ columns }) => columns)),
];

export function wrongWords(layout: Layout, evidence: Evidence, today: string): WrongWord[] {
  return singleColumns(layout).flatMap((column) =>
    Object.keys(column.rule.values ?? {}).flatMap((cell) => {
      const row = layout.headings.map((_, index) => (index === column.index ? cell : ''));
      const { findings } = buildSession(treeOf(layout, row, { number: 1, today }), { catalogue: evidence, today });
      const wrong = findings.filter((finding) => isRefusal(finding) && columnAt(layout, row, finding.path) === column);
      return reasonsOf(wrong, layout, row).map((reason) => ({ heading: column.heading, cell, reason }));
    }),
  );
}
