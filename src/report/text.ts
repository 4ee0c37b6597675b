/** The report that people read in a terminal: most urgent on top, the basis of every line below. */
import type { Assessment } from '../assessment.ts';
import { briefLines } from './text/brief.ts';
import { type Colour, type Page, pageWidth } from './text/layout.ts';
import { planLines } from './text/plan.ts';
import { basisLines, cautionLines, factorLines, notAskedLines, probabilityLines, sourceLines } from './text/rest.ts';
import { testLines } from './text/tests.ts';
import { clientLines, redFlagLines, riskLines } from './text/top.ts';
import { briefViewOf } from './view/brief.ts';
import { viewOf } from './view/build.ts';
import type { ReportView } from './view/types.ts';

export interface TextOptions {
  /** Columns of the terminal; the report uses 40 to 110 of them. */
  readonly width: number;
  /** Styles that give their text back where no colour is wanted. No meaning hangs on them. */
  readonly colour: Colour;
  /** Everything the assessment holds; else the short report. */
  readonly full?: boolean | undefined;
}

const SECTIONS: readonly ((view: ReportView, page: Page) => string[])[] = [
  clientLines,
  redFlagLines,
  riskLines,
  testLines,
  planLines,
  factorLines,
  probabilityLines,
  notAskedLines,
  basisLines,
  cautionLines,
  sourceLines,
];

/** One report after the other, a blank line between them; empty where there is none. Every line ends with a line feed. */
export function renderText(assessments: readonly Assessment[], options: TextOptions): string {
  const page: Page = { width: pageWidth(options.width), colour: options.colour };
  const reports = assessments.map((assessment) => {
    if (options.full !== true) return `${briefLines(briefViewOf(assessment), page).join('\n')}\n`;
    const view = viewOf(assessment);
    return `${SECTIONS.flatMap((section) => section(view, page)).join('\n')}\n`;
  });
  return reports.join('\n\n');
}
