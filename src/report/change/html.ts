/** The change page: one file, no network, no script. The first screen answers what changed; the basis stands below. */
import type { Change } from '../../change/types.ts';
import { html, type Markup } from '../html/markup.ts';
import { changeChart } from './chart.ts';
import { CHANGE_STYLE } from './style.ts';
import type { ChangePlanView, ChangeTestView, ChangeView } from './types.ts';
import { changeView, detailLines } from './view.ts';

const list = (lines: readonly string[]): Markup | null =>
  lines.length === 0 ? null : html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

const section = (title: string, body: Markup | null): Markup | null =>
  body === null ? null : html`<section><h2>${title}</h2>${body}</section>`;

/** The verdict leads, so that an eye running down the first column has the answer. */
function summary(view: ChangeView): Markup {
  if (view.tests.length === 0) return html`<p>No test was done at both visits.</p>`;
  const rows = view.tests.map(
    (
      test,
    ) => html`<tr><td class="verdict ${test.verdict}">${test.verdictWords}${test.disputed === null ? '' : ' (disputed)'}</td><th scope="row">${test.label}</th><td>${test.before}</td><td>${test.after}</td><td>${test.change}</td></tr>
${test.marksShort === null ? null : html`<tr class="marks"><td></td><td colspan="4">${test.marksShort}</td></tr>`}`,
  );
  return html`<div class="wide" tabindex="0" role="region" aria-label="What changed"><table class="summary"><thead><tr><th scope="col">Verdict</th><th scope="col">Test</th><th scope="col">First</th><th scope="col">Last</th><th scope="col">Change</th></tr></thead><tbody>
${rows}</tbody></table></div>`;
}

function lookBox(view: ChangeView): Markup | null {
  return view.look.length === 0 ? null : html`<section class="look"><h2>Look again</h2>${list(view.look)}</section>`;
}

function planGroup(group: ChangePlanView): Markup {
  const lines =
    group.move === 'stay'
      ? html`<p>${group.exercises.map((exercise) => `${exercise.name} (${exercise.levels})`).join('; ')}</p>`
      : html`<ul>${group.exercises.map(
          (exercise) =>
            html`<li><strong>${exercise.name}</strong>, ${exercise.levels}: “${exercise.from}” to “${exercise.to}”. <span class="soft">${exercise.lines.join(' ')}</span></li>`,
        )}</ul>${group.shared.map((line) => html`<p class="soft small">${line}</p>`)}`;
  return html`<h3>${group.heading}</h3>${lines}`;
}

function chart(test: ChangeTestView, index: number): Markup | null {
  const svg = changeChart(test.source, `chart-${index + 1}`);
  if (svg === null) return null;
  const rows = test.dates.map(({ date, result }) => html`<tr><th scope="row">${date}</th><td>${result}</td></tr>`);
  return html`<figure>${svg}<figcaption><h3>${test.label}: <span class="${test.verdict}">${test.verdictWords}</span></h3><p class="small">${test.before} to ${test.after}; ${test.change}.</p>${
    test.dates.length > 2 ? html`<details class="small"><summary>Values</summary><table>${rows}</table></details>` : null
  }</figcaption></figure>`;
}

const LEGEND =
  'Dots: results (hollow: done with another aid; a triangle: stopped at the ceiling; a cross: unable). Grey dotted band: what measurement error around the first result can explain. Blue ground: the middle of the people of that age and sex, where the table says. Red dashes: marks linked with falls.';

function charts(view: ChangeView): Markup | null {
  const drawn = view.tests.map(chart).filter((each) => each !== null);
  return drawn.length === 0 ? null : html`<p class="legend">${LEGEND}</p><div class="charts">${drawn}</div>`;
}

function detail(test: ChangeTestView): Markup {
  return html`<div class="detail"><h3>${test.label}: ${test.before} to ${test.after}, <span class="${test.verdict}">${test.verdictWords}</span></h3>${list(detailLines(test))}</div>`;
}

function sources(view: ChangeView): Markup {
  const items = view.sources.map((source) => {
    const doi = source.doi === null ? null : html` <a href="https://doi.org/${source.doi}">doi:${source.doi}</a>`;
    return html`<li value="${source.number}">${source.citation}${doi}${source.location === null ? '' : ` – ${source.location}`}${source.status === null ? '' : ` (${source.status})`}</li>
`;
  });
  return html`<ol class="small">${items}</ol>`;
}

/** A whole HTML document. */
export function renderChangeHtml(change: Change): string {
  const view = changeView(change);
  const title = `Change, client ${view.ref}`;
  const page = html`<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${{ markup: CHANGE_STYLE }}</style>
</head>
<body>
<main>
<h1>${title}</h1>
<p>${view.client}<br>${view.span}</p>
${lookBox(view)}
<ul class="short"><li><strong>Tests.</strong> ${view.counts}</li><li><strong>Fall risk.</strong> ${view.risk.headline}</li><li><strong>Exercises.</strong> ${view.moves}.</li></ul>
${section('What changed', summary(view))}
${section('Fall risk', html`<p>${view.risk.headline}</p>${list(view.risk.lines)}`)}
${section('Over the visits', charts(view))}
${section('Plan', view.plan.length === 0 ? null : html`${view.plan.map(planGroup)}`)}
${section('Not at both visits', list(view.onlyOnce))}
${section('Notes', list([...(view.chance === null ? [] : [`${view.chance}.`]), ...view.notes]))}
${section('Test by test', html`<p>${view.howToRead}</p>${view.tests.map(detail)}`)}
${section('Sources', sources(view))}
<p class="soft small">${view.made}</p>
</main>
</body>
</html>
`;
  return page.markup;
}
