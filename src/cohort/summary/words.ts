/** Counts, shares and results of the summary in words. */
import { highest, lowest } from './bands.ts';
import type { Count, Place, Spread } from './types.ts';

/** `12`, `5 or fewer`, `6 to 10`. */
export function countedInWords(count: Count): string {
  if (typeof count === 'number') return String(count);
  return count.from === 0 ? `${count.to} or fewer` : `${count.from} to ${count.to}`;
}

export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** From the least to the most that two bands allow. */
export function shareInWords(count: Count, total: Count): string {
  if (lowest(total) === 0) return '';
  const [least, most] = [percent(lowest(count) / highest(total)), percent(Math.min(1, highest(count) / lowest(total)))];
  return least === most ? least : `${least} to ${most}`;
}

export const decimal = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

const placeInWords = (place: Place, decimals: number): string => (place === 'unable' ? 'unable' : decimal(place, decimals));

export function spreadInWords(spread: Spread | null, unit: string, decimals: number): string {
  if (spread === null) return 'not shown';
  const { median, p25, p75 } = spread;
  const of = unit === '' || median === 'unable' ? '' : ` ${unit}`;
  const middle =
    p25 === null || p75 === null ? '' : `, middle half ${placeInWords(p25, decimals)} to ${placeInWords(p75, decimals)}`;
  return `median ${placeInWords(median, decimals)}${of}${middle}`;
}
