/** `footing schema`: the JSON Schema of a visit file, with titles and descriptions that an editor shows. */
import { Command } from 'commander';
import { sessionJsonSchema } from '../intake/session-schema.ts';
import { evidenceFor } from './evidence.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';

const HELP = `
An editor with YAML support then suggests keys, shows what each means and marks slips while you type. Put this line first in
the visit file (footing new writes it):
  # yaml-language-server: $schema=./visit.schema.json
The schema knows keys and kinds; limits and contradictions are found by "footing check".

Examples:
  footing schema -o visit.schema.json
  footing schema

Exit code: 0 done, 2 the file cannot be written.
`;

export function schemaCommand(invocation: () => Invocation): Command {
  return new Command('schema')
    .description('print the JSON Schema of a visit file, for editors')
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addHelpText('after', HELP)
    .action((options: { readonly output?: string }) => schema(options.output, invocation()));
}

async function schema(output: string | undefined, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const text = `${JSON.stringify(sessionJsonSchema(evidence.tests), null, 2)}\n`;
  if (output === undefined) invocation.io.stdout.write(text);
  else writeOutput(output, text, invocation);
}
