/** How results, changes and verdicts read. */
import type { Compared, CrossedMark, OtherError, ResultAt, TestChange, Verdict } from '../../change/types.ts';
import { dateWords, plainNumber, unitWords, valueWithUnit } from '../view/numbers.ts';
import { bandWords, plainId } from '../view/words.ts';

export const VERDICT_ORDER: readonly Verdict[] = ['worsened', 'improved', 'within_error', 'cannot_tell'];

const VERDICTS: Readonly<Record<Verdict, string>> = {
  improved: 'better, by more than error',
  worsened: 'worse, by more than error',
  within_error: 'within error',
  cannot_tell: 'cannot be told',
};
export const verdictWords = (verdict: Verdict): string => VERDICTS[verdict];

const HEADINGS: Readonly<Record<Verdict, string>> = {
  improved: 'Better, by more than measurement error',
  worsened: 'Worse, by more than measurement error',
  within_error: 'Within measurement error (may be chance)',
  cannot_tell: 'Cannot be told',
};
export const verdictHeading = (verdict: Verdict): string => HEADINGS[verdict];

export const labelOf = ({ name, side }: Pick<TestChange, 'name' | 'side'>): string => (side === null ? name : `${name}, ${side}`);

/** "12.8 s", "at least 30 s", "unable", "not recorded". */
export function resultWords(result: ResultAt, unit: string): string {
  if (result.value !== null) {
    const aid = result.aid === null || result.aid === 'none' ? '' : ` (${result.aid})`;
    return `${result.at_least ? 'at least ' : ''}${valueWithUnit(result.value, unit)}${aid}`;
  }
  if (result.outcome === 'not_recorded') return 'not recorded';
  if (result.outcome === 'unsafe') return 'stopped as unsafe';
  return plainId(result.outcome);
}

/** "1.4 s better"; for a stopped watch "at least 18 s better". A per cent is a difference of points. */
export function changeWords(compared: Compared, unit: string): string {
  const { change, change_bound: bound, direction } = compared;
  if (direction === null) return 'nothing to compare';
  if (change === null) return direction === 'same' ? 'unable both times' : direction;
  if (direction === 'same') return bound === 'exact' ? 'same' : 'both stopped at the ceiling';
  const size = Math.abs(change);
  const amount =
    unit === '%' ? `${plainNumber(size)} percentage points` : `${plainNumber(size, unit)} ${unitWords(unit, size)}`.trim();
  const grows = bound === 'at_least' ? change > 0 : bound === 'at_most' ? change < 0 : false;
  return bound === 'exact'
    ? `${amount} ${direction}`
    : grows
      ? `at least ${amount} ${direction}`
      : `${amount} ${direction} as far as the watch ran`;
}

/** "percentile 18 to 35 of women 70-74", or the standings; null where neither visit is placed. */
export function standingWords({ before_result: before, after_result: after }: TestChange): string | null {
  const one = (result: ResultAt): string | null => {
    if (result.standing === null || result.band === null) return null;
    return `${result.standing === 'expected' ? 'usual' : result.standing === 'above' ? 'better than usual' : `${plainId(result.standing)} what is usual`} among ${bandWords(result.band)}`;
  };
  const [first, last] = [one(before), one(after)];
  if (first === null && last === null) return null;
  if (first === last) return `${last} at both visits`;
  return `before: ${first ?? 'not placed'}; now: ${last ?? 'not placed'}`;
}

/** First letter small, so that a name can stand inside a sentence; "COPD" keeps its capitals. */
export const inSentence = (name: string): string =>
  /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;

export function crossedWords(mark: CrossedMark): string {
  const way = mark.way === 'into' ? 'now meets' : 'no longer meets';
  const near = mark.near === true ? '; the result lies within the measurement error of the mark' : '';
  return `${way} "${mark.rule}" (${inSentence(mark.outcome)}${near})`;
}

export const errorWords = (error: { mdc95: number; population: string; interval: string | null }, unit: string): string =>
  `smallest real change ${valueWithUnit(error.mdc95, unit)} (${[error.population, error.interval].filter((part) => part !== null).join('; ')})`;

export function otherErrorWords(error: OtherError, unit: string, verdict: Verdict): string {
  const would = error.verdict === verdict ? 'the same verdict' : `the verdict would be "${verdictWords(error.verdict)}"`;
  const whose = error.concerns_client ? '' : '; other people than this client';
  return `${valueWithUnit(error.mdc95, unit)} (${[error.population, error.interval].filter((part) => part !== null).join('; ')}${whose}): ${would}`;
}

export function mattersWords({ matters, important, other_important, unit, change }: TestChange): string {
  if (important === null) {
    const others = other_important.map((other) => `${rangeWords(other, unit)} in ${other.population}`);
    return others.length === 0
      ? 'how large a change matters is not published'
      : `how large a change matters is published only for other people: ${others.join('; ')}`;
  }
  const whose = `${rangeWords(important, unit)}; ${important.population}${important.concerns_client ? '' : ', other people than this client'}`;
  if (matters === 'yes') return `reaches what matters to patients on average (${whose})`;
  if (matters === 'no') return `does not reach what matters to patients on average (${whose})`;
  return change === null
    ? `no number to hold against what matters to patients (${whose})`
    : `whether it reaches what matters cannot be said (${whose})`;
}

export const rangeWords = ({ least, most }: { least: number; most: number }, unit: string): string =>
  least === most ? valueWithUnit(most, unit) : `${plainNumber(least, unit)} to ${valueWithUnit(most, unit)}`;

/** "since 2 March 2026: 1.2 s better, within error". */
export const comparedWords = (compared: Compared, unit: string, what: string): string =>
  `${what} (${dateWords(compared.from)}): ${changeWords(compared, unit)}, ${verdictWords(compared.verdict)}`;

const DAYS_PER_WEEK = 7;

/** "3 days", "14 weeks". */
export function spanWords(days: number): string {
  if (days < 2 * DAYS_PER_WEEK) return days === 1 ? '1 day' : `${days} days`;
  return `${Math.round(days / DAYS_PER_WEEK)} weeks`;
}
