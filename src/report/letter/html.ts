/** The letter as one page for A4 or letter paper. */
import { html, type Markup } from '../html/markup.ts';
import { htmlPage } from '../html/page.ts';
import { afterResults, factLines, HEADINGS, RESULT_HEADERS, requestParts, resultCells } from './text.ts';
import type { Letter } from './types.ts';

const STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 48rem; padding: 1.2rem; color: var(--ink); background: #fff; font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1em; margin: .6rem 0; } h2 { font-size: 1em; margin: .8rem 0 .2rem; } p { margin: .25rem 0; } ul, ol { margin: .2rem 0; padding-left: 1.3rem; }
.head { text-align: right; } .head p:first-child { font-weight: 700; } .urgent { font-weight: 700; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .12rem .4rem; border-bottom: 1px solid var(--line); } .small { font-size: .88em; color: var(--soft); }
.wide { overflow-x: auto; overflow-wrap: normal; }
@page { margin: 12mm 15mm; }
@media print { body { padding: 0; max-width: none; font-size: 9pt; line-height: 1.28; } h1 { margin: .35rem 0; } h2 { margin: .45rem 0 .1rem; } p { margin: .12rem 0; } }
`;

const lines = (texts: readonly string[]): Markup => html`${texts.map((text) => html`<p>${text}</p>`)}`;

function requests(letter: Letter): Markup {
  if (letter.requests.length === 0) return html`<p>${letter.noRequest}</p>`;
  return html`<ol>${letter.requests.map((request) => {
    const { what, rest } = requestParts(request);
    return html`<li><strong>${what}</strong> ${rest}</li>`;
  })}</ol>`;
}

function results(letter: Letter): Markup {
  if (letter.results.length === 0) return html`<p>No test was done.</p>`;
  const rows = letter.results.map((row) => {
    const [test, ...cells] = resultCells(row);
    return html`<tr><th scope="row">${test ?? ''}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>
`;
  });
  return html`<section class="wide" tabindex="0" aria-label="Results"><table><thead><tr>${RESULT_HEADERS.map((header) => html`<th scope="col">${header}</th>`)}</tr></thead><tbody>
${rows}</tbody></table></section>`;
}

/** A whole HTML document. */
export function letterHtml(letter: Letter): string {
  const body = html`<main>
${letter.letterhead.length === 0 ? null : html`<header class="head">${lines(letter.letterhead)}</header>`}
${lines([letter.date, ...letter.to])}
<h1>${letter.subject}</h1>
${letter.salutation === '' ? null : html`<p>${letter.salutation}</p>`}
<p><span class="urgent">${letter.urgency}.</span> ${letter.summary}</p>
<h2>${HEADINGS.requests}</h2>${requests(letter)}
<h2>${HEADINGS.doing}</h2><ul>${letter.doing.map((text) => html`<li>${text}</li>`)}</ul>
<h2>${HEADINGS.results}</h2>${results(letter)}
${afterResults(letter).map((text) => html`<p class="small">${text}</p>`)}
<h2>${HEADINGS.facts}</h2><p>${factLines(letter).join(' ')}</p>
<h2>${HEADINGS.next}</h2><p>${[...letter.wishes, ...letter.next].join(' ')}</p>
${letter.closing === '' ? null : html`<p>${letter.closing}</p>`}
${lines(letter.signature)}
${letter.copies === '' ? null : html`<p class="small">${letter.copies}</p>`}
</main>`;
  return htmlPage({ title: `Letter, ${letter.date}`, style: STYLE, body });
}
