/** `footing risk`: level, path, what each mark is worth, factors; without scores against norms and without a plan. */
import type { Assessment } from '../assessment.ts';
import { type AgreementRow, agreementOf } from '../risk/agreement.ts';
import { escapedJson, riskRecord } from './json.ts';
import { agreementLines, fallRateLines } from './text/agreement.ts';
import { type Page, pageWidth } from './text/layout.ts';
import { factorLines, notAskedLines, pathLines, probabilityLines, sourceLines } from './text/rest.ts';
import { clientLines, redFlagLines, riskLines } from './text/top.ts';
import type { TextOptions } from './text.ts';
import { type RiskReportView, riskReportView } from './view/risk-report.ts';

const SECTIONS: readonly ((view: RiskReportView, page: Page) => string[])[] = [
  clientLines,
  redFlagLines,
  riskLines,
  probabilityLines,
  agreementLines,
  fallRateLines,
  factorLines,
  notAskedLines,
  pathLines,
  sourceLines,
];

/** One report after the other, a blank line between them. */
export function renderRiskText(assessments: readonly Assessment[], options: TextOptions): string {
  const page: Page = { width: pageWidth(options.width), colour: options.colour };
  const reports = assessments.map((assessment) => {
    const view = riskReportView(assessment);
    return `${SECTIONS.flatMap((section) => section(view, page)).join('\n')}\n`;
  });
  return reports.join('\n\n');
}

const rowRecord = ({ cut_point: cut, ...row }: AgreementRow): Record<string, unknown> => ({ ...row, ...cut });

/** `risk` as in the record of `score`, and `agreement`: one entry a mark. An array for several files (`asArray`). */
export function renderRiskJson(assessments: readonly Assessment[], { asArray }: { readonly asArray: boolean }): string {
  const records = assessments.map((assessment) => ({
    format: assessment.format,
    tool: assessment.tool,
    evidence: assessment.evidence,
    client: assessment.client,
    assessed: assessment.assessed,
    risk: riskRecord(assessment.risk),
    agreement: agreementOf(assessment.tests).map(rowRecord),
    sources: assessment.sources,
  }));
  return escapedJson(asArray ? records : records[0]);
}
