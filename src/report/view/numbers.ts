/** How numbers and dates read: rounding for people in one place, so that no format rounds on its own. */
import type { Comparison } from '../../assessment.ts';

/** Rounds for reading; a number that is none is a fault of the program and must not reach a report. */
export function roundFor(value: number, decimals: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  const factor = 10 ** decimals;
  const rounded = Math.round((value + Number.EPSILON * Math.sign(value)) * factor) / factor;
  return rounded === 0 ? 0 : rounded;
}

/** Decimals shown at most, by UCUM unit: walking speeds differ in the third, other results not in a way anybody can time. */
const DECIMALS: Readonly<Record<string, number>> = { 'm/s': 3 };

/** As entered where that has two decimals or fewer (three for speeds); no trailing zeros are added. */
export const plainNumber = (value: number, unit = ''): string => String(roundFor(value, DECIMALS[unit] ?? 2));

interface UnitWords {
  readonly one: string;
  readonly many: string;
}

/** From UCUM codes to what people read after the number. */
const UNIT_WORDS: Readonly<Record<string, UnitWords>> = {
  '{#}/(30.s)': { one: 'stand', many: 'stands' },
  '{repetitions}': { one: 'repetition', many: 'repetitions' },
  '{steps}': { one: 'step', many: 'steps' },
  '{stage}': { one: 'stage', many: 'stages' },
  '{score}': { one: 'point', many: 'points' },
  kgf: { one: 'kg', many: 'kg' },
};

export function unitWords(unit: string, value: number): string {
  const words = UNIT_WORDS[unit];
  if (words !== undefined) return value === 1 ? words.one : words.many;
  return unit.replace(/[{}]/g, '');
}

/** "12.8 s", "9 stands". */
export const valueWithUnit = (value: number, unit: string): string =>
  `${plainNumber(value, unit)} ${unitWords(unit, value)}`.trim();

export function ordinal(value: number): string {
  const lastTwo = value % 100;
  const last = value % 10;
  if (lastTwo >= 11 && lastTwo <= 13) return `${value}th`;
  return `${value}${last === 1 ? 'st' : last === 2 ? 'nd' : last === 3 ? 'rd' : 'th'}`;
}

/**
 * "about the 18th percentile", "at most the 5th percentile", "at least the 75th percentile". A bound is rounded away from
 * the claim (up for at most, down for at least) so that the words never promise more than the table. null where there is none.
 */
export function percentileWords({ percentile, percentile_bound: bound, approximate }: Comparison): string | null {
  if (percentile === null) return null;
  const mark = approximate ? ' (approximate)' : '';
  if (bound === 'at_most') {
    const upper = Math.ceil(roundFor(percentile, 1));
    return upper >= 100 ? 'below the best published mark' : `at most the ${ordinal(Math.max(1, upper))} percentile${mark}`;
  }
  if (bound === 'at_least') {
    const lower = Math.floor(roundFor(percentile, 1));
    return lower < 1 ? 'above the worst published mark' : `at least the ${ordinal(lower)} percentile${mark}`;
  }
  if (percentile < 1) return `below the 1st percentile${mark}`;
  if (percentile > 99) return `above the 99th percentile${mark}`;
  return `about the ${ordinal(Math.round(percentile))} percentile${mark}`;
}

/** "18.3 %", for the basis, where the reader redoes the sum. */
export const exactPercentile = ({ percentile, percentile_bound: bound }: Comparison): string | null =>
  percentile === null
    ? null
    : `percentile ${bound === 'at_most' ? 'at most ' : bound === 'at_least' ? 'at least ' : ''}${roundFor(percentile, 1)}`;

/** A probability of 0 to 1 as whole per cent. */
export const wholePercent = (probability: number): string => `${roundFor(probability * 100, 0)} %`;

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** "11 May 2026" from an ISO date; any other text is shown as it stands. */
export function dateWords(iso: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  const month = MONTHS[Number(parts?.[2] ?? 0) - 1];
  return parts === null || month === undefined ? iso : `${Number(parts[3])} ${month} ${parts[1]}`;
}

/** The day this many days after an ISO date, in words; null where the date cannot be read. */
export function dayAfter(iso: string, days: number): string | null {
  const start = Date.parse(`${iso}T00:00:00Z`);
  return Number.isNaN(start) ? null : dateWords(new Date(start + days * 86_400_000).toISOString().slice(0, 10));
}
