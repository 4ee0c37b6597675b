/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function helpCommand(invocation: () => Invocation): Command {
  return new Command('help').description('explain a command, a problem code, a setting or an exit code').action(() => invocation().finish(0));
}
