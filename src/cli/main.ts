/** The command line: arguments in, exit code out. Only the command that is called is loaded (commands.ts). */
import { Command, CommanderError } from 'commander';
import { compiledDigest } from '../evidence/compiled-version.ts';
import { toolVersion } from '../version.ts';
import { COMMANDS, calledCommand } from './commands.ts';
import { countryCode } from './country.ts';
import { withHarmlessMessages } from './harmless.ts';
import { CannotStart, EXIT, type Io } from './io.ts';
import { nodeIo } from './node-io.ts';
import { OVERVIEW } from './overview.ts';
import type { SettingsInForce } from './settings-in-force.ts';

/** What every command gets: the outside world, the global flags and where to leave its exit code. */
export interface Invocation {
  readonly io: Io;
  readonly noColour: boolean;
  /** Norms folders of this run, in order: those of the settings, then those given with --norms; `evidenceFor` reads them. */
  readonly norms: readonly string[];
  /** Country whose tables are preferred (--population or a setting), as a code of two capitals. */
  readonly population: string | undefined;
  /** Settings of the environment and the settings files; flags come before them. */
  readonly settings: SettingsInForce;
  /** What the settings changed in this run, one sentence each; printed in every result (`readSessions` adds them). */
  readonly settingNotes: readonly string[];
  finish(code: number): void;
}

interface GlobalOptions {
  readonly color: boolean;
  readonly norms?: readonly string[];
  readonly population?: string;
}

const collect = (folder: string, before: readonly string[] | undefined): readonly string[] => [...(before ?? []), folder];

/** The command and every command below it. */
const withSubcommands = (command: Command): Command[] => [command, ...command.commands.flatMap(withSubcommands)];

const EVIDENCE_DIGITS = 12;

/** Both decide every number: the program, and the norms it was built with. */
const versionText = `footing ${toolVersion}\nevidence ${compiledDigest.slice(0, EVIDENCE_DIGITS)}`;

function emptyProgram(): Command {
  return new Command('footing')
    .description(
      'Scores balance and fall-risk tests, places the client on a fall-risk pathway and suggests exercise starting levels.',
    )
    .version(versionText, '--version', 'print the version of the program and of the evidence')
    .option('--no-color', 'no colour, whatever the terminal')
    .option('--norms <folder>', "also use the tables of this folder, a clinic's own; may be given several times", collect)
    .option('--population <country>', 'prefer tables from this country (two letters, such as NO)')
    .option('--debug', 'show the stack of an unexpected fault')
    .helpCommand(false)
    .addHelpText(
      'after',
      '\nExamples:\n  footing score examples/copd-74.yaml\n  footing score examples/copd-74.yaml --format json\n',
    )
    .showHelpAfterError('(see footing --help)');
}

/**
 * The program with the commands named (all of them where `wanted` is 'all') and only name and line of the others.
 * Settings take the place of an option's default before the command runs.
 */
export async function buildProgram(io: Io, finish: (code: number) => void, wanted: readonly string[] | 'all'): Promise<Command> {
  const program = emptyProgram();
  let settings: SettingsInForce = {};
  let settingNotes: readonly string[] = [];
  const invocation = (): Invocation => {
    const { color, norms, population } = program.opts<GlobalOptions>();
    return {
      io,
      finish,
      noColour: color === false,
      norms: [...(settings.norms?.value ?? []), ...(norms ?? [])],
      population: countryCode(population) ?? settings.population?.value,
      settings,
      settingNotes,
    };
  };
  for (const { name, about, load } of COMMANDS)
    program.addCommand(wanted === 'all' || wanted.includes(name) ? await load(invocation) : new Command(name).description(about));
  for (const command of withSubcommands(program))
    command
      .configureHelp({ showGlobalOptions: true })
      .exitOverride()
      .configureOutput({
        writeOut: (text) => io.stdout.write(text),
        writeErr: (text) => io.stderr.write(text),
        getOutHasColors: () => false,
        getErrHasColors: () => false,
      });
  program.hook('preAction', async (_program, command) => {
    const { applySettings, settingsInForce } = await import('./settings-in-force.ts');
    settings = await settingsInForce(io);
    settingNotes = applySettings(settings, command, program);
  });
  return program;
}

/**
 * Runs one command line (without `node` and the script). Never throws and never exits the process.
 * 0 done, 1 some input was refused, 2 the work cannot start.
 */
export async function main(argv: readonly string[], world: Io): Promise<number> {
  const io = withHarmlessMessages(world);
  let code: number = EXIT.done;
  const finish = (given: number): void => {
    code = Math.max(code, given);
  };
  try {
    if (argv.length === 0) {
      io.stderr.write(OVERVIEW);
      return EXIT.cannotStart;
    }
    const called = calledCommand(argv);
    const program = await buildProgram(io, finish, called === undefined ? [] : [called.name]);
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

export { nodeIo };
