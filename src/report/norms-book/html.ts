/** The whole collection as one page to read on screen or on paper beside the papers. */
import { type CollectionEntry, collectionOf, KIND_WORDS, TO_BE_READ } from '../../evidence/collection.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { STATUSES } from '../../evidence/schema/words.ts';
import { html, type Markup } from '../html/markup.ts';
import { statusWords } from '../view/words.ts';
import type { Grid } from './grid.ts';
import { type ItemSheet, itemSheets, type Line } from './items.ts';
import { type TableSheet, tableSheets } from './sheets.ts';
import { BOOK_STYLE } from './style.ts';

const sourceLink = (id: string): Markup => html`<a href="#source-${id}">${id}</a>`;

const lineList = (lines: readonly Line[]): Markup =>
  html`<dl>${lines.map(([label, text]) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>`;

function gridTable({ headers, rows }: Grid, caption: string): Markup {
  return html`<div class="wide" tabindex="0"><table><caption>${caption}</caption><thead><tr>${headers.map((header) => html`<th scope="col">${header}</th>`)}</tr></thead>
<tbody>${rows.map((row) => html`<tr>${row.map((cell, column) => (column === 1 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}</tr>`)}</tbody></table></div>`;
}

const tableId = ({ test, source }: TableSheet): string => `table-${test}-${source}`;

function tableSection(table: TableSheet, evidence: Evidence): Markup {
  const status = table.lines.find(([label]) => label === 'Read')?.[1] ?? '';
  return html`<section class="table" id="${tableId(table)}"><h4>${sourceLink(table.source)} <span class="status">${status}</span></h4>
<p>${evidence.sources[table.source]?.citation ?? ''}</p>
${lineList(table.lines.filter(([label]) => label !== 'Read'))}
${table.parts.map((part) => html`${part.notes.map((note) => html`<p>${note}</p>`)}${gridTable(part.grid, `${part.id}. ${part.location}`)}`)}
</section>`;
}

const itemEntry = (item: ItemSheet): Markup =>
  html`<section class="item"><h4>${item.heading} <span class="soft">${sourceLink(item.source)}</span></h4>${lineList(item.lines)}</section>`;

function testSection(
  test: TestDefinition,
  tables: readonly TableSheet[],
  items: readonly ItemSheet[],
  evidence: Evidence,
): Markup {
  const none = evidence.defaults.tests[test.id]?.no_table_because;
  return html`<section class="test" id="test-${test.id}"><h2>${test.name}</h2>
<p class="soft">${test.id}; unit ${test.unit_text === '' ? test.unit : test.unit_text}; ${test.better} is better. ${test.protocol}</p>
<h3>Normative tables</h3>${tables.length === 0 ? html`<p>No published norm. ${none ?? ''}</p>` : tables.map((table) => tableSection(table, evidence))}
${items.length === 0 ? null : html`<h3>Cut-points, errors, ratios</h3>${items.map(itemEntry)}`}
</section>`;
}

/** Sources of which a number was read anywhere but in the paper, with the numbers concerned. */
export function readingList(
  entries: readonly CollectionEntry[],
): { readonly source: string; readonly entries: readonly CollectionEntry[] }[] {
  const open = entries.filter((entry) => TO_BE_READ.includes(entry.status));
  return [...new Set(open.map(({ source }) => source))]
    .sort()
    .map((source) => ({ source, entries: open.filter((each) => each.source === source) }));
}

function readingSection(entries: readonly CollectionEntry[], evidence: Evidence): Markup {
  const list = readingList(entries);
  return html`<section id="to-read"><h2>Still to be read in full text</h2>
<p>Numbers of these ${list.length} papers were read in the abstract or in another publication, or are recalled. Whoever has the paper can check them: compare, correct, and set the status to full-text.</p>
<ul class="reading">${list.map(
    ({ source, entries: of }) =>
      html`<li>${sourceLink(source)} ${evidence.sources[source]?.citation ?? ''}${doiLink(evidence.sources[source]?.doi ?? null)}<br>${of
        .map(
          (entry) =>
            `${entry.test ?? 'no single test'}, ${KIND_WORDS[entry.kind].toLowerCase()}: ${statusWords(entry.status) ?? ''}`,
        )
        .join('; ')}</li>`,
  )}</ul></section>`;
}

const doiLink = (doi: string | null): Markup | null =>
  doi === null ? null : html` <a href="https://doi.org/${doi}">doi:${doi}</a>`;

function countTable(entries: readonly CollectionEntry[]): Markup {
  const kinds = Object.entries(KIND_WORDS);
  const used = STATUSES.filter((status) => entries.some((entry) => entry.status === status));
  const count = (kind: string, status?: string): number =>
    entries.filter((entry) => entry.kind === kind && (status === undefined || entry.status === status)).length;
  return html`<table class="counts"><caption>Entries (a paper, test and kind each) by how they were read</caption><thead><tr><th scope="col">Kind</th>${used.map((status) => html`<th scope="col">${status}</th>`)}<th scope="col">all</th></tr></thead>
<tbody>${kinds.map(([kind, words]) => html`<tr><th scope="row">${words}</th>${used.map((status) => html`<td>${count(kind, status)}</td>`)}<td>${count(kind)}</td></tr>`)}</tbody></table>`;
}

function contents(tests: readonly TestDefinition[], tables: readonly TableSheet[]): Markup {
  return html`<nav aria-label="Contents"><h2>Contents</h2><ol>${tests.map(
    (test) =>
      html`<li><a href="#test-${test.id}">${test.name}</a><span class="soft"> ${tables
        .filter((table) => table.test === test.id)
        .map((table, index) => html`${index === 0 ? '' : ', '}<a href="#${tableId(table)}">${table.source}</a>`)}</span></li>`,
  )}<li><a href="#no-test">Findings and rates that concern no single test</a></li><li><a href="#to-read">Still to be read in full text</a></li><li><a href="#sources">Sources</a></li></ol></nav>`;
}

function sourcesSection(evidence: Evidence): Markup {
  const ids = Object.keys(evidence.sources).sort();
  return html`<section id="sources"><h2>Sources</h2><dl class="sources">${ids.map((id) => {
    const source = evidence.sources[id];
    return html`<div id="source-${id}"><dt>${id}</dt><dd>${source?.citation ?? ''}${doiLink(source?.doi ?? null)}${source?.note === undefined ? null : html` <span class="soft">${source.note}</span>`}</dd></div>`;
  })}</dl></section>`;
}

/** One whole HTML document; nothing in it is loaded from elsewhere. */
export function renderBook(evidence: Evidence): string {
  const entries = collectionOf(evidence);
  const tables = tableSheets(evidence);
  const items = itemSheets(evidence);
  const without = items.filter((item) => item.test === null);
  const folders = evidence.folders.length === 0 ? '' : `, with the folders ${evidence.folders.join(', ')}`;
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Reference values for balance and fall risk</title><style>${{ markup: BOOK_STYLE }}</style></head>
<body><header><h1>Reference values for balance and fall risk</h1>
<p>Every number with its source, where it stands there and how it was read, for review beside the papers. Evidence ${evidence.version}, digest ${evidence.digest.slice(0, 12)}${folders}.</p>
${countTable(entries)}</header>
${contents(evidence.tests, tables)}
<main>${evidence.tests.map((test) =>
    testSection(
      test,
      tables.filter((table) => table.test === test.id),
      items.filter((item) => item.test === test.id),
      evidence,
    ),
  )}
<section class="test" id="no-test"><h2>Findings and rates that concern no single test</h2>${without.map(itemEntry)}</section>
${readingSection(entries, evidence)}
${sourcesSection(evidence)}</main></body></html>
`;
  return page.markup;
}
