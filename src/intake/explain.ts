/** One mistyped value -> what is wrong with it and what to write instead. */

import { ANSWERS, type Leaf } from '../session-keys.ts';
import { parseDate } from './dates.ts';
import { nearest } from './near.ts';
import { type Explanation, explainNumber } from './numbers.ts';
import { shown } from './problems.ts';

/** `Yes` and `YES` are what a telephone or a tired hand types. */
export const ANSWER_WORDS: readonly string[] = ANSWERS.flatMap((word) => [
  word,
  `${word.charAt(0).toUpperCase()}${word.slice(1)}`,
  word.toUpperCase(),
]);

/** `138/78`: systolic over diastolic in mmHg. */
export const PRESSURE = /^\d{2,3}\/\d{2,3}$/;
/** `88-92`: lower and upper end in per cent. */
export const RANGE = /^(\d{2,3}) ?[-–] ?(\d{2,3})$/;
/** Two capital letters, as ISO 3166 has them. */
export const COUNTRY = /^[A-Z]{2}$/;
/** Not blank, and nothing in it that a terminal would obey. */
export const TEXT = {
  pattern: /^(?=[\s\S]*\S)[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]*$/,
  longest: 500,
  longestReference: 80,
} as const;

const isText = (value: unknown, longest: number): boolean =>
  typeof value === 'string' && value.length <= longest && TEXT.pattern.test(value);

/** Whether `value` is of the kind that `leaf` wants. Lists and mappings are judged entry by entry elsewhere. */
export function fits(leaf: Leaf, value: unknown): boolean {
  switch (leaf.kind) {
    case 'answer':
    case 'steroid':
      return typeof value === 'boolean' || (typeof value === 'string' && ANSWER_WORDS.includes(value));
    case 'choice':
      return typeof value === 'string' && leaf.options.includes(value);
    case 'number':
    case 'numbers':
      return Number.isFinite(value);
    case 'falls':
      return Number.isFinite(value) || value === 'several';
    case 'pressure':
      return typeof value === 'string' && PRESSURE.test(value);
    case 'event':
      return fits({ kind: 'answer' }, value) || fits({ kind: 'date' }, value);
    case 'range':
      return Number.isFinite(value) || (typeof value === 'string' && RANGE.test(value));
    case 'date':
      return typeof value === 'string' && parseDate(value) !== null;
    case 'country':
      return typeof value === 'string' && COUNTRY.test(value);
    case 'format':
      return value === 1;
    case 'text':
    case 'texts':
      return isText(value, TEXT.longest);
    case 'reference':
      return Number.isFinite(value) || isText(value, TEXT.longestReference);
  }
}

function explainChoice(value: unknown, options: readonly string[]): Explanation {
  const said = typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
  const suggestion = typeof said === 'string' ? nearest(said, options) : undefined;
  return {
    code: 'not_a_choice',
    message: `\`${shown(value)}\` cannot stand here`,
    hint: suggestion === undefined ? `write ${options.join(' or ')} instead` : `write ${suggestion} instead`,
  };
}

function explainAnswer(value: unknown): Explanation {
  const suggestion = typeof value === 'string' ? nearest(value, ANSWERS) : undefined;
  const instead = suggestion ?? 'yes, no or unknown';
  return { code: 'not_yes_no', message: `\`${shown(value)}\` is not yes, no or unknown`, hint: `write ${instead} instead` };
}

function explainText(value: unknown, longest: number): Explanation {
  const tooLong = typeof value === 'string' && value.length > longest;
  return {
    code: 'bad_text',
    message: tooLong ? `the text is longer than ${longest} characters` : `\`${shown(value)}\` is not a short text`,
    hint: tooLong ? 'write it shorter' : 'write a few words, in quotes where they contain : or #',
  };
}

/** Why `value` cannot stand at a key that wants `leaf`; `name` is the key. */
export function explainLeaf(leaf: Leaf, value: unknown, name: string): Explanation {
  switch (leaf.kind) {
    case 'answer':
    case 'steroid': {
      const answer = explainAnswer(value);
      return leaf.kind === 'steroid'
        ? { ...answer, hint: 'write yes, no, unknown or {daily_mg: 7.5, months: 14} instead' }
        : answer;
    }
    case 'event':
      return { ...explainAnswer(value), hint: 'write yes, no, unknown or the day, such as 2026-05-11, instead' };
    case 'range':
      return {
        code: 'not_a_number',
        message: `\`${shown(value)}\` is not a range of saturation`,
        hint: 'write the lower and the upper end, such as 88-92, or the lower end alone, instead',
      };
    case 'choice':
      return explainChoice(value, leaf.options);
    case 'number':
    case 'numbers':
      if (typeof value === 'string') return explainNumber(value);
      return {
        code: 'not_a_number',
        message: `\`${shown(value)}\` is not a number`,
        hint: `write one number for ${name} instead`,
      };
    case 'falls':
      if (typeof value === 'string' && nearest(value, ['several']) === undefined) {
        const explanation = explainNumber(value);
        return { ...explanation, hint: 'write the number of falls, or several for two or more, instead' };
      }
      return {
        code: 'not_a_number',
        message: `\`${shown(value)}\` is not a number of falls`,
        hint: 'write a number such as 0, or several for two or more, instead',
      };
    case 'pressure':
      return {
        code: 'bad_pressure',
        message: `\`${shown(value)}\` is not a blood pressure`,
        hint: 'write systolic/diastolic, such as 138/78, instead',
      };
    case 'date':
      return {
        code: 'bad_date',
        message: `\`${shown(value)}\` is not a date that exists, written year-month-day`,
        hint: 'write it like 2026-05-11 instead',
      };
    case 'country':
      return {
        code: 'not_a_choice',
        message: `\`${shown(value)}\` is not a country code`,
        hint: 'write two capital letters, such as AU, instead',
      };
    case 'format':
      return { code: 'wrong_format', message: `format ${shown(value)} is not known`, hint: 'write format: 1 instead' };
    case 'text':
    case 'texts':
      return explainText(value, TEXT.longest);
    case 'reference':
      return explainText(value, TEXT.longestReference);
  }
}
