/** What a check of norms files is, and how it points to the line at fault. */
import type { Gathered, NormsProblem } from './parse.ts';

export type Check = (norms: Gathered) => NormsProblem[];

/** Stands for the file where the entry at fault was not read from a file of the folder that is checked. */
export const BUILT_IN = 'the built-in norms';

/** A problem at `key` inside `value`, or at the head of `file` where the value was not read from a file of this folder. */
export function problemAt(
  norms: Gathered,
  value: object,
  key: PropertyKey | undefined,
  message: string,
  file = BUILT_IN,
): NormsProblem {
  return { ...(norms.places.at(value, key) ?? { file, line: 1, column: 1 }), message };
}
