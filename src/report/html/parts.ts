/** Small pieces that every section of the page uses. */
import { withMark } from '../view/citations.ts';
import type { Cited } from '../view/types.ts';
import { html, type Markup } from './markup.ts';

export const cited = ({ text, mark }: Cited): string => withMark(text, mark);

/** No lines, no list. */
export const list = (lines: readonly string[]): Markup | null =>
  lines.length === 0 ? null : html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

/** One text as it is, several as a list. */
const oneOrList = (lines: readonly string[]): Markup | string | null => (lines.length === 1 ? (lines[0] ?? null) : list(lines));

export const section = (id: string, title: string, body: Markup | null): Markup | null =>
  body === null
    ? null
    : html`<section id="${id}"><h2>${title}</h2>${body}</section>
`;

/** Labels with what stands beside them; those without a text are left out. */
export function definitions(entries: readonly (readonly [string, readonly string[]])[]): Markup | null {
  const shown = entries.filter(([, texts]) => texts.length > 0);
  return shown.length === 0
    ? null
    : html`<dl>${shown.map(
        ([label, texts]) => html`<div><dt>${label}</dt><dd>${oneOrList(texts)}</dd></div>
`,
      )}</dl>`;
}

/** A table that may be wider than a phone: it scrolls by itself and can be reached by keyboard. */
export const wideTable = (label: string, table: Markup): Markup =>
  html`<section class="wide" tabindex="0" aria-label="${label}">${table}</section>`;
