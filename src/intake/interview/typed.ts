/** What a person types at a prompt -> the value as it stands in a visit file, or what to type instead. */
import { ANSWERS, type Leaf } from '../../session-keys.ts';
import { explainLeaf } from '../explain.ts';
import { explainNumber, isPlainNumber } from '../numbers.ts';

export type Typed = { readonly value: unknown } | { readonly problem: string };

export const numberTyped = (text: string): Typed => {
  if (isPlainNumber(text)) return { value: Number(text) };
  const { message, hint } = explainNumber(text);
  return { problem: `${message}; ${hint}` };
};

/** The option that the letters begin: `f` is female, `c` copd. A beginning that fits several is no answer. */
function beginning(text: string, options: readonly string[]): string | undefined {
  const word = text.toLowerCase();
  if (options.includes(word)) return word;
  const fitting = options.filter((option) => option.startsWith(word));
  return fitting.length === 1 ? fitting[0] : undefined;
}

/** `7.5 14`, `7.5 mg 14 months`: daily dose and months. */
const DOSE = /^(\d+(?:\.\d+)?)\s*(?:mg)?[\s,;]+(\d+(?:\.\d+)?)\s*(?:months?|m)?$/i;

/** `5 years ago` and the like are no dates; `t` is today. */
function dateTyped(text: string, today: string): Typed {
  if (/^t(oday)?$/i.test(text)) return { value: today };
  return /^\d{4}-\d{2}-\d{2}$/.test(text)
    ? { value: text }
    : { problem: `${text} is not a date written year-month-day; write it like 2026-05-11 (t is today)` };
}

function inWords(leaf: Leaf, text: string): Typed {
  const { message, hint } = explainLeaf(leaf, text, 'this');
  return { problem: `${message}; ${hint}` };
}

/** `text` is not empty and has no blanks at its ends. */
export function leafTyped(leaf: Leaf, text: string, today: string): Typed {
  switch (leaf.kind) {
    case 'answer': {
      const word = beginning(text, ANSWERS);
      return word === undefined ? { problem: `${text} is not an answer; type y, n or u (unknown)` } : { value: word };
    }
    case 'choice': {
      const word = beginning(text, leaf.options);
      return word === undefined
        ? { problem: `${text} is none of ${leaf.options.join(', ')}; the first letters are enough` }
        : { value: word };
    }
    case 'number':
    case 'numbers':
      return numberTyped(text);
    case 'falls':
      return /^s(everal)?$/i.test(text) ? { value: 'several' } : numberTyped(text);
    case 'steroid': {
      const dose = DOSE.exec(text);
      if (dose !== null) return { value: { daily_mg: Number(dose[1]), months: Number(dose[2]) } };
      const word = beginning(text, ANSWERS);
      return word === undefined
        ? { problem: `${text}: type n, u, y, or the daily dose in mg and the months taken, such as 7.5 14` }
        : { value: word };
    }
    case 'event': {
      const word = beginning(text, ANSWERS);
      return word === undefined ? dateTyped(text, today) : { value: word };
    }
    case 'date':
      return dateTyped(text, today);
    case 'pressure': {
      const pressure = /^(\d{2,3})\s*(?:\/|\s|over)\s*(\d{2,3})$/.exec(text);
      return pressure === null ? inWords(leaf, text) : { value: `${pressure[1]}/${pressure[2]}` };
    }
    case 'country':
      return { value: text.toUpperCase() };
    case 'range':
    case 'text':
    case 'texts':
    case 'reference':
      return { value: text };
    case 'format':
      return { value: 1 };
  }
}

const OUTCOME = /^(unable|declined|unsafe)\b[\s:,-]*(.*)$/i;
const DANGERS = ['balance', 'medical', 'other'] as const;

function outcomeTyped(outcome: string, rest: string): Typed {
  if (outcome !== 'unsafe')
    return rest === ''
      ? {
          problem: `write the reason behind it, such as: ${outcome} ${outcome === 'unable' ? 'could not rise without arms' : 'sore wrist'}`,
        }
      : { value: { [outcome]: rest } };
  const why = DANGERS.find((danger) => new RegExp(`^${danger}\\b`, 'i').test(rest));
  const reason = why === undefined ? '' : rest.slice(why.length).replace(/^[\s:,-]+/, '');
  return why === undefined || reason === ''
    ? {
        problem:
          'write what the danger was and what happened, such as: unsafe balance had to be caught (balance, medical or other)',
      }
    : { value: { unsafe: reason, why } };
}

/** A number, several trials apart by blanks, or an outcome with its reason. */
export function resultTyped(text: string): Typed {
  const outcome = OUTCOME.exec(text);
  if (outcome !== null) return outcomeTyped((outcome[1] ?? '').toLowerCase(), (outcome[2] ?? '').trim());
  const trials = text.split(/\s+/).map(numberTyped);
  const problem = trials.find((trial) => 'problem' in trial);
  if (problem !== undefined) return problem;
  const values = trials.map((trial) => ('value' in trial ? trial.value : null));
  return { value: values.length === 1 ? values[0] : values };
}
