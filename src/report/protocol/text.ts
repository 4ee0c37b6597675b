/** Protocol cards for a terminal. */
import { bullet, heading, type Page, paragraph } from '../text/layout.ts';
import { MARKS_LEGEND, type ProtocolView, sourceText } from './view.ts';

function cardLines(view: ProtocolView, page: Page): string[] {
  return [
    ...heading(view.title, page),
    ...paragraph(`Write it as ${view.id}`, 2, page),
    ...view.facts.flatMap((fact) => paragraph(fact, 2, page)),
    ...view.sections.flatMap(({ heading: name, lines }) => [
      '',
      page.colour.bold(name),
      ...lines.flatMap((line) => bullet(line, 2, page)),
    ]),
    '',
    page.colour.bold('Sources'),
    ...view.sources.flatMap((source) => bullet(sourceText(source), 2, page, `[${source.number}]`)),
    ...paragraph(MARKS_LEGEND, 2, page),
  ];
}

export function renderProtocolText(views: readonly ProtocolView[], page: Page): string {
  return `${views
    .flatMap((view) => cardLines(view, page))
    .join('\n')
    .replace(/^\n/, '')}\n`;
}

/** Every card by id and name, in two columns. */
export function renderProtocolList(views: readonly ProtocolView[]): string {
  const width = Math.max(...views.map(({ id }) => id.length));
  const lines = views.map(({ id, title }) => `  ${id.padEnd(width)}  ${title}`);
  return `${lines.join('\n')}\n\nfooting protocol ID shows one; the short names used for column headings (TUG, 5xSTS) work too.\n`;
}
