/** After the plan: factors, what was not asked, the basis of every line, cautions and sources. */
import { withMark } from '../view/citations.ts';
import type { BasisEntry, ReportView, StepView } from '../view/types.ts';
import { bullet, heading, labelled, type Page, painted, paragraph } from './layout.ts';

const SHAPE = { indent: 4, column: 11 };

export function factorLines(view: Pick<ReportView, 'factors'>, page: Page): string[] {
  if (view.factors.length === 0)
    return [...heading('Contributing factors', page), ...paragraph('None found in what was recorded.', 2, page)];
  return [
    ...heading('Contributing factors', page),
    ...view.factors.flatMap((group) => [
      page.colour.bold(group.heading),
      ...group.factors.flatMap((factor) => [
        ...bullet(`${factor.name}: ${withMark(factor.text, factor.mark)}`, 2, page),
        ...labelled('usually', [factor.action], page, { indent: 4, column: 9 }),
      ]),
    ]),
  ];
}

/** Only where asked for, and never without its warnings. */
export function probabilityLines(view: Pick<ReportView, 'risk'>, page: Page): string[] {
  const { probability } = view.risk;
  if (probability === null) return [];
  const shape = { indent: 2, column: 10 };
  const cited = (each: { text: string; mark: string }) => withMark(each.text, each.mark);
  return [
    ...heading('Probability of a fall in 12 months', page),
    ...paragraph(probability.figure ?? `Not worked out: ${probability.because}.`, 2, page),
    ...labelled('Warning', probability.warnings.map(cited), page, shape),
    ...labelled('Parts', probability.parts.map(cited), page, shape),
    ...labelled('Formula', probability.formula === null ? [] : [probability.formula], page, shape),
    ...labelled('Not used', probability.notUsed, page, shape),
  ];
}

export function notAskedLines(view: Pick<ReportView, 'notAsked'>, page: Page): string[] {
  if (view.notAsked.length === 0) return [];
  return [
    ...heading('Not asked today', page),
    ...paragraph('Not ruled out; each would be a reason to see a doctor first.', 2, page),
    ...view.notAsked.flatMap((point) => bullet(point, 2, page)),
  ];
}

function stepLines(step: StepView, index: number, page: Page): string[] {
  const because = step.because === '' ? '' : `: ${step.because}`;
  return bullet(withMark(`${step.question} ${step.answer.toUpperCase()}${because}`, step.mark), 4, page, `${index + 1}.`);
}

/** Lines under the same label are printed as a list under it. */
function entryLines(entry: BasisEntry, page: Page): string[] {
  const labels = [...new Set(entry.lines.map((line) => line.label))];
  return [
    page.colour.bold(`  ${entry.label}`),
    ...labels.flatMap((label) =>
      labelled(
        label,
        entry.lines.filter((line) => line.label === label).map((line) => line.text),
        page,
        SHAPE,
      ),
    ),
  ];
}

/** Every question of the pathway in order, with its answer and why. */
export function pathLines({ risk }: Pick<ReportView, 'risk'>, page: Page): string[] {
  return [...heading('Path taken', page), ...stepsOf(risk, page)];
}

const stepsOf = (risk: ReportView['risk'], page: Page): string[] => [
  ...paragraph(risk.pathway, 4, page),
  ...risk.steps.flatMap((step, index) => stepLines(step, index, page)),
];

export function basisLines(view: ReportView, page: Page): string[] {
  const { risk, basis, plan } = view;
  return [
    ...heading('Basis', page),
    page.colour.bold('  Path taken'),
    ...stepsOf(risk, page),
    ...basis.flatMap((entry) => ['', ...entryLines(entry, page)]),
    ...(plan.basis.length === 0
      ? []
      : ['', page.colour.bold('  Starting levels, doses and limits'), ...plan.basis.flatMap((line) => bullet(line, 4, page))]),
  ];
}

export function cautionLines(view: ReportView, page: Page): string[] {
  const cited = (each: { text: string; mark: string }) => withMark(each.text, each.mark);
  return [
    ...heading('Cautions', page),
    ...view.cautions.flatMap((caution) => bullet(cited(caution), 2, page)),
    ...(view.stopSigns.length === 0
      ? []
      : [page.colour.bold('  Stop the exercise at'), ...view.stopSigns.flatMap((sign) => bullet(cited(sign), 4, page))]),
  ];
}

export function sourceLines(view: Pick<ReportView, 'sources' | 'furtherSources' | 'made'>, page: Page): string[] {
  const lines = view.sources.map((source) => {
    const doi = source.doi === null ? '' : ` doi:${source.doi}`;
    const where = source.location === null ? '' : ` - ${source.location}.`;
    const status = source.status === null ? '' : ` (${source.status})`;
    return { number: source.number, text: `${source.citation}${doi}${where}${status} {${source.id}}` };
  });
  return [
    ...heading('Sources', page),
    ...lines.flatMap((line) => bullet(line.text, 2, page, `[${line.number}]`)),
    ...(view.furtherSources === null ? [] : paragraph(view.furtherSources, 2, page)),
    '',
    ...painted(paragraph(view.made, 2, page), page.colour.dim),
  ];
}
