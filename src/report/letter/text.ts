/** The letter in plain text and in Markdown. */
import { bulletMarkdown, plainMarkdown, tableMarkdown } from '../markdown/escape.ts';
import { wrap } from '../text/wrap.ts';
import type { Letter, LetterResult } from './types.ts';

const WIDTH = 80;

/** Headings of the parts, the same in every format. */
export const HEADINGS = {
  requests: 'What we ask of you',
  doing: 'What we are doing',
  results: 'Results',
  facts: 'Falls and safety',
  next: 'Next',
} as const;

export const RESULT_HEADERS = ['Test', 'Result', 'For age and sex', 'Published mark linked with falls'] as const;

export const resultCells = ({ test, about, result, forAgeAndSex, falls }: LetterResult): string[] => [
  about === '' ? test : `${test} (${about})`,
  result,
  forAgeAndSex,
  falls,
];

/** One request as a sentence with its trigger and by when. */
export const requestParts = ({ what, why, when }: Letter['requests'][number]): { what: string; rest: string } => ({
  what,
  rest: `${why} ${when}.`,
});

export const afterResults = (letter: Letter): string[] => [letter.resultsNote, letter.sources].filter((text) => text !== '');

export const factLines = (letter: Letter): string[] => [...letter.facts, letter.notDone].filter((text) => text !== '');

function lines(text: string, indent = 0, sign = ''): string[] {
  const start = ' '.repeat(indent);
  return wrap(text, WIDTH - indent - sign.length).map(
    (line, index) => `${start}${index === 0 ? sign : ' '.repeat(sign.length)}${line}`,
  );
}

const block = (title: string, body: readonly string[]): string[] => (body.length === 0 ? [] : ['', title, ...body]);

export function letterText(letter: Letter): string {
  const requests =
    letter.requests.length === 0
      ? lines(letter.noRequest)
      : letter.requests.flatMap((request, index) => {
          const { what, rest } = requestParts(request);
          return lines(`${what} ${rest}`, 0, `${index + 1}. `);
        });
  const results = letter.results.flatMap((row) => {
    const [test, result, standing, falls] = resultCells(row);
    return lines(`${test}: ${result}; ${standing}; ${falls}.`, 0, '- ');
  });
  return `${[
    ...letter.letterhead,
    ...(letter.letterhead.length === 0 ? [] : ['']),
    letter.date,
    ...letter.to,
    '',
    ...lines(letter.subject),
    '',
    ...(letter.salutation === '' ? [] : [letter.salutation, '']),
    ...lines(`${letter.urgency}. ${letter.summary}`),
    ...block(HEADINGS.requests, requests),
    ...block(
      HEADINGS.doing,
      letter.doing.flatMap((text) => lines(text, 0, '- ')),
    ),
    ...block(HEADINGS.results, [...results, ...afterResults(letter).flatMap((text) => lines(text))]),
    ...block(
      HEADINGS.facts,
      factLines(letter).flatMap((text) => lines(text)),
    ),
    ...block(
      HEADINGS.next,
      [...letter.wishes, ...letter.next].flatMap((text) => lines(text)),
    ),
    '',
    ...(letter.closing === '' ? [] : [letter.closing]),
    ...letter.signature,
    ...(letter.copies === '' ? [] : ['', ...lines(letter.copies)]),
  ].join('\n')}\n`;
}

/** Lines of an address stay lines. */
const kept = (texts: readonly string[]): string => texts.map(plainMarkdown).join('\\\n');

export function letterMarkdown(letter: Letter): string {
  const part = (title: string, body: readonly string[]): string[] => (body.length === 0 ? [] : [`## ${title}`, '', ...body, '']);
  const requests =
    letter.requests.length === 0
      ? [plainMarkdown(letter.noRequest)]
      : letter.requests.map((request, index) => {
          const { what, rest } = requestParts(request);
          return `${index + 1}. **${plainMarkdown(what)}** ${plainMarkdown(rest)}`;
        });
  return `${[
    ...(letter.letterhead.length === 0 ? [] : [kept(letter.letterhead), '']),
    kept([letter.date, ...letter.to]),
    '',
    `**${plainMarkdown(letter.subject)}**`,
    '',
    ...(letter.salutation === '' ? [] : [plainMarkdown(letter.salutation), '']),
    `**${plainMarkdown(letter.urgency)}.** ${plainMarkdown(letter.summary)}`,
    '',
    ...part(HEADINGS.requests, requests),
    ...part(
      HEADINGS.doing,
      letter.doing.map((text) => bulletMarkdown(text)),
    ),
    ...part(HEADINGS.results, [
      ...tableMarkdown(RESULT_HEADERS, letter.results.map(resultCells)),
      ...afterResults(letter).flatMap((text) => ['', plainMarkdown(text)]),
    ]),
    ...part(HEADINGS.facts, [factLines(letter).map(plainMarkdown).join(' ')]),
    ...part(HEADINGS.next, [[...letter.wishes, ...letter.next].map(plainMarkdown).join(' ')]),
    ...(letter.closing === '' ? [] : [plainMarkdown(letter.closing), '']),
    kept(letter.signature),
    ...(letter.copies === '' ? [] : ['', plainMarkdown(letter.copies)]),
  ].join('\n')}\n`;
}
