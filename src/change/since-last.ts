/**
 * Falls since the last visit. A question about the past year, asked again after three months, counts the same falls twice:
 * what is new comes from `since_last`, never from subtracting two answers about the past year.
 */
import type { Session } from '../session.ts';
import { daysBetween } from './days.ts';
import type { SinceLast } from './types.ts';

const DAYS_OF_A_YEAR = 365;
const SEVERAL = 'several';

const numberOf = (session: Session, field: string): number | null => {
  const value = session.fields[field];
  return typeof value === 'number' ? value : null;
};
const wordOf = (session: Session, field: string): string | null => {
  const value = session.fields[field];
  return typeof value === 'string' ? value : null;
};

/** null where nothing of it is recorded. */
export function sinceLastOf(session: Session): SinceLast | null {
  const found: SinceLast = {
    falls: numberOf(session, 'since_last.falls'),
    injury: wordOf(session, 'since_last.injury'),
    exacerbation: wordOf(session, 'since_last.exacerbation'),
    adverse_events: numberOf(session, 'since_last.adverse_events'),
    sessions_done: numberOf(session, 'since_last.sessions_done'),
  };
  return Object.values(found).every((value) => value === null) ? null : found;
}

const coversWholeYear = (earlier: Session, later: Session): boolean =>
  daysBetween(earlier.assessed, later.assessed) >= DAYS_OF_A_YEAR;

/**
 * The later visit as if only falls since the earlier one had happened, to tell whether its level rests on falls already
 * counted. null where falls since then are not recorded, or the visits are a year or more apart (then none is counted twice).
 */
export function onNewFallsOnly(earlier: Session, later: Session): Session | null {
  const since = sinceLastOf(later);
  const past = later.fields['history.falls_past_year'];
  if (since === null || since.falls === null || past === undefined || coversWholeYear(earlier, later)) return null;
  const { 'history.falls_past_year_text': _several, 'history.fall_injury': _injury, ...fields } = later.fields;
  const injury = since.falls === 0 ? 'no' : since.injury;
  const none = since.falls === 0 ? { 'history.unable_to_rise': 'no', 'history.unexplained_fall': 'no' } : {};
  return {
    ...later,
    fields: {
      ...fields,
      ...none,
      'history.falls_past_year': since.falls,
      ...(injury === null ? {} : { 'history.fall_injury': injury }),
    },
  };
}

function fallsWords(count: number, session: Session, field: string): string {
  if (session.fields[`${field}_text`] === SEVERAL) return 'several falls';
  return count === 0 ? 'no fall' : count === 1 ? '1 fall' : `${count} falls`;
}

/** One sentence on falls, which never subtracts two answers about the past year. */
export function fallsInWords(earlier: Session, later: Session): string {
  const since = numberOf(later, 'since_last.falls');
  const past = numberOf(later, 'history.falls_past_year');
  if (since !== null) {
    const injury = later.fields['since_last.injury'] === 'yes' ? ', with an injury' : '';
    const words = `${fallsWords(since, later, 'since_last.falls')} since the last visit${injury}`;
    if (past !== null && past < since && !coversWholeYear(earlier, later))
      return `${words}; but only ${fallsWords(past, later, 'history.falls_past_year')} in the past year: one of the two cannot be right`;
    return past === null && since > 0
      ? `${words}; falls of the past year are not recorded, so the pathway does not count them: record them`
      : words;
  }
  if (past === null) return 'falls since the last visit not recorded';
  const recorded = `${fallsWords(past, later, 'history.falls_past_year')} in the past year`;
  return past === 0 || coversWholeYear(earlier, later)
    ? recorded
    : `${recorded}; which of them happened since the last visit is not recorded (since_last: {falls: ...}), so old falls may be counted again`;
}
