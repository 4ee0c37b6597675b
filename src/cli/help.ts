/** `footing help [TOPIC]`: a command, a problem code, a setting, an exit code or a test, explained. */
import { Command } from 'commander';
import { nearest } from '../intake/near.ts';
import { PROBLEM_PAGES, WHOLE_FILE_PAGES } from '../intake/problem-pages.ts';
import { PROBLEM_CODES, type ProblemCode } from '../intake/problems.ts';
import { own } from '../own.ts';
import { COMMANDS } from './commands.ts';
import { CannotStart } from './io.ts';
import { buildProgram, type Invocation } from './main.ts';
import { SETTING_NAMES, SETTINGS, type SettingDefinition } from './setting-values.ts';

const EXIT_CODES: Readonly<Record<string, string>> = {
  0: 'done: everything asked for was done (also for a client at high risk)',
  1: 'some input was refused; each refusal is on standard error with its place and what to write instead',
  2: 'the work could not start: a wrong command line, a file that is not there, norms or settings that are not valid, or a fault of the program',
};

const HELP = `
TOPIC is a command, a problem code (footing check shows it in brackets), a setting or an exit code. "footing help codes" lists
the problem codes.

Examples:
  footing help decimal_comma
  footing help score

Exit code: 0 done, 2 there is no such topic.
`;

export function helpCommand(invocation: () => Invocation): Command {
  return new Command('help')
    .description('explain a command, a problem code, a setting or an exit code')
    .argument('[topic...]', 'what to explain')
    .addHelpText('after', HELP)
    .action((topic: string[]) => help(topic, invocation()));
}

async function help(topic: readonly string[], invocation: Invocation): Promise<void> {
  const [first] = topic;
  const { io } = invocation;
  if (first === undefined) io.stdout.write((await buildProgram(io, invocation.finish, [])).helpInformation());
  else if (COMMANDS.some(({ name }) => name === first)) await helpOfCommand(topic, invocation);
  else io.stdout.write(pageOf(first));
}

async function helpOfCommand(path: readonly string[], { io, finish }: Invocation): Promise<void> {
  let command = await buildProgram(io, finish, path.slice(0, 1));
  for (const name of path) {
    const child = command.commands.find((each) => each.name() === name);
    if (child === undefined) throw new CannotStart(`"${command.name()}" has no command "${name}"`);
    command = child;
  }
  command.outputHelp();
  // Some words are both.
  const setting = SETTING_NAMES.find((name) => path.length === 1 && name === path[0]);
  if (setting !== undefined) io.stdout.write(`\n${settingPage(setting, SETTINGS[setting])}`);
}

const isCode = (word: string): word is ProblemCode => Object.hasOwn(PROBLEM_CODES, word);

/** @throws CannotStart with the nearest topic. */
function pageOf(topic: string): string {
  const word = topic.replace(/^\[|\]$/g, '');
  if (word === 'codes') return codeList();
  if (isCode(word)) return problemPage(word);
  const setting = SETTING_NAMES.find((name) => name === word);
  if (setting !== undefined) return settingPage(setting, SETTINGS[setting]);
  const exit = own(EXIT_CODES, word);
  if (exit !== undefined) return `Exit code ${word}: ${exit}.\n`;
  const known = [...COMMANDS.map(({ name }) => name), ...Object.keys(PROBLEM_CODES), ...SETTING_NAMES];
  const near = nearest(word, known);
  throw new CannotStart(
    `there is no help on "${topic}"${near === undefined ? '' : `; perhaps "footing help ${near}"`}; how a test is carried out: footing protocol TEST`,
  );
}

function codeList(): string {
  const width = Math.max(...Object.keys(PROBLEM_CODES).map((code) => code.length));
  const lines = Object.entries(PROBLEM_CODES).map(
    ([code, { severity, meaning }]) => `  ${code.padEnd(width)}  ${severity === 'error' ? 'refused' : 'noted  '}  ${meaning}`,
  );
  return `Problem codes\n${lines.join('\n')}\n`;
}

const indented = (text: string): string =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => `    ${line}`)
    .join('\n');

function problemPage(code: ProblemCode): string {
  const { severity, meaning } = PROBLEM_CODES[code];
  const effect =
    severity === 'error' ? 'The file is refused until it is put right.' : 'The file is scored; the report has a note.';
  const head = `${code}\n${meaning}. ${effect}\n\n`;
  if (code === 'too_large' || code === 'empty_file') return `${head}${WHOLE_FILE_PAGES[code]}\n`;
  const { why, wrong, right } = PROBLEM_PAGES[code];
  return `${head}${why}\n\nInstead of\n${indented(shownExample(wrong))}\nwrite\n${indented(shownExample(right))}\n`;
}

/** A tab would look like blanks. */
const shownExample = (example: string): string => example.replaceAll('\t', '<tab>');

function settingPage(name: string, { about, env, flag, example }: SettingDefinition): string {
  const ways = [
    ...(flag === undefined ? [] : [`the flag ${flag} (on the commands that have it)`]),
    ...(env === undefined ? [] : [`the environment variable ${env}`]),
    '.footing.yaml in the working folder',
    'settings.yaml in your own folder ("footing settings" shows where that is)',
  ];
  const more =
    name === 'limits'
      ? '\n\nThese are limits of typing. Clinical marks, such as a saturation at which exercise is held, are entries of a norms folder\n(footing help norms).'
      : '';
  return `Setting ${name}\n${about}.${more}\n\nIn order, the first that is given counts:\n${ways.map((way) => `  - ${way}`).join('\n')}\n\nIn a file:\n${indented(example)}\n`;
}
