/** Suggests the id that was probably meant. */
import { closest, distance } from 'fastest-levenshtein';

/** `; perhaps "x" is meant` where one known id is only a few letters off; empty otherwise. */
export function perhaps(id: string, known: readonly string[]): string {
  if (known.length === 0) return '';
  const best = closest(id, [...known]);
  return distance(id, best) <= Math.max(2, Math.floor(id.length / 4)) ? `; perhaps "${best}" is meant` : '';
}
