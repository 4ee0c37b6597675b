/** Country codes on the command line and in settings. */
import { CannotStart } from './io.ts';

/** Two letters, in capitals; undefined where none was asked for. @throws CannotStart when it is not the code of a country. */
export function countryCode(given: string | undefined): string | undefined {
  if (given === undefined) return undefined;
  const code = given.trim().toUpperCase();
  const name = /^[A-Z]{2}$/.test(code) ? new Intl.DisplayNames('en', { type: 'region', fallback: 'none' }).of(code) : undefined;
  if (name === undefined || ['ZZ', 'XA', 'XB', 'EU', 'UN', 'QO', 'UK'].includes(code))
    throw new CannotStart(
      `"${given}" is not the two-letter code of a country (ISO 3166)${code === 'UK' ? '; the United Kingdom is GB' : ', such as NO, ES or US'}`,
    );
  return code;
}
