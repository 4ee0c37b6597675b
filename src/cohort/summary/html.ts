/** The group summary as one page that needs nothing else: for the screen, for paper, and for whoever pays for the programme. */
import { html, type Markup } from '../../report/html/markup.ts';
import { changeSection } from './html-change.ts';
import { bars, counted, percent, STYLE, spreadInWords } from './html-parts.ts';
import type { NamedCount, ShareOf, Summary, SummaryGroup, SummaryTest } from './types.ts';

function who(group: SummaryGroup, { rows }: Summary): Markup {
  const sexes = Object.entries(group.sex).filter(([, n]) => n !== 0);
  return html`<section><h3>Who</h3>
<table><tbody>
<tr><th scope="row">Visits scored</th><td>${counted(group.n)}${group.group === null ? html` <span class="soft">of ${counted(rows.read)} rows read; ${counted(rows.refused)} refused</span>` : null}</td></tr>
<tr><th scope="row">Age</th><td>${spreadInWords(group.age, 'years', 0)}</td></tr>
<tr><th scope="row">Sex</th><td>${sexes.map(([sex, n]) => `${sex} ${counted(n)}`).join(', ')}</td></tr>
</tbody></table></section>`;
}

const sum = (counts: readonly (number | null)[]): number => counts.reduce<number>((total, n) => total + (n ?? 0), 0);

function interval({ low, high }: ShareOf): string {
  return `95 % ${percent(low)} to ${percent(high)}`;
}

/** The share and what it leaves out, or why there is none: a figure without its gaps would be read as the whole group's. */
function belowQuarter(test: SummaryTest): Markup {
  const { below_25: share, no_share_because: because, not_judged: notJudged } = test;
  if (share === null) return html`No share: ${because ?? 'withheld'}.`;
  const { n, of, open, lowest, highest } = share;
  const text =
    open === 0
      ? `${percent(lowest)} (${interval(share)}): ${n} of ${of}`
      : `Between ${percent(lowest)} and ${percent(highest)} (${interval(share)}): at least ${n} of ${of}, and ${open} whose result does not settle it`;
  const rest = `${counted(notJudged)} more were tested but cannot be judged, whatever their result: no table with a spread for their age and sex.`;
  return html`${text}${notJudged === 0 ? null : html`<br><span class="soft">${rest}</span>`}`;
}

function marks({ flagged, tested }: SummaryTest): Markup {
  const { yes, no, undecided } = flagged;
  if (tested === 0) return html`nobody tested`;
  if (yes === 0 && no === 0) return html`no mark decides here`;
  if (yes === null || undecided === null || tested === null) return html`${counted(yes)}`;
  return html`${yes} of ${tested - undecided}${undecided === 0 ? null : html`<br><span class="soft">${undecided} undecided</span>`}`;
}

function testRow(test: SummaryTest): Markup {
  const { outcomes } = test;
  const isTold = [outcomes.stopped, outcomes.declined, outcomes.not_recorded].some((count) => count !== null);
  const absent = (['stopped', 'declined'] as const).filter((key) => isTold && outcomes[key] !== 0);
  return html`<tr><th scope="row">${test.name}</th>
<td>${counted(test.tested)}${outcomes.unable === 0 ? null : html`<br><span class="soft">of them unable: ${counted(outcomes.unable)}</span>`}</td>
<td>${counted(test.no_result)}${test.no_result === 0 ? null : absent.map((key) => html`<br><span class="soft">${key}: ${counted(outcomes[key])}</span>`)}</td>
<td>${spreadInWords(test.value, test.unit, 2)}</td>
<td>${belowQuarter(test)}</td>
<td>${marks(test)}</td></tr>`;
}

/** Whoever is in no tenth, so that the tenths are not taken for everybody. */
function besideTheBars({ off_scale, quarter, not_judged }: SummaryTest): string {
  const said: readonly (readonly [number | null, string])[] = [
    [off_scale.worst, 'at the worst end, below the 25th percentile: unable, or worse than the worst mark of the table'],
    [off_scale.best, 'at the best end, not below it: better than the best mark of the table'],
    [quarter.open, 'in no bar: the result does not settle it'],
    [not_judged, 'in no bar: no table that could place them'],
  ];
  const words = said.filter(([n]) => n !== 0).map(([n, text]) => `${counted(n)} ${text}`);
  return words.length === 0 ? 'Everybody tested is in a tenth.' : `Without a tenth: ${words.join('; ')}.`;
}

/** A histogram against the tenth of the judged that every bar would hold if they were like the reference group. */
function histogram(test: SummaryTest): Markup | null {
  const { tens, off_scale: ends, judged } = test;
  const all = [...tens, ends.worst, ends.best];
  // Of a picture that is mostly withheld the rest would be taken for the whole.
  const tooManyWithheld = all.filter((count) => count === null).length * 2 > all.length;
  if (sum(all) === 0 || tooManyWithheld || judged === null) return null;
  const labels = tens.map((_, index) => `${index * 10}-${index * 10 + 10}`);
  const hidden = all.includes(null) ? ' –: withheld.' : '';
  const drawn = bars({ counts: tens, labels, ends: [ends.worst, ends.best], expected: judged / tens.length });
  return html`<figure><figcaption><strong>${test.name}</strong><br><span class="soft">Visits by percentile for age and sex, the worst on the left. Dashed: the tenths, were the ${judged} judged like the reference group.${hidden}</span></figcaption>${drawn}<p class="soft">${besideTheBars(test)}</p></figure>`;
}

