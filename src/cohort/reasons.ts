/** Why a row was refused, in words for whoever has the table before them. */
import type { Finding } from '../intake/problems.ts';
import type { Layout } from './layout.ts';
import { columnAt, type Row } from './tree.ts';

/** What a map file can do about it, beside putting the cell right. */
const BY_MAP: Partial<Readonly<Record<Finding['code'], string>>> = {
  decimal_comma: 'or state decimal: comma in a map file',
  bad_date: 'or state the order of dates (dates: dmy) in a map file',
  not_a_choice: 'or say in a map file what it stands for (values: {...})',
  not_yes_no: 'or say in a map file what it stands for (values: {...})',
  above_ceiling: 'or state the ceiling of the column in a map file',
};

const HINTS: readonly (readonly [RegExp, string])[] = [
  [/leave the line out(?: where there is none)?|leave it out/g, 'leave the cell empty'],
  [/write age: 74, or born: 1952-03-08, with your own value/, 'fill in the age or the date of birth'],
  [/write assessed: and the day of the visit as year-month-day/, 'fill in the day of the visit: the age is worked out from it'],
  [
    /; where the watch was stopped there, write \{[^}]*\} instead/,
    '; where the watch was stopped there, write that number and state the ceiling of the column in a map file',
  ],
  [/, or state the ceiling used, as in \{[^}]*\}/, ''],
  [/write \{(?:unable|declined)[^}]*\} instead/g, 'write unable or declined instead'],
];

function hintOf(finding: Finding): string {
  const hint = HINTS.reduce((text, [pattern, words]) => text.replace(pattern, words), finding.hint);
  const more =
    finding.code === 'not_whole' && finding.path.join('.') === 'client.age'
      ? 'or state whole: down in a map file'
      : BY_MAP[finding.code];
  return [hint, more].filter((part) => part !== undefined && part !== '').join(', ');
}

export function reasonsOf(findings: readonly Finding[], layout: Layout, row: Row): string[] {
  return findings.map((finding) => {
    const column = columnAt(layout, row, finding.path);
    const hint = hintOf(finding);
    const place = column === null ? '' : `column "${column.heading}": `;
    return `${place}${finding.message}${hint === '' ? '' : `; ${hint}`}`;
  });
}
