/** `footing risk FILE...`: the fall-risk part alone, with how much each published mark is worth for this client. */
import { Command, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Assessment } from '../assessment.ts';
import { evidenceFor } from './evidence.ts';
import type { Invocation } from './main.ts';
import { pageOf, writeResult } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withRiskOptions } from './risk-options.ts';

interface RiskCommandOptions extends RiskOptions {
  readonly format: 'text' | 'json';
  readonly json?: boolean;
  readonly output?: string;
}

const HELP = `
FILE is a visit in YAML (see examples/); - reads standard input. For every published mark: met or not, its sensitivity and
specificity, in whom and for what outcome, so that you see how much each flag is worth.

Examples:
  footing risk examples/copd-74.yaml
  footing risk examples/copd-74.yaml --pathway-option modified_2024 --probability

Exit code: 0 done, 1 a file was refused (the others are shown), 2 the work cannot start.
`;

export function riskCommand(invocation: () => Invocation): Command {
  const command = new Command('risk')
    .description('place a client on the fall-risk pathway and show what each mark is worth')
    .argument('<file...>', 'visit files, or - for standard input')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .option('-o, --output <file>', 'write here instead of to standard output');
  return withRiskOptions(command)
    .addHelpText('after', HELP)
    .action((files: string[], options: RiskCommandOptions) => risk(files, options, invocation()));
}

async function risk(files: readonly string[], options: RiskCommandOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const { sessions, code } = await readSessions(files, evidence, invocation);
  const assessments = sessions.map((session) => assess(session, evidence, how));
  if (assessments.length > 0 || files.length > 1) {
    const text = await render(assessments, files.length > 1, options, invocation);
    writeResult(text, options.output, invocation);
  }
  invocation.finish(code);
}

async function render(
  assessments: readonly Assessment[],
  asArray: boolean,
  options: RiskCommandOptions,
  invocation: Invocation,
): Promise<string> {
  const { renderRiskJson, renderRiskText } = await import('../report/risk.ts');
  if (options.json === true || options.format === 'json') return renderRiskJson(assessments, { asArray });
  return renderRiskText(assessments, pageOf(options.output, invocation));
}
