/** `footing score FILE...`: one visit a file -> the assessment as text, JSON, Markdown, a page or a FHIR bundle. */
import { Command, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Evidence } from '../evidence/data.ts';
import { renderJson } from '../report/json.ts';
import { renderText } from '../report/text.ts';
import type { Visit } from '../report/view/visit.ts';
import { evidenceFor } from './evidence.ts';
import type { Invocation } from './main.ts';
import { pageOf, writeResult } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withRiskOptions } from './risk-options.ts';

const FORMATS = ['text', 'json', 'markdown', 'html', 'fhir'] as const;

interface ScoreOptions extends RiskOptions {
  readonly format: (typeof FORMATS)[number];
  readonly json?: boolean;
  readonly full?: boolean;
  readonly output?: string;
}

const HELP = `
FILE is a visit in YAML (see examples/); - reads standard input. Several files give one report each, one JSON array, one page
or one FHIR R4 bundle. The page (html) is one file with nothing loaded from elsewhere; print it from the browser.

Examples:
  footing score examples/copd-74.yaml
  footing score examples/copd-74.yaml examples/steady-66.yaml --format json
  footing score examples/copd-74.yaml --format html -o report.html

Exit code: 0 done, 1 a file was refused (the others are scored), 2 the work cannot start.
`;

export function scoreCommand(invocation: () => Invocation): Command {
  const command = new Command('score')
    .description('score one visit or several')
    .argument('<file...>', 'visit files, or - for standard input')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(FORMATS).default('text'))
    .option('--json', 'the same as --format json')
    .option('--full', 'every comparison, mark, reason, move and source, not the short report')
    .option('-o, --output <file>', 'write here instead of to standard output');
  return withRiskOptions(command)
    .addHelpText('after', HELP)
    .action((files: string[], options: ScoreOptions) => score(files, options, invocation()));
}

async function score(files: readonly string[], options: ScoreOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const { sessions, code } = await readSessions(files, evidence, invocation);
  const visits = sessions.map((session) => ({ session, assessment: assess(session, evidence, how) }));
  if (visits.length > 0 || files.length > 1) {
    const text = await render(visits, { asArray: files.length > 1, evidence, options }, invocation);
    writeResult(text, options.output, invocation);
  }
  invocation.finish(code);
}

interface Printing {
  readonly asArray: boolean;
  readonly evidence: Evidence;
  readonly options: ScoreOptions;
}

/** Formats that few runs need are loaded only then. */
async function render(visits: readonly Visit[], printing: Printing, invocation: Invocation): Promise<string> {
  const { asArray, evidence, options } = printing;
  const assessments = visits.map((visit) => visit.assessment);
  switch (options.json === true ? 'json' : options.format) {
    case 'json':
      return renderJson(assessments, { asArray });
    case 'markdown':
    case 'html':
      return renderDocument(visits, printing);
    case 'fhir':
      return (await import('../report/fhir/bundle.ts')).renderFhir(visits, evidence);
    case 'text':
      return renderText(assessments, { ...pageOf(options.output, invocation), full: options.full });
  }
}

async function renderDocument(visits: readonly Visit[], { evidence, options }: Printing): Promise<string> {
  const { visitView } = await import('../report/view/visit.ts');
  const views = visits.map((visit) => visitView(visit, evidence));
  if (options.format === 'html') return (await import('../report/html/report.ts')).renderHtml(views, { full: options.full });
  return (await import('../report/markdown/report.ts')).renderMarkdown(views, { full: options.full });
}
