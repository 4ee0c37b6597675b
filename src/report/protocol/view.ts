/** A protocol card as it is shown: its parts in order, each statement with its mark, the range of results, the sources. */
import type { CitedSource } from '../../assessment.ts';
import { basedOn } from '../../evidence/basis.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { Limit, TestDefinition } from '../../evidence/schema/catalogue.ts';
import { PROTOCOL_PARTS, type ProtocolFile, type ProtocolPart } from '../../evidence/schema/protocol.ts';
import { numberedCitations, type SourceView, withMark } from '../view/citations.ts';
import { SHORT_STATUS_LEGEND, shortStatusWords } from '../view/words.ts';

const HEADINGS: Readonly<Record<ProtocolPart, string>> = {
  purpose: 'What for',
  equipment: 'Equipment',
  setup: 'Set-up',
  say: 'What to say',
  trials: 'Trials',
  start: 'The watch starts',
  stop: 'The watch stops',
  void: 'Does not count',
  scoring: 'Write down',
  safety: 'Guarding and when to stop',
  mistakes: 'Common errors',
  variants: 'Not interchangeable with',
};

export interface ProtocolView {
  readonly id: string;
  readonly title: string;
  /** Unit, better direction, plausible range; empty where the card is not that of a test. */
  readonly facts: readonly string[];
  readonly sections: readonly { readonly part: ProtocolPart; readonly heading: string; readonly lines: readonly string[] }[];
  readonly sources: readonly SourceView[];
}

/** A check of typing, not of health: which results are taken, and which are asked about. */
function rangeWords({ impossible, unusual, unit_text }: TestDefinition): string[] {
  const unit = unit_text === '' ? '' : ` ${unit_text}`;
  const ends = ({ below, above }: Limit): string =>
    [...(below === undefined ? [] : [`under ${below}`]), ...(above === undefined ? [] : [`over ${above}`])].join(' or ');
  return [
    ...(ends(impossible) === '' ? [] : [`refused: ${ends(impossible)}${unit}`]),
    ...(ends(unusual) === '' ? [] : [`asked about: ${ends(unusual)}${unit}`]),
  ];
}

function factsOfTest(test: TestDefinition): string[] {
  const unit = test.unit_text === '' ? 'points' : test.unit_text;
  return [
    `Unit: ${unit}; ${test.better} is better${test.sided ? '; right and left' : ''}`,
    `Results: ${rangeWords(test).join('; ')} (a check of typing, not of health)`,
    ...(test.ceiling === null
      ? []
      : [`The watch is stopped at ${test.ceiling} ${test.unit_text} unless the file says otherwise`]),
  ];
}

function citedBy(card: ProtocolFile, evidence: Pick<Evidence, 'sources'>): Record<string, CitedSource> {
  const cited: Record<string, CitedSource> = {};
  for (const basis of Object.values(card.bases)) {
    if (!('source' in basis)) continue;
    const source = evidence.sources[basis.source];
    if (source !== undefined)
      cited[basis.source] = { citation: source.citation, doi: source.doi, location: basis.location, status: basis.status };
  }
  return cited;
}

/** The whole card. Time needed stands under "What for". */
export function protocolView(card: ProtocolFile, evidence: Pick<Evidence, 'sources' | 'testById'>): ProtocolView {
  const citations = numberedCitations(citedBy(card, evidence), { short: true });
  const test = evidence.testById.get(card.id);
  const line = ({ text, from }: { readonly text: string; readonly from: string }): string => {
    const basis = card.bases[from];
    return basis === undefined ? text : withMark(text, citations.mark(basedOn(basis)));
  };
  const sections = PROTOCOL_PARTS.map((part) => {
    const time = part === 'purpose' && card.minutes !== undefined ? [`Time needed: ${line(card.minutes)}`] : [];
    return { part, heading: HEADINGS[part], lines: [...card[part].map(line), ...time] };
  }).filter(({ lines }) => lines.length > 0);
  return {
    id: card.id,
    title: test?.name ?? card.measurement ?? card.id,
    facts: test === undefined ? [] : factsOfTest(test),
    sections,
    sources: citations.list(),
  };
}

/** "[2] Citation. doi:... - where it stands (how it was read)". */
export function sourceText({ citation, doi, location, status }: SourceView): string {
  const where = location === null ? '' : ` - ${location}`;
  return `${citation}${doi === null ? '' : ` doi:${doi}`}${where}${status === null ? '' : ` (${status})`}`;
}

/** Said once a card: what the words in the brackets mean. */
export const MARKS_LEGEND = `${SHORT_STATUS_LEGEND} "${shortStatusWords('common-practice')}": a rule of the trade without a paper; "${shortStatusWords('own-rule')}": how this program reads the result.`;
