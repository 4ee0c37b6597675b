/**
 * Every command by name, with the one line that the overview shows. The module of a command is loaded only when it is called,
 * so that `--version`, `--help` and `score` start without the rest. A test holds `about` against the command's own description.
 */
import type { Command } from 'commander';
import type { Invocation } from './main.ts';

export interface CommandEntry {
  readonly name: string;
  readonly about: string;
  readonly load: (invocation: () => Invocation) => Promise<Command>;
}

export const COMMANDS: readonly CommandEntry[] = [
  {
    name: 'new',
    about: 'enter a visit, question by question, or get an empty form',
    load: async (invocation) => (await import('./new.ts')).newCommand(invocation),
  },
  {
    name: 'check',
    about: 'check visit files and folders without scoring them',
    load: async (invocation) => (await import('./check.ts')).checkCommand(invocation),
  },
  {
    name: 'score',
    about: 'score one visit or several',
    load: async (invocation) => (await import('./score.ts')).scoreCommand(invocation),
  },
  {
    name: 'risk',
    about: 'place a client on the fall-risk pathway and show what each mark is worth',
    load: async (invocation) => (await import('./risk.ts')).riskCommand(invocation),
  },
  {
    name: 'letter',
    about: 'write one page to the referring doctor',
    load: async (invocation) => (await import('./letter.ts')).letterCommand(invocation),
  },
  {
    name: 'explain',
    about: 'show the row, formula and source behind one statement',
    load: async (invocation) => (await import('./explain.ts')).explainCommand(invocation),
  },
  {
    name: 'change',
    about: 'tell real change from measurement error over two or more visits',
    load: async (invocation) => (await import('./change.ts')).changeCommand(invocation),
  },
  {
    name: 'due',
    about: 'list who is due for review, overdue or flagged',
    load: async (invocation) => (await import('./due.ts')).dueCommand(invocation),
  },
  {
    name: 'handout',
    about: "make the client's page: exercises in large print with drawings",
    load: async (invocation) => (await import('./handout.ts')).handoutCommand(invocation),
  },
  {
    name: 'cohort',
    about: 'score a CSV of visits, list what does not fit, sum up the group',
    load: async (invocation) => (await import('./cohort.ts')).cohortCommand(invocation),
  },
  {
    name: 'protocol',
    about: 'show how a test is carried out',
    load: async (invocation) => (await import('./protocol.ts')).protocolCommand(invocation),
  },
  {
    name: 'norms',
    about: 'list, show, check, extend and cite the reference values',
    load: async (invocation) => (await import('./norms.ts')).normsCommand(invocation),
  },
  {
    name: 'schema',
    about: 'print the JSON Schema of a visit file, for editors',
    load: async (invocation) => (await import('./schema.ts')).schemaCommand(invocation),
  },
  {
    name: 'settings',
    about: 'show which settings are in force and where they come from',
    load: async (invocation) => (await import('./settings.ts')).settingsCommand(invocation),
  },
  {
    name: 'completion',
    about: 'print a completion script for bash, zsh or fish',
    load: async (invocation) => (await import('./completion.ts')).completionCommand(invocation),
  },
  {
    name: 'help',
    about: 'explain a command, a problem code, a setting or an exit code',
    load: async (invocation) => (await import('./help.ts')).helpCommand(invocation),
  },
];

/** Global options that take a value: the word behind one of them is no command. */
const WITH_VALUE = new Set(['--norms', '--population']);

/** The command that a command line calls; undefined where there is none or it is not known. */
export function calledCommand(argv: readonly string[]): CommandEntry | undefined {
  for (let index = 0; index < argv.length; index += 1) {
    const word = argv[index] ?? '';
    if (WITH_VALUE.has(word)) index += 1;
    else if (!word.startsWith('-')) return COMMANDS.find((entry) => entry.name === word);
  }
  return undefined;
}
