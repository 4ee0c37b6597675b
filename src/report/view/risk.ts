/** Red flags, level with its reasons, what to do next and what is missing, in words. */
import type { Assessment, OtherPathway, Probability, RedFlagResult, RiskResult, StepResult } from '../../assessment.ts';
import type { Citations } from './citations.ts';
import { dateWords, dayAfter, wholePercent } from './numbers.ts';
import type { Cited, RedFlagView, RiskView, StepView } from './types.ts';
import { boundsWords, TIER_ORDER, tierWords } from './words.ts';

/** Most urgent first; within a tier in the order of the data. */
export function redFlagViews(flags: readonly RedFlagResult[], citations: Citations): RedFlagView[] {
  return [...flags]
    .sort((a, b) => TIER_ORDER.indexOf(a.tier) - TIER_ORDER.indexOf(b.tier))
    .map((flag) => ({
      tier: tierWords(flag.tier),
      finding: flag.finding,
      because: flag.because,
      action: flag.action,
      spread: flag.spread,
      mark: citations.mark(flag),
    }));
}

/** What is said where no red flag was found: absent findings are not ruled out. */
export function noRedFlagsWords(notAsked: number): string {
  const found = 'Nothing found in what was recorded.';
  if (notAsked === 0) return found;
  const points = notAsked === 1 ? '1 point was' : `${notAsked} points were`;
  return `${found} ${points} not asked today and ${notAsked === 1 ? 'is' : 'are'} not ruled out; see "Not asked today" below.`;
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const isLowest = (level: string): boolean => level === 'low' || level === 'not_at_risk';

/**
 * A low level never stands alone where the program's own caveat says that it must not be read as comfort: that caveat goes
 * into the line itself. Published remarks about the pathway follow below.
 */
function headline(risk: RiskResult): { readonly text: string; readonly inLine: ReadonlySet<string> } {
  if (risk.level === 'undetermined') return { text: capitalised(boundsWords(risk.at_least, risk.at_most)), inLine: new Set() };
  const warnings = isLowest(risk.level) ? risk.caveats.filter((caveat) => caveat.basis === 'own-rule') : [];
  return {
    text: [risk.label, ...warnings.map((caveat) => caveat.text)].join('. But: '),
    inLine: new Set(warnings.map((caveat) => caveat.id)),
  };
}

const MISSING_VERBS = { record: 'Look up', question: 'Ask', test: 'Test' } as const;

const stepAnswer = (step: StepResult): string => {
  if (step.reached === 'no') return 'not reached';
  return step.reached === 'perhaps' ? `perhaps reached: ${step.answer}` : step.answer;
};

const stepViews = (steps: readonly StepResult[], citations: Citations): StepView[] =>
  steps.map((step) => ({
    question: step.question,
    answer: stepAnswer(step),
    because: step.reached === 'no' ? '' : step.because,
    mark: citations.mark(step),
  }));

/** Reasons of the steps that were reached and answered, in the order of the path; a clause said once is not said again. */
function reasons(steps: readonly StepResult[]): string[] {
  const said = new Set<string>();
  return steps
    .filter((step) => step.reached !== 'no' && step.answer !== 'unknown')
    .map((step) => {
      const fresh = step.because.split('; ').filter((clause) => clause !== '' && !said.has(clause));
      for (const clause of fresh) said.add(clause);
      return fresh.join('; ');
    })
    .filter((reason) => reason !== '');
}

function reviewWords(risk: RiskResult, assessed: string, citations: Citations): Cited | null {
  const { follow_up: followUp } = risk;
  if (followUp === null) return null;
  const day = dayAfter(assessed, followUp.within_days);
  return { text: day === null ? followUp.text : `${followUp.text} By ${day} at the latest.`, mark: citations.mark(followUp) };
}

function otherWords(other: OtherPathway): string {
  const level = other.level === 'undetermined' ? boundsWords(other.at_least, other.at_most) : other.label;
  return other.differs_because === null
    ? `${other.name}: ${level}`
    : `${other.name}: ${level}; differs because ${other.differs_because}`;
}

const probabilityWords = (probability: Probability | null): string | null =>
  probability === null
    ? null
    : `before the tests ${wholePercent(probability.before)}, with them ${wholePercent(probability.after)} (range ${wholePercent(probability.low)} to ${wholePercent(probability.high)}), from ${probability.used.join(', ')}`;

export function riskView(assessment: Assessment, citations: Citations): RiskView {
  const { risk, assessed } = assessment;
  const { text, inLine } = headline(risk);
  const cited = (based: RiskResult['actions'][number] | RiskResult['caveats'][number]): Cited => ({
    text: based.text,
    mark: citations.mark(based),
  });
  return {
    pathway: risk.name,
    headline: text,
    settled: risk.level !== 'undetermined',
    caveats: risk.caveats.filter((caveat) => !inLine.has(caveat.id)).map(cited),
    why: reasons(risk.steps),
    doNext: risk.actions.map(cited),
    missing: risk.missing.map((item) => `${MISSING_VERBS[item.kind]}: ${item.question}`),
    review: reviewWords(risk, assessed, citations),
    others: risk.other_pathways.map(otherWords),
    probability: probabilityWords(risk.probability),
    steps: stepViews(risk.steps, citations),
  };
}

/** "Visit of 11 May 2026". */
export const visitWords = (assessed: string): string => `visit of ${dateWords(assessed)}`;
