/** The group summary as one page that needs nothing else: for the screen, for paper, and for whoever pays for the programme. */
import { html, type Markup } from '../../report/html/markup.ts';
import { changeSection } from './html-change.ts';
import { bars, counted, percent, STYLE, spreadInWords } from './html-parts.ts';
import type { NamedCount, Summary, SummaryGroup, SummaryTest } from './types.ts';

function who(group: SummaryGroup, { rows }: Summary): Markup {
  const sexes = Object.entries(group.sex).filter(([, n]) => n !== 0);
  return html`<section><h3>Who</h3>
<table><tbody>
<tr><th scope="row">Visits scored</th><td>${counted(group.n)}${group.group === null ? html` <span class="soft">of ${counted(rows.read)} rows read; ${counted(rows.refused)} refused</span>` : null}</td></tr>
<tr><th scope="row">Age</th><td>${spreadInWords(group.age, 'years', 0)}</td></tr>
<tr><th scope="row">Sex</th><td>${sexes.map(([sex, n]) => `${sex} ${counted(n)}`).join(', ')}</td></tr>
</tbody></table></section>`;
}

function belowQuarter(test: SummaryTest): string {
  const share = test.below_25;
  if (share === null) return 'not shown';
  return `${percent(share.share)} (95 % ${percent(share.low)} to ${percent(share.high)}); ${share.n} of ${share.of}`;
}

function testRow(test: SummaryTest): Markup {
  const { outcomes } = test;
  const other = (['unable', 'unsafe', 'declined'] as const).filter((key) => outcomes[key] !== 0);
  return html`<tr><th scope="row">${test.name}</th>
<td>${counted(outcomes.measured)}${other.map((key) => html`<br><span class="soft">${key} ${counted(outcomes[key])}</span>`)}</td>
<td>${counted(outcomes.not_recorded)}</td>
<td>${spreadInWords(test.value, test.unit, 2)}</td>
<td>${belowQuarter(test)}</td>
<td>${counted(test.flagged.yes)}</td></tr>`;
}

/** A histogram against the tenth that every bar would be in the reference group. */
function histogram(test: SummaryTest): Markup | null {
  const shown = test.tens.reduce<number>((sum, n) => sum + (n ?? 0), 0);
  if (shown === 0) return null;
  const labels = test.tens.map((_, index) => `${index * 10}-${index * 10 + 10}`);
  return html`<figure><figcaption><strong>${test.name}</strong><br><span class="soft">visits by percentile for age and sex, where the table gives one; dashed: if the group were like the reference</span></figcaption>${bars(test.tens, labels, shown / test.tens.length)}</figure>`;
}

function results(group: SummaryGroup): Markup {
  const reference = group.tests[0]?.reference ?? null;
  return html`<section><h3>Test results</h3>
<div class="wide"><table><thead><tr><th>Test</th><th>Measured</th><th>Not recorded</th><th>Result</th><th>Below the 25th percentile</th><th>Meets a mark that counts</th></tr></thead>
<tbody>${group.tests.map(testRow)}</tbody></table></div>
<p class="soft">${reference === null ? '' : `Of the reference group of each table ${percent(reference)} stand below its 25th percentile. `}Only tables with a spread of people count there. Unable is the worst result.</p>
<div class="charts">${group.tests.map(histogram)}</div></section>`;
}

function countList(title: string, counts: readonly NamedCount[], total: number | null, none: string): Markup {
  const rows = counts.filter(({ n }) => n !== 0);
  const share = (n: number | null): string => (n === null || total === null || total === 0 ? '' : percent(n / total));
  return html`<section><h3>${title}</h3>${
    rows.length === 0
      ? html`<p>${none}</p>`
      : html`<table><tbody>${rows.map(({ name, n }) => html`<tr><th scope="row">${name}</th><td>${counted(n)}</td><td class="soft">${share(n)}</td></tr>`)}</tbody></table>`
  }</section>`;
}

function starts(group: SummaryGroup): Markup | null {
  if (group.starts.length === 0) return null;
  const row = ({ name, levels }: SummaryGroup['starts'][number]): Markup =>
    html`<tr><th scope="row">${name}</th><td>${levels.filter(({ n }) => n !== 0).map(({ id, name: level, n }) => html`${id === '0' ? level : `${id}. ${level}`}: ${counted(n)}<br>`)}</td></tr>`;
  return html`<section><h3>Starting levels</h3><table><tbody>${group.starts.map(row)}</tbody></table>
<p class="soft">The program's own suggestion from the tests, lowered by every caution that applies.</p></section>`;
}

function groupSection(group: SummaryGroup, summary: Summary): Markup {
  const title =
    group.group === null
      ? summary.by === null
        ? 'All visits'
        : 'All groups together'
      : `${summary.by}: ${group.group === '' ? 'not recorded' : group.group}`;
  if (group.n === null) return html`<article><h2>${title}</h2><p>Too few visits to be shown.</p></article>`;
  return html`<article><h2>${title}</h2>
${who(group, summary)}
${results(group)}
${countList(`Level of risk (${summary.pathway.name})`, group.levels, group.n, 'No level was worked out.')}
${countList('Red flags', group.red_flags, group.n, 'None was found; what was not asked is not ruled out.')}
${countList('Contributing factors', group.factors, group.n, 'None was found; what was not asked is not ruled out.')}
${starts(group)}</article>`;
}

export function renderSummaryHtml(summary: Summary): string {
  const groups = [...summary.groups].reverse();
  const sources = Object.entries(summary.sources);
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Cohort summary</title><style>${{ markup: STYLE }}</style></head>
<body><header><h1>Cohort summary</h1>
<p class="soft">Every row is one visit, scored as if it stood alone. ${summary.least_shown === null ? 'Nothing is withheld: this page stays in the clinic.' : `Counts under ${summary.least_shown} are withheld ("few"), and with them as many others as it takes that none can be worked out from the totals.`}</p></header>
<main>${groups.map((group) => groupSection(group, summary))}
${changeSection(summary)}
<section><h2>Sources</h2><ul>${sources.map(([id, { citation, doi }]) => html`<li><strong>${id}</strong>: ${citation}${doi === null ? null : ` doi:${doi}`}</li>`)}</ul></section></main>
<footer><p class="soft">${summary.tool.name} ${summary.tool.version}, evidence ${summary.evidence.digest.slice(0, 12)}. It supports a professional's judgement and does not replace it.</p></footer></body></html>
`;
  return page.markup;
}
