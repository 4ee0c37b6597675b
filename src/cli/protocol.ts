/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function protocolCommand(invocation: () => Invocation): Command {
  return new Command('protocol').description('show how a test is carried out').action(() => invocation().finish(0));
}
