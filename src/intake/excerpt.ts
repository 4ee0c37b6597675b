/** The line at fault with marks under it, for people at a terminal. */
import type { Problem } from './problems.ts';

/** Beyond this the line is cut around the fault. In UTF-16 units. */
const WIDEST = 100;

/** Nothing that a terminal would obey. */
const plain = (line: string): string => line.replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ');

/** Two lines: the source line and carets under the fault; set in by four. */
export function sourceExcerpt(text: string, { line, column, endColumn }: Problem): string {
  const source = plain(text.replace(/^\uFEFF/, '').split(/\r\n|\n/)[line - 1] ?? '');
  const cut = column > WIDEST - 20 ? column - 20 : 0;
  const shown = source.slice(cut, cut + WIDEST);
  const start = column - 1 - cut;
  const length = Math.max(1, Math.min((endColumn ?? column + 1) - column, shown.length - start));
  return `    ${shown}\n    ${' '.repeat(start)}${'^'.repeat(length)}`;
}
