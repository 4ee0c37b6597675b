/** Protocol cards for paper: one A4 page a card where it fits, readable without colour. */
import { html, type Markup } from '../html/markup.ts';
import { htmlPage } from '../html/page.ts';
import { MARKS_LEGEND, type ProtocolView, sourceText } from './view.ts';

const STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 52rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: #fff; font: 1rem/1.4 system-ui, sans-serif; }
article { break-after: page; padding-bottom: 1.5rem; } article:last-child { break-after: auto; }
h1 { font-size: 1.35rem; margin: 0 0 .2rem; border-bottom: 3px solid var(--ink); } h2 { font-size: 1rem; margin: 0; }
p { margin: .2rem 0; } .soft { color: var(--soft); font-size: .9rem; } ul, ol { margin: 0; padding-left: 1.1rem; } li { margin: .1rem 0; }
section { display: grid; grid-template-columns: 9.5rem 1fr; gap: .2rem 1rem; padding: .35rem 0; border-bottom: 1px solid var(--line); break-inside: avoid; }
.safety { border: 2px solid var(--ink); border-radius: .3rem; padding: .4rem .6rem; margin: .4rem 0; }
.sources { font-size: .82rem; color: var(--soft); margin-top: .6rem; } .sources li { margin: .1rem 0; }
@media (max-width: 36rem) { section { grid-template-columns: 1fr; } body { padding: .6rem; } }
@page { size: A4; margin: 12mm; }
@media print { body { padding: 0; max-width: none; font-size: 9pt; line-height: 1.3; } article { padding-bottom: 0; } section { padding: .14rem 0; } .sources { font-size: 7.5pt; } }
`;

function card(view: ProtocolView): Markup {
  const sections = view.sections.map(
    ({ part, heading, lines }) =>
      html`<section class="${part}"><h2>${heading}</h2><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul></section>
`,
  );
  return html`<article>
<h1>${view.title}</h1>
${view.facts.map((fact) => html`<p class="soft">${fact}</p>`)}
${sections}
<div class="sources"><ol>${view.sources.map((source) => html`<li value="${source.number}">${sourceText(source)}</li>`)}</ol><p>${MARKS_LEGEND}</p></div>
</article>
`;
}

/** A whole HTML document of one or more cards. `made` is the line on program and evidence at its foot. */
export function renderProtocolHtml(views: readonly ProtocolView[], made: string): string {
  const title = views.length === 1 ? (views[0]?.title ?? '') : 'Protocol cards';
  const body = html`<main>
${views.map(card)}
</main>
<footer class="soft">${made}</footer>`;
  return htmlPage({ title, style: STYLE, body });
}
