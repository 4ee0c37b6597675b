/** Rules, errors, ratios and rates of the collection in words, one item each. */
import type { Evidence } from '../../evidence/data.ts';
import type { Status } from '../../evidence/schema/common.ts';
import type { CutPoint, FallRate, LikelihoodRatio, MeasurementError } from '../../evidence/schema/numbers.ts';
import { statusWords } from '../view/words.ts';

/** A label and what stands beside it. */
export type Line = readonly [label: string, text: string];

/** A rule, an error, a ratio or a rate: one line of a list. */
export interface ItemSheet {
  readonly id: string;
  readonly source: string;
  readonly heading: string;
  readonly test: string | null;
  readonly lines: readonly Line[];
}

export const kept = (lines: readonly (readonly [string, string | number | null | undefined])[]): Line[] =>
  lines.flatMap(([label, text]) => (text === null || text === undefined || text === '' ? [] : [[label, String(text)] as const]));
const interval = (pair: readonly [number, number] | undefined): string =>
  pair === undefined ? '' : ` (${pair[0]} to ${pair[1]})`;
export const readAs = (status: Status): string => statusWords(status) ?? 'read in the paper itself';

interface Cited {
  readonly source: string;
  readonly location: string;
  readonly status: Status;
}

const citedLines = (cited: Cited): Line[] =>
  kept([
    ['Location', cited.location],
    ['Read', readAs(cited.status)],
  ]);

function cutSheet(cut: CutPoint): ItemSheet {
  const { accuracy } = cut;
  const who = [
    cut.sex === 'all' ? null : cut.sex,
    cut.age_min === null ? null : `from ${cut.age_min}`,
    cut.age_max === null ? null : `to ${cut.age_max}`,
  ];
  return {
    id: cut.id,
    source: cut.source,
    test: cut.test,
    heading: `Cut-point: ${cut.rule}`,
    lines: [
      ...kept([
        ['For', who.filter((each) => each !== null).join(', ')],
        ['Linked with', cut.outcome],
        ['Counts', `${cut.counts ? 'yes' : 'no'}: ${cut.counts_because}`],
        ['Sensitivity', accuracy?.sensitivity == null ? null : `${accuracy.sensitivity}${interval(accuracy.sensitivity_ci95)}`],
        ['Specificity', accuracy?.specificity == null ? null : `${accuracy.specificity}${interval(accuracy.specificity_ci95)}`],
        ['Area under the curve', accuracy?.auc],
        ['Odds ratio', accuracy?.odds_ratio === undefined ? null : `${accuracy.odds_ratio}${interval(accuracy.odds_ratio_ci95)}`],
        ['Rate ratio', accuracy?.rate_ratio === undefined ? null : `${accuracy.rate_ratio}${interval(accuracy.rate_ratio_ci95)}`],
        ['Population', cut.population.description],
        ['Note', cut.note],
      ]),
      ...citedLines(cut),
    ],
  };
}

function errorSheet(error: MeasurementError): ItemSheet {
  const byScore = error.by_score?.map((band) => `${band.min}-${band.max}: ${band.mdc95}`).join(', ');
  return {
    id: error.id,
    source: error.source,
    test: error.test,
    heading: 'Measurement error and important change',
    lines: [
      ...kept([
        ['Standard error', error.sem === undefined ? null : `${error.sem}${error.sem_converted ? ' (worked out here)' : ''}`],
        ['Smallest real change (95 %)', error.mdc95],
        ['Smallest real change (90 %)', error.mdc90],
        ['Smallest real change (level not said)', error.mdc_level_unstated],
        ['Smallest real change (%)', error.mdc_percent],
        ['By starting score', byScore],
        ['Intraclass correlation', error.icc],
        ['Important change', error.mcid],
        ['Important change, range', error.mcid_range?.join(' to ')],
        ['Substantial change', error.mcid_substantial],
        ['How', [error.method, error.mcid_method].filter((each) => each !== undefined).join('; ')],
        ['Interval', error.interval],
        ['Practice', error.practice],
        ['Population', error.population.description],
        ['Note', error.note],
      ]),
      ...citedLines(error),
    ],
  };
}

function ratioSheet(ratio: LikelihoodRatio): ItemSheet {
  const range = (pair: readonly [number, number] | undefined): string =>
    pair === undefined ? '' : ` (range of studies ${pair.join(' to ')})`;
  return {
    id: ratio.id,
    source: ratio.source,
    test: ratio.test ?? null,
    heading: `Likelihood ratios: ${ratio.finding}`,
    lines: [
      ...kept([
        ['Rule', ratio.rule],
        ['Positive', `${ratio.lr_positive}${interval(ratio.lr_positive_ci95)}${range(ratio.lr_positive_range)}`],
        [
          'Negative',
          ratio.lr_negative === undefined
            ? null
            : `${ratio.lr_negative}${interval(ratio.lr_negative_ci95)}${range(ratio.lr_negative_range)}`,
        ],
        ['Outcome', ratio.outcome],
        ['Population', ratio.population.description],
        ['Note', ratio.note],
      ]),
      ...citedLines(ratio),
    ],
  };
}

function rateSheet(rate: FallRate): ItemSheet {
  return {
    id: rate.id,
    source: rate.source,
    test: null,
    heading: `Fall rate: ${rate.outcome}`,
    lines: [
      ...kept([
        ['Share', rate.probability === undefined ? null : `${rate.probability}${interval(rate.probability_ci95)}`],
        ['Share, range', rate.probability_range?.join(' to ')],
        [
          'Per person and year',
          rate.rate_per_person_year === undefined ? null : `${rate.rate_per_person_year}${interval(rate.rate_ci95)}`,
        ],
        ['Population', rate.population.description],
        ['Note', rate.note],
      ]),
      ...citedLines(rate),
    ],
  };
}

/** Every item of the evidence that is no table, in the order of the files. */
export function itemSheets(evidence: Evidence): ItemSheet[] {
  return [
    ...evidence.cutPoints.map(cutSheet),
    ...evidence.errors.map(errorSheet),
    ...evidence.likelihoodRatios.map(ratioSheet),
    ...evidence.fallRates.map(rateSheet),
  ];
}
