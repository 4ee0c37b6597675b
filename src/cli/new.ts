/** `footing new [FILE]`: a visit question by question; or an empty form, on the screen or on paper. */
import { Command } from 'commander';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { chooseTests } from '../intake/interview/choose-tests.ts';
import { type Question, questionsFor } from '../intake/interview/questions.ts';
import { visitText } from '../intake/write-visit.ts';
import { toolVersion } from '../version.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';

interface NewOptions {
  readonly blank?: boolean;
  readonly paper?: boolean;
  readonly tests?: string;
  readonly all?: boolean;
}

const HELP = `
Asks in the order of a visit, checks while you type, and writes a visit file with comments. Without FILE the name is made of
the reference and the day. Ctrl+C stops; the same command goes on where you stopped. Nothing needs the questions: --blank
writes an empty form to fill in with an editor, --paper one to print and fill in by pen.

Examples:
  footing new --blank
  footing new --paper --tests "tug 5sts sls tandem" sheet.html

Exit code: 0 done, 2 the file is there already or there is no terminal to ask on.
`;

export function newCommand(invocation: () => Invocation): Command {
  return new Command('new')
    .description('enter a visit, question by question, or get an empty form')
    .argument('[file]', 'where to write the visit or the form')
    .option('--blank', 'an empty visit file with comments')
    .option('--paper', 'a sheet to print and fill in by pen (HTML)')
    .option('--tests <names>', 'only these tests: ids or short names apart by blanks')
    .option('--all', 'ask also for what is recorded less often: red flags, medicines and more')
    .addHelpText('after', HELP)
    .action((file: string | undefined, options: NewOptions) => newVisit(file, options, invocation()));
}

/** @throws CannotStart where a name is no test. */
function namedTests(names: string, { tests }: Evidence): readonly TestDefinition[] {
  const chosen = chooseTests(names, tests);
  if ('problem' in chosen)
    throw new CannotStart(`--tests: ${chosen.problem.replace('; ? lists them', '; "footing protocol" lists them')}`);
  return chosen.tests;
}

/** Worked out from other tests, so never entered themselves. */
const isEntered = (test: TestDefinition): boolean => test.derived_from.length === 0;

async function newVisit(file: string | undefined, options: NewOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  if (options.blank !== true && options.paper !== true) {
    const { askVisit } = await import('./new-interview.ts');
    if (options.tests !== undefined) namedTests(options.tests, evidence);
    return askVisit(file, { all: options.all === true, tests: options.tests ?? '' }, evidence, invocation);
  }
  const tests = options.tests === undefined ? evidence.tests.filter(isEntered) : namedTests(options.tests, evidence);
  const questions = questionsFor({}, evidence, options.all === true).filter(({ section }) => section !== 'Tests');
  const text = options.paper === true ? await paper(tests, questions) : blank(tests, questions, evidence);
  if (file === undefined || file === '-') invocation.io.stdout.write(text);
  else writeOutput(file, text, invocation);
}

function blank(tests: readonly TestDefinition[], questions: readonly Question[], evidence: Evidence): string {
  const emptyKeys = questions.map(({ id }) => id);
  return visitText({ tree: {}, emptyKeys, emptyTests: tests.map(({ id }) => id), tests: evidence.tests });
}

async function paper(tests: readonly TestDefinition[], questions: readonly Question[]): Promise<string> {
  const { renderPaperSheet } = await import('../report/paper-sheet.ts');
  // What the client is stands in the head of the sheet.
  const lines = questions.flatMap(({ section, ask, form }) =>
    form.kind === 'leaf' && section !== 'Client' ? [{ section, ask, leaf: form.leaf }] : [],
  );
  return renderPaperSheet(lines, tests, `footing ${toolVersion}`);
}
