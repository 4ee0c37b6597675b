/** The probability of a fall in words, never without its interval, its parts and its warnings. */
import type { Probability, ProbabilityPart, RiskResult } from '../../assessment.ts';
import type { Citations } from './citations.ts';
import { plainNumber, wholePercent } from './numbers.ts';
import type { Cited, ProbabilityView } from './types.ts';

function partWords({ kind, text, value, low, high }: ProbabilityPart): string {
  if (kind === 'before')
    return `before any answer: ${wholePercent(value)} (95 % interval ${wholePercent(low)} to ${wholePercent(high)}); ${text}`;
  return `odds times ${plainNumber(value)} (95 % interval ${plainNumber(low)} to ${plainNumber(high)}); ${text}`;
}

const figureWords = ({ before, after, low, high }: Probability): string =>
  `${wholePercent(low)} to ${wholePercent(high)} (95 % interval round ${wholePercent(after)}); before any answer or test ${wholePercent(before)}`;

/** null where it was not asked for. */
export function probabilityView(
  { probability, no_probability_because: because }: RiskResult,
  citations: Citations,
): ProbabilityView | null {
  if (probability === null)
    return because === null ? null : { figure: null, because, parts: [], formula: null, notUsed: [], warnings: [] };
  const cited = (text: string, based: ProbabilityPart | Probability['warnings'][number]): Cited => ({
    text,
    mark: citations.mark(based),
  });
  return {
    figure: figureWords(probability),
    because: null,
    parts: probability.parts.map((part) => cited(partWords(part), part)),
    formula: probability.formula,
    notUsed: probability.not_used,
    warnings: probability.warnings.map((warning) => cited(warning.text, warning)),
  };
}
