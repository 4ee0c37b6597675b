/** How much each mark is worth: met or not, and how it did where it was studied. And how many people like this fall. */
import { withMark } from '../view/citations.ts';
import type { AgreementView, MarkView, RiskReportView } from '../view/risk-report.ts';
import { bullet, heading, type Page, painted, paragraph } from './layout.ts';
import { widthOf } from './width.ts';
import { padTo } from './wrap.ts';

const LEAD =
  'sens. (sensitivity): of 100 people with the outcome, how many met the mark; spec. (specificity): of 100 without it, how many did not. odds: by how much this result moved the odds of the outcome there, worked out from the two; near 1 it says little. Marks of one test and of related tests overlap: never multiply them.';

const MET_WIDTH = 9;
const SHARE_WIDTH = 10;

function row(mark: MarkView, rule: number, page: Page): string[] {
  const cells = [
    padTo(mark.met, MET_WIDTH),
    padTo(mark.rule, rule),
    padTo(mark.sensitivity, SHARE_WIDTH),
    padTo(mark.specificity, SHARE_WIDTH),
    mark.odds,
  ];
  const line = `  ${cells.join(' ').trimEnd()}`;
  return [mark.met === 'MET' ? page.colour.bold(line) : line, ...painted(paragraph(mark.detail, 12, page), page.colour.dim)];
}

function testBlock(view: AgreementView, page: Page): string[] {
  const marks = [...view.counting, ...view.others];
  // Long rules push their numbers to the right rather than being cut.
  const rule = Math.max(4, ...marks.map((mark) => Math.min(30, widthOf(mark.rule))));
  const head = `  ${[padTo('', MET_WIDTH), padTo('mark', rule), padTo('sens.', SHARE_WIDTH), 'spec.'].join(' ')}`;
  return [
    '',
    ...painted(paragraph(`${view.test}: ${view.result}`, 0, page), page.colour.bold),
    head,
    ...view.counting.flatMap((mark) => row(mark, rule, page)),
    ...(view.others.length === 0
      ? []
      : [
          ...paragraph('shown, not counted for falls in people like this client:', 2, page),
          ...view.others.flatMap((mark) => row(mark, rule, page)),
        ]),
  ];
}

export function agreementLines(view: RiskReportView, page: Page): string[] {
  if (view.agreement.length === 0)
    return [...heading('What each mark is worth', page), ...paragraph('No test with a published mark was recorded.', 2, page)];
  return [
    ...heading('What each mark is worth', page),
    ...painted(paragraph(LEAD, 2, page), page.colour.dim),
    ...view.agreement.flatMap((test) => testBlock(test, page)),
  ];
}

export function fallRateLines(view: RiskReportView, page: Page): string[] {
  if (view.fallRates.length === 0) return [];
  return [
    ...heading('How many people like this fall', page),
    ...view.fallRates.flatMap((rate) => bullet(withMark(rate.text, rate.mark), 2, page)),
  ];
}
