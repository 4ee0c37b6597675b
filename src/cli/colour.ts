/** Colour or not, decided a stream: NO_COLOR and --no-color win, then FORCE_COLOR, then whether a terminal reads it. */
import type { Colour } from '../report/text/layout.ts';
import type { Io, OutputStream } from './io.ts';

/** Terminal codes that switch a style on and off again. The off code is put back after one inside, so styles can be nested. */
const style = (on: number, off: number) => (text: string) =>
  `\u001b[${on}m${text.replaceAll(`\u001b[${off}m`, `\u001b[${off}m\u001b[${on}m`)}\u001b[${off}m`;

const STYLED: Colour = { bold: style(1, 22), dim: style(2, 22), cyan: style(36, 39) };
const plain = (text: string): string => text;
const PLAIN: Colour = { bold: plain, dim: plain, cyan: plain };

export function colourFor(stream: OutputStream, env: Io['env'], noColour: boolean): Colour {
  const forced = env.FORCE_COLOR !== undefined && !['0', 'false', ''].includes(env.FORCE_COLOR);
  const off = noColour || (env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb';
  return !off && (forced || stream.isTerminal) ? STYLED : PLAIN;
}
