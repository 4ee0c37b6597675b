/** Why a row was refused, in words for whoever has the table before them. */
import type { Finding } from '../intake/problems.ts';
import type { Layout } from './layout.ts';
import { columnAt, type Row, UNABLE_TRIAL } from './tree.ts';

/** `1 row`, `2 rows`. */
export const quantity = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

const STANDS_FOR = 'or say in a map file what it stands for (values: {...})';
const WORD = /^`[^`\d]+`/;

/** What a map file can do about it, beside putting the cell right. */
function byMap({ code, path, message }: Finding, { dates }: Layout): string | undefined {
  switch (code) {
    case 'decimal_comma':
      return 'or state decimal: comma in a map file';
    case 'bad_date':
      return dates === 'ymd' ? 'or state the order of dates (dates: dmy) in a map file' : undefined;
    case 'not_a_choice':
    case 'not_yes_no':
      return STANDS_FOR;
    case 'not_a_number':
      if (!WORD.test(message)) return undefined;
      return path[0] === 'tests' ? 'or say in a map file which outcome the word stands for (words: {unable: [...]})' : STANDS_FOR;
    case 'above_ceiling':
      return 'or state the ceiling of the column in a map file';
    case 'not_whole':
      return path.join('.') === 'client.age' ? 'or state whole: down in a map file' : undefined;
    default:
      return undefined;
  }
}

const HINTS: readonly (readonly [RegExp, string])[] = [
  [/leave the line out(?: where there is none)?|leave it out/g, 'leave the cell empty'],
  [/write age: 74, or born: 1952-03-08, with your own value/, 'fill in the age or the date of birth'],
  [/write assessed: and the day of the visit as year-month-day/, 'fill in the day of the visit: the age is worked out from it'],
  [
    /; where the watch was stopped there, write \{[^}]*\} instead/,
    '; where the watch was stopped there, write that number and state the ceiling of the column in a map file',
  ],
  [/, or state the ceiling used, as in \{[^}]*\}/, ''],
  [/write \{(?:unable|declined)[^}]*\}(?: or \{(?:unable|declined)[^}]*\})? instead/g, 'write unable or declined instead'],
];

function hintOf(finding: Finding, layout: Layout): string {
  const hint = HINTS.reduce((text, [pattern, words]) => text.replace(pattern, words), finding.hint);
  return [hint, byMap(finding, layout)].filter((part) => part !== undefined && part !== '').join(', ');
}

/** One trial that could not be done beside one that was: whether that is a result is for whoever was there to say. */
const TRIAL_BESIDE = `\`${UNABLE_TRIAL}\` is not a number`;
const TRIAL_BESIDE_IN_WORDS =
  'unable at this trial, and another trial has a number; leave this cell empty if the number is the result, or write unable at every trial';

export function reasonsOf(findings: readonly Finding[], layout: Layout, row: Row): string[] {
  return findings.map((finding) => {
    const column = columnAt(layout, row, finding.path);
    const hint = hintOf(finding, layout);
    const place = column === null ? '' : `column "${column.heading}": `;
    if (finding.message === TRIAL_BESIDE) return `${place}${TRIAL_BESIDE_IN_WORDS}`;
    return `${place}${finding.message}${hint === '' ? '' : `; ${hint}`}`;
  });
}
