/** The change report for a terminal: what changed on top, what asks for a second look, then risk, tests, plan and sources. */
import type { Change } from '../../change/types.ts';
import { bullet, type Colour, heading, labelled, type Page, pageWidth, paragraph } from '../text/layout.ts';
import { widthOf } from '../text/width.ts';
import { padTo, wrap } from '../text/wrap.ts';
import { withMark } from '../view/citations.ts';
import type { ChangeTestView, ChangeView } from './types.ts';
import { changeView } from './view.ts';

/** Signs, so that nothing hangs on colour. */
const SIGNS = { improved: '+', worsened: '!', within_error: '~', cannot_tell: '?' } as const;

function topLines(view: ChangeView, page: Page): string[] {
  const rule = '='.repeat(page.width);
  return [
    rule,
    ...wrap(`Client ${view.ref} - ${view.client}`, page.width).map((line) => page.colour.bold(line)),
    ...wrap(`Change from ${view.span}`, page.width),
    rule,
  ];
}

function shortLines(view: ChangeView, page: Page): string[] {
  if (view.groups.length === 0) return [...heading('In short', page), ...paragraph('No test was done at both visits.', 2, page)];
  return [
    ...heading('In short', page),
    ...paragraph(view.counts, 0, page),
    ...paragraph(`Exercises: ${view.moves}.`, 0, page),
    ...view.groups.flatMap((group) => [
      ...paragraph(`${SIGNS[group.verdict]} ${group.heading}`, 0, page).map((line) => page.colour.bold(line)),
      ...group.tests.flatMap((line) => bullet(line, 2, page)),
    ]),
  ];
}

const lookLines = (view: ChangeView, page: Page): string[] =>
  view.look.length === 0
    ? []
    : [
        ...heading('Look again', page),
        ...view.look.flatMap((line) => bullet(line, 2, page, '!!').map((line) => page.colour.bold(line))),
      ];

const riskLines = (view: ChangeView, page: Page): string[] => [
  ...heading('Fall risk', page),
  ...paragraph(view.risk.headline, 2, page).map((line) => page.colour.bold(line)),
  ...view.risk.lines.flatMap((line) => bullet(line, 2, page)),
];

function row(test: ChangeTestView, nameWidth: number, page: Page): string[] {
  const name = wrap(test.label, nameWidth);
  const values = `${test.before} -> ${test.after}; ${test.change}: ${test.verdictWords}${test.disputed === null ? '' : ' (disputed)'}`;
  const rest = wrap(values, page.width - nameWidth - 4);
  return Array.from({ length: Math.max(name.length, rest.length) }, (_, index) =>
    `${index === 0 ? SIGNS[test.verdict] : ' '} ${padTo(name[index] ?? '', nameWidth)}  ${rest[index] ?? ''}`.trimEnd(),
  ).map((line) => page.colour.bold(line));
}

function details(test: ChangeTestView, page: Page): string[] {
  const shape = { indent: 4, column: 9 };
  const cited = (each: { text: string; mark: string }): string => withMark(each.text, each.mark);
  return [
    ...labelled('Because', [test.because], page, shape),
    ...labelled('Matters', [cited(test.matters)], page, shape),
    ...labelled('Place', test.standing === null ? [] : [test.standing], page, shape),
    ...labelled('Marks', [...test.crossed.map(cited), ...(test.crossedOther === null ? [] : [test.crossedOther])], page, shape),
    ...labelled(
      'Visits',
      test.dates.length > 2
        ? [test.dates.map(({ date, result }) => `${date} ${result}`).join('; '), ...test.visits]
        : test.visits,
      page,
      shape,
    ),
    ...labelled('Error', test.error === null ? [] : [cited(test.error)], page, shape),
    ...labelled('Also', [...test.otherErrors.map(cited), ...(test.sameErrors === null ? [] : [test.sameErrors])], page, shape),
    ...labelled('Note', [...(test.disputed === null ? [] : [test.disputed]), ...test.notes], page, shape),
  ];
}

function testLines(view: ChangeView, page: Page): string[] {
  const nameWidth = Math.min(Math.floor(page.width * 0.34), Math.max(0, ...view.tests.map((test) => widthOf(test.label))));
  return [
    ...heading('Tests', page),
    ...paragraph(`+ better, ! worse, ~ within error, ? cannot be told. ${view.howToRead}`, 2, page).map((line) =>
      page.colour.dim(line),
    ),
    ...view.tests.flatMap((test) => ['', ...row(test, nameWidth, page), ...details(test, page)]),
    ...(view.onlyOnce.length === 0
      ? []
      : ['', page.colour.bold('  Not at both visits'), ...view.onlyOnce.flatMap((line) => bullet(line, 2, page))]),
    ...(view.chance === null ? [] : ['', ...paragraph(`${view.chance}.`, 2, page)]),
  ];
}

function planLines(view: ChangeView, page: Page): string[] {
  return [
    ...heading('Plan', page),
    ...view.plan.flatMap((group) => [
      page.colour.bold(`  ${group.heading}`),
      ...(group.move === 'stay'
        ? paragraph(group.exercises.map((exercise) => `${exercise.name} (${exercise.levels})`).join('; '), 4, page)
        : group.exercises.flatMap((exercise) => [
            ...bullet(`${exercise.name}, ${exercise.levels}: from "${exercise.from}" to "${exercise.to}"`, 4, page),
            ...exercise.lines.flatMap((line) => paragraph(line, 6, page)),
          ])),
      ...group.shared.flatMap((line) => paragraph(line, 4, page)),
    ]),
  ];
}

function endLines(view: ChangeView, page: Page): string[] {
  const sources = view.sources.map((source) => {
    const doi = source.doi === null ? '' : ` doi:${source.doi}`;
    const where = source.location === null ? '' : ` ${source.location}.`;
    return {
      number: source.number,
      text: `${source.citation}${doi} -${where}${source.status === null ? '' : ` (${source.status})`} {${source.id}}`,
    };
  });
  return [
    ...(view.notes.length === 0 ? [] : [...heading('Notes', page), ...view.notes.flatMap((line) => bullet(line, 2, page))]),
    ...heading('Sources', page),
    ...sources.flatMap((source) => bullet(source.text, 2, page, `[${source.number}]`)),
    '',
    ...paragraph(view.made, 2, page).map((line) => page.colour.dim(line)),
  ];
}

/** `width`: columns of the terminal. Every line ends with a line feed. */
export function renderChangeText(change: Change, options: { readonly width: number; readonly colour: Colour }): string {
  const page: Page = { width: pageWidth(options.width), colour: options.colour };
  const view = changeView(change);
  const sections = [topLines, shortLines, lookLines, riskLines, testLines, planLines, endLines];
  return `${sections.flatMap((section) => section(view, page)).join('\n')}\n`;
}
