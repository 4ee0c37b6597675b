/** What must be read in five seconds: who, what needs a doctor, the level of risk, why, what to do, what is missing. */
import { withMark } from '../view/citations.ts';
import type { RedFlagView, ReportView, RiskView } from '../view/types.ts';
import { bullet, heading, labelled, type Page, painted, paragraph } from './layout.ts';
import { wrap } from './wrap.ts';

const SHAPE = { indent: 2, column: 10 };

export function clientLines(view: Pick<ReportView, 'ref' | 'visit' | 'client' | 'about'>, page: Page): string[] {
  const rule = '='.repeat(page.width);
  return [
    rule,
    ...painted(wrap(`Client ${view.ref} - ${view.visit}`, page.width), page.colour.bold),
    ...wrap(view.client, page.width),
    ...view.about.flatMap((line) => wrap(line, page.width)),
    rule,
  ];
}

function redFlag(flag: RedFlagView, page: Page): string[] {
  const shape = { indent: 5, column: 10 };
  return [
    ...painted(bullet(`${flag.tier.toUpperCase()}: ${flag.finding}`, 2, page, '!!'), page.colour.bold),
    ...labelled('Do', [flag.action], page, shape),
    ...labelled('Because', [withMark(flag.because, flag.mark)], page, shape),
    ...labelled('Limits', flag.spread === null ? [] : [flag.spread], page, shape),
    ...labelled('Clearance', flag.clearanceRefused === null ? [] : [flag.clearanceRefused], page, shape),
  ];
}

type Flags = Pick<ReportView, 'redFlags' | 'noRedFlags' | 'toClear' | 'clearedFlags'>;

export function redFlagLines(view: Flags, page: Page, title = heading): string[] {
  const { redFlags } = view;
  const count = redFlags.length === 1 ? '1 finding' : `${redFlags.length} findings`;
  const cleared = view.clearedFlags.flatMap((flag) => bullet(withMark(flag.text, flag.mark), 2, page));
  return redFlags.length === 0
    ? [...title('What needs a doctor first', page), ...paragraph(view.noRedFlags, 2, page), ...cleared]
    : [
        ...title(`What needs a doctor first: ${count}`, page),
        ...redFlags.flatMap((flag) => redFlag(flag, page)),
        ...(view.toClear === null ? [] : paragraph(view.toClear, 2, page)),
        ...cleared,
      ];
}

const missingWords = (risk: RiskView): readonly string[] =>
  risk.missing.length > 0 ? risk.missing : [risk.settled ? 'nothing that could change the level' : 'see the path in the basis'];

export function riskLines(view: Pick<ReportView, 'risk' | 'check'>, page: Page, title = heading): string[] {
  const { risk } = view;
  const cited = (each: { text: string; mark: string }) => withMark(each.text, each.mark);
  const doNext = risk.doNext.length > 0 ? risk.doNext.map(cited) : risk.settled ? [] : ['first settle the level: see Missing'];
  return [
    ...title('Fall risk', page),
    ...painted(bullet(risk.headline, 2, page, '>>'), page.colour.bold),
    ...paragraph(`by ${risk.pathway}`, 5, page),
    ...labelled('Why', risk.why, page, SHAPE),
    ...labelled('Do next', doNext, page, SHAPE),
    ...labelled('Missing', missingWords(risk), page, SHAPE),
    ...labelled('Review', risk.review === null ? [] : [cited(risk.review)], page, SHAPE),
    ...labelled('Note', risk.caveats.map(cited), page, SHAPE),
    ...labelled('Also', risk.others, page, SHAPE),
    ...labelled('Check', view.check, page, SHAPE),
  ];
}
