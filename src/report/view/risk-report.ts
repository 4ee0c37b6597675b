/** What `footing risk` shows: the level and its path, how much each mark is worth, and how many people like this fall. */
import type { Assessment, CutPointResult, FallRateResult, TestResult } from '../../assessment.ts';
import { agreementOf } from '../../risk/agreement.ts';
import { factorViews, headView, madeWords } from './build.ts';
import { type Citations, numberedCitations, withMark } from './citations.ts';
import { plainNumber, wholePercent } from './numbers.ts';
import { riskView } from './risk.ts';
import { sanitised } from './sanitise.ts';
import { lowerFirst } from './sentences.ts';
import { labelOf, resultWords } from './tests.ts';
import type { Cited, ReportView } from './types.ts';

export interface MarkView {
  readonly met: 'MET' | 'not met' | 'undecided';
  readonly rule: string;
  /** "44 %", "not given". */
  readonly sensitivity: string;
  readonly specificity: string;
  /** "odds x 1.5"; empty where it cannot be worked out and where the mark does not count. */
  readonly odds: string;
  readonly detail: string;
}

export interface AgreementView {
  readonly test: string;
  readonly result: string;
  readonly counting: readonly MarkView[];
  readonly others: readonly MarkView[];
}

export interface RiskReportView
  extends Pick<
    ReportView,
    | 'ref'
    | 'client'
    | 'visit'
    | 'about'
    | 'redFlags'
    | 'noRedFlags'
    | 'toClear'
    | 'clearedFlags'
    | 'risk'
    | 'check'
    | 'factors'
    | 'notAsked'
    | 'sources'
    | 'furtherSources'
    | 'made'
  > {
  readonly agreement: readonly AgreementView[];
  readonly fallRates: readonly Cited[];
}

const share = (value: number | null): string => (value === null ? 'not given' : wholePercent(value));

const metOf = ({ met }: CutPointResult): MarkView['met'] => (met === null ? 'undecided' : met ? 'MET' : 'not met');

function detailOf(cut: CutPointResult, citations: Citations): string {
  const near = cut.near === true ? ['The measurement error reaches across this mark'] : [];
  const inCopd =
    cut.in_copd === null
      ? []
      : [withMark(cut.in_copd.text, citations.mark({ source: cut.in_copd.source, basis: cut.in_copd.status }))];
  const own = withMark(`${cut.outcome}; ${cut.population}`, citations.mark({ source: cut.source, basis: cut.status }));
  return [own, ...near, ...inCopd].join('. ');
}

function agreementViews(tests: readonly TestResult[], citations: Citations): AgreementView[] {
  return tests.flatMap((test) => {
    const rows = agreementOf([test]).map(({ cut_point: cut, likelihood_ratio: ratio }) => ({
      counts: cut.counts,
      view: {
        met: metOf(cut),
        rule: cut.rule,
        sensitivity: share(cut.sensitivity),
        specificity: share(cut.specificity),
        // A mark that does not count was found in other people or for another outcome: its ratio would promise too much.
        odds: ratio === null || !cut.counts ? '' : `odds x ${plainNumber(ratio)}`,
        detail: detailOf(cut, citations),
      },
    }));
    if (rows.length === 0) return [];
    return [
      {
        test: labelOf(test),
        result: resultWords(test),
        counting: rows.filter((row) => row.counts).map((row) => row.view),
        others: rows.filter((row) => !row.counts).map((row) => row.view),
      },
    ];
  });
}

function rateWords({ outcome, population, probability, low, high, rate_per_person_year: rate, note }: FallRateResult): string {
  const interval = low === null || high === null ? '' : ` (95 % interval ${wholePercent(low)} to ${wholePercent(high)})`;
  const figures = [
    ...(probability === null ? [] : [`${wholePercent(probability)}${interval}`]),
    ...(rate === null ? [] : [`${plainNumber(rate)} falls a person and year`]),
  ];
  return [`${figures.join(', ')}: ${lowerFirst(outcome)}; ${population}`, note ?? ''].filter((part) => part !== '').join('. ');
}

/** Texts come out without control characters; sources are numbered in the order of this report. */
export function riskReportView(given: Assessment): RiskReportView {
  const assessment = sanitised(given);
  const { risk } = assessment;
  const citations = numberedCitations(assessment.sources);
  const head = headView(assessment, citations);
  const view = riskView(assessment, citations);
  const agreement = agreementViews(assessment.tests, citations);
  const fallRates = risk.fall_rates.map((rate) => ({ text: rateWords(rate), mark: citations.mark(rate) }));
  const factors = factorViews(risk.factors, citations);
  return {
    ...head,
    risk: view,
    check: assessment.notes,
    agreement,
    fallRates,
    factors,
    notAsked: risk.not_asked,
    sources: citations.list(),
    furtherSources: null,
    made: madeWords(assessment),
  };
}
