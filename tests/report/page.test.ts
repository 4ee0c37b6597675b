import { Chalk } from 'chalk';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import type { Colour } from '../../src/report/text/layout.ts';
import { renderText } from '../../src/report/text.ts';
import { copd74, everyFixture } from './fixture.ts';
import { plain, textOf } from './support.ts';

/** Short and full reports of every fixture. */
const everyText = (width: number, colour: Colour = plain): string =>
  [false, true].map((full) => renderText(everyFixture, { width, colour, full })).join('\n');

describe('the page', () => {
  test.each([40, 60, 80, 97, 110])('no line is wider than %d columns', (width) => {
    for (const line of everyText(width).split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(width);
  });

  test('stays between 40 and 110 columns, and takes 80 where the terminal does not say', () => {
    const widest = (width: number) =>
      Math.max(
        ...textOf(copd74, width)
          .split('\n')
          .map((line) => line.length),
      );
    expect(widest(300)).toBe(110);
    expect(widest(5)).toBe(40);
    expect(widest(Number.NaN)).toBe(80);
  });

  test('colour adds nothing but colour', () => {
    const colourful = everyText(80, new Chalk({ level: 1 }));
    expect(colourful).toContain('\u001b[');
    expect(colourful.replace(/\u001b\[\d+m/g, '')).toBe(everyText(80));
  });

  test('no line ends in blanks, every report ends with a line feed, none gives nothing', () => {
    const text = everyText(80);
    expect(text).not.toMatch(/ \n/);
    expect(text.endsWith('\n')).toBe(true);
    expect(renderText([], { width: 80, colour: plain })).toBe('');
  });

  test('words that must not be there are not', () => {
    for (const width of [80, 110])
      expect(everyText(width)).not.toMatch(/\bNaN\b|\bundefined\b|\bnull\b|\[object|\bdiagnos|\b(un)?safe/i);
  });
});
