/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function checkCommand(invocation: () => Invocation): Command {
  return new Command('check').description('check visit files and folders without scoring them').action(() => invocation().finish(0));
}
