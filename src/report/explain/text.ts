/** One explanation for the terminal: labels in a column, the same label once. */
import { heading, labelled, type Page, pageWidth } from '../text/layout.ts';
import type { TextOptions } from '../text.ts';
import { sanitise } from '../view/sanitise.ts';
import type { Explanation } from './subjects.ts';

const SHAPE = { indent: 2, column: 14 };

/** Neighbouring lines under one label stand as one list. */
export function renderExplanation(explanation: Explanation, options: TextOptions): string {
  const page: Page = { width: pageWidth(options.width), colour: options.colour };
  const groups: { label: string; texts: string[] }[] = [];
  for (const [label, text] of explanation.lines()) {
    const last = groups.at(-1);
    if (last?.label === label) last.texts.push(sanitise(text));
    else groups.push({ label, texts: [sanitise(text)] });
  }
  const lines = [
    ...heading(sanitise(explanation.title), page).slice(1),
    ...labelled('Id', [sanitise(explanation.key)], page, SHAPE),
    ...groups.flatMap(({ label, texts }) => labelled(label, texts, page, SHAPE)),
  ];
  return `${lines.join('\n')}\n`;
}
