/** The report as one page for the screen and for A4 or letter paper: nothing is loaded, nothing runs. */
import { HOW_TO_READ, PURPOSE } from '../view/purpose.ts';
import type { VisitView } from '../view/visit.ts';
import { html, type Markup } from './markup.ts';
import { htmlPage } from './page.ts';
import { section } from './parts.ts';
import { planBody } from './plan.ts';
import { basisBody, cautionsBody, factorsBody, notAskedBody, probabilityBody, recordedBody, sourcesBody } from './rest.ts';
import { PAGE_STYLE } from './style.ts';
import { testsBody } from './tests.ts';
import { pathBody, redFlagBox, riskBody } from './top.ts';

export interface HtmlOptions {
  /** Open everything that is folded. */
  readonly full?: boolean | undefined;
}

const PARTS = [
  ['risk', 'Fall risk'],
  ['path', 'Path taken'],
  ['tests', 'Tests'],
  ['plan', 'Starting levels'],
  ['factors', 'Contributing factors'],
  ['basis', 'Basis'],
  ['recorded', 'What was typed in'],
  ['cautions', 'Cautions'],
  ['sources', 'Sources'],
] as const;

/** `prefix` keeps ids of several reports in one page apart. */
function article(view: VisitView, prefix: string, { full = false }: HtmlOptions): Markup {
  const part = (id: string, title: string, body: Markup | null): Markup | null => section(`${prefix}${id}`, title, body);
  return html`<article>
<header><h1>Client ${view.ref}, ${view.visit}</h1><p>${view.client}</p>${view.about.map((line) => html`<p>${line}</p>`)}
<p class="small soft">${PURPOSE}</p></header>
<nav aria-label="Parts of the report of ${view.ref}"><ul>${PARTS.map(([id, title]) => html`<li><a href="#${prefix}${id}">${title}</a></li>`)}</ul></nav>
${redFlagBox(view, `${prefix}doctor`)}
${part('risk', 'Fall risk', riskBody(view))}${part('path', 'Path taken', pathBody(view))}${part('tests', 'Tests', html`<p class="small soft">${HOW_TO_READ}</p>${testsBody(view, prefix)}`)}${part('plan', 'Starting levels', planBody(view, prefix))}${part('factors', 'Contributing factors', factorsBody(view))}${part('probability', 'Probability of a fall in 12 months', probabilityBody(view))}${part('not-asked', 'Not asked today', notAskedBody(view))}${part('basis', 'Basis', basisBody(view, full))}${part('recorded', 'What was typed in', recordedBody(view))}${part('cautions', 'Cautions', cautionsBody(view))}${part('sources', 'Sources', sourcesBody(view))}
<p class="soft small">${view.made}</p>
</article>
`;
}

/** One page for one visit or several. */
export function renderHtml(views: readonly VisitView[], options: HtmlOptions = {}): string {
  const [only, ...others] = views;
  const title =
    only === undefined ? 'No report' : others.length === 0 ? `Client ${only.ref}, ${only.visit}` : `${views.length} reports`;
  return htmlPage({
    title,
    style: PAGE_STYLE,
    body: html`<main>
${views.map((view, index) => article(view, views.length === 1 ? '' : `v${index + 1}-`, options))}</main>`,
  });
}
