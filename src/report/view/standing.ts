/**
 * One result against norms and marks, in one sentence. The sentence never lets a percentile hide a mark linked with falls,
 * a ceiling pass for a normal result, or an average pass for a standing.
 */
import type { Comparison, CutPointResult, TestResult } from '../../assessment.ts';
import type { TestMark } from './types.ts';
import { peersWords } from './words.ts';

/** Only marks that count (reviewed: falls in people like these, or a falls guideline) speak here. */
export const countingMarks = (test: TestResult): CutPointResult[] => test.cut_points.filter((cut) => cut.counts);

const isLinkedWithFalls = (test: TestResult): boolean => countingMarks(test).some((cut) => cut.met === true);

export const primaryOf = (test: TestResult): Comparison | null =>
  test.comparisons.find((comparison) => comparison.primary) ?? null;

const stoppedForBalance = (test: TestResult): boolean => test.outcome === 'unsafe' && test.why === 'balance';

/** Declined, or stopped for another reason than balance: nothing is known. */
export const isNotTested = (test: TestResult): boolean =>
  test.outcome === 'declined' || (test.outcome === 'unsafe' && !stoppedForBalance(test));

export const isUnable = (test: TestResult): boolean => test.outcome === 'unable' || stoppedForBalance(test);

export function markOf(test: TestResult): TestMark {
  if (isNotTested(test)) return 'not_tested';
  if (isUnable(test) || isLinkedWithFalls(test)) return 'linked';
  return countingMarks(test).some((cut) => cut.near === true || cut.met === null) ? 'unclear' : 'none';
}

/** Placed against a mean or median only: the basis says why the table gives no percentile. */
function againstAverage(comparison: Comparison, linked: boolean): string | null {
  if (comparison.against_mean === null) return null;
  const average = comparison.method === 'median_only' ? 'median' : 'average';
  const worse = comparison.against_mean === 'worse';
  const side = worse ? `worse than the ${average}` : `not worse than the ${average}`;
  const ending = linked ? `, ${worse ? 'and' : 'yet'} in the range linked with falls` : '';
  return `${side} for ${peersWords(comparison.band)}${ending} (no percentile: see the basis)`;
}

function placed(comparison: Comparison, linked: boolean, atCeiling: boolean): string | null {
  const peers = peersWords(comparison.band);
  switch (comparison.standing) {
    case 'well_below':
    case 'below': {
      const words = `${comparison.standing === 'below' ? 'below' : 'well below'} what is usual for ${peers}`;
      return linked ? `${words}, and in the range linked with falls` : words;
    }
    case 'expected':
      if (linked) return 'usual for age, yet in the range linked with falls';
      return atCeiling ? `usual for ${peers}, as far as this test can tell` : `usual for ${peers}`;
    case 'above':
      return linked ? 'better than usual for age, yet in the range linked with falls' : `better than usual for ${peers}`;
    default:
      return againstAverage(comparison, linked);
  }
}

/** The standing in words; for every outcome there is a sentence. */
export function standingWords(test: TestResult): string {
  if (isNotTested(test)) return 'not tested today, so nothing is known';
  const linked = isLinkedWithFalls(test);
  const primary = primaryOf(test);
  const sentence = primary === null ? null : placed(primary, linked, test.at_least);
  if (sentence !== null) return sentence;
  const because =
    primary?.no_standing_because ??
    test.no_comparison_because ??
    (test.comparisons.length === 0
      ? 'no published norm for this'
      : 'no table may place this client; others are shown in the basis');
  if (isUnable(test)) return `unable, the worst result; ${because}`;
  return linked ? `in the range linked with falls; ${because}` : because;
}
