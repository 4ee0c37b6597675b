/** Factors, what was not asked, the basis of every line, what was typed in, cautions and sources. */
import type { BasisEntry, SourceView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { html, type Markup } from './markup.ts';
import { cited, definitions, list, wideTable } from './parts.ts';

export function factorsBody({ factors }: VisitView): Markup {
  if (factors.length === 0) return html`<p>None found in what was recorded.</p>`;
  return html`${factors.map(
    (group) =>
      html`<h3>${group.heading}</h3><ul>${group.factors.map(
        (
          factor,
        ) => html`<li><strong>${factor.name}</strong>: ${cited(factor)} <span class="soft">Usually: ${factor.action}</span></li>
`,
      )}</ul>`,
  )}`;
}

export function probabilityBody({ risk: { probability } }: VisitView): Markup | null {
  if (probability === null) return null;
  return html`<p>${probability.figure ?? `Not worked out: ${probability.because}.`}</p>
${definitions([
  ['Warning', probability.warnings.map(cited)],
  ['Parts', probability.parts.map(cited)],
  ['Formula', probability.formula === null ? [] : [probability.formula]],
  ['Not used', probability.notUsed],
])}`;
}

export const notAskedBody = ({ notAsked }: VisitView): Markup | null =>
  notAsked.length === 0 ? null : html`<p>Not ruled out; each would be a reason to see a doctor first.</p>${list(notAsked)}`;

const FIRST = new Set(['Row', 'Formula', 'Gives', 'Fit']);

/** Opened by --full; on paper only what is open is printed. */
function basisEntry(entry: BasisEntry, open: boolean): Markup {
  const labels = [...new Set(entry.lines.map((line) => line.label))];
  const texts = (label: string): string[] => entry.lines.filter((line) => line.label === label).map((line) => line.text);
  const first: readonly string[] = labels.filter((label) => FIRST.has(label));
  const more = labels.filter((label) => !first.includes(label));
  return html`<h3>${entry.label}</h3>${definitions(first.map((label) => [label, texts(label)] as const))}
${more.length === 0 ? null : html`<details${open ? { markup: ' open' } : null}><summary>Notes, other tables, all marks and the measurement error of ${entry.label}</summary>${definitions(more.map((label) => [label, texts(label)] as const))}</details>`}`;
}

export const basisBody = ({ basis, plan }: VisitView, open: boolean): Markup =>
  html`${basis.map((entry) => basisEntry(entry, open))}
${plan.basis.length === 0 ? null : html`<h3>Starting levels, doses and limits</h3>${list(plan.basis)}`}`;

/** Everything read from the file, and how each test is to be done. */
export function recordedBody({ recorded, typed, visit, ref }: VisitView): Markup {
  const rows = typed.map(
    (test) =>
      html`<tr><th scope="row">${test.name}</th><td>${test.side}</td><td>${test.how}</td><td>${test.unit}</td><td><code>${test.protocol}</code></td></tr>
`,
  );
  const head = html`<thead><tr><th scope="col">Test</th><th scope="col">Side</th><th scope="col">As typed</th><th scope="col">Unit</th><th scope="col">How it is done</th></tr></thead>`;
  return html`<p class="soft">From the ${visit}, in the order typed. What is absent was not recorded and is not read as no.</p>
${typed.length === 0 ? null : wideTable(`Tests as typed of ${ref}`, html`<table>${head}<tbody>${rows}</tbody></table>`)}
${recorded.map((group) => html`<h3>${group.heading}</h3>${definitions(group.rows.map(([name, value]) => [name, [value]] as const))}`)}`;
}

export const cautionsBody = ({ cautions, stopSigns }: VisitView): Markup =>
  html`${list(cautions.map(cited))}${stopSigns.length === 0 ? null : html`<h3>Stop the exercise at</h3>${list(stopSigns.map(cited))}`}`;

const item = (source: SourceView): Markup =>
  html`<li value="${source.number}">${source.citation}${source.doi === null ? null : html` <a href="https://doi.org/${source.doi}">doi:${source.doi}</a>`}${source.location === null || source.location === '' ? '' : ` – ${source.location}.`}${source.status === null ? '' : ` (${source.status})`} <span class="soft">${source.id}</span></li>
`;

export const sourcesBody = ({ sources, furtherSources }: VisitView): Markup =>
  html`<ol class="small">${sources.map(item)}</ol>${furtherSources === null ? null : html`<p class="small">${furtherSources}</p>`}`;
