/** The command line: arguments in, exit code out. Commands are loaded only when they are called. */
import { Command, CommanderError } from 'commander';
import { toolVersion } from '../version.ts';
import { CannotStart, EXIT, type Io } from './io.ts';
import { nodeIo } from './node-io.ts';
import { scoreCommand } from './score.ts';

/** What every command gets: the outside world, the global flags and where to leave its exit code. */
export interface Invocation {
  readonly io: Io;
  readonly noColour: boolean;
  finish(code: number): void;
}

function buildProgram(io: Io, finish: (code: number) => void): Command {
  const program = new Command('footing');
  const invocation = (): Invocation => ({ io, finish, noColour: program.opts<{ color: boolean }>().color === false });
  program
    .description(
      'Scores balance and fall-risk tests, places the client on a fall-risk pathway and suggests exercise starting levels.',
    )
    .version(toolVersion, '--version', 'print the version')
    .option('--no-color', 'no colour, whatever the terminal')
    .option('--debug', 'show the stack of an unexpected fault')
    .addHelpText(
      'after',
      '\nExamples:\n  footing score examples/copd-74.yaml\n  footing score examples/copd-74.yaml --format json\n',
    )
    .showHelpAfterError('(see footing --help)');
  program.addCommand(scoreCommand(invocation));
  for (const command of [program, ...program.commands])
    command.exitOverride().configureOutput({
      writeOut: (text) => io.stdout.write(text),
      writeErr: (text) => io.stderr.write(text),
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    });
  return program;
}

/**
 * Runs one command line (without `node` and the script). Never throws and never exits the process.
 * 0 done, 1 some input was refused, 2 the work cannot start.
 */
export async function main(argv: readonly string[], io: Io): Promise<number> {
  let code: number = EXIT.done;
  const program = buildProgram(io, (given) => {
    code = Math.max(code, given);
  });
  try {
    if (argv.length === 0) {
      program.outputHelp({ error: true });
      return EXIT.cannotStart;
    }
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.cannotStart;
    if (error instanceof CannotStart) io.stderr.write(`footing: ${error.message}\n`);
    else reportFault(error, io, argv.includes('--debug'));
    return EXIT.cannotStart;
  }
}

/** A fault of the program itself: one line and how to report it; the stack only on request. */
function reportFault(error: unknown, io: Io, debug: boolean): void {
  const message = error instanceof Error ? error.message : String(error);
  io.stderr.write(`footing: this is a fault of the program, not of your file: ${message}\n`);
  io.stderr.write(
    'Please report it with the command line and, without any client data, what the file held; --debug shows where it happened.\n',
  );
  if (debug && error instanceof Error) io.stderr.write(`${error.stack ?? ''}\n`);
}

/** Entry of the binary. */
export const run = (argv: readonly string[]): Promise<number> => main(argv, nodeIo());
