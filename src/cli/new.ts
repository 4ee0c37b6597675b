/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function newCommand(invocation: () => Invocation): Command {
  return new Command('new').description('enter a visit, question by question, or get an empty form').action(() => invocation().finish(0));
}
