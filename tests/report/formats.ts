/** Every format of a visit by name, for tests that must hold in all of them. */

import { renderFhir } from '../../src/report/fhir/bundle.ts';
import { renderHtml } from '../../src/report/html/report.ts';
import { renderJson } from '../../src/report/json.ts';
import { letterHtml } from '../../src/report/letter/html.ts';
import { letterOf } from '../../src/report/letter/letter.ts';
import { filledTemplate } from '../../src/report/letter/template.ts';
import { letterMarkdown, letterText } from '../../src/report/letter/text.ts';
import type { Letter, People } from '../../src/report/letter/types.ts';
import { renderMarkdown } from '../../src/report/markdown/report.ts';
import { type Visit, visitView } from '../../src/report/view/visit.ts';
import { testEvidence } from '../support/evidence.ts';
import { briefTextOf, textOf } from './support.ts';
import { nobody } from './visits.ts';

export const letterFor = (
  { assessment }: Visit,
  people: People = nobody,
  receiver: 'gp' | 'specialist' | 'client-file' = 'gp',
): Letter => letterOf({ assessment, people, letterhead: ['Example Clinic'], receiver, written: '2026-05-20' });

export const TEMPLATE =
  '{% for line in to %}{{ line }}\n{% endfor %}{{ subject }}\n{{ summary }}\n{% for request in requests %}{{ request.what }} {{ request.why }} {{ request.when }}\n{% endfor %}{% for row in results %}{{ row.test }}: {{ row.result }}\n{% endfor %}{{ signature }}\n';

export function everyFormat(visit: Visit, people: People = nobody): Readonly<Record<string, string>> {
  const view = visitView(visit, testEvidence());
  const letter = letterFor(visit, people);
  return {
    text: briefTextOf(visit.assessment),
    'text, full': textOf(visit.assessment),
    json: renderJson([visit.assessment], { asArray: false }),
    markdown: renderMarkdown([view], { full: true }),
    html: renderHtml([view], { full: true }),
    fhir: renderFhir([visit], testEvidence()),
    'letter, text': letterText(letter),
    'letter, markdown': letterMarkdown(letter),
    'letter, html': letterHtml(letter),
    'letter, template': filledTemplate(TEMPLATE, letter, 'html'),
  };
}
