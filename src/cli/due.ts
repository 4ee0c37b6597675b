/** `footing due FOLDER`: who is due for review, overdue or flagged, from the newest visit of each client. */
import { Command, InvalidArgumentError, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Session } from '../session.ts';
import { evidenceFor } from './evidence.ts';
import type { Invocation } from './main.ts';
import { pageOf, writeResult } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withPathwayOptions } from './risk-options.ts';
import { visitFiles } from './visit-files.ts';

interface DueCommandOptions extends RiskOptions {
  readonly format: 'text' | 'json';
  readonly json?: boolean;
  readonly output?: string;
  readonly on?: string;
  readonly within: number;
  readonly all?: boolean;
}

const HELP = `
Every .yaml and .yml file in FOLDER and the folders in it is read. The day of review follows from the level of the newest
visit and the pathway's own interval; while the level is open, the interval of the highest level still possible counts.

Examples:
  footing due examples/d-118
  footing due examples/d-118 --on 2026-12-01 --within 30 --format json

Exit code: 0 done, 1 a file was refused (the others are listed), 2 the work cannot start.
`;

function isoDate(text: string): string {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  // 30 February would roll over into March.
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== text)
    throw new InvalidArgumentError('write a date such as 2026-12-01.');
  return text;
}

function wholeDays(text: string): number {
  if (!/^\d{1,4}$/.test(text)) throw new InvalidArgumentError('write a number of days, such as 14.');
  return Number(text);
}

export function dueCommand(invocation: () => Invocation): Command {
  const command = new Command('due')
    .description('list who is due for review, overdue or flagged')
    .argument('<folder...>', 'folders or files of visits, of any number of clients')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addOption(new Option('--on <date>', 'the day to count from (default: today)').argParser(isoDate))
    .addOption(new Option('--within <days>', 'days ahead that count as due').argParser(wholeDays).default(14))
    .option('--all', 'list also who is not due yet');
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action((folders: string[], options: DueCommandOptions) => due(folders, options, invocation()));
}

async function due(folders: readonly string[], options: DueCommandOptions, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const today = options.on ?? io.today();
  const visits: { ref: string; assessed: string; file: string; session: Session }[] = [];
  for (const file of visitFiles(folders, io)) {
    const { sessions, code } = await readSessions([file], evidence, invocation);
    invocation.finish(code);
    visits.push(...sessions.map((session) => ({ ref: session.client.ref, assessed: session.assessed, file, session })));
  }
  const { dueList, newestOf } = await import('../change/due.ts');
  const { renderDueJson, renderDueText } = await import('../report/change/due.ts');
  const newest = newestOf(visits).map(({ file, session }) => ({
    file,
    assessment: assess(session, evidence, how),
  }));
  const clients = dueList(newest, today, options.within);
  const asJson = options.json === true || options.format === 'json';
  const shown = options.all === true ? clients : clients.filter((client) => client.state !== 'later');
  const text = asJson
    ? renderDueJson(shown)
    : renderDueText(clients, { ...pageOf(options.output, invocation), today, all: options.all === true });
  writeResult(text, options.output, invocation);
}
