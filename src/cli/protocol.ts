/** `footing protocol [TEST...]`: how a test is carried out, on the terminal or as a card to print. */
import { Command, Option } from 'commander';
import type { Evidence } from '../evidence/data.ts';
import { bundledProtocols } from '../evidence/protocols.ts';
import type { ProtocolFile } from '../evidence/schema/protocol.ts';
import { nearest } from '../intake/near.ts';
import { findTest } from '../intake/test-names.ts';
import { escapedJson } from '../report/json.ts';
import { renderProtocolHtml } from '../report/protocol/html.ts';
import { renderProtocolList, renderProtocolText } from '../report/protocol/text.ts';
import { type ProtocolView, protocolView } from '../report/protocol/view.ts';
import { pageWidth } from '../report/text/layout.ts';
import { toolVersion } from '../version.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { pageOf, writeResult } from './output.ts';

interface ProtocolOptions {
  readonly format: 'text' | 'html' | 'json';
  readonly output?: string;
  readonly all?: boolean;
}

const HELP = `
TEST is an id (timed_up_and_go) or a usual short name (TUG, 5xSTS). Without one, every card is listed. The card html is made
for printing; --all prints all of them.

Examples:
  footing protocol timed_up_and_go
  footing protocol tug 5xsts --format html -o cards.html

Exit code: 0 done, 2 there is no such card.
`;

export function protocolCommand(invocation: () => Invocation): Command {
  return new Command('protocol')
    .description('show how a test is carried out')
    .argument('[test...]', 'ids or short names of tests')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'html', 'json']).default('text'))
    .option('-o, --output <file>', 'write here instead of to standard output')
    .option('--all', 'every card')
    .addHelpText('after', HELP)
    .action((tests: string[], options: ProtocolOptions) => protocol(tests, options, invocation()));
}

/** @throws CannotStart with the nearest known name. */
function cardOf(name: string, evidence: Evidence, cards: readonly ProtocolFile[]): ProtocolFile {
  const id = cards.some((card) => card.id === name) ? name : (findTest(name, evidence.tests)?.id ?? name);
  const card = cards.find((each) => each.id === id);
  if (card !== undefined) return card;
  const near = nearest(name, [...cards.map((each) => each.id), ...evidence.tests.flatMap((test) => test.headings)]);
  throw new CannotStart(
    `there is no protocol "${name}"${near === undefined ? '' : `; perhaps ${near} is meant`}; "footing protocol" lists them`,
  );
}

async function protocol(names: readonly string[], options: ProtocolOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const cards = bundledProtocols();
  const chosen = names.length > 0 ? names.map((name) => cardOf(name, evidence, cards)) : cards;
  const views = chosen.map((card) => protocolView(card, evidence));
  const listed = names.length === 0 && options.all !== true && options.format === 'text';
  const { width, colour } = pageOf(options.output, invocation);
  const page = { width: pageWidth(width), colour };
  const text = listed ? renderProtocolList(views) : rendered(views, options, page);
  writeResult(text, options.output, invocation);
}

function rendered(
  views: readonly ProtocolView[],
  options: ProtocolOptions,
  page: Parameters<typeof renderProtocolText>[1],
): string {
  if (options.format === 'json') return escapedJson(views);
  if (options.format === 'html') return renderProtocolHtml(views, `footing ${toolVersion}`);
  return renderProtocolText(views, page);
}
