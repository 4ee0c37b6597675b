/** `footing norms schema KIND`: the JSON Schema of one kind of norms file, for an editor. */
import { Command } from 'commander';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { writeResult } from './output.ts';

const HELP = `
Put the schema beside the file and this line on top of it: # yaml-language-server: $schema=table.schema.json
"footing norms new" does both.

Examples:
  footing norms schema
  footing norms schema table -o table.schema.json
`;

export function normsSchemaCommand(invocation: () => Invocation): Command {
  return new Command('schema')
    .description('print the JSON Schema of a kind of norms file, for editors')
    .argument('[kind]', 'kind of file; without it the kinds are listed')
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addHelpText('after', HELP)
    .action((kind: string | undefined, options: { readonly output?: string }) => schema(kind, options, invocation()));
}

async function schema(name: string | undefined, options: { readonly output?: string }, invocation: Invocation): Promise<void> {
  const { KINDS } = await import('../evidence/parse.ts');
  const { jsonSchemaOf } = await import('../evidence/json-schemas.ts');
  const names = KINDS.map((kind) => kind.name);
  if (name === undefined) {
    invocation.io.stdout.write(`${names.join('\n')}\n`);
    return;
  }
  const kind = KINDS.find((each) => each.name === name);
  if (kind === undefined) throw new CannotStart(`there is no kind of norms file "${name}"; known: ${names.join(', ')}`);
  const text = jsonSchemaOf(kind);
  writeResult(text, options.output, invocation);
}
