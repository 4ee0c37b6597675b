/** The list of who is due, for people and for programs. */
import type { DueClient, DueState } from '../../change/due.ts';
import { escapedJson } from '../json.ts';
import { bullet, type Colour, heading, type Page, pageWidth, paragraph } from '../text/layout.ts';
import { dateWords } from '../view/numbers.ts';
import { sanitisedDeep } from '../view/sanitise.ts';
import { boundsWords, levelWords, statusWords } from '../view/words.ts';

export const renderDueJson = (clients: readonly DueClient[]): string => escapedJson(sanitisedDeep(clients));

const HEADINGS: Readonly<Record<DueState, string>> = {
  overdue: 'Overdue',
  due: 'Due',
  flagged: 'Flagged: a warning sign stood in the newest visit',
  later: 'Later',
};

const days = (count: number): string => (Math.abs(count) === 1 ? '1 day' : `${Math.abs(count)} days`);

function whenWords(client: DueClient): string {
  if (client.days === 0) return 'due today';
  return client.days < 0
    ? `${days(client.days)} overdue (since ${dateWords(client.due)})`
    : `due in ${days(client.days)} (${dateWords(client.due)})`;
}

function clientLines(client: DueClient, page: Page): string[] {
  const level =
    client.level === 'undetermined' ? boundsWords(client.at_least, client.at_most) : `${levelWords(client.level)} risk`;
  const more = [...client.flags.map((flag) => `warning sign: ${flag}`), ...client.caveats];
  return [
    ...bullet(`${client.ref}: ${whenWords(client)}; seen ${dateWords(client.assessed)}, ${level} [${client.file}]`, 2, page),
    ...more.flatMap((line) => bullet(line, 4, page, '!')),
  ];
}

/** Which rule of follow-up the days come from, once for each level. */
function basisLines(clients: readonly DueClient[], page: Page): string[] {
  const rules = clients.map(({ follow_up: rule }) => {
    const status = statusWords(rule.basis as Parameters<typeof statusWords>[0]);
    return [rule.text, ...(rule.source === null ? [] : [`{${rule.source}}`]), ...(status === null ? [] : [`(${status})`])].join(
      ' ',
    );
  });
  return [...new Set(rules)].flatMap((rule) => paragraph(`Interval: ${rule}`, 0, page).map((line) => page.colour.dim(line)));
}

export interface DueOptions {
  readonly width: number;
  readonly colour: Colour;
  readonly today: string;
  readonly all: boolean;
}

export function renderDueText(given: readonly DueClient[], { width, colour, today, all }: DueOptions): string {
  const page: Page = { width: pageWidth(width), colour };
  const clients = sanitisedDeep(given);
  const shown = clients.filter((client) => all || client.state !== 'later');
  const states = [...new Set(shown.map((client) => client.state))];
  const later = clients.length - shown.length;
  const lines = [
    ...paragraph(
      `On ${dateWords(today)}, ${clients.length} ${clients.length === 1 ? 'client' : 'clients'}, from the newest visit of each.`,
      0,
      page,
    ),
    ...states.flatMap((state) => [
      ...heading(HEADINGS[state], page),
      ...shown.filter((client) => client.state === state).flatMap((client) => clientLines(client, page)),
    ]),
    '',
    ...(shown.length === 0 ? ['Nobody is due, overdue or flagged.'] : []),
    ...(later === 0 ? [] : [`${later} not due yet (--all lists them).`]),
    ...basisLines(shown, page),
  ];
  return `${lines.join('\n')}\n`;
}
