/** The guideline's level as a RiskAssessment: words and the path taken; a probability only where it was asked for. */
import type { Assessment, RiskResult } from '../../assessment.ts';
import { isOpen } from '../../risk/clearance.ts';
import { roundFor } from '../view/numbers.ts';
import { boundsWords } from '../view/words.ts';
import { qualitativeRisk } from './codes.ts';
import { type About, quantity } from './observations.ts';
import type { Reference, RiskAssessment } from './r4.ts';

const pathWords = ({ steps }: RiskResult): string =>
  steps
    .filter((step) => step.reached !== 'no')
    .map((step) => `${step.question} ${step.answer}${step.because === '' ? '' : ` (${step.because})`}`)
    .join('; ');

function prediction({ risk }: Assessment): NonNullable<RiskAssessment['prediction']>[number] {
  const { probability, override } = risk;
  const inForce = override ?? risk;
  const by =
    override === null ? '' : `Level set by the professional: ${override.reason}. The pathway itself gives ${risk.label}. `;
  return {
    outcome: { text: 'a fall in the next 12 months' },
    ...(inForce.level === 'undetermined' ? {} : { qualitativeRisk: qualitativeRisk(inForce.level, inForce.label) }),
    ...(probability === null
      ? {}
      : {
          probabilityRange: {
            low: quantity(roundFor(probability.low * 100, 0), '%'),
            high: quantity(roundFor(probability.high * 100, 0), '%'),
          },
        }),
    rationale: `${by}${risk.name}: ${pathWords(risk)}`,
  };
}

function notes({ risk }: Assessment): string[] {
  const open =
    risk.level === 'undetermined'
      ? [`The level ${boundsWords(risk.at_least, risk.at_most)}. Missing: ${risk.missing.map((item) => item.question).join(' ')}`]
      : [];
  return [
    ...open,
    ...risk.red_flags.filter(isOpen).map((flag) => `Needs a doctor first: ${flag.finding}: ${flag.because} ${flag.action}`),
    ...risk.caveats.map((caveat) => caveat.text),
    ...(risk.not_asked.length === 0 ? [] : [`Not asked today and not ruled out: ${risk.not_asked.join('; ')}`]),
    ...(risk.probability?.warnings.map((warning) => warning.text) ?? []),
  ];
}

/** `basis`: every Observation that the rules read. */
export function riskResource(assessment: Assessment, basis: readonly Reference[], { subject, date }: About): RiskAssessment {
  const texts = notes(assessment);
  return {
    resourceType: 'RiskAssessment',
    status: 'final',
    method: { text: assessment.risk.name },
    code: { text: 'Fall risk by a guideline rule' },
    subject,
    occurrenceDateTime: date,
    ...(basis.length === 0 ? {} : { basis: [...basis] }),
    prediction: [prediction(assessment)],
    ...(texts.length === 0 ? {} : { note: texts.map((text) => ({ text })) }),
  };
}
