/** What a schema found wrong, in words for somebody who edits a table and has never heard of a schema. */
import type { z } from 'zod';

const TYPES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list ([..., ...] or lines that begin with -)',
  tuple: 'a pair of numbers, [low, high]',
  object: 'keys with values',
  record: 'keys with values',
  null: 'nothing (null)',
};

const typeInWords = (expected: string): string => TYPES[expected] ?? expected;

function tooSmall(issue: Extract<z.core.$ZodIssue, { code: 'too_small' }>): string {
  const { minimum, inclusive } = issue;
  if (issue.origin === 'string') return 'is empty: write it';
  if (issue.origin === 'array') return `needs at least ${minimum} ${minimum === 1 ? 'entry' : 'entries'}`;
  return inclusive === false ? `must be more than ${minimum}` : `must be at least ${minimum}`;
}

function tooBig(issue: Extract<z.core.$ZodIssue, { code: 'too_big' }>): string {
  if (issue.origin === 'array') return `may have at most ${issue.maximum} entries`;
  return issue.inclusive === false ? `must be less than ${issue.maximum}` : `must be at most ${issue.maximum}`;
}

/** The schema's own words where it has some (written with the pattern), else what was expected here. */
function byCode(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${typeInWords(issue.expected)}`;
    case 'invalid_value':
      return `must be ${issue.values.length === 1 ? '' : 'one of '}${issue.values.map(String).join(', ')}`;
    case 'unrecognized_keys':
      return `no such key here: ${issue.keys.join(', ')}`;
    case 'too_small':
      return tooSmall(issue);
    case 'too_big':
      return tooBig(issue);
    case 'invalid_format':
      return issue.message.startsWith('Invalid') ? 'is not written in the form needed here' : `must be ${issue.message}`;
    case 'invalid_key':
      return 'this key is not written in the form needed here';
    default:
      return issue.message;
  }
}

/** `found` is what stands at the place: nothing at all, a key with no value, or a value. */
export function issueInWords(issue: z.core.$ZodIssue, found: 'missing' | 'empty' | 'value'): string {
  if (issue.code === 'unrecognized_keys') return byCode(issue);
  if (found === 'missing')
    return issue.code === 'invalid_type'
      ? `is missing; ${byCode(issue)}`
      : `is missing; ${byCode(issue).replace(/^is empty: /, '')}`;
  if (found === 'empty' && issue.code !== 'custom')
    return issue.code === 'invalid_type' ? `is empty; ${byCode(issue)}` : `is empty: ${byCode(issue)}`;
  return byCode(issue);
}
