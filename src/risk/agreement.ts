/** What each published mark says of this client, with how well it told fallers apart where it was studied. */
import type { CutPointResult, TestResult } from '../assessment.ts';
import { likelihoodRatios } from './odds.ts';

export interface AgreementRow {
  readonly test: string;
  readonly name: string;
  readonly side: TestResult['side'];
  readonly value: number | null;
  readonly at_least: boolean;
  readonly unit: string;
  readonly cut_point: CutPointResult;
  /**
   * Likelihood ratio of this result, worked out from the printed sensitivity and specificity: of a positive one where the
   * mark is met, of a negative one where it is not. null where either is not published, the mark cannot be decided, or
   * the ratio is not finite.
   */
  readonly likelihood_ratio: number | null;
}

function ratioOf({ sensitivity, specificity, met }: CutPointResult): number | null {
  if (sensitivity === null || specificity === null || met === null) return null;
  const { positive, negative } = likelihoodRatios(sensitivity, specificity);
  const ratio = met ? positive : negative;
  return Number.isFinite(ratio) ? ratio : null;
}

/** One row for every mark of every test with a result, in the order of the tests; marks that count first. */
export function agreementOf(tests: readonly TestResult[]): AgreementRow[] {
  return tests
    .filter((test) => test.outcome === 'measured' || test.outcome === 'unable' || test.why === 'balance')
    .flatMap((test) =>
      [...test.cut_points]
        .sort((a, b) => Number(b.counts) - Number(a.counts))
        .map((cut) => ({
          test: test.test,
          name: test.name,
          side: test.side,
          value: test.value,
          at_least: test.at_least,
          unit: test.unit,
          cut_point: cut,
          likelihood_ratio: ratioOf(cut),
        })),
    );
}
