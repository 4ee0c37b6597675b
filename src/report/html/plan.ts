/** Starting levels as options to tick, each with its ladder. */
import type { ExerciseView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { ladder } from './ladder.ts';
import { html, type Markup } from './markup.ts';
import { definitions, list } from './parts.ts';

const LEAD =
  "Options for the professional to tick, change or leave. Which test result leads to which level is no published rule: it is this program's own, written to be reviewed and edited.";

function exercise(view: ExerciseView, prefix: string): Markup {
  const id = `${prefix}${view.exercise}`;
  const one = (text: string | null): string[] => (text === null || text === '' ? [] : [text]);
  return html`<div class="exercise">${ladder(view.rung, view.rungs, view.name, `${id}-ladder`)}<div>
<h4><input type="checkbox" id="${id}"${view.held ? { markup: ' disabled' } : null}> <label for="${id}">${view.name}: ${view.level}</label></h4>
<p>${view.start}</p>
${definitions([
  ['With', one(view.supervision)],
  ['Dose', one(view.dose)],
  ['Set', view.setByHand],
  ['Because', view.because],
  ['Limits', view.limitedBy],
  ['Up', one(view.moveUp)],
  ['Down', one(view.moveDown)],
  ['Care', view.cautions],
])}</div></div>
`;
}

export function planBody({ plan }: VisitView, prefix: string): Markup {
  const all = plan.shared.filter((line) => line.letter === null).map((line) => line.text);
  const some = plan.shared.filter((line) => line.letter !== null);
  return html`<p>${LEAD}</p>
${all.length === 0 ? null : html`<h3>For every exercise</h3>${list(all)}`}
${some.length === 0 ? null : html`<h3>For exercises that name the letter</h3>${list(some.map((line) => `${line.letter}: ${line.text}`))}`}
${plan.groups.map((group) => html`<h3>${group.purpose}</h3>${group.exercises.map((each) => exercise(each, prefix))}`)}
${plan.adapted.length === 0 ? null : html`<h3>Adapted to this client</h3>${list(plan.adapted)}`}
${plan.week.length === 0 ? null : html`<h3>A week of what goes home</h3>${list(plan.week)}`}`;
}
