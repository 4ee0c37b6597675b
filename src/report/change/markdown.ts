/** The change report as Markdown, for a clinic's own document chain. Text from files is escaped. */
import type { Change } from '../../change/types.ts';
import { plainMarkdown as plain } from '../markdown/escape.ts';
import type { ChangeTestView, ChangeView } from './types.ts';
import { changeView, detailLines } from './view.ts';

const item = (text: string): string => `- ${plain(text)}`;

function testsTable(tests: readonly ChangeTestView[]): string[] {
  if (tests.length === 0) return ['No test was done at both visits.'];
  const rows = tests.map((test) => {
    const cells = [
      test.label,
      test.before,
      test.after,
      test.change,
      `${test.verdictWords}${test.disputed === null ? '' : ' (disputed)'}`,
    ];
    return `| ${cells.map(plain).join(' | ')} |`;
  });
  return ['| Test | Before | Now | Change | Verdict |', '| --- | --- | --- | --- | --- |', ...rows];
}

function testDetails(test: ChangeTestView): string[] {
  return [`### ${plain(test.label)}: ${plain(test.verdictWords)}`, '', ...detailLines(test).map(item), ''];
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [`## ${title}`, '', ...lines, ''];

function planSection(view: ChangeView): string[] {
  return view.plan.flatMap((group) => [
    `### ${group.heading}`,
    '',
    ...group.exercises.map((exercise) =>
      item(
        group.move === 'stay'
          ? `${exercise.name} (${exercise.levels})`
          : [`${exercise.name}, ${exercise.levels}: from "${exercise.from}" to "${exercise.to}"`, ...exercise.lines].join('. '),
      ),
    ),
    ...(group.shared.length === 0 ? [] : ['', ...group.shared.flatMap((line) => [plain(line), ''])]),
    '',
  ]);
}

export function renderChangeMarkdown(change: Change): string {
  const view = changeView(change);
  const sources = view.sources.map((source) => {
    const status = source.status === null ? '' : ` (${source.status})`;
    const where = source.location === null ? '' : `${source.location}. `;
    return `${source.number}. ${plain(`${source.citation} ${where}${source.doi === null ? '' : `doi:${source.doi}`}${status}`.trim())}`;
  });
  const lines = [
    `# Change, client ${plain(view.ref)}`,
    '',
    `${plain(view.client)}. ${plain(view.span)}.`,
    '',
    ...section('Look again', view.look.map(item)),
    ...section('In short', [plain(view.counts), '', plain(`Exercises: ${view.moves}.`), '', ...testsTable(view.tests)]),
    ...section('Fall risk', [plain(view.risk.headline), '', ...view.risk.lines.map(item)]),
    ...section('Test by test', [plain(view.howToRead), '', ...view.tests.flatMap(testDetails)]),
    ...section('Not at both visits', view.onlyOnce.map(item)),
    ...section('Plan', planSection(view)),
    ...section('Notes', [...(view.chance === null ? [] : [`${view.chance}.`]), ...view.notes].map(item)),
    ...section('Sources', sources),
    plain(view.made),
  ];
  return `${lines.join('\n').replace(/\n{3,}/g, '\n\n')}\n`;
}
