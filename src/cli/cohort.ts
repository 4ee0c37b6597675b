/** `footing cohort FILE.csv`: a whole programme in one command. Only the options stand here; the work is loaded when it is called. */
import { Command, InvalidArgumentError, Option } from 'commander';
import type { Invocation } from './main.ts';
import { type RiskOptions, withPathwayOptions } from './risk-options.ts';

export interface CohortOptions extends RiskOptions {
  readonly output?: string;
  readonly rejects?: string;
  readonly summary?: string;
  readonly summaryPart?: string;
  readonly merge?: boolean;
  readonly split?: boolean;
  readonly by?: string;
  readonly unmasked?: boolean;
  readonly columns?: string;
  readonly suggestColumns?: boolean;
  readonly format?: 'csv' | 'ndjson';
  readonly delimiter?: string;
  readonly encoding?: string;
  readonly header?: string;
  readonly workers?: number;
}

const HELP = `
Each row is scored as if it were a single visit. The row's own columns are kept; behind them stand, for each test, value,
percentile, bound, standing and flag, then level of risk, what is missing, and notes (red flags first). Nothing is lost:
a row that does not fit goes to --rejects with every reason, or to standard error. Rows are numbered as in a spreadsheet,
the header being row 1. A folder of visit files is a cohort too, and - reads standard input.

Examples:
  footing cohort examples/cohort.csv -o scored.csv --rejects refused.csv --summary group.html
  footing cohort examples/cohort-clinic.csv --columns examples/cohort-clinic.map --format ndjson
  footing cohort examples/cohort-clinic.csv --suggest-columns

Exit code: 0 done, 1 a row was refused (the others are scored), 2 the work cannot start or could not be finished.
`;

function delimiterOf(text: string): string {
  const named: Readonly<Record<string, string>> = { tab: '\t', '\\t': '\t', comma: ',', semicolon: ';' };
  const delimiter = named[text] ?? text;
  if (delimiter.length !== 1 || /["\r\n]/.test(delimiter)) throw new InvalidArgumentError('write one character, or tab.');
  return delimiter;
}

function workersOf(text: string): number {
  if (!/^[1-9]\d?$/.test(text)) throw new InvalidArgumentError('write a number from 1 to 99.');
  return Number(text);
}

/** As asked for, else by the name of the output. */
export const formatOf = ({ format, output }: CohortOptions): 'csv' | 'ndjson' =>
  format ?? (output !== undefined && /\.(?:ndjson|jsonl)$/i.test(output) ? 'ndjson' : 'csv');

export function cohortCommand(invocation: () => Invocation): Command {
  const command = new Command('cohort')
    .description('score a CSV of visits, list what does not fit, sum up the group')
    .argument('<file...>', 'one CSV, or a folder of visit files, or - ; with --merge the parts of a summary')
    .option('-o, --output <file>', 'write the scored rows here instead of to standard output')
    .option('--rejects <file>', 'write the refused rows here, with row number, reasons and original cells')
    .option('--summary <file>', 'write the group summary here (.json or .html), its counts in bands of five')
    .option('--by <heading>', 'part the summary by this column')
    .option('--unmasked', 'exact counts in the summary: only for use inside the clinic')
    .option('--summary-part <file>', 'write what --merge adds up; not masked, so it stays in the clinic')
    .option('--merge', 'the files are parts; write the summary of all of them')
    .option('--split', 'with --merge: the parts are pieces of one cohort and had no page of their own')
    .option('--columns <map>', 'what the columns mean, as a YAML file')
    .option('--suggest-columns', 'print a proposed map for this header, or write it to --output, and do nothing else')
    .addOption(
      new Option(
        '-f, --format <format>',
        'how to write the scored rows (default: csv, or ndjson where --output ends in .ndjson)',
      ).choices(['csv', 'ndjson']),
    )
    .addOption(new Option('--delimiter <character>', 'what parts the cells (found by itself otherwise)').argParser(delimiterOf))
    .option('--encoding <name>', 'encoding of the input where it is not UTF-8 or UTF-16, such as windows-1252')
    .option('--header <line>', 'the header, for an input without one; the output then has none either')
    .addOption(
      new Option('--workers <number>', 'processors to use (default: all of them for a file of several MB)').argParser(workersOf),
    );
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action(async (files: string[], options: CohortOptions) => {
      const { cohort } = await import('./cohort-run.ts');
      await cohort(files, options, invocation());
    });
}
