/** The few shapes that the text report is made of. All wrap before they colour, so that colour never changes a width. */
import { widthOf } from './width.ts';
import { padTo, wrap } from './wrap.ts';

/** The styles that the report uses. Where no colour is wanted every function gives its text back. */
export interface Colour {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly cyan: (text: string) => string;
}

export interface Page {
  /** Columns that may be used. */
  readonly width: number;
  readonly colour: Colour;
}

const NARROWEST = 40;
const WIDEST = 110;
const USUAL = 80;

/** Very narrow and very wide windows read badly: the page stays between 40 and 110 columns. */
export const pageWidth = (columns: number): number =>
  Number.isFinite(columns) ? Math.min(WIDEST, Math.max(NARROWEST, Math.floor(columns))) : USUAL;

/** Lines in a colour or weight, each on its own, so that a pager may cut between them. */
export const painted = (lines: readonly string[], paint: (text: string) => string): string[] => lines.map((line) => paint(line));

/** Heading in capitals over a rule: it stands out without colour. */
export function heading(text: string, page: Page): string[] {
  const lines = wrap(text.toUpperCase(), page.width);
  return ['', ...lines.map((line) => page.colour.bold(page.colour.cyan(line))), '-'.repeat(page.width)];
}

/** The same on one line, where lines are dear. */
export function ruledHeading(text: string, page: Page): string[] {
  const title = text.toUpperCase();
  if (widthOf(title) + 4 > page.width) return heading(text, page);
  const rule = '-'.repeat(page.width - widthOf(title) - 1);
  return ['', `${page.colour.bold(page.colour.cyan(title))} ${rule}`];
}

/** A paragraph set in by `indent` columns. */
export const paragraph = (text: string, indent: number, page: Page): string[] =>
  wrap(text, page.width - indent).map((line) => `${' '.repeat(indent)}${line}`);

/** "- text", following lines under the text. */
export function bullet(text: string, indent: number, page: Page, sign = '-'): string[] {
  const hang = indent + widthOf(sign) + 1;
  return wrap(text, page.width - hang).map(
    (line, index) => `${' '.repeat(indent)}${index === 0 ? `${sign} ` : ' '.repeat(widthOf(sign) + 1)}${line}`,
  );
}

/** A label in its own column, one text after the other beside it. No texts, no lines. */
export function labelled(
  label: string,
  texts: readonly string[],
  page: Page,
  shape: { indent: number; column: number },
): string[] {
  const start = shape.indent + shape.column;
  return texts.flatMap((text, index) => {
    const name = index === 0 ? label : '';
    // Several texts under one label are told apart by a dash.
    const lines = texts.length > 1 ? bullet(text, 0, { ...page, width: page.width - start }) : wrap(text, page.width - start);
    return lines.map((line, at) => `${' '.repeat(shape.indent)}${padTo(at === 0 ? name : '', shape.column)}${line}`);
  });
}
