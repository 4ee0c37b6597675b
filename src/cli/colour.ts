/** Colour or not, decided a stream: NO_COLOR and --no-color win, then FORCE_COLOR, then whether a terminal reads it. */
import { Chalk, type ChalkInstance } from 'chalk';
import type { Io, OutputStream } from './io.ts';

export function colourFor(stream: OutputStream, env: Io['env'], noColour: boolean): ChalkInstance {
  const forced = env.FORCE_COLOR !== undefined && !['0', 'false', ''].includes(env.FORCE_COLOR);
  const off = noColour || (env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb';
  return new Chalk({ level: !off && (forced || stream.isTerminal) ? 1 : 0 });
}
