/** `footing check FILES`: every problem of visit files and folders, with what to write instead, and nothing else. */
import { Command } from 'commander';
import type { Evidence } from '../evidence/data.ts';
import { sourceExcerpt } from '../intake/excerpt.ts';
import { formatProblem, parseSession } from '../intake/index.ts';
import { colourFor } from './colour.ts';
import { evidenceFor } from './evidence.ts';
import { EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';
import { visitFiles } from './visit-files.ts';

interface CheckOptions {
  readonly watch?: boolean;
  readonly quiet?: boolean;
}

const HELP = `
A folder stands for every .yaml and .yml file in it and below it. Problems go to standard error, one line each:
file:line:column: what is wrong; what to write instead. "footing help CODE" explains the code in brackets.

Examples:
  footing check examples/copd-74.yaml
  footing check examples

Exit code: 0 all can be scored (notes may remain), 1 a file was refused, 2 a file is not there.
`;

export function checkCommand(invocation: () => Invocation): Command {
  return new Command('check')
    .description('check visit files and folders without scoring them')
    .argument('<path...>', 'visit files, folders, or - for standard input')
    .option('-w, --watch', 'check again whenever a file changes; end with Ctrl+C')
    .option('-q, --quiet', 'no line for files without problems')
    .addHelpText('after', HELP)
    .action((paths: string[], options: CheckOptions) => check(paths, options, invocation()));
}

interface Verdict {
  readonly code: number;
  readonly errors: number;
  readonly warnings: number;
}

async function checkOne(file: string, evidence: Evidence, { io, noColour }: Invocation, quiet: boolean): Promise<Verdict> {
  const shown = file === '-' ? 'standard input' : file;
  let text: string;
  try {
    text = file === '-' ? await io.stdin.read() : io.readFile(file);
  } catch (error) {
    io.stderr.write(`footing: cannot read ${shown}: ${fileErrorInWords(error)}\n`);
    return { code: EXIT.cannotStart, errors: 0, warnings: 0 };
  }
  const { session, problems } = parseSession(text, { file: shown, catalogue: evidence, today: io.today() });
  const colour = colourFor(io.stderr, io.env, noColour);
  for (const problem of problems) {
    io.stderr.write(`${formatProblem(problem)} [${problem.code}]\n`);
    if (io.stderr.isTerminal) io.stderr.write(`${colour.dim(sourceExcerpt(text, problem))}\n`);
  }
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  if (problems.length === 0 && !quiet) io.stdout.write(`${shown}: no problems\n`);
  return { code: session === null ? EXIT.refused : EXIT.done, errors, warnings: problems.length - errors };
}

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

async function checkAll(files: readonly string[], evidence: Evidence, invocation: Invocation, quiet: boolean): Promise<number> {
  let code: number = EXIT.done;
  let [errors, warnings] = [0, 0];
  for (const file of files) {
    const verdict = await checkOne(file, evidence, invocation, quiet);
    code = Math.max(code, verdict.code);
    errors += verdict.errors;
    warnings += verdict.warnings;
  }
  if (errors + warnings > 0)
    invocation.io.stderr.write(
      `${counted(files.length, 'file')} checked: ${counted(errors, 'problem')} to put right, ${counted(warnings, 'note')}; "footing help CODE" explains a code\n`,
    );
  return code;
}

async function check(paths: readonly string[], options: CheckOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const run = (): Promise<number> => checkAll(visitFiles(paths, invocation.io), evidence, invocation, options.quiet === true);
  const code = await run();
  if (options.watch === true && invocation.io.onChange !== undefined) {
    invocation.io.stderr.write('watching; Ctrl+C ends\n');
    // The promise stays open: the person ends it, and the run ends with what the last check found.
    await invocation.io.onChange(paths, async () => {
      invocation.io.stderr.write(`\n${new Array(40).fill('-').join('')}\n`);
      await run();
    });
  }
  invocation.finish(code);
}
