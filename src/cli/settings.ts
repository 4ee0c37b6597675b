/** Being built. */
import { Command } from 'commander';
import type { Invocation } from './main.ts';

export function settingsCommand(invocation: () => Invocation): Command {
  return new Command('settings').description('show which settings are in force and where they come from').action(() => invocation().finish(0));
}
