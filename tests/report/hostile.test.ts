import { Chalk } from 'chalk';
import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Assessment } from '../../src/assessment.ts';
import { renderJson } from '../../src/report/json.ts';
import { widthOf } from '../../src/report/text/width.ts';
import { wrap } from '../../src/report/text/wrap.ts';
import { renderText } from '../../src/report/text.ts';
import { sanitise } from '../../src/report/view/sanitise.ts';
import { assessment, result } from './parts.ts';
import { textOf } from './support.ts';

const HARMFUL =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e007f}\p{Surrogate}]/u;

const HOSTILE = [
  '\u001b[31mred\u001b[0m',
  '\u001b]0;new title\u0007after',
  '\u001b]8;;http://example.invalid\u001b\\link\u001b]8;;\u001b\\',
  '\u009b2Jgone',
  'a\u202egnp.exe',
  '\u2066isolated\u2069',
  'line\r\nfeed\u2028and\u0000nul',
  'tab\there',
  'tag\u{e0041}s',
  'half\ud800',
  '\u001b',
  'back\b\b\bspace',
];

const withText = (text: string): Assessment =>
  assessment({
    client: { ref: text, sex: 'female', age: 70, setting: 'community', setting_assumed: false, lung_condition: text },
    notes: [text],
    tests: [result({ outcome: 'unable', value: null, reason: text, notes: [text] })],
  });

describe('text from a client file', () => {
  test.each(HOSTILE)('%j comes out harmless in text and JSON', (text) => {
    expect(textOf(withText(text))).not.toMatch(HARMFUL);
    const json = renderJson([withText(text)], { asArray: false });
    expect(json).not.toMatch(HARMFUL);
    expect(JSON.parse(json).client.ref).toBe(text);
  });

  test('any text at all is harmless and fits the page', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        const report = textOf(withText(text), 60);
        return !HARMFUL.test(report) && report.split('\n').every((line) => stringWidth(line) <= 60);
      }),
      { numRuns: 60 },
    );
  });

  test('ordinary letters of any language stay', () => {
    for (const text of ['Müller-Lüdenscheid', 'Łukasz', '山田', 'şahin', 'नमस्ते', 'שלום', '100 % ± 3 °C'])
      expect(sanitise(text)).toBe(text);
  });

  test('an open command sequence takes nothing after it along', () => {
    expect(sanitise('\u001b]0;never closed, cannot stand')).toContain('cannot stand');
    expect(sanitise('one\u00a0two\n\nthree')).toBe('one two three');
  });

  test('a very long word is continued, not lost', () => {
    const word = 'x'.repeat(500);
    const report = renderText([withText(word)], { width: 80, colour: new Chalk({ level: 0 }) });
    expect(report.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(report.replace(/[^x]/g, '').length).toBeGreaterThanOrEqual(4 * 500);
  });
});

describe('wrapping', () => {
  test('words go whole to the next line, a number keeps its unit', () => {
    expect(wrap('it took about 12.8 s today', 18)).toEqual(['it took about', '12.8 s today']);
    expect(wrap('', 10)).toEqual(['']);
  });

  test('wide characters count double', () => {
    expect(widthOf('山田')).toBe(4);
    expect(wrap('山田 太郎', 5)).toEqual(['山田', '太郎']);
  });

  test('nothing is lost and nothing is too wide', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 })),
        fc.integer({ min: 12, max: 60 }),
        (words, width) => {
          const text = words.map(sanitise).join(' ').replace(/ +/g, ' ').trim();
          const lines = wrap(text, width);
          return lines.every((line) => widthOf(line) <= width) && lines.join('').replaceAll(' ', '') === text.replaceAll(' ', '');
        },
      ),
    );
  });
});
