/** `footing change EARLIER LATER...`: visits of one client -> what changed, held against measurement error. */
import { Command, Option } from 'commander';
import type { Change } from '../change/types.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart, EXIT } from './io.ts';
import type { Invocation } from './main.ts';
import { pageOf, writeResult } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withPathwayOptions } from './risk-options.ts';
import { visitFiles } from './visit-files.ts';

const FORMATS = ['text', 'json', 'markdown', 'html', 'letter'] as const;

interface ChangeOptions extends RiskOptions {
  readonly format: (typeof FORMATS)[number];
  readonly json?: boolean;
  readonly output?: string;
}

const HELP = `
VISITS are two or more visit files of one client, in any order, or a folder that holds them. The first visit is compared
with the last; with three or more also the one before the last, the best and the trend. A change is called better or worse
only when it is larger than the measurement error that is published for the test.

Examples:
  footing change examples/d-118/2026-03-16.yaml examples/d-118/2026-05-04.yaml
  footing change examples/d-118 --format html -o change.html

Exit code: 0 done, 1 a file was refused or the visits are not of one client, 2 the work cannot start.
`;

export function changeCommand(invocation: () => Invocation): Command {
  const command = new Command('change')
    .description('tell real change from measurement error over two or more visits')
    .argument('<visits...>', 'visit files of one client, or a folder of them')
    .addOption(new Option('-f, --format <format>', 'how to print; letter is one paragraph').choices(FORMATS).default('text'))
    .option('--json', 'the same as --format json')
    .option('-o, --output <file>', 'write here instead of to standard output');
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action((paths: string[], options: ChangeOptions) => change(paths, options, invocation()));
}

async function change(paths: readonly string[], options: ChangeOptions, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const files = visitFiles(paths, io);
  if (files.length < 2)
    throw new CannotStart('two visits are needed to see a change: name two files, or a folder with two or more');
  const { sessions, code } = await readSessions(files, evidence, invocation);
  invocation.finish(code);
  // A change over a visit that could not be read would look whole and not be.
  if (code !== EXIT.done) return;
  const { changeOf, NotComparable } = await import('../change-visits.ts');
  try {
    const text = await render(changeOf(sessions, evidence, how), options, invocation);
    writeResult(text, options.output, invocation);
  } catch (error) {
    if (!(error instanceof NotComparable)) throw error;
    io.stderr.write(`footing: ${error.message}\n`);
    invocation.finish(EXIT.refused);
  }
}

/** Each format is loaded only when it is asked for. */
async function render(found: Change, options: ChangeOptions, invocation: Invocation): Promise<string> {
  const format = options.json === true ? 'json' : options.format;
  if (format === 'json') return (await import('../report/change/json.ts')).renderChangeJson(found);
  if (format === 'markdown') return (await import('../report/change/markdown.ts')).renderChangeMarkdown(found);
  if (format === 'html') return (await import('../report/change/html.ts')).renderChangeHtml(found);
  if (format === 'letter') return (await import('../report/change/letter.ts')).renderChangeLetter(found);
  return (await import('../report/change/text.ts')).renderChangeText(found, pageOf(options.output, invocation));
}
