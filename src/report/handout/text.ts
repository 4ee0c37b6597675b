/** The page for the client as plain text, for a screen reader, an e-mail or a large-print editor. */
import type { HandoutExercise, HandoutSectionView, HandoutView } from './types.ts';

const bullets = (lines: readonly string[]): string[] => lines.map((line) => `- ${line}`);
const section = ({ title, lines }: HandoutSectionView): string[] => ['', title.toUpperCase(), ...bullets(lines)];

function exercise(each: HandoutExercise, { labels }: HandoutView): string[] {
  const heading = `${each.number}. ${each.name}${each.rung === null ? '' : `: ${each.rung}`}`;
  return [
    '',
    `${heading}    [ ] ${labels.tried}: ______`,
    ...(each.withWhom === null ? [] : [`   ${each.withWhom}`]),
    ...(each.setUp === null ? [] : [`   ${each.setUp}`]),
    ...each.steps.map((step, index) => `   ${String.fromCharCode(97 + index)}) ${step}`),
    `   ${labels.howMany}: ${each.howMany.join('. ')}.`,
    ...(each.care.length === 0 ? [] : [`   ${labels.takeCare}: ${each.care.join(' ')}`]),
  ];
}

/** One line an exercise: its number, then the days to tick. */
function tickLines({ tick }: HandoutView): string[] {
  const width = Math.max(...tick.rows.map(({ number, name }) => `${number}. ${name}`.length), tick.exercise.length);
  const week = (cells: readonly string[]): string => cells.map((cell) => cell.padEnd(4)).join('');
  const head = `${tick.exercise.padEnd(width)}  ${week(tick.days)}`;
  return tick.weeks.flatMap((title) => [
    '',
    title,
    head,
    ...tick.rows.map((row) =>
      `${`${row.number}. ${row.name}`.padEnd(width)}  ${week(row.days.map((planned) => (planned ? '[ ]' : '')))}`.trimEnd(),
    ),
  ]);
}

export function renderHandoutText(view: HandoutView): string {
  const { labels } = view;
  const [call, ...ask] = view.stop;
  const lines = [
    ...view.letterhead,
    view.title.toUpperCase(),
    `${view.forClient}. ${view.date}.`,
    ...(call === undefined ? [] : ['', call.title.toUpperCase(), view.call.toUpperCase(), ...bullets(call.lines)]),
    ...ask.flatMap((each) => ['', each.title.toUpperCase(), view.phone, ...bullets(each.lines)]),
    ...view.before.flatMap(section),
    '',
    ...(view.withWhom === null ? [] : [view.withWhom]),
    ...view.week,
    ...view.groups.flatMap((group) => ['', `== ${group.title} ==`, ...group.exercises.flatMap((each) => exercise(each, view))]),
    ...section(view.change),
    ...view.after.flatMap(section),
    '',
    view.tick.title.toUpperCase(),
    ...tickLines(view),
    '',
    `${labels.writtenBy}: ____________________   ${labels.registration}: ____________________`,
  ];
  return `${lines.join('\n')}\n`;
}
