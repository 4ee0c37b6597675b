/** The one way from an assessment to what any format prints. */
import type { Assessment, FactorResult } from '../../assessment.ts';
import { basisView } from './basis.ts';
import { type Citations, numberedCitations } from './citations.ts';
import { planMore, planView } from './plan.ts';
import { aboutWords, clearedFlagViews, noRedFlagsWords, redFlagViews, riskView, toClearWords, visitWords } from './risk.ts';
import { sanitised } from './sanitise.ts';
import { testViews } from './tests.ts';
import type { FactorGroupView, ReportView } from './types.ts';
import { clientWords } from './words.ts';

const FACTOR_HEADINGS = { fall: 'Makes a fall more likely', injury: 'Makes an injury from a fall more likely' } as const;

export function factorViews(factors: readonly FactorResult[], citations: Citations): FactorGroupView[] {
  return (['fall', 'injury'] as const)
    .map((about) => ({
      heading: FACTOR_HEADINGS[about],
      factors: factors
        .filter((factor) => factor.about === about)
        .map((factor) => ({
          name: factor.name,
          text: `${factor.found}; ${factor.why}`,
          action: `${factor.usual_action} (${factor.who})`,
          mark: citations.mark(factor),
        })),
    }))
    .filter((group) => group.factors.length > 0);
}

export function madeWords({ tool, evidence }: Assessment): string {
  const folders = evidence.folders.length === 0 ? '' : `; also norms from ${evidence.folders.join(', ')}`;
  return `${tool.name} ${tool.version}, evidence ${evidence.version} (${evidence.digest.slice(0, 12)})${folders}`;
}

const furtherWords = (count: number): string | null =>
  count === 0
    ? null
    : `${count === 1 ? '1 further source was' : `${count} further sources were`} looked at; the JSON record lists all.`;

/** Who, when, and what needs a doctor first: the head of every report. */
export function headView(
  assessment: Assessment,
  citations: Citations,
): Pick<ReportView, 'ref' | 'client' | 'visit' | 'about' | 'redFlags' | 'noRedFlags' | 'toClear' | 'clearedFlags'> {
  const { client, assessed, risk } = assessment;
  const redFlags = redFlagViews(risk.red_flags, citations);
  const clearedFlags = clearedFlagViews(risk.red_flags, citations);
  return {
    ref: client.ref,
    client: clientWords(client),
    visit: visitWords(assessed),
    about: aboutWords(assessment),
    redFlags,
    noRedFlags: noRedFlagsWords(risk.not_asked.length, clearedFlags.length),
    toClear: toClearWords(risk.red_flags),
    clearedFlags,
  };
}

/** Order, rounding, words and marks of everything a report shows. Texts come out without control characters or escapes. */
export function viewOf(given: Assessment): ReportView {
  const assessment = sanitised(given);
  const citations = numberedCitations(assessment.sources);
  // Built in the order of reading, so that the numbers of the sources rise down the page.
  const head = headView(assessment, citations);
  const risk = riskView(assessment, citations);
  const tests = testViews(assessment.tests, citations);
  const plan = {
    ...planView(assessment.plan, citations),
    ...planMore(assessment.plan, assessment.week, citations),
  };
  const factors = factorViews(assessment.risk.factors, citations);
  const basis = basisView(assessment.tests, citations);
  const cited = (each: { text: string } & Parameters<Citations['mark']>[0]) => ({ text: each.text, mark: citations.mark(each) });
  return {
    ...head,
    risk,
    check: assessment.notes,
    tests,
    plan,
    factors,
    notAsked: assessment.risk.not_asked,
    basis,
    stopSigns: assessment.stop_signs.map(cited),
    cautions: assessment.cautions.map(cited),
    sources: citations.list(),
    furtherSources: furtherWords(citations.unnamed()),
    made: madeWords(assessment),
  };
}
