/** First screen: what needs a doctor, the level, why, what next, and the path taken. */
import type { StepView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { html, type Markup } from './markup.ts';
import { cited, definitions, list } from './parts.ts';

export function redFlagBox(view: VisitView, id: string): Markup {
  const cleared = list(view.clearedFlags.map(cited));
  if (view.redFlags.length === 0)
    return html`<section class="box calm" id="${id}"><h2>What needs a doctor first</h2><p>${view.noRedFlags}</p>${cleared}</section>`;
  return html`<section class="box" id="${id}"><h2>What needs a doctor first</h2>
${view.redFlags.map(
  (flag) => html`<h3>${flag.tier}: ${flag.finding}</h3>
${definitions([
  ['Do', [flag.action]],
  ['Because', [cited({ text: flag.because, mark: flag.mark })]],
  ['Limits', flag.spread === null ? [] : [flag.spread]],
  ['Clearance', flag.clearanceRefused === null ? [] : [flag.clearanceRefused]],
])}`,
)}
${view.toClear === null ? null : html`<p>${view.toClear}</p>`}${cleared}</section>`;
}

export function riskBody({ risk, check }: VisitView): Markup {
  const doNext = risk.doNext.length > 0 ? risk.doNext.map(cited) : risk.settled ? [] : ['first settle the level: see Missing'];
  const missing =
    risk.missing.length > 0 ? risk.missing : [risk.settled ? 'nothing that could change the level' : 'see the path below'];
  return html`<p class="level">${risk.headline}</p><p class="soft">by ${risk.pathway}</p>
${definitions([
  ['Why', risk.why],
  ['Do next', doNext],
  ['Missing', missing],
  ['Review', risk.review === null ? [] : [cited(risk.review)]],
  ['Note', risk.caveats.map(cited)],
  ['Also', risk.others],
  ['Check', check],
])}`;
}

/** How a node looks; the words of the answer say the same. */
function lookOf({ answer }: StepView): string {
  if (answer === 'not reached') return 'not_reached';
  return answer === 'unknown' || answer.startsWith('perhaps') ? 'unknown' : 'answered';
}

/** The path drawn from top to bottom: answered nodes in a full line, unknown ones dashed, those not reached faint. */
export function pathBody({ risk }: VisitView): Markup {
  return html`<p class="soft">Full line: answered. Dashed: unknown. Faint: not reached.</p>
<ol class="path">${risk.steps.map(
    (
      step,
    ) => html`<li class="${lookOf(step)}">${step.question} <span class="answer">${step.answer.toUpperCase()}</span>${step.because === '' ? null : html`<br>${step.because}`}${step.mark === '' ? null : html` <span class="soft">${step.mark}</span>`}</li>
`,
  )}<li class="end">${risk.headline}</li></ol>`;
}