function results(group: SummaryGroup): Markup {
  const reference = group.tests[0]?.reference ?? null;
  return html`<section><h3>Test results</h3>
<div class="wide"><table><thead><tr><th scope="col">Test</th><th scope="col">Tested</th><th scope="col">No result</th><th scope="col">Result</th><th scope="col">Below the 25th percentile for age and sex</th><th scope="col">Meets a mark that counts</th></tr></thead>
<tbody>${group.tests.map(testRow)}</tbody></table></div>
<p class="soft">${reference === null ? '' : `Of the reference group of each table ${percent(reference)} stand below its 25th percentile. `}Unable is the worst result: it counts in the median and, wherever a table has a spread, as below. A mark that counts is one that is linked with falls or stands in a falls guideline.</p>
<div class="charts">${group.tests.map(histogram)}</div></section>`;
}

/** What a list must not be read as. */
interface Words {
  readonly none: string;
  readonly note: string;
}

const LEVEL_WORDS: Words = {
  none: 'No level was worked out.',
  note: 'Undetermined: an answer that would decide the level was not recorded. It is not a low level.',
};
const FOUND_WORDS: Words = {
  none: 'None was found; what was not asked is not ruled out.',
  note: 'Shares are of all visits. What was not asked or measured counts as not found, so the true number can only be higher.',
};

function countList(title: string, counts: readonly NamedCount[], total: number | null, { none, note }: Words): Markup {
  const rows = counts.filter(({ n }) => n !== 0);
  const share = (n: number | null): string => (n === null || total === null || total === 0 ? '' : percent(n / total));
  return html`<section><h3>${title}</h3>${
    rows.length === 0
      ? html`<p>${none}</p>`
      : html`<table><tbody>${rows.map(({ name, n }) => html`<tr><th scope="row">${name}</th><td>${counted(n)}</td><td class="soft">${share(n)}</td></tr>`)}</tbody></table><p class="soft">${note}</p>`
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
  if (group.n === null)
    return html`<article><h2>${title}</h2><p>Withheld: there are too few visits, in all or in one of the parts, whose page and this one would give each other away. Where the parts have no pages of their own, merge with --split.</p></article>`;
  return html`<article><h2>${title}</h2>
${who(group, summary)}
${results(group)}
${countList(`Level of risk (${summary.pathway.name})`, group.levels, group.n, LEVEL_WORDS)}
${countList('Red flags', group.red_flags, group.n, FOUND_WORDS)}
${countList('Contributing factors', group.factors, group.n, FOUND_WORDS)}
${starts(group)}</article>`;
}

function withheldGroups({ groups_withheld: some }: Summary): Markup | null {
  if (!some) return null;
  return html`<article><h2>Groups that are not shown</h2><p>Withheld: some groups have too few visits, or the number of one of those would follow. They are in the figures of all groups together.</p></article>`;
}

function withheldInWords({ least_shown: least }: Summary): string {
  if (least === null) return 'Nothing is withheld: this page stays in the clinic.';
  return `Counts of 1 to ${least - 1} are withheld, and beside each as many others, large ones too, as it takes that it cannot be worked out from the totals: "withheld" does not mean few. Only how many have no result, or no table that could place them, is always shown, since it says nothing of anybody's health. Of a small group little is left; for use inside the clinic --unmasked shows everything.`;
}

export function renderSummaryHtml(summary: Summary): string {
  const groups = [...summary.groups.slice(-1), ...summary.groups.slice(0, -1)];
  const sources = Object.entries(summary.sources);
  const page = html`<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Cohort summary</title><style>${{ markup: STYLE }}</style></head>
<body><header><h1>Cohort summary</h1>
<p class="soft">Every row is one visit, scored as if it stood alone; a client with two visits counts twice.</p>
<p class="soft">${withheldInWords(summary)}</p>
<p class="look">Figures of a group, for whoever runs the programme. They say nothing of a single client, and without a comparison group they do not show what the programme did.</p></header>
<main>${groups.map((group) => groupSection(group, summary))}
${withheldGroups(summary)}
${changeSection(summary)}
${sources.length === 0 ? null : html`<section><h2>Sources</h2><ul>${sources.map(([id, { citation, doi }]) => html`<li><strong>${id}</strong>: ${citation}${doi === null ? null : ` doi:${doi}`}</li>`)}</ul></section>`}</main>
<footer><p class="soft">${summary.tool.name} ${summary.tool.version}, evidence ${summary.evidence.digest.slice(0, 12)}. It supports a professional's judgement and does not replace it.</p></footer></body></html>
`;
  return page.markup;
}
