/** One Observation a result: the number as entered, where it lies, which row was used, the trials, the marks that count. */
import type { Comparison, CutPointResult, TestResult } from '../../assessment.ts';
import { roundFor } from '../view/numbers.ts';
import type { Picture } from '../view/pictures.ts';
import { countingMarks, isNotTested, isUnable, primaryOf, standingWords } from '../view/standing.ts';
import { labelOf } from '../view/tests.ts';
import { bandWords, statusWords } from '../view/words.ts';
import { absentBecause, categoryOf, codeOf, type InterpretationCode, interpretationOf, localCode, UCUM } from './codes.ts';
import type { CodeableConcept, Observation, ObservationComponent, ObservationReferenceRange, Quantity, Reference } from './r4.ts';

export interface About {
  readonly subject: Reference;
  readonly date: string;
}

export const quantity = (value: number, code: string, unit = code.replace(/[{}]/g, '')): Quantity => ({
  value,
  unit,
  system: UCUM,
  code,
});

const QUESTIONNAIRES = new Set(['balance_confidence', 'falls_efficacy_short']);
const ONE_LEG = 'single_leg_stance_eyes_open';

/** The code of the first held stance only stands for that: one trial, the watch stopped no earlier than its protocol says. */
function loincKey(test: TestResult): string {
  if (test.test === ONE_LEG && test.trials.length === 1) return 'single_trial_leg_stance';
  return test.side === null ? test.test : `${test.test} ${test.side}`;
}

/** The end of the middle half on the worse side: the 25th percentile of performance. */
function worseEnd(picture: Picture | undefined): number | null {
  const used = picture?.tables.find((table) => table.primary);
  if (picture === undefined || used === undefined) return null;
  return picture.better === 'higher' ? used.middleHalf[0] : used.middleHalf[1];
}

const sourceWords = (comparison: Comparison): string =>
  [`${comparison.source}, ${comparison.location}`, statusWords(comparison.status)].filter((part) => part !== null).join('; ');

/** One-sided: being better than the group is never out of range. The text says what the limit is, so that nobody reads it as normal. */
function referenceRange(test: TestResult, picture: Picture | undefined): ObservationReferenceRange[] {
  const primary = primaryOf(test);
  if (primary === null) return [];
  const limit = worseEnd(picture);
  const { sex, age_min: from, age_max: to } = primary.band;
  const about = {
    ...(sex === 'all' ? {} : { appliesTo: [{ text: sex }] }),
    ...(from === null && to === null
      ? {}
      : { age: { ...(from === null ? {} : { low: quantity(from, 'a') }), ...(to === null ? {} : { high: quantity(to, 'a') }) } }),
  };
  const who = `${bandWords(primary.band)}; ${sourceWords(primary)}`;
  if (limit === null) return [{ text: `No limit can be given: ${primary.working.formula}. Row: ${who}`, ...about }];
  const end = quantity(limit, test.unit);
  return [
    {
      ...(picture?.better === 'higher' ? { low: end } : { high: end }),
      text: `25th percentile of performance of ${who}. Not a limit of normal.`,
      ...about,
    },
  ];
}

function direction(test: TestResult, picture: Picture | undefined): InterpretationCode | null {
  const standing = primaryOf(test)?.standing ?? null;
  if (isUnable(test) || test.value === null) return null;
  if (standing === null) return test.comparisons.length > 0 && primaryOf(test) !== null ? 'IND' : null;
  if (standing === 'expected' || standing === 'above') return 'N';
  return picture?.better === 'lower' ? 'H' : 'L';
}

/** Inside the measurement error of a mark nothing is said. */
function threshold(cuts: readonly CutPointResult[]): InterpretationCode | null {
  if (cuts.some((cut) => cut.met === true)) return 'POS';
  return cuts.length > 0 && cuts.every((cut) => cut.met === false && cut.near !== true) ? 'NEG' : null;
}

function interpretation(test: TestResult, picture: Picture | undefined): CodeableConcept[] {
  if (isNotTested(test)) return [];
  const place = direction(test, picture);
  const mark = threshold(countingMarks(test));
  return [
    ...(place === null ? [] : [interpretationOf(place, standingWords(test))]),
    ...(test.at_least ? [interpretationOf('>', 'the watch was stopped at the ceiling: the procedure set the limit')] : []),
    ...(mark === null
      ? []
      : [
          interpretationOf(
            mark,
            mark === 'POS' ? 'meets a published mark linked with falls' : 'meets none of the marks linked with falls',
          ),
        ]),
  ];
}

