/**
 * A clinic's own template: Liquid, which fills slots and runs no code. Every slot is escaped for the format of the template,
 * and a slot that does not exist is refused rather than left empty.
 */
import { Liquid } from 'liquidjs';
import { escaped } from '../html/markup.ts';
import { plainMarkdown } from '../markdown/escape.ts';
import type { Letter } from './types.ts';

export type TemplateFormat = 'text' | 'markdown' | 'html';

/** Slots of a template, with what stands in them. `[]` marks a list: {% for row in results %}{{ row.test }}{% endfor %}. */
export const PLACEHOLDERS: readonly (readonly [string, string])[] = [
  ['letterhead[]', 'lines of the letterhead, from the settings or --letterhead'],
  ['date', 'the day the letter is written, in words'],
  ['to[]', 'name and address of the receiver'],
  ['salutation', 'Dear ..., with the comma; empty for the file'],
  ['subject', 'Re: who, when seen'],
  ['summary', 'level by a named pathway, and the main reason'],
  ['urgency', 'URGENT, Soon, Routine (nothing found that needs the doctor today), For information or Record'],
  ['requests[].what', 'what is asked'],
  ['requests[].why', 'the finding behind it'],
  ['requests[].when', 'by when'],
  ['noRequest', 'the sentence for a letter that asks nothing'],
  ['doing[]', 'what we do ourselves'],
  ['results[].test', 'name of the test'],
  ['results[].about', 'what it looks at'],
  ['results[].result', 'the result with its unit'],
  ['results[].forAgeAndSex', 'how it stands for age and sex'],
  ['results[].falls', 'the published mark linked with falls'],
  ['resultsNote', 'what was left out of the table; may be empty'],
  ['facts[]', 'falls, blood pressure, oxygen, bones, and what is not known of them'],
  ['notDone', 'what was not tested or not asked'],
  ['wishes[]', 'what the client wants, and consent'],
  ['next[]', 'review, and when we write again'],
  ['closing', 'courtesy at the end; empty for the file'],
  ['signature[]', 'name, profession, registration, telephone'],
  ['copies', 'who gets a copy; may be empty'],
  ['sources', 'authors and years of the tables compared with'],
];

const ESCAPES: Readonly<Record<TemplateFormat, (text: string) => string>> = {
  text: (text) => text,
  markdown: plainMarkdown,
  html: escaped,
};

function asText(value: unknown): string {
  if (Array.isArray(value)) return value.map(asText).join(', ');
  if (typeof value === 'object' && value !== null)
    throw new TypeError(`a row has no text of its own; name one of its slots: ${Object.keys(value).join(', ')}`);
  return String(value ?? '');
}

/** @throws Error with line and column where the template is not valid or names a slot that does not exist. */
export function filledTemplate(template: string, letter: Letter, format: TemplateFormat): string {
  const engine = new Liquid({
    strictVariables: true,
    strictFilters: true,
    ownPropertyOnly: true,
    // No file of the disk can be included by a template.
    templates: {},
    outputEscape: (value) => ESCAPES[format](asText(value)),
    parseLimit: 1_000_000,
    renderLimit: 900,
    memoryLimit: 50_000_000,
  });
  // Switching off the escaping is no part of what a template may do.
  engine.registerFilter('raw', { raw: false, handler: (value: unknown) => value });
  return String(engine.parseAndRenderSync(template, { ...letter }));
}
