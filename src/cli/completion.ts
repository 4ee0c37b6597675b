/** `footing completion SHELL`: a script that completes commands, options, test ids and source ids, made from the commands themselves. */
import { Argument, Command } from 'commander';
import { bundledEvidence } from '../evidence/bundled.ts';
import { PROBLEM_CODES } from '../intake/problems.ts';
import { type CompletionTree, renderCompletion, SHELLS, type Shell } from './completion-scripts.ts';
import type { Invocation } from './main.ts';
import { buildProgram } from './main.ts';

const HELP = `
Put it where your shell looks for completions, or read it in at the start of a session.

Examples:
  footing completion bash > footing.bash
  footing completion fish > footing.fish

For bash add "source <(footing completion bash)" to ~/.bashrc; for zsh write it to a file _footing on your fpath.
Exit code: 0 done.
`;

export function completionCommand(invocation: () => Invocation): Command {
  return new Command('completion')
    .description('print a completion script for bash, zsh or fish')
    .addArgument(new Argument('<shell>', 'which shell').choices(SHELLS))
    .addHelpText('after', HELP)
    .action(async (shell: Shell) => {
      const { io } = invocation();
      io.stdout.write(renderCompletion(shell, await completionTree(io)));
    });
}

/** Commands that take test ids, source ids or topics as words. */
function wordsOf(path: readonly string[]): readonly string[] {
  const evidence = bundledEvidence();
  switch (path.join(' ')) {
    case 'protocol':
      return evidence.tests.map(({ id }) => id);
    case 'norms show':
    case 'norms cite':
      return [...evidence.tests.map(({ id }) => id), ...Object.keys(evidence.sources)];
    case 'norms':
      return [];
    case 'completion':
      return SHELLS;
    case 'help':
      return Object.keys(PROBLEM_CODES);
    default:
      return [];
  }
}

/** Values that an option takes: its own choices, else the ids that it is named after. */
function valuesOf(option: Command['options'][number]): readonly string[] {
  const evidence = bundledEvidence();
  if (option.argChoices !== undefined) return option.argChoices;
  if (option.long === '--pathway') return evidence.pathways.map(({ id }) => id);
  if (option.long === '--test' || option.long === '--tests') return evidence.tests.map(({ id }) => id);
  return [];
}

function treeOf(command: Command, path: readonly string[]): CompletionTree {
  const visible = command.options.filter((option) => !option.hidden);
  return {
    path,
    about: command.description(),
    words: [...command.commands.map((child) => child.name()), ...wordsOf(path)],
    options: [
      ...visible.map((option) => ({
        long: option.long ?? option.short ?? '',
        about: option.description,
        values: valuesOf(option),
        takesValue: option.required || option.optional,
      })),
      { long: '--help', about: 'display help', values: [], takesValue: false },
    ],
    children: command.commands.map((child) => treeOf(child, [...path, child.name()])),
  };
}

async function completionTree(io: Invocation['io']): Promise<CompletionTree> {
  return treeOf(await buildProgram(io, () => undefined, 'all'), []);
}