function cutComponent(cut: CutPointResult): ObservationComponent {
  const code = localCode(`mark-${cut.source}-${cut.id}`, `${cut.rule} (${cut.outcome}; ${cut.source}, ${cut.location})`);
  if (cut.met === null) return { code, dataAbsentReason: absentBecause('unknown') };
  return {
    code,
    valueBoolean: cut.met,
    interpretation: [interpretationOf(cut.met ? 'POS' : 'NEG', cut.met ? 'met' : 'not met')],
  };
}

const BOUNDS = { exact: null, at_most: '<=', at_least: '>=' } as const;

function placeComponents(test: TestResult): ObservationComponent[] {
  const primary = primaryOf(test);
  if (primary === null || isUnable(test)) return [];
  const comparator = BOUNDS[primary.percentile_bound ?? 'exact'];
  return [
    ...(primary.percentile === null
      ? []
      : [
          {
            code: localCode('percentile-of-performance', 'Percentile of performance, higher is better'),
            valueQuantity: {
              ...quantity(roundFor(primary.percentile, 1), '{percentile}'),
              ...(comparator === null ? {} : { comparator }),
            },
          },
        ]),
    ...(primary.z === null
      ? []
      : [
          {
            code: localCode('z-of-performance', 'z of performance, positive is better'),
            valueQuantity: quantity(roundFor(primary.z, 2), '{z-score}'),
          },
        ]),
  ];
}

const trialComponents = (test: TestResult): ObservationComponent[] =>
  test.trials.length < 2
    ? []
    : test.trials.map((trial, index) => ({
        code: localCode(`trial-${index + 1}`, `Trial ${index + 1}`),
        valueQuantity: quantity(trial, test.unit),
      }));

function value(test: TestResult): Pick<Observation, 'valueQuantity' | 'dataAbsentReason'> {
  if (test.value === null || isNotTested(test) || isUnable(test))
    return { dataAbsentReason: absentBecause(test.outcome === 'declined' ? 'asked-declined' : 'not-performed') };
  return { valueQuantity: { ...quantity(test.value, test.unit), ...(test.at_least ? { comparator: '>=' } : {}) } };
}

function notes(test: TestResult): string[] {
  const primary = primaryOf(test);
  const error = test.measurement_error;
  return [
    ...(test.outcome === 'measured'
      ? []
      : [`${test.outcome === 'unsafe' ? 'stopped' : test.outcome}: ${test.reason ?? 'no reason given'}`]),
    isNotTested(test) ? 'Not tested today, so nothing is known.' : standingWords(test),
    ...(primary === null ? [] : [`Row used: ${primary.working.row}. ${primary.working.formula}.`, ...primary.mismatches]),
    ...(error === null || error.low === null || error.high === null || test.at_least
      ? []
      : [`With measurement error ${roundFor(error.low, 2)} to ${roundFor(error.high, 2)} (${error.source}, ${error.location}).`]),
    ...test.notes,
  ];
}

/** `picture` gives the raw value at the limit of the row used. */
export function testObservation(test: TestResult, picture: Picture | undefined, { subject, date }: About): Observation {
  const meanings = interpretation(test, picture);
  const components = isNotTested(test)
    ? []
    : [...placeComponents(test), ...trialComponents(test), ...countingMarks(test).map(cutComponent)];
  const ranges = isNotTested(test) ? [] : referenceRange(test, picture);
  return {
    resourceType: 'Observation',
    status: 'final',
    category: [categoryOf(QUESTIONNAIRES.has(test.test) ? 'survey' : 'exam')],
    code: codeOf(test.test, labelOf(test), loincKey(test)),
    subject,
    effectiveDateTime: date,
    ...value(test),
    ...(meanings.length === 0 ? {} : { interpretation: meanings }),
    note: notes(test).map((text) => ({ text })),
    ...(test.side === null ? {} : { bodySite: { text: `${test.side} side` } }),
    ...(ranges.length === 0 ? {} : { referenceRange: ranges }),
    ...(components.length === 0 ? {} : { component: components }),
  };
}
