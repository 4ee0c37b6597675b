/** `footing norms show SOURCE`: everything the collection holds from one paper, laid out for reading beside it. */
import { Command, Option } from 'commander';
import type { Evidence } from '../evidence/data.ts';
import { nearest } from '../intake/near.ts';
import { own } from '../own.ts';
import { escapedJson } from '../report/json.ts';
import { sourceSheet } from '../report/norms-book/sheets.ts';
import { renderSourceSheet } from '../report/norms-book/text.ts';
import { colourFor } from './colour.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { checkTest } from './norms-list.ts';

interface ShowOptions {
  readonly format: 'text' | 'json';
  readonly json?: boolean;
  readonly test?: string;
}

const TEXT_WIDTH = 100;

const HELP = `
SOURCE is an id as "footing norms list" and the reports print it.

Examples:
  footing norms show pondal-2008-tug
  footing norms show bergland-2019-sppb-subtests --test five_times_sit_to_stand
`;

export function showCommand(invocation: () => Invocation): Command {
  return new Command('show')
    .description('print what the collection holds from one source, as its paper has it')
    .argument('<source>', 'id of the source')
    .option('--test <id>', 'only of this test')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .addHelpText('after', HELP)
    .action((source: string, options: ShowOptions) => show(source, options, invocation()));
}

/** @throws CannotStart with the nearest known ids where the bibliography has no such source. */
export function checkSource(evidence: Evidence, id: string): void {
  if (own(evidence.sources, id) !== undefined) return;
  const known = Object.keys(evidence.sources);
  const alike = known.filter((each) => each.startsWith(`${id.split('-')[0]}-`));
  const near = nearest(id, known);
  const hint =
    alike.length > 0 ? `; there are ${alike.join(', ')}` : near === undefined ? '; see footing norms list' : `; perhaps ${near}`;
  throw new CannotStart(`there is no source "${id}"${hint}`);
}

async function show(source: string, options: ShowOptions, invocation: Invocation): Promise<void> {
  const { io, noColour } = invocation;
  const evidence = await evidenceFor(invocation);
  checkSource(evidence, source);
  if (options.test !== undefined) checkTest(evidence, options.test);
  if (options.json === true || options.format === 'json') {
    const wanted = (each: { readonly source: string; readonly test?: string | undefined }): boolean =>
      each.source === source && (options.test === undefined || each.test === options.test);
    const { tables, cutPoints, errors, likelihoodRatios, fallRates } = evidence;
    const found = {
      source,
      ...evidence.sources[source],
      tables: tables.filter(wanted),
      cut_points: cutPoints.filter(wanted),
      errors: errors.filter(wanted),
      likelihood_ratios: likelihoodRatios.filter(wanted),
      fall_rates: fallRates.filter(wanted),
    };
    io.stdout.write(escapedJson(found));
    return;
  }
  const sheet = sourceSheet(evidence, source, options.test);
  if (sheet === null) return;
  const colour = colourFor(io.stdout, io.env, noColour);
  const { columns } = io.stdout;
  const width = Math.min(columns ?? TEXT_WIDTH, TEXT_WIDTH);
  io.stdout.write(renderSourceSheet(sheet, { width, gridWidth: columns ?? Number.POSITIVE_INFINITY, colour }));
}
