/** Whole days between calendar dates, without time zones. */
const MS_PER_DAY = 86_400_000;

function dayNumber(iso: string): number {
  const start = Date.parse(`${iso}T00:00:00Z`);
  if (Number.isNaN(start)) throw new RangeError(`not a date: ${iso}`);
  return start / MS_PER_DAY;
}

/** Negative where `to` comes first. Throws RangeError where one is no date that exists. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** The date `days` after `iso`. */
export const dayLater = (iso: string, days: number): string =>
  new Date((dayNumber(iso) + days) * MS_PER_DAY).toISOString().slice(0, 10);
