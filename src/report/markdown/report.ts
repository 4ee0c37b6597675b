/** The report as Markdown, to be piped into a clinic's own document chain. */
import { withMark } from '../view/citations.ts';
import { exerciseParts } from '../view/plan.ts';
import { HOW_TO_READ, PLAN_LEAD, PURPOSE } from '../view/purpose.ts';
import type { BasisEntry, Cited, ExerciseView, TestMark, TestView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { bulletMarkdown, plainMarkdown, tableMarkdown } from './escape.ts';

export interface MarkdownOptions {
  /** Notes, other tables, all marks and errors in the basis. */
  readonly full?: boolean | undefined;
}

const cited = ({ text, mark }: Cited): string => withMark(text, mark);

/** Lists and tables are parted from text by blank lines. */
const section = (title: string, ...blocks: readonly (readonly string[])[]): string[] => {
  const shown = blocks.filter((block) => block.length > 0);
  return shown.length === 0 ? [] : [`## ${title}`, '', ...shown.flatMap((block) => [...block, ''])];
};

const bullets = (lines: readonly string[]): string[] => lines.map((line) => bulletMarkdown(line));

const labelled = (label: string, texts: readonly string[]): string[] => {
  if (texts.length === 0) return [];
  return texts.length === 1
    ? [`- **${plainMarkdown(label)}:** ${plainMarkdown(texts[0] ?? '')}`]
    : [`- **${plainMarkdown(label)}:**`, ...texts.map((text) => bulletMarkdown(text, 1))];
};

function redFlags(view: VisitView): string[] {
  const flags = view.redFlags.flatMap((flag) => [
    `- **${plainMarkdown(`${flag.tier}: ${flag.finding}`)}**`,
    bulletMarkdown(`Do: ${flag.action}`, 1),
    bulletMarkdown(`Because: ${withMark(flag.because, flag.mark)}`, 1),
    ...(flag.spread === null ? [] : [bulletMarkdown(flag.spread, 1)]),
    ...(flag.clearanceRefused === null ? [] : [bulletMarkdown(flag.clearanceRefused, 1)]),
  ]);
  const after = [...(view.toClear === null ? [] : [view.toClear]), ...view.clearedFlags.map(cited)];
  return section(
    'What needs a doctor first',
    view.redFlags.length === 0 ? [plainMarkdown(view.noRedFlags)] : flags,
    bullets(after),
  );
}

function risk({ risk: level, check }: VisitView): string[] {
  const doNext = level.doNext.length > 0 ? level.doNext.map(cited) : level.settled ? [] : ['first settle the level: see Missing'];
  const missing =
    level.missing.length > 0 ? level.missing : [level.settled ? 'nothing that could change the level' : 'see the path'];
  const path = level.steps.map(
    (step, index) =>
      `${index + 1}. ${plainMarkdown(withMark(`${step.question} ${step.answer.toUpperCase()}${step.because === '' ? '' : `: ${step.because}`}`, step.mark))}`,
  );
  return [
    ...section(
      'Fall risk',
      [`**${plainMarkdown(level.headline)}**`],
      [`by ${plainMarkdown(level.pathway)}`],
      [
        ...labelled('Why', level.why),
        ...labelled('Do next', doNext),
        ...labelled('Missing', missing),
        ...labelled('Review', level.review === null ? [] : [cited(level.review)]),
        ...labelled('Note', level.caveats.map(cited)),
        ...labelled('Also', level.others),
        ...labelled('Check', check),
      ],
    ),
    ...section('Path taken', path),
  ];
}

const SIGNS: Readonly<Record<TestMark, string>> = {
  linked: 'linked with falls',
  unclear: 'close to a mark',
  not_tested: 'not tested',
  none: '',
};

const testDetail = (test: TestView): string[] => [
  `### ${plainMarkdown(test.label)}`,
  '',
  ...labelled('Result', [`${test.result}; ${test.standing}`]),
  ...labelled('Reason', test.reason === null ? [] : [test.reason]),
  ...labelled('Trials', test.trials === null ? [] : [test.trials]),
  ...labelled('Marks', [...test.marks.map(cited), ...(test.otherMarks === null ? [] : [test.otherMarks])]),
  ...labelled('Measurement error', test.error === null ? [] : [cited(test.error)]),
  ...labelled('Note', test.notes),
];

function tests({ tests: all }: VisitView): string[] {
  if (all.length === 0) return section('Tests', ['No test was recorded.']);
  const rows = all.map((test) => [
    test.label,
    test.result,
    test.standing,
    SIGNS[test.mark],
    test.place === null ? '' : cited(test.place),
  ]);
  return section(
    'Tests',
    [plainMarkdown(HOW_TO_READ)],
    tableMarkdown(['Test', 'Result', 'For age and sex', 'Falls', 'Place and source'], rows),
    ...all.map(testDetail),
  );
}

function exercise(view: ExerciseView): string[] {
  const parts = [['Start', [view.start]] as const, ...exerciseParts(view)];
  return [
    `- ${view.held ? '' : '☐ '}**${plainMarkdown(`${view.name}: ${view.level}`)}**`,
    ...parts.flatMap(([label, texts]) => texts.map((text) => bulletMarkdown(`${label}: ${text}`, 1))),
  ];
}

function plan({ plan: planned }: VisitView): string[] {
  const part = (title: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : [`### ${title}`, '', ...bullets(lines)];
  return section(
    'Starting levels',
    [PLAN_LEAD],
    bullets(planned.shared.map((line) => (line.letter === null ? line.text : `${line.letter}: ${line.text}`))),
    ...planned.groups.map((group) => [`### ${plainMarkdown(group.purpose)}`, '', ...group.exercises.flatMap(exercise)]),
    part('Adapted to this client', planned.adapted),
    part('A week of what goes home', planned.week),
  );
}

function factors({ factors: groups }: VisitView): string[] {
  if (groups.length === 0) return section('Contributing factors', ['None found in what was recorded.']);
  return section(
    'Contributing factors',
    ...groups.map((group) => [
      `### ${plainMarkdown(group.heading)}`,
      '',
      ...group.factors.map((factor) => bulletMarkdown(`${factor.name}: ${cited(factor)} Usually: ${factor.action}`)),
    ]),
  );
}

function probability({ risk: { probability: view } }: VisitView): string[] {
  if (view === null) return [];
  return section(
    'Probability of a fall in 12 months',
    [plainMarkdown(view.figure ?? `Not worked out: ${view.because}.`)],
    [
      ...labelled('Warning', view.warnings.map(cited)),
      ...labelled('Parts', view.parts.map(cited)),
      ...labelled('Formula', view.formula === null ? [] : [view.formula]),
      ...labelled('Not used', view.notUsed),
    ],
  );
}

const notAsked = ({ notAsked: points }: VisitView): string[] =>
  points.length === 0
    ? []
    : section('Not asked today', ['Not ruled out; each would be a reason to see a doctor first.'], bullets(points));

const FIRST = new Set(['Row', 'Formula', 'Gives', 'Fit']);

function basisEntry(entry: BasisEntry, full: boolean): string[] {
  const lines = entry.lines.filter((line) => full || FIRST.has(line.label));
  return [`### ${plainMarkdown(entry.label)}`, '', ...lines.map((line) => bulletMarkdown(`${line.label}: ${line.text}`))];
}

function typedIn({ typed, recorded, visit }: VisitView): string[] {
  return section(
    'What was typed in',
    [plainMarkdown(`From the ${visit}, in the order typed. What is absent was not recorded and is not read as no.`)],
    typed.length === 0
      ? []
      : tableMarkdown(
          ['Test', 'Side', 'As typed', 'Unit', 'How it is done'],
          typed.map((test) => [test.name, test.side, test.how, test.unit, test.protocol]),
        ),
    bullets(recorded.flatMap((group) => group.rows.map(([name, value]) => `${group.heading}: ${name}: ${value}`))),
  );
}

function sources({ sources: all, furtherSources, made }: VisitView): string[] {
  const lines = all.map((source) => {
    const doi = source.doi === null ? '' : ` doi:${source.doi}`;
    const where = source.location === null || source.location === '' ? '' : ` - ${source.location}.`;
    const status = source.status === null ? '' : ` (${source.status})`;
    return `${source.number}. ${plainMarkdown(`${source.citation}${doi}${where}${status} ${source.id}`)}`;
  });
  return section('Sources', lines, furtherSources === null ? [] : [plainMarkdown(furtherSources)], [plainMarkdown(made)]);
}

function report(view: VisitView, full: boolean): string[] {
  return [
    `# ${plainMarkdown(`Client ${view.ref}, ${view.visit}`)}`,
    '',
    plainMarkdown(view.client),
    '',
    ...view.about.flatMap((line) => [plainMarkdown(line), '']),
    plainMarkdown(PURPOSE),
    '',
    ...redFlags(view),
    ...risk(view),
    ...tests(view),
    ...plan(view),
    ...factors(view),
    ...probability(view),
    ...notAsked(view),
    ...section('Basis', ...view.basis.map((entry) => basisEntry(entry, full)), bullets(view.plan.basis)),
    ...typedIn(view),
    ...section('Cautions', bullets(view.cautions.map(cited))),
    ...section('Stop the exercise at', bullets(view.stopSigns.map(cited))),
    ...sources(view),
  ];
}

/** One document; several visits one after the other. */
export const renderMarkdown = (views: readonly VisitView[], { full = false }: MarkdownOptions = {}): string =>
  views.map((view) => `${report(view, full).join('\n').trimEnd()}\n`).join('\n');
