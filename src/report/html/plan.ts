/** Starting levels as options to tick, each with its ladder. */
import { exerciseParts } from '../view/plan.ts';
import { PLAN_LEAD } from '../view/purpose.ts';
import type { ExerciseView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { ladder } from './ladder.ts';
import { html, type Markup } from './markup.ts';
import { definitions, list } from './parts.ts';

function exercise(view: ExerciseView, prefix: string): Markup {
  const id = `${prefix}${view.exercise}`;
  return html`<div class="exercise">${ladder(view.rung, view.rungs, view.name, `${id}-ladder`)}<div>
<h4><input type="checkbox" id="${id}"${view.held ? { markup: ' disabled' } : null}> <label for="${id}">${view.name}: ${view.level}</label></h4>
<p>${view.start}</p>
${definitions(exerciseParts(view))}</div></div>
`;
}

export function planBody({ plan }: VisitView, prefix: string): Markup {
  const all = plan.shared.filter((line) => line.letter === null).map((line) => line.text);
  const some = plan.shared.filter((line) => line.letter !== null);
  return html`<p>${PLAN_LEAD}</p>
${all.length === 0 ? null : html`<h3>For every exercise</h3>${list(all)}`}
${some.length === 0 ? null : html`<h3>For exercises that name the letter</h3>${list(some.map((line) => `${line.letter}: ${line.text}`))}`}
${plan.groups.map((group) => html`<h3>${group.purpose}</h3>${group.exercises.map((each) => exercise(each, prefix))}`)}
${plan.adapted.length === 0 ? null : html`<h3>Adapted to this client</h3>${list(plan.adapted)}`}
${plan.week.length === 0 ? null : html`<h3>A week of what goes home</h3>${list(plan.week)}`}`;
}
