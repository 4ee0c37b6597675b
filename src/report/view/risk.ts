/** Red flags, level with its reasons, what to do next and what is missing, in words. */
import type { Assessment, OtherPathway, RedFlagResult, RiskResult, StepResult } from '../../assessment.ts';
import { TIERS } from '../../evidence/schema/words.ts';
import { isOpen } from '../../risk/clearance.ts';
import type { Citations } from './citations.ts';
import { dateWords, dayAfter } from './numbers.ts';
import { probabilityView } from './probability.ts';
import { capitalised } from './sentences.ts';
import type { Cited, RedFlagView, RiskView, StepView } from './types.ts';
import { boundsWords, tierWords } from './words.ts';

/** How to record that the open flags have been dealt with, each with the word that names it; null where none is open. */
export function toClearWords(flags: readonly RedFlagResult[]): string | null {
  const open = flags.filter(isOpen).map((flag) => flag.id);
  if (open.length === 0) return null;
  return `Holds the exercise plan until the file says clearance: {by: name, date: day, for: ${open.join(' / ')}}.`;
}

/** Those that are still open, most urgent first; within a tier in the order of the data. */
export function redFlagViews(flags: readonly RedFlagResult[], citations: Citations): RedFlagView[] {
  return flags
    .filter(isOpen)
    .sort((a, b) => TIERS.indexOf(a.tier) - TIERS.indexOf(b.tier))
    .map((flag) => ({
      tier: tierWords(flag.tier),
      finding: flag.finding,
      because: flag.because,
      action: flag.action,
      spread: flag.spread,
      clearanceRefused: flag.clearance_refused,
      mark: citations.mark(flag),
    }));
}

/** "Loss of consciousness: cleared by Dr A on 3 May 2026". */
export function clearedFlagViews(flags: readonly RedFlagResult[], citations: Citations): Cited[] {
  return flags.flatMap((flag) =>
    flag.cleared === null
      ? []
      : [
          {
            text: `${flag.finding}: cleared by ${flag.cleared.by} on ${dateWords(flag.cleared.date)}`,
            mark: citations.mark(flag),
          },
        ],
  );
}

/** What is said where no red flag is open: absent findings are not ruled out. */
export function noRedFlagsWords(notAsked: number, cleared: number): string {
  const found = cleared === 0 ? 'Nothing found in what was recorded.' : 'Nothing open in what was recorded.';
  if (notAsked === 0) return found;
  const points = notAsked === 1 ? '1 point was' : `${notAsked} points were`;
  return `${found} ${points} not asked today and ${notAsked === 1 ? 'is' : 'are'} not ruled out; see "Not asked today" below.`;
}

const isLowest = (level: string): boolean => level === 'low' || level === 'not_at_risk';

/**
 * A low level never stands alone where the program's own caveat says that it must not be read as comfort: that caveat goes
 * into the line itself. Published remarks about the pathway follow below.
 */
function pathwayHeadline(risk: RiskResult): { readonly text: string; readonly inLine: ReadonlySet<string> } {
  if (risk.level === 'undetermined') return { text: capitalised(boundsWords(risk.at_least, risk.at_most)), inLine: new Set() };
  const warnings = isLowest(risk.level) ? risk.caveats.filter((caveat) => caveat.basis === 'own-rule') : [];
  return {
    text: [risk.label, ...warnings.map((caveat) => caveat.text)].join('. But: '),
    inLine: new Set(warnings.map((caveat) => caveat.id)),
  };
}

/** A level set by hand stands first, the pathway's own beside it. */
function headline(risk: RiskResult): ReturnType<typeof pathwayHeadline> {
  const own = pathwayHeadline(risk);
  const { override } = risk;
  if (override === null) return own;
  const by = override.by === null ? 'the professional' : override.by;
  return { ...own, text: `${override.label}, set by ${by}: ${override.reason}. The pathway itself gives: ${own.text}` };
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
  const followUp = risk.override?.follow_up ?? risk.follow_up;
  if (followUp === null) return null;
  const day = dayAfter(assessed, followUp.within_days);
  return { text: day === null ? followUp.text : `${followUp.text} By ${day} at the latest.`, mark: citations.mark(followUp) };
}

const levelOf = (other: OtherPathway): string =>
  other.level === 'undetermined' ? boundsWords(other.at_least, other.at_most) : other.label;

/** The other pathway's answer without its reasons. */
export const otherInShort = (other: OtherPathway): string => `${other.name}: ${levelOf(other)}`;

function otherWords(other: OtherPathway): string {
  const level = levelOf(other);
  return other.differs_because === null
    ? `${other.name}: ${level}`
    : `${other.name}: ${level}; differs because ${other.differs_because}`;
}

const pathwayWords = ({ name, options }: RiskResult): string =>
  [name, ...options.map((option) => `option in use: ${option.name}`)].join('; ');

export function riskView(assessment: Assessment, citations: Citations): RiskView {
  const { risk, assessed } = assessment;
  const { text, inLine } = headline(risk);
  const cited = (based: RiskResult['actions'][number] | RiskResult['caveats'][number]): Cited => ({
    text: based.text,
    mark: citations.mark(based),
  });
  return {
    pathway: pathwayWords(risk),
    headline: text,
    settled: risk.level !== 'undetermined',
    caveats: risk.caveats.filter((caveat) => !inLine.has(caveat.id)).map(cited),
    why: reasons(risk.steps),
    doNext: (risk.override?.actions ?? risk.actions).map(cited),
    missing: risk.missing.map((item) => `${MISSING_VERBS[item.kind]}: ${item.question}`),
    review: reviewWords(risk, assessed, citations),
    others: risk.other_pathways.map(otherWords),
    probability: probabilityView(risk, citations),
    steps: stepViews(risk.steps, citations),
  };
}

const CONSENT = {
  yes: 'The client agrees that this report is shared.',
  no: 'The client does NOT agree that this report is shared.',
  unknown: 'Whether the client agrees that this report is shared is not known.',
} as const;

/** Who assessed, what the client wants, whether the report may be shared. */
export function aboutWords({ assessor, goals, consent_to_share: consent }: Assessment): string[] {
  return [
    ...(assessor === null ? [] : [`Assessed by ${assessor}.`]),
    ...(goals.length === 0 ? [] : [`Goals: ${goals.join('; ')}.`]),
    ...(consent === null ? [] : [CONSENT[consent]]),
  ];
}

/** "Visit of 11 May 2026". */
export const visitWords = (assessed: string): string => `visit of ${dateWords(assessed)}`;
