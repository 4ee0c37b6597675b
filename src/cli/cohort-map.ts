/** The map file named on the command line, or what holds without one. */
import { type GoodMap, readMapFile } from '../cohort/map-file.ts';
import { DEFAULT_SETTINGS } from '../cohort/settings.ts';
import type { Targets } from '../cohort/targets.ts';
import { CannotStart, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';

/** Throws CannotStart; the mistakes of the map stand on standard error with their places. */
export function readSettings(path: string | undefined, targets: Targets, { io }: Invocation): GoodMap {
  if (path === undefined) return { settings: DEFAULT_SETTINGS, placeOf: () => ({ line: 1, column: 1 }) };
  let text: string;
  try {
    text = io.readFile(path);
  } catch (error) {
    throw new CannotStart(`cannot read the map ${path}: ${fileErrorInWords(error)}`);
  }
  const read = readMapFile(text, targets);
  if ('settings' in read) return read;
  for (const { line, column, message } of read.problems) io.stderr.write(`${path}:${line}:${column}: ${message}\n`);
  throw new CannotStart(`the map ${path} cannot be used; nothing was done`);
}
