/** The group summary as one page that needs nothing else: for the screen, for paper, and for whoever pays for the programme. */
import { html, type Markup } from '../../report/html/markup.ts';
import { BANDS, highest, isSmall, lowest } from './bands.ts';
import { changeSection } from './html-change.ts';
import { bars, STYLE } from './html-parts.ts';
import type { Count, NamedCount, ShareOf, Summary, SummaryGroup, SummaryTest } from './types.ts';
import { countedInWords as counted, percent, shareInWords, spreadInWords } from './words.ts';

function who(group: SummaryGroup, { rows }: Summary): Markup {
  const sexes = Object.entries(group.sex).filter(([, n]) => !isSmall(n));
  return html`<section><h3>Who</h3>
<table><tbody>
<tr><th scope="row">Visits scored</th><td>${counted(group.n)}${group.group === null ? html` <span class="soft">of ${counted(rows.read)} rows read; ${counted(rows.refused)} refused</span>` : null}</td></tr>
<tr><th scope="row">Age</th><td>${spreadInWords(group.age, 'years', 0)}</td></tr>
<tr><th scope="row">Sex</th><td>${sexes.map(([sex, n]) => `${sex} ${counted(n)}`).join(', ')}</td></tr>
</tbody></table></section>`;
}

function interval({ low, high }: ShareOf): string {
  return `95 % ${percent(low)} to ${percent(high)}`;
}

/** The share and what it leaves out, or why there is none: a figure without its gaps would be read as the whole group's. */
function belowQuarter(test: SummaryTest): Markup {
  const { below_25: share, no_share_because: because, not_judged: notJudged } = test;
  if (share === null) return html`No share: ${because ?? ''}.`;
  const { n, of, open, lowest: least, highest: most } = share;
  const counts = `${counted(n)} of ${counted(of)}`;
  const unsettled = isSmall(open) ? '' : `, and ${counted(open)} whose result does not settle it`;
  const text =
    least === most
      ? `${percent(least)} (${interval(share)}): ${counts}`
      : `Between ${percent(least)} and ${percent(most)} (${interval(share)}): ${typeof n === 'number' ? 'at least ' : ''}${counts}${unsettled}`;
  const rest = `${counted(notJudged)} more were tested but cannot be judged, whatever their result: no table with a spread for their age and sex.`;
  return html`${text}${isSmall(notJudged) ? null : html`<br><span class="soft">${rest}</span>`}`;
}

function marks({ flagged, tested }: SummaryTest): Markup {
  const { yes, no, undecided } = flagged;
  if (tested === 0) return html`nobody tested`;
  if (isSmall(yes) && isSmall(no) && !isSmall(undecided)) return html`no mark decides here`;
  const of =
    typeof tested === 'number' && typeof undecided === 'number' ? String(tested - undecided) : `${counted(tested)} tested`;
  return html`${counted(yes)} of ${of}${isSmall(undecided) ? null : html`<br><span class="soft">${counted(undecided)} undecided</span>`}`;
}

/** A line for each of `counts` that is worth one. */
const under = (counts: readonly (readonly [string, Count])[]): Markup[] =>
  counts
    .filter(([, count]) => !isSmall(count))
    .map(([label, count]) => html`<br><span class="soft">${label}: ${counted(count)}</span>`);

function testRow(test: SummaryTest): Markup {
  const { unable, stopped, declined } = test.outcomes;
  return html`<tr><th scope="row">${test.name}</th>
<td>${counted(test.tested)}${unable === 0 ? null : html`<br><span class="soft">of them unable: ${counted(unable)}</span>`}</td>
<td>${counted(test.no_result)}${under([
    ['stopped', stopped],
    ['declined', declined],
  ])}</td>
<td>${spreadInWords(test.value, test.unit, 2)}</td>
<td>${belowQuarter(test)}</td>
<td>${marks(test)}</td></tr>`;
}

/** Whoever is in no tenth, so that the tenths are not taken for everybody. */
function besideTheBars({ off_scale, quarter, not_judged }: SummaryTest): string {
  const said: readonly (readonly [Count, string])[] = [
    [off_scale.worst, 'at the worst end, below the 25th percentile: unable, or worse than the worst mark of the table'],
    [off_scale.best, 'at the best end, not below it: better than the best mark of the table'],
    [quarter.open, 'in no bar: the result does not settle it'],
    [not_judged, 'in no bar: no table that could place them'],
  ];
  const words = said.filter(([n]) => !isSmall(n)).map(([n, text]) => `${counted(n)} ${text}`);
  if (words.length > 0) return `Without a tenth: ${words.join('; ')}.`;
  return typeof not_judged === 'number' ? 'Everybody tested is in a tenth.' : 'Few or none are without a tenth.';
}

