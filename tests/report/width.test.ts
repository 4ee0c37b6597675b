/** Against string-width, an independent and widely used implementation. */
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { widthOf } from '../../src/report/text/width.ts';

describe('columns on a terminal', () => {
  it.each([
    '',
    'plain',
    'é',
    'e\u0301',
    '日本語',
    'ｶﾅ',
    '한국어',
    '👍',
    '👩‍⚕️',
    '❤️',
    '🇳🇴',
    '1️⃣',
    'µ ± ×',
    '√2',
    '—',
    'ﬁ',
    'a\u200bb',
    'Ω',
  ])('%j', (text) => {
    expect(widthOf(text)).toBe(stringWidth(text));
  });
});
