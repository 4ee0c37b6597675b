/** Calendar dates as year, month and day. No Date object is used: a time zone could move a birthday. */

export interface CalendarDate {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
}

const ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function isLeapYear(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

/** `2026-05-11` as a date; null where it is written otherwise or no such day exists (30 February). */
export function parseDate(text: string): CalendarDate | null {
  const match = ISO_DATE.exec(text);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const days = DAYS_IN_MONTH[month - 1];
  if (days === undefined) return null;
  const last = month === 2 && isLeapYear(year) ? days + 1 : days;
  return day >= 1 && day <= last ? { year, month, day } : null;
}

/**
 * Completed years from `born` to `on`; negative where `on` comes first. Someone born on 29 February completes the year
 * on 1 March of a year without that day.
 */
export function completedYears(born: CalendarDate, on: CalendarDate): number {
  const reached = on.month > born.month || (on.month === born.month && on.day >= born.day);
  return on.year - born.year - (reached ? 0 : 1);
}