/** A histogram against the tenth of the judged that every bar would hold if they were like the reference group. */
function histogram(test: SummaryTest): Markup | null {
  const { tens, off_scale: ends, judged } = test;
  if ([...tens, ends.worst, ends.best].every(isSmall)) return null;
  const labels = tens.map((_, index) => `${index * 10}-${index * 10 + 10}`);
  const expected = (lowest(judged) + highest(judged)) / 2 / tens.length;
  const drawn = bars({ counts: tens, labels, ends: [ends.worst, ends.best], expected });
  const inBands =
    typeof judged === 'number' ? '' : ' A bar is as high as the middle of its band; one of the first band is not drawn.';
  return html`<figure><figcaption><strong>${test.name}</strong><br><span class="soft">Visits by percentile for age and sex, the worst on the left. Dashed: the tenths, were the ${counted(judged)} judged like the reference group.${inBands}</span></figcaption>${drawn}<p class="soft">${besideTheBars(test)}</p></figure>`;
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

/** Of a list that leaves out the first band. */
const unnamedInWords = ({ summed }: SummaryGroup, { bands }: Summary): string =>
  bands === null ? '' : `What is not named has ${bands.first_to * summed} or fewer. `;

interface List {
  readonly title: string;
  readonly counts: readonly NamedCount[];
  readonly words: Words;
}

function countList({ title, counts, words: { none, note } }: List, group: SummaryGroup, summary: Summary): Markup {
  const rows = counts.filter(({ n }) => !isSmall(n));
  const unnamed = unnamedInWords(group, summary);
  return html`<section><h3>${title}</h3>${
    rows.length === 0
      ? html`<p>${summary.bands === null ? none : unnamed}</p>`
      : html`<table><tbody>${rows.map(({ name, n }) => html`<tr><th scope="row">${name}</th><td>${counted(n)}</td><td class="soft">${shareInWords(n, group.n)}</td></tr>`)}</tbody></table><p class="soft">${unnamed}${note}</p>`
  }</section>`;
}

function starts(group: SummaryGroup, summary: Summary): Markup | null {
  const { starts: exercises } = group;
  if (exercises.length === 0) return null;
  const row = ({ name, levels }: SummaryGroup['starts'][number]): Markup =>
    html`<tr><th scope="row">${name}</th><td>${levels.filter((level) => !isSmall(level.n)).map(({ id, name: level, n: count }) => html`${id === '0' ? level : `${id}. ${level}`}: ${counted(count)}<br>`)}</td></tr>`;
  return html`<section><h3>Starting levels</h3><table><tbody>${exercises.map(row)}</tbody></table>
<p class="soft">The program's own suggestion from the tests, lowered by every caution that applies. ${unnamedInWords(group, summary)}</p></section>`;
}

function groupSection(group: SummaryGroup, summary: Summary): Markup {
  const title =
    group.group === null
      ? summary.by === null
        ? 'All visits'
        : 'All groups together'
      : `${summary.by}: ${group.group === '' ? 'not recorded' : group.group}`;
  const sums =
    summary.bands === null || group.summed === 1
      ? null
      : html`<p class="soft">Here each count is the sum of ${group.summed} bands, those of its ${summary.by === null ? 'parts' : 'groups or parts'}: a narrower one would tell of them.</p>`;
  return html`<article><h2>${title}</h2>${sums}
${who(group, summary)}
${results(group)}
${countList({ title: `Level of risk (${summary.pathway.name})`, counts: group.levels, words: LEVEL_WORDS }, group, summary)}
${countList({ title: 'Red flags', counts: group.red_flags, words: FOUND_WORDS }, group, summary)}
${countList({ title: 'Contributing factors', counts: group.factors, words: FOUND_WORDS }, group, summary)}
${starts(group, summary)}</article>`;
}

function unlistedGroups({ groups_withheld: some, no_groups_because: none }: Summary): Markup | null {
  if (none !== null) return html`<article><h2>Groups</h2><p>${none}</p></article>`;
  if (!some) return null;
  return html`<article><h2>Groups that are not shown</h2><p>Some groups have ${BANDS.first_to} or fewer visits, or stand beside one that has. They are in the figures of all groups together.</p></article>`;
}

function countsInWords({ bands }: Summary): string {
  if (bands === null) return 'Every count is exact: this page stays in the clinic.';
  const { first_to: first, width } = bands;
  const next = (step: number): string => `${first + step * width + 1} to ${first + (step + 1) * width}`;
  return `Every count is a band (${first} or fewer, ${next(0)}, ${next(1)} and so on) or the sum of several, so that no small number of people can be worked out from the others. Shares run from the least to the most that the bands allow. For use inside the clinic --unmasked gives every count as it is.`;
}

export function renderSummaryHtml(summary: Summary): string {
  const groups = [...summary.groups.slice(-1), ...summary.groups.slice(0, -1)];
  const sources = Object.entries(summary.sources);
  const page = html`<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Cohort summary</title><style>${{ markup: STYLE }}</style></head>
<body><header><h1>Cohort summary</h1>
<p class="soft">Every row is one visit, scored as if it stood alone; a client with two visits counts twice.</p>
<p class="soft">${countsInWords(summary)}</p>
<p class="look">Figures of a group, for whoever runs the programme. They say nothing of a single client, and without a comparison group they do not show what the programme did.</p></header>
<main>${groups.map((group) => groupSection(group, summary))}
${unlistedGroups(summary)}
${changeSection(summary)}
${sources.length === 0 ? null : html`<section><h2>Sources</h2><ul>${sources.map(([id, { citation, doi }]) => html`<li><strong>${id}</strong>: ${citation}${doi === null ? null : ` doi:${doi}`}</li>`)}</ul></section>`}</main>
<footer><p class="soft">${summary.tool.name} ${summary.tool.version}, evidence ${summary.evidence.digest.slice(0, 12)}. It supports a professional's judgement and does not replace it.</p></footer></body></html>
`;
  return page.markup;
}
