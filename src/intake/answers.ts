/** Small readings that several parts of the intake share. */
import type { Answer } from '../session.ts';
import type { Finding, Path } from './problems.ts';

/** yes, no and unknown in any case, true and false; undefined for anything else. */
export function answerOf(value: unknown): Answer | undefined {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const word = typeof value === 'string' ? value.toLowerCase() : undefined;
  return word === 'yes' || word === 'no' || word === 'unknown' ? word : undefined;
}

/** A day (ISO date) after today where only past days make sense. */
export const futureDay = (day: string, today: string, path: Path): Finding => ({
  code: 'future_date',
  path,
  at: 'value',
  message: `${day} lies in the future (today is ${today})`,
  hint: 'write the day on which it happened',
});
