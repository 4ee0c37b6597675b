/** From counts to the summary file: reads kept visits again, masks, renders, writes. */
import type { RowScorer } from '../cohort/row-scorer.ts';
import { betweenVisits, type ReadVisit } from '../cohort/summary/between-visits.ts';
import { buildSummary } from '../cohort/summary/build.ts';
import { renderSummaryHtml } from '../cohort/summary/html.ts';
import { type KeptVisit, MOST_CLIENTS, type Part } from '../cohort/summary/part.ts';
import type { Summary } from '../cohort/summary/types.ts';
import type { Evidence } from '../evidence/data.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';

export interface SummaryRequest {
  readonly part: Part;
  /** Parts of it that may have pages of their own. */
  readonly known: readonly Part[];
  readonly scorer: RowScorer;
  readonly evidence: Evidence;
  readonly pathway: string;
  readonly by: string | null;
  readonly masked: boolean;
  readonly readVisit: (visit: KeptVisit) => ReadVisit | null;
}

function noChangeBecause({ part, scorer }: SummaryRequest): string {
  const { ref, assessed } = scorer.layout;
  if (ref === null || assessed === null)
    return 'Change needs a column with the reference of the client and one with the day of the visit.';
  if (part.clients === null) return `Change is not worked out for more than ${MOST_CLIENTS} clients at once.`;
  return 'No client has visits on two days.';
}

export function summarise(request: SummaryRequest): Summary {
  const { part, scorer, evidence } = request;
  const { slots } = scorer;
  const clients =
    part.clients === null
      ? []
      : Object.keys(part.clients)
          .sort()
          .flatMap((ref) => part.clients?.[ref] ?? []);
  const between = betweenVisits(clients, slots, evidence, request.readVisit);
  return buildSummary({ ...request, slots, between, noChangeBecause: noChangeBecause(request) });
}

const SUMMARY_KINDS = /\.(json|html)$/i;

export function checkSummaryName(path: string | undefined): void {
  if (path !== undefined && !SUMMARY_KINDS.test(path))
    throw new CannotStart(`the summary is written as .json or .html; "${path}" is neither`);
}

export function writeSummary(path: string, summary: Summary, invocation: Invocation): void {
  const text = /\.html$/i.test(path) ? renderSummaryHtml(summary) : `${JSON.stringify(summary, null, 2)}\n`;
  writeOutput(path, text, invocation);
}
