/**
 * Columns that a text takes on a terminal. Built on the Unicode tables of a small library; the larger one that wraps it
 * compiles its emoji patterns when it is loaded, which costs more time than the whole report.
 */
import { eastAsianWidth } from 'get-east-asian-width';

/** One column each, so counting is enough: printable ASCII and the blank that keeps numbers and units together. */
const ONE_COLUMN_EACH = /^[\x20-\x7e\u00a0-\u00ac\u00ae-\u024f\u2010-\u2027\u2212]*$/;

/** Marks that stand on the character before them, and characters that show nothing. */
const NO_COLUMN = /^[\p{Mark}\p{Control}\p{Format}]+$/u;

/** A picture shown as one, also where its plain form would take a single column. */
const PICTURE = /\p{Emoji_Presentation}|\p{Extended_Pictographic}\ufe0f|\p{Regional_Indicator}{2}|[\d#*]\ufe0f\u20e3/u;

let segmenter: Intl.Segmenter | undefined;

/** Characters as a reader counts them: a letter with its accents is one, a flag is one. */
export function graphemesOf(text: string): string[] {
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return [...segmenter.segment(text)].map(({ segment }) => segment);
}

function graphemeWidth(grapheme: string): number {
  if (NO_COLUMN.test(grapheme)) return 0;
  if (PICTURE.test(grapheme)) return 2;
  return eastAsianWidth(grapheme.codePointAt(0) ?? 0);
}

export function widthOf(text: string): number {
  if (ONE_COLUMN_EACH.test(text)) return text.length;
  return graphemesOf(text).reduce((sum, grapheme) => sum + graphemeWidth(grapheme), 0);
}
