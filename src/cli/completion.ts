/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function completionCommand(invocation: () => Invocation): Command {
  return new Command('completion').description('print a completion script for bash, zsh or fish').action(() => invocation().finish(0));
}
