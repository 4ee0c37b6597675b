/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function schemaCommand(invocation: () => Invocation): Command {
  return new Command('schema').description('print the JSON Schema of a visit file, for editors').action(() => invocation().finish(0));
}
