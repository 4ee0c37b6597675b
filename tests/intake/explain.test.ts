/** What fits where a key wants a kind of value, and what anything else is told. */
import { describe, expect, it } from 'vitest';
import { explainLeaf, fits } from '../../src/intake/explain.ts';
import type { Leaf } from '../../src/session-keys.ts';

const choice: Leaf = { kind: 'choice', options: ['stick', 'frame', 'no'] };
const told = (leaf: Leaf, value: unknown, name = 'key') => {
  const { code, message, hint } = explainLeaf(leaf, value, name);
  return `${code}: ${message}; ${hint}`;
};

describe('fits', () => {
  const long = 'x'.repeat(501);
  it.each<[Leaf, readonly unknown[], readonly unknown[]]>([
    [
      { kind: 'answer' },
      [true, false, 'yes', 'Yes', 'YES', 'no', 'No', 'NO', 'unknown', 'Unknown', 'UNKNOWN'],
      ['yEs', 'y', 1, null, ''],
    ],
    [{ kind: 'steroid' }, [true, 'no', 'unknown'], ['7.5', 7.5, {}]],
    [choice, ['stick', 'frame'], ['Stick', 'cane', true, 1]],
    [{ kind: 'number' }, [0, -1.5], ['1', Number.NaN, Number.POSITIVE_INFINITY, true, [1]]],
    [{ kind: 'numbers' }, [1], ['1', [1]]],
    [{ kind: 'falls' }, [0, 2, 'several'], ['many', '2', Number.NaN]],
    [{ kind: 'pressure' }, ['138/78', '99/60'], ['8/78', '138/8', '1380/78', '138/7800', 'x138/78', '138/78x', '138-78', 138]],
    [{ kind: 'event' }, [true, 'unknown', '2026-05-11'], ['2026-02-30', 'soon', 2026]],
    [
      { kind: 'range' },
      [88, '88-92', '88 - 92', '88–92', '88 – 92', '100-100'],
      ['8-92', '88-9', '88-92 %', 'x88-92', '1000-92', '88 to 92', '88--92'],
    ],
    [{ kind: 'date' }, ['2026-05-11'], ['2026-02-30', '11/05/2026', 20260511]],
    [{ kind: 'country' }, ['AU'], ['au', 'AUS', 'A', 1]],
    [{ kind: 'format' }, [1], ['1', 2, true]],
    [
      { kind: 'text' },
      ['a', 'two\nlines', 'x'.repeat(500)],
      ['', '  ', long, 'a\u001bb', 'a\u0000', 'a\u007f', 'a\u009f', 5, null],
    ],
    [{ kind: 'texts' }, ['a'], ['', long, ['a']]],
    [{ kind: 'reference' }, ['M-207', 7, 'x'.repeat(80)], ['', 'x'.repeat(81), Number.NaN, true, 'a\u001b']],
  ])('%j', (leaf, right, wrong) => {
    for (const value of right) expect(fits(leaf, value), JSON.stringify(value)).toBe(true);
    for (const value of wrong) expect(fits(leaf, value), JSON.stringify(value)).toBe(false);
  });
});

describe('told', () => {
  it.each<[Leaf, unknown, string]>([
    [{ kind: 'answer' }, 'sometimes', 'not_yes_no: `sometimes` is not yes, no or unknown; write yes, no or unknown instead'],
    [{ kind: 'answer' }, 'unknwon', 'not_yes_no: `unknwon` is not yes, no or unknown; write unknown instead'],
    [{ kind: 'answer' }, 5, 'not_yes_no: `5` is not yes, no or unknown; write yes, no or unknown instead'],
    [
      { kind: 'steroid' },
      'some',
      'not_yes_no: `some` is not yes, no or unknown; write yes, no, unknown or {daily_mg: 7.5, months: 14} instead',
    ],
    [
      { kind: 'event' },
      'soon',
      'not_yes_no: `soon` is not yes, no or unknown; write yes, no, unknown or the day, such as 2026-05-11, instead',
    ],
    [
      { kind: 'range' },
      'about 90',
      'not_a_number: `about 90` is not a range of saturation; write the lower and the upper end, such as 88-92, or the lower end alone, instead',
    ],
    [choice, 'stik', 'not_a_choice: `stik` cannot stand here; write stick instead'],
    [choice, 'wheelchair', 'not_a_choice: `wheelchair` cannot stand here; write stick or frame or no instead'],
    [choice, false, 'not_a_choice: `false` cannot stand here; write no instead'],
    [
      { kind: 'choice', options: ['yes_please', 'other'] },
      true,
      'not_a_choice: `true` cannot stand here; write yes_please instead',
    ],
    [choice, 7, 'not_a_choice: `7` cannot stand here; write stick or frame or no instead'],
    [{ kind: 'number' }, '12,8', 'decimal_comma: `12,8` has a decimal comma; write 12.8 with a point instead'],
    [{ kind: 'numbers' }, '12 s', 'unit_in_number: `12 s` has more than the number in it; write 12 instead'],
    [{ kind: 'number' }, true, 'not_a_number: `true` is not a number; write one number for key instead'],
    [{ kind: 'numbers' }, { a: 1 }, 'not_a_number: `{"a":1}` is not a number; write one number for key instead'],
    [
      { kind: 'falls' },
      'many',
      'not_a_number: `many` is not a number; write the number of falls, or several for two or more, instead',
    ],
    [
      { kind: 'falls' },
      '2+',
      'inexact_number: `2+` is "at least", not a number; write the number of falls, or several for two or more, instead',
    ],
    [
      { kind: 'falls' },
      'severl',
      'not_a_number: `severl` is not a number of falls; write a number such as 0, or several for two or more, instead',
    ],
    [
      { kind: 'falls' },
      true,
      'not_a_number: `true` is not a number of falls; write a number such as 0, or several for two or more, instead',
    ],
    [
      { kind: 'pressure' },
      '138-78',
      'bad_pressure: `138-78` is not a blood pressure; write systolic/diastolic, such as 138/78, instead',
    ],
    [
      { kind: 'date' },
      '2026-02-30',
      'bad_date: `2026-02-30` is not a date that exists, written year-month-day; write it like 2026-05-11 instead',
    ],
    [{ kind: 'country' }, 'Oz', 'not_a_choice: `Oz` is not a country code; write two capital letters, such as AU, instead'],
    [{ kind: 'format' }, 2, 'wrong_format: format 2 is not known; write format: 1 instead'],
    [{ kind: 'text' }, 5, 'bad_text: `5` is not a short text; write a few words, in quotes where they contain : or #'],
    [{ kind: 'texts' }, 'x'.repeat(501), 'bad_text: the text is longer than 500 characters; write it shorter'],
    [
      { kind: 'text' },
      'x'.repeat(500),
      `bad_text: \`${'x'.repeat(40)}…\` is not a short text; write a few words, in quotes where they contain : or #`,
    ],
    [{ kind: 'reference' }, 'x'.repeat(81), 'bad_text: the text is longer than 80 characters; write it shorter'],
    [{ kind: 'reference' }, true, 'bad_text: `true` is not a short text; write a few words, in quotes where they contain : or #'],
  ])('%j %j', (leaf, value, words) => expect(told(leaf, value)).toBe(words));
});
