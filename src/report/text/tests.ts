/** One line a result that can be read down the page, the detail under it. */
import { withMark } from '../view/citations.ts';
import type { ReportView, TestMark, TestView } from '../view/types.ts';
import { bullet, heading, labelled, type Page, painted, paragraph } from './layout.ts';
import { widthOf } from './width.ts';
import { padTo, wrap } from './wrap.ts';

/** Signs, so that nothing hangs on colour; the legend is printed above the tests. */
export const SIGNS: Readonly<Record<TestMark, string>> = { linked: '!', unclear: '?', not_tested: '-', none: ' ' };
const LEGEND = [
  ['!', 'in the range linked with falls, or unable'],
  ['?', 'too close to a mark linked with falls to tell, or stopped before it'],
  ['-', 'not tested'],
] as const;
/** The same in one paragraph. */
export const TEST_LEGEND =
  '! in the range linked with falls, or unable. ? too close to such a mark to tell. - not tested. Percentile: of 100 people of the group named, how many do worse; higher is better. Points: value = percentile as printed in the table, z is linear between them.';
const PERCENTILE = 'Percentile: of 100 people of the group named, how many do worse. Higher is better.';

interface Columns {
  readonly name: number;
  readonly result: number;
  readonly standing: number;
}

/** Names and results get what they need within limits, the standing the rest. */
function columnsFor(tests: readonly TestView[], page: Page): Columns {
  const widest = (texts: readonly string[], limit: number): number => Math.min(limit, Math.max(0, ...texts.map(widthOf)));
  const name = widest(
    tests.map((test) => test.label),
    Math.floor(page.width * 0.34),
  );
  const result = widest(
    tests.map((test) => test.result),
    Math.floor(page.width * 0.17),
  );
  return { name, result, standing: page.width - name - result - 6 };
}

function row(test: TestView, columns: Columns, page: Page): string[] {
  const name = wrap(test.label, columns.name);
  const result = wrap(test.result, columns.result);
  const standing = wrap(test.standing, columns.standing);
  const emphasis = test.mark === 'linked' ? page.colour.bold : (text: string): string => text;
  return Array.from({ length: Math.max(name.length, result.length, standing.length) }, (_, index) =>
    [
      index === 0 ? `${SIGNS[test.mark]} ` : '  ',
      `${padTo(name[index] ?? '', columns.name)}  `,
      `${padTo(result[index] ?? '', columns.result)}  `,
      standing[index] ?? '',
    ]
      .join('')
      .trimEnd(),
  ).map((line) => emphasis(line));
}

function details(test: TestView, page: Page): string[] {
  const shape = { indent: 4, column: 8 };
  const cited = (each: { text: string; mark: string }) => withMark(each.text, each.mark);
  return [
    ...labelled('Reason', test.reason === null ? [] : [test.reason], page, shape),
    ...labelled('Trials', test.trials === null ? [] : [test.trials], page, shape),
    ...labelled('Place', test.place === null ? [] : [cited(test.place)], page, shape),
    ...labelled('Marks', [...test.marks.map(cited), ...(test.otherMarks === null ? [] : [test.otherMarks])], page, shape),
    ...labelled('Error', test.error === null ? [] : [cited(test.error)], page, shape),
    ...labelled('Note', test.notes, page, shape),
  ];
}

/** Both sides of one test stand together; a blank line parts one test from the next. */
export function testLines(view: ReportView, page: Page): string[] {
  const { tests } = view;
  if (tests.length === 0) return [...heading('Tests', page), ...paragraph('No test was recorded.', 2, page)];
  const columns = columnsFor(tests, page);
  return [
    ...heading('Tests', page),
    ...painted(
      [...LEGEND.flatMap(([sign, words]) => bullet(words, 2, page, sign)), ...paragraph(PERCENTILE, 2, page)],
      page.colour.dim,
    ),
    ...tests.flatMap((test) => ['', ...row(test, columns, page), ...details(test, page)]),
  ];
}
