/** Wrapping for terminals: words go whole to the next line; only a word longer than a whole line is continued on the next. */
import { graphemesOf, widthOf } from './width.ts';

const NO_BREAK = '\u00a0';

const UNITS = new Set([
  's',
  'm',
  'm/s',
  'cm',
  'kg',
  'mg',
  '%',
  'mmHg',
  'years',
  'point',
  'points',
  'stand',
  'stands',
  'step',
  'steps',
  'repetition',
  'repetitions',
]);

/** The word without the marks that may close a clause: "s;" is still a unit. */
const bare = (word: string): string => word.replace(/[.,;:)\]]+$/, '');
const endsInDigit = (word: string): boolean => /\d$/.test(word.slice(-1));

/** Words of a text; a number keeps its unit: "12.8 s" is never torn apart at a line's end. */
function wordsOf(text: string): string[] {
  const words: string[] = [];
  for (const word of text.split(' ')) {
    const before = words.at(-1);
    if (word === '') continue;
    if (before !== undefined && word.length < 13 && endsInDigit(before) && UNITS.has(bare(word)))
      words[words.length - 1] = `${before}${NO_BREAK}${word}`;
    else words.push(word);
  }
  return words;
}

/** A word wider than the line, in pieces that fit; nothing is lost. */
function pieces(word: string, width: number): string[] {
  if (widthOf(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const segment of graphemesOf(word)) {
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
  const words = wordsOf(text).flatMap((word) => (word.length > width / 2 ? pieces(word, width) : [word]));
  const lines: string[] = [];
  let line = '';
  let used = 0;
  for (const word of words) {
    const wide = widthOf(word);
    if (line !== '' && used + 1 + wide > width) {
      lines.push(line);
      line = word;
      used = wide;
    } else {
      used += line === '' ? wide : 1 + wide;
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].map((each) => each.replaceAll(NO_BREAK, ' '));
}

/** Filled with blanks to `width` columns; a longer text is left as it is. */
export const padTo = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
