/** The short report: one or two screens for the room, with what was used and where it comes from. */
import type { BriefExercise, BriefTest, BriefView } from '../view/brief-types.ts';
import { bullet, labelled, type Page, painted, paragraph, ruledHeading } from './layout.ts';
import { probabilityLines } from './rest.ts';
import { SIGNS, TEST_LEGEND } from './tests.ts';
import { clientLines, redFlagLines, riskLines } from './top.ts';

const MORE = 'More: --full (every comparison, mark, reason, move and source); --format json; footing explain FILE WHAT.';

const DETAIL = 4;

function testLines(test: BriefTest, page: Page): string[] {
  const detail = [...test.marks, ...test.notes].map((text) => text.replace(/^\w/, (first) => first.toUpperCase()));
  const emphasis = test.mark === 'linked' ? page.colour.bold : (text: string): string => text;
  return [
    ...painted(bullet(`${test.label}: ${test.result}, ${test.standing}`, 0, page, SIGNS[test.mark]), emphasis),
    ...paragraph([test.place, ...detail].filter((text) => text !== '').join('. '), DETAIL, page),
  ];
}

const exerciseLines = (exercise: BriefExercise, page: Page): string[] =>
  bullet(
    [exercise.start === '' ? exercise.name : `${exercise.name}: ${exercise.start}`, exercise.detail]
      .filter((part) => part !== '')
      .join('. '),
    1,
    page,
    exercise.held ? '[-]' : '[ ]',
  );

const testsPart = (view: BriefView, page: Page): string[] => [
  ...ruledHeading('Tests', page),
  ...painted(paragraph(TEST_LEGEND, 0, page), page.colour.dim),
  ...(view.tests.length === 0
    ? paragraph('No test was recorded.', 2, page)
    : view.tests.flatMap((test) => testLines(test, page))),
  ...(view.misfits.length === 0 ? [] : paragraph(`All rows used: ${view.misfits.join('; ')}.`, 0, page)),
];

const planPart = (view: BriefView, page: Page): string[] => [
  ...ruledHeading('Starting levels: options to tick, change or leave', page),
  ...view.shared.flatMap((line) => bullet(line.text, 1, page, line.letter === null ? '-' : `${line.letter}:`)),
  ...view.groups.flatMap((group) => [
    page.colour.bold(group.purpose),
    ...group.exercises.flatMap((exercise) => exerciseLines(exercise, page)),
  ]),
];

const factorPart = (view: BriefView, page: Page): string[] => [
  ...ruledHeading('Contributing factors', page),
  ...(view.factors.length === 0 ? paragraph('None found in what was recorded.', 2, page) : []),
  ...view.factors.flatMap((group) => [page.colour.bold(group.heading), ...group.lines.flatMap((line) => bullet(line, 1, page))]),
];

const cautionPart = (view: BriefView, page: Page): string[] => [
  ...ruledHeading('Cautions', page),
  ...(view.judgement === '' ? [] : paragraph(view.judgement, 1, page)),
  ...labelled('Client', view.cautions === '' ? [] : [view.cautions], page, { indent: 1, column: 9 }),
  ...labelled('Stop at', view.stopSigns === '' ? [] : [view.stopSigns], page, { indent: 1, column: 9 }),
  ...(view.furtherCautions === 0
    ? []
    : paragraph(`${view.furtherCautions} general remarks on how much, how often and with whom: --full.`, 1, page)),
];

const sourcePart = (view: BriefView, page: Page): string[] => [
  ...ruledHeading('Sources named above', page),
  ...painted(paragraph(view.legend, 0, page), page.colour.dim),
  ...paragraph(`${view.sources.map((source) => `[${source.number}] ${source.text}`).join('; ')}.`, 0, page),
];

/** Lines of one short report. */
export function briefLines(view: BriefView, page: Page): string[] {
  return [
    ...clientLines(view, page),
    ...redFlagLines(view, page, ruledHeading),
    ...riskLines(view, page, ruledHeading),
    ...probabilityLines(view, page),
    ...testsPart(view, page),
    ...planPart(view, page),
    ...factorPart(view, page),
    ...(view.notAsked === null ? [] : [...ruledHeading('Not asked today', page), ...paragraph(view.notAsked, 1, page)]),
    ...cautionPart(view, page),
    ...sourcePart(view, page),
    '',
    ...paragraph(MORE, 0, page),
    ...painted(paragraph(view.made, 0, page), page.colour.dim),
  ];
}
