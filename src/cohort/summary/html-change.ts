/** What changed between first and last visits, with what must be said beside it. */
import { html, type Markup } from '../../report/html/markup.ts';
import { isSmall } from './bands.ts';
import type { Summary, SummaryChange, SummaryEstimate, SummaryKind } from './types.ts';
import { countedInWords, decimal, spreadInWords } from './words.ts';

function estimate({ value, low, high }: SummaryEstimate): string {
  const sign = value > 0 ? '+' : '';
  return low === null || high === null
    ? `${sign}${decimal(value, 2)}`
    : `${sign}${decimal(value, 2)} (95 % ${decimal(low, 2)} to ${decimal(high, 2)})`;
}

/** Who became unable has no number and is in no mean; the reader has to see that there are such people. */
function inTheMean({ pairs, measured }: SummaryChange): Markup | null {
  if (typeof pairs === 'number' && typeof measured === 'number')
    return pairs === measured
      ? null
      : html`<br><span class="soft">${measured} with a number at both visits; ${pairs - measured} without, in no mean</span>`;
  return html`<br><span class="soft">${countedInWords(measured)} with a number at both visits; any others are in no mean</span>`;
}

function changeRow(change: SummaryChange): Markup {
  const { verdicts } = change;
  return html`<tr><th scope="row">${change.name}<br><span class="soft">${change.better} is better${change.unit === '' ? '' : `, ${change.unit}`}</span></th>
<td>${countedInWords(change.pairs)}${inTheMean(change)}</td>
<td>${change.mean_change === null ? 'not shown' : estimate(change.mean_change)}</td>
<td>${change.median_change === null ? 'not shown' : estimate(change.median_change)}</td>
<td>improved ${countedInWords(verdicts.improved)}, worsened ${countedInWords(verdicts.worsened)}, within error ${countedInWords(verdicts.within_error)}, cannot tell ${countedInWords(verdicts.cannot_tell)}</td></tr>`;
}

const kindRow = (label: string, kind: SummaryKind): Markup =>
  html`<tr><th scope="row">${label}</th><td>${countedInWords(kind.n)}</td><td>${spreadInWords(kind.age, 'years', 0)}</td>
<td>${kind.levels.length === 0 ? 'not shown' : kind.levels.filter(({ n }) => !isSmall(n)).map(({ name, n }) => html`${name}: ${countedInWords(n)}<br>`)}</td>
<td>${kind.tests.length === 0 ? 'not shown' : kind.tests.filter(({ value }) => value !== null).map(({ name, value }) => html`${name}: ${spreadInWords(value, '', 2)}<br>`)}</td></tr>`;

export function changeSection({ change, no_change_because }: Summary): Markup {
  if (change === null)
    return html`<section><h2>Change between visits</h2><p>${no_change_because ?? 'No client came twice.'}</p></section>`;
  return html`<section><h2>Change between first and last visit</h2>
<p class="look">${change.caution}</p>
${isSmall(change.mixed_up) ? null : html`<p>References whose two visits differ in sex or go back in age, left out: ${countedInWords(change.mixed_up)}. They are two people under one reference, or slips of typing.</p>`}
<div class="wide"><table><thead><tr><th scope="col">Test</th><th scope="col">Clients</th><th scope="col">Mean change</th><th scope="col">Median change</th><th scope="col">Against the measurement error, client by client</th></tr></thead><tbody>${change.tests.map(changeRow)}</tbody></table></div>
<p class="soft">Means and medians are of those with a number at both visits, and not shown where they are under half. Who became unable is in no mean and counts as worsened.</p>
<h3>Those who came again beside those who did not, at their first visit</h3>
<div class="wide"><table><thead><tr><td></td><th scope="col">Clients</th><th scope="col">Age</th><th scope="col">Level of risk</th><th scope="col">First results</th></tr></thead><tbody>${kindRow('Two visits or more', change.completers)}${kindRow('One visit', change.left)}</tbody></table></div></section>`;
}
