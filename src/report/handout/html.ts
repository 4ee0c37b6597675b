/** The page for the client as one HTML file for print: no script, no network, drawings inside. */
import { html, type Markup } from '../html/markup.ts';
import { figureSvg } from './figure/figure.ts';
import { handoutStyle, type Paper } from './style.ts';
import type { HandoutExercise, HandoutSectionView, HandoutView, TickRow } from './types.ts';

const list = (lines: readonly string[]): Markup => html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

/** A section of one line has its title in that line. */
const section = ({ title, lines }: HandoutSectionView): Markup =>
  lines.length === 1
    ? html`<section class="block one"><h2>${title}:</h2> <p>${lines[0] ?? ''}</p></section>
`
    : html`<section><h2>${title}</h2>${list(lines)}</section>
`;

function stopBox(view: HandoutView): Markup {
  const [call, ...ask] = view.stop;
  return html`<section class="stop">${call === undefined ? null : html`<h2>${call.title}</h2><p class="call">${view.call}</p>${list(call.lines)}`}${ask.map((each) => html`<h2>${each.title}. <span>${view.phone}</span></h2>${list(each.lines)}`)}</section>
`;
}

/** The description of the rung leads, then where to stand. */
const rungAndPlace = ({ rung, setUp }: HandoutExercise): Markup | null =>
  rung === null && setUp === null ? null : html`<p>${rung === null ? null : html`<strong>${rung}.</strong> `}${setUp}</p>`;

function exercise(each: HandoutExercise, { labels }: HandoutView): Markup {
  return html`<section class="exercise"><div class="figure">${{ markup: figureSvg(each.exercise, each.level, each.drawing) }}</div><div class="head"><h3>${each.number}. ${each.name}</h3><span class="tried">${labels.tried} <span class="box"></span></span></div><div>
${rungAndPlace(each)}
${each.withWhom === null ? null : html`<p class="with">${each.withWhom}</p>`}
<ol>${each.steps.map((step) => html`<li>${step}</li>`)}</ol>
<p class="many">${labels.howMany}: ${each.howMany.join('. ')}.</p>
${each.care.length === 0 ? null : html`<p>${labels.takeCare}: ${each.care.join(' ')}</p>`}
</div></section>
`;
}

function tickRow(row: TickRow): Markup {
  const cells = [false, true].flatMap((second) =>
    row.days.map(
      (planned, day) =>
        html`<td${second && day === 0 ? { markup: ' class="new"' } : null}>${planned ? html`<span class="ring"></span>` : null}</td>`,
    ),
  );
  return html`<tr><th scope="row">${row.number}. ${row.name}</th>${cells}</tr>
`;
}

function tickTable({ tick, week }: HandoutView): Markup {
  const days = [false, true].flatMap((second) =>
    tick.days.map(
      (day, index) => html`<th scope="col"${second && index === 0 ? { markup: ' class="new"' } : null}>${day.slice(0, 2)}</th>`,
    ),
  );
  return html`<section class="block"><h2>${tick.title}</h2><p>${week.join(' ')}</p><p>${tick.intro}</p><table class="tick"><thead><tr><th scope="col" rowspan="2">${tick.exercise}</th><th scope="colgroup" colspan="7">${tick.weeks[0]}</th><th scope="colgroup" colspan="7" class="new">${tick.weeks[1]}</th></tr><tr>${days}</tr></thead><tbody>
${tick.rows.map(tickRow)}</tbody></table></section>
`;
}

/** A whole HTML document for the given paper. */
export function renderHandoutHtml(view: HandoutView, { paper }: { readonly paper: Paper }): string {
  const { labels } = view;
  const page = html`<!DOCTYPE html>
<html lang="${view.language}" dir="${view.direction}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${view.title}</title>
<style>${{ markup: handoutStyle(paper) }}</style>
</head>
<body>
<header>${view.letterhead.map((line) => html`<p class="letterhead">${line}</p>`)}<div class="sign"><div><h1>${view.title}</h1><p>${view.forClient}. ${view.date}.</p></div><div><p>${labels.writtenBy}:</p><p>${labels.registration}:</p></div></div></header>
<main>
${stopBox(view)}
${view.before.map(section)}
${view.withWhom === null ? null : html`<p class="with">${view.withWhom}</p>`}
<section><h2 class="hidden">${view.labels.exercises}</h2>
${view.groups.flatMap((group) => group.exercises.map((each) => exercise(each, view)))}</section>
${section(view.change)}
${view.after.map(section)}
${tickTable(view)}
</main>
</body>
</html>
`;
  return page.markup;
}
