/** `footing norms`: the collection of reference values: list it, read it, check and extend it, cite it. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';
import { bookCommand } from './norms-book.ts';
import { checkNormsCommand } from './norms-check.ts';
import { citeCommand } from './norms-cite.ts';
import { listCommand } from './norms-list.ts';
import { newTableCommand } from './norms-new.ts';
import { normsSchemaCommand } from './norms-schema.ts';
import { showCommand } from './norms-show.ts';

const HELP = `
With --norms FOLDER all of these see the clinic's own tables too.

Examples:
  footing norms list --test timed_up_and_go
  footing norms show bohannon-2006-tug
`;

export function normsCommand(invocation: () => Invocation): Command {
  const command = new Command('norms')
    .description('list, show, check, extend and cite the reference values')
    .addHelpText('after', HELP);
  for (const subcommand of [
    listCommand,
    showCommand,
    checkNormsCommand,
    newTableCommand,
    bookCommand,
    citeCommand,
    normsSchemaCommand,
  ])
    command.addCommand(subcommand(invocation));
  return command;
}
