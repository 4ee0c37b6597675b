/** One mistyped value -> what is wrong with it and what to write instead. */
import { ANSWERS, type Leaf } from './keys.ts';
import { nearest } from './near.ts';
import { type Diagnosis, diagnoseNumber } from './numbers.ts';
import { shown } from './problems.ts';

/** `138/78`: systolic over diastolic in mmHg. */
export const PRESSURE = /^\d{2,3}\/\d{2,3}$/;
/** Two capital letters, as ISO 3166 has them. */
export const COUNTRY = /^[A-Z]{2}$/;
/** Not blank, and nothing in it that a terminal would obey. */
export const TEXT = {
  pattern: /^(?=[\s\S]*\S)[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]*$/,
  longest: 500,
  longestReference: 80,
} as const;

function explainChoice(value: unknown, options: readonly string[]): Diagnosis {
  const said = typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
  const suggestion = typeof said === 'string' ? nearest(said, options) : undefined;
  return {
    code: 'not_a_choice',
    message: `\`${shown(value)}\` cannot stand here`,
    hint: suggestion === undefined ? `write ${options.join(' or ')} instead` : `write ${suggestion} instead`,
  };
}

function explainAnswer(value: unknown): Diagnosis {
  const suggestion = typeof value === 'string' ? nearest(value, ANSWERS) : undefined;
  const instead = suggestion ?? 'yes, no or unknown';
  return { code: 'not_yes_no', message: `\`${shown(value)}\` is not yes, no or unknown`, hint: `write ${instead} instead` };
}

function explainText(value: unknown, longest: number): Diagnosis {
  const tooLong = typeof value === 'string' && value.length > longest;
  return {
    code: 'bad_text',
    message: tooLong ? `the text is longer than ${longest} characters` : `\`${shown(value)}\` is not a short text`,
    hint: tooLong ? 'write it shorter' : 'write a few words, in quotes where they contain : or #',
  };
}

/** Why `value` cannot stand at a key that wants `leaf`; `name` is the key. */
export function explainLeaf(leaf: Leaf, value: unknown, name: string): Diagnosis {
  switch (leaf.kind) {
    case 'answer':
    case 'steroid': {
      const answer = explainAnswer(value);
      return leaf.kind === 'steroid'
        ? { ...answer, hint: 'write yes, no, unknown or {daily_mg: 7.5, months: 14} instead' }
        : answer;
    }
    case 'choice':
      return explainChoice(value, leaf.options);
    case 'number':
    case 'numbers':
      if (typeof value === 'string') return diagnoseNumber(value);
      return {
        code: 'not_a_number',
        message: `\`${shown(value)}\` is not a number`,
        hint: `write one number for ${name} instead`,
      };
    case 'falls':
      if (typeof value === 'string' && nearest(value, ['several']) === undefined) {
        const diagnosis = diagnoseNumber(value);
        return { ...diagnosis, hint: 'write the number of falls, or several for two or more, instead' };
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
      return explainText(value, TEXT.longest);
    case 'reference':
      return explainText(value, TEXT.longestReference);
  }
}
