/** A sheet to fill in by pen at the bedside, in the order of `footing new`; printed from the browser on A4. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Leaf } from '../session-keys.ts';
import { html, type Markup } from './html/markup.ts';
import { htmlPage } from './html/page.ts';

const STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #9aa5ac; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 54rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: #fff; font: .95rem/1.35 system-ui, sans-serif; }
h1 { font-size: 1.25rem; margin: 0 0 .4rem; } h2 { font-size: 1rem; margin: .8rem 0 .2rem; border-bottom: 2px solid var(--ink); }
p { margin: .2rem 0; } .soft { color: var(--soft); font-size: .82rem; }
table { border-collapse: collapse; width: 100%; } td, th { border-bottom: 1px solid var(--line); padding: .28rem .4rem; text-align: left; vertical-align: top; font-weight: 400; }
th { width: 62%; } .tests th { width: 46%; } .name { font-weight: 600; }
.box { display: inline-block; min-width: 3.4rem; border-bottom: 1px solid var(--ink); height: 1.25rem; margin-right: .5rem; } .wide { min-width: 9rem; }
.tick::before { content: ""; display: inline-block; width: .8rem; height: .8rem; border: 1px solid var(--ink); margin: 0 .25rem -.1rem .6rem; } .tick { white-space: nowrap; } .tick:first-child::before { margin-left: 0; }
tr { break-inside: avoid; }
@page { size: A4; margin: 12mm; }
@media print { body { padding: 0; max-width: none; font-size: 9.5pt; } .soft { font-size: 7.8pt; } h2 { break-after: avoid; } }
`;

const box = html`<span class="box"></span>`;
const wideBox = html`<span class="box wide"></span>`;
const ticks = (words: readonly string[]): Markup[] =>
  words.map((word) => html`<span class="tick">${word === 'copd' ? 'COPD' : word.replaceAll('_', ' ')}</span> `);

function place(leaf: Leaf): Markup | readonly Markup[] {
  switch (leaf.kind) {
    case 'answer':
    case 'event':
      return ticks(['yes', 'no', 'unknown']);
    case 'choice':
      return ticks(leaf.options);
    case 'steroid':
      return [...ticks(['no', 'unknown']), html` ${box} mg a day for ${box} months`];
    case 'pressure':
      return html`${box} / ${box}`;
    case 'text':
    case 'texts':
      return wideBox;
    default:
      return box;
  }
}

const TRIALS = 3;
const trialBoxes = (): Markup[] => new Array<Markup>(TRIALS).fill(box);

function testRow(test: TestDefinition): Markup {
  const unit = test.unit_text === '' ? 'points' : test.unit_text;
  const walk = test.course ? html`<br>distance ${box} m, start ${ticks(['standing', 'moving'])}` : null;
  const results = test.sided ? html`right ${trialBoxes()}<br>left ${trialBoxes()}` : html`${trialBoxes()}`;
  const ceiling =
    test.ceiling === null && test.common_ceilings.length > 0 ? html`<br>watch stopped at ${box} s at the latest` : null;
  return html`<tr><th><span class="name">${test.name}</span> (${test.course ? 's or m/s' : unit})<br><span class="soft">${test.protocol}</span></th>
<td>${results}${walk}${ceiling}<br>${ticks(['unable', 'declined', 'unsafe'])} reason ${wideBox}</td></tr>
`;
}

/** A question as it stands on the sheet. */
export interface SheetLine {
  readonly section: string;
  readonly ask: string;
  readonly leaf: Leaf;
}

const lineRow = ({ ask, leaf }: SheetLine): Markup => html`<tr><th>${ask}</th><td>${place(leaf)}</td></tr>
`;

/** A whole HTML document for these questions and tests. `made` is the line on the program at its foot. */
export function renderPaperSheet(lines: readonly SheetLine[], tests: readonly TestDefinition[], made: string): string {
  const sections = [...new Set(lines.map(({ section }) => section))];
  const groups = sections.map(
    (name) => html`<h2>${name}</h2>
<table>${lines.filter(({ section }) => section === name).map(lineRow)}</table>
`,
  );
  const body = html`<main>
<h1>Visit sheet</h1>
<p>Reference (not a name) ${wideBox} ${ticks(['female', 'male'])}   Age ${box} Day of the visit ${wideBox}</p>
<p>Lives ${ticks(['in the community', 'in residential care', 'in hospital'])}   Assessed by ${wideBox}</p>
${groups}
<h2>Tests</h2>
<p class="soft">One box a trial. What was not done stays empty.</p>
<table class="tests">${tests.map(testRow)}</table>
<h2>Seen, said, agreed</h2>
<p><br><br><br></p>
</main>
<footer class="soft">${made}; type it in with "footing new"</footer>`;
  return htmlPage({ title: 'Visit sheet', style: STYLE, body });
}
