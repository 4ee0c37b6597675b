/** Starting levels as options to consider: the professional ticks. */
import type { ExerciseView, PlanView, ReportView } from '../view/types.ts';
import { bullet, heading, labelled, type Page, painted, paragraph } from './layout.ts';

const LEAD =
  "Options for the professional to tick, change or leave. Which test result leads to which level is no published rule: it is this program's own, written to be reviewed and edited.";

function sharedLines(plan: PlanView, page: Page): string[] {
  const all = plan.shared.filter((line) => line.letter === null);
  const some = plan.shared.filter((line) => line.letter !== null);
  return [
    ...(all.length === 0 ? [] : ['', '  For every exercise', ...all.flatMap((line) => bullet(line.text, 4, page))]),
    ...(some.length === 0
      ? []
      : ['', '  For exercises that name the letter', ...some.flatMap((line) => bullet(line.text, 4, page, `${line.letter}:`))]),
  ];
}

function exerciseLines(exercise: ExerciseView, page: Page): string[] {
  const shape = { indent: 6, column: 9 };
  const one = (text: string | null): string[] => (text === null || text === '' ? [] : [text]);
  return [
    ...painted(bullet(`${exercise.name} - ${exercise.level}`, 2, page, exercise.held ? '[-]' : '[ ]'), page.colour.bold),
    ...labelled('Start', one(exercise.start), page, shape),
    ...labelled('With', one(exercise.supervision), page, shape),
    ...labelled('Dose', one(exercise.dose), page, shape),
    ...labelled('Set', exercise.setByHand, page, shape),
    ...labelled('Because', exercise.because, page, shape),
    ...labelled('Limits', exercise.limitedBy, page, shape),
    ...labelled('Up', one(exercise.moveUp), page, shape),
    ...labelled('Down', one(exercise.moveDown), page, shape),
    ...labelled('Care', exercise.cautions, page, shape),
  ];
}

export function planLines(view: ReportView, page: Page): string[] {
  const { plan } = view;
  return [
    ...heading('Starting levels', page),
    ...paragraph(LEAD, 2, page),
    ...sharedLines(plan, page),
    ...plan.groups.flatMap((group) => [
      '',
      page.colour.bold(group.purpose),
      ...group.exercises.flatMap((exercise) => exerciseLines(exercise, page)),
    ]),
    ...(plan.adapted.length === 0
      ? []
      : ['', page.colour.bold('Adapted to this client'), ...plan.adapted.flatMap((line) => bullet(line, 2, page))]),
    ...(plan.week.length === 0
      ? []
      : ['', page.colour.bold('A week of what goes home'), ...plan.week.flatMap((line) => bullet(line, 2, page))]),
  ];
}
