/** Numbers as people type them: what is a plain number, and what to say of `12,8`, `12.8 s`, `<5`, `30+`, `12:30` or `08`. */
import type { ProblemCode } from './problems.ts';
import { shown } from './problems.ts';

export interface Explanation {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string;
}

const PLAIN = /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/;
const DECIMAL_COMMA = /^-?\d+,\d+$/;
const BOUND = /^(?:[<>≤≥~≈±]|about |under |over )=?\s*(\d+(?:[.,]\d+)?)/i;
const PLUS = /^(\d+(?:[.,]\d+)?)\s*\+$/;
const RANGE = /^\d+(?:[.,]\d+)?\s*(?:-|–|to)\s*\d+(?:[.,]\d+)?$/i;
const CLOCK = /^(\d{1,3}):([0-5]\d)(?:[.,](\d+))?$/;
const EXPONENT = /^-?\d+(?:[.,]\d+)?e[+-]?\d+$/i;
const WITH_UNIT = /^(-?\d+(?:[.,]\d+)?)\s*[a-z%°"'/µ][^\d]*\d*$/i;

/** A plain decimal number, as a session file and a CSV cell want it. */
export function isPlainNumber(text: string): boolean {
  return PLAIN.test(text);
}

/** Why `text` is no plain number, and what to write instead. Call it only where `isPlainNumber` says no, or for a quoted number. */
export function explainNumber(text: string): Explanation {
  const typed = text.trim();
  const quoted = `\`${shown(typed)}\``;
  if (isPlainNumber(typed))
    return { code: 'quoted_number', message: `${quoted} stands in quotes`, hint: `write ${typed} without quotes` };
  if (DECIMAL_COMMA.test(typed))
    return {
      code: 'decimal_comma',
      message: `${quoted} has a decimal comma`,
      hint: `write ${typed.replace(',', '.')} with a point instead`,
    };
  const stopped = PLUS.exec(typed)?.[1];
  if (stopped !== undefined)
    return {
      code: 'inexact_number',
      message: `${quoted} is "at least", not a number`,
      hint: `write the number measured; where the watch was stopped there, write {value: ${stopped.replace(',', '.')}, ceiling: ${stopped.replace(',', '.')}} instead`,
    };
  if (BOUND.test(typed) || RANGE.test(typed))
    return {
      code: 'inexact_number',
      message: `${quoted} is a bound or a range, not a number`,
      hint: 'write the number measured, or leave the line out where there is none',
    };
  const clock = CLOCK.exec(typed);
  if (clock !== null) {
    const seconds = Number(clock[1]) * 60 + Number(`${clock[2]}.${clock[3] ?? 0}`);
    return {
      code: 'clock_time',
      message: `${quoted} has a colon`,
      hint: `write ${seconds} for minutes and seconds, or a point for the decimals, instead`,
    };
  }
  if (EXPONENT.test(typed))
    return {
      code: 'not_a_number',
      message: `${quoted} is not a plain number`,
      hint: `write ${Number(typed.replace(',', '.'))} instead`,
    };
  const number = WITH_UNIT.exec(typed)?.[1];
  if (number !== undefined)
    return {
      code: 'unit_in_number',
      message: `${quoted} has more than the number in it`,
      hint: `write ${number.replace(',', '.')} instead`,
    };
  return { code: 'not_a_number', message: `${quoted} is not a number`, hint: 'write a number such as 12.8 instead' };
}

/** A number the YAML reader accepted in a form that people read differently: `08`, `1e3`, `0x1F`, `.5`, `.inf`. */
export function explainNumberFormat(source: string, value: number): Explanation {
  const hint = Number.isFinite(value) ? `write ${value} instead` : 'write the number measured instead';
  return { code: 'number_format', message: `\`${shown(source)}\` may be read in more than one way`, hint };
}
