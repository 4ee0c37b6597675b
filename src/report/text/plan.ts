/** Starting levels as options to consider: the professional ticks. */
import { exerciseParts } from '../view/plan.ts';
import { PLAN_LEAD } from '../view/purpose.ts';
import type { ExerciseView, PlanView, ReportView } from '../view/types.ts';
import { bullet, heading, labelled, type Page, painted, paragraph } from './layout.ts';

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
  return [
    ...painted(bullet(`${exercise.name} - ${exercise.level}`, 2, page, exercise.held ? '[-]' : '[ ]'), page.colour.bold),
    ...labelled('Start', [exercise.start], page, shape),
    ...exerciseParts(exercise).flatMap(([label, texts]) => labelled(label, texts, page, shape)),
  ];
}

export function planLines(view: ReportView, page: Page): string[] {
  const { plan } = view;
  return [
    ...heading('Starting levels', page),
    ...paragraph(PLAN_LEAD, 2, page),
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
