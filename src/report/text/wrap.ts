/** Wrapping for terminals: words go whole to the next line; only a word longer than a whole line is continued on the next. */
import stringWidth from 'string-width';

const PRINTABLE_ASCII = /^[\x20-\x7e]*$/;

/** Columns that a text takes on a terminal. */
export const widthOf = (text: string): number => (PRINTABLE_ASCII.test(text) ? text.length : stringWidth(text));

const NO_BREAK = '\u00a0';

/** A number keeps its unit: "12.8 s" is never torn apart at a line's end. */
const keepUnits = (text: string): string =>
  text.replace(/(\d) (?=(?:s|m\/s|m|cm|kg|mg|%|mmHg|years|points?|stands?|steps?|repetitions?)\b|%)/g, `$1${NO_BREAK}`);

/** A word wider than the line, in pieces that fit; nothing is lost. */
function pieces(word: string, width: number): string[] {
  if (widthOf(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const { segment } of new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(word)) {
    if (part !== '' && widthOf(part + segment) > width) {
      parts.push(part);
      part = '';
    }
    part += segment;
  }
  return [...parts, part];
}

/** Lines of at most `width` columns. An empty text gives one empty line. */
export function wrap(text: string, width: number): string[] {
  const words = keepUnits(text)
    .split(/ +/)
    .flatMap((word) => pieces(word, width));
  const lines: string[] = [];
  let line = '';
  for (const word of words) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(longer) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line].map((each) => each.replaceAll(NO_BREAK, ' '));
}

/** Filled with blanks to `width` columns; a longer text is left as it is. */
export const padTo = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
