/** `footing score FILE...`: one visit a file -> the assessment as text or JSON. */
import { Command, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Assessment } from '../assessment.ts';
import { renderJson } from '../report/json.ts';
import { renderText } from '../report/text.ts';
import { colourFor } from './colour.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart, EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withRiskOptions } from './risk-options.ts';

interface ScoreOptions extends RiskOptions {
  readonly format: 'text' | 'json';
  readonly json?: boolean;
  readonly full?: boolean;
  readonly output?: string;
}

const HELP = `
FILE is a visit in YAML (see examples/); - reads standard input. Several files give one report each, or one JSON array.

Examples:
  footing score examples/copd-74.yaml
  footing score examples/copd-74.yaml examples/steady-66.yaml --format json

Exit code: 0 done, 1 a file was refused (the others are scored), 2 the work cannot start.
`;

export function scoreCommand(invocation: () => Invocation): Command {
  const command = new Command('score')
    .description('score one visit or several')
    .argument('<file...>', 'visit files, or - for standard input')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .option('--full', 'every comparison, mark, reason, move and source, not the short report')
    .option('-o, --output <file>', 'write here instead of to standard output');
  return withRiskOptions(command)
    .addHelpText('after', HELP)
    .action((files: string[], options: ScoreOptions) => score(files, options, invocation()));
}

async function score(files: readonly string[], options: ScoreOptions, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const { sessions, code } = await readSessions(files, evidence, invocation);
  const assessments = sessions.map((session) => assess(session, evidence, how));
  if (assessments.length > 0 || files.length > 1) {
    const text = render(assessments, files.length > 1, options, invocation);
    if (options.output === undefined) io.stdout.write(text);
    else writeOutput(options.output, text, invocation);
  }
  invocation.finish(code);
}

function render(
  assessments: readonly Assessment[],
  asArray: boolean,
  options: ScoreOptions,
  { io, noColour }: Invocation,
): string {
  if (options.json === true || options.format === 'json') return renderJson(assessments, { asArray });
  const toFile = options.output !== undefined;
  const colour = colourFor(toFile ? { ...io.stdout, isTerminal: false } : io.stdout, io.env, noColour || toFile);
  return renderText(assessments, { width: io.stdout.columns ?? 80, colour, full: options.full });
}

export function writeOutput(path: string, text: string | Uint8Array, { io }: Invocation): void {
  try {
    io.writeFile(path, text);
  } catch (error) {
    throw new CannotStart(`cannot write ${path}: ${fileErrorInWords(error)}`);
  }
  io.stderr.write(`wrote ${path}\n`);
}

export const exitCodes = EXIT;
