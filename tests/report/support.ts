/** How the report tests read a report: without colour, at a width, blanks joined where lines wrap. */
import { Chalk } from 'chalk';
import type { Assessment } from '../../src/assessment.ts';
import { renderText } from '../../src/report/text.ts';

export const plain = new Chalk({ level: 0 });

export const textOf = (assessment: Assessment, width = 80): string =>
  renderText([assessment], { width, colour: plain, full: true });

/** The report as it is printed unless more is asked for. */
export const briefTextOf = (assessment: Assessment, width = 80): string => renderText([assessment], { width, colour: plain });

/** One line of words, so that a sentence can be looked for whatever the wrapping. */
export const joined = (text: string): string => text.replace(/\s+/g, ' ');

/** The lines from a heading to the next blank line before a heading. */
export function section(text: string, title: string): string {
  const lines = text.split('\n');
  const start = lines.findIndex((line) => line.startsWith(title));
  if (start === -1) return '';
  const next = lines.findIndex((line, index) => index > start + 1 && /^-+$/.test(line));
  return lines.slice(start, next === -1 ? undefined : next - 1).join('\n');
}
