/** The nearest known word for a mistyped one. */
import { distance } from 'fastest-levenshtein';

/** Lower case, letters and digits only: `5x-STS` and `5xSTS` are the same heading. */
export function normalised(word: string): string {
  return word.toLowerCase().replace(/[^a-z0-9]/g, '');
}

/** Longer words may be further off, and are cut so that a huge key costs nothing. */
const LONGEST_WORD = 80;
const ALLOWED_SHARE = 0.34;
const SHORT_WORD = 4;

/** The candidate with the fewest changed letters, where those are few enough for a slip of typing; else undefined. */
export function nearest(word: string, candidates: readonly string[]): string | undefined {
  const typed = normalised(word);
  if (typed === '' || typed.length > LONGEST_WORD) return undefined;
  let best: { candidate: string; changes: number } | undefined;
  for (const candidate of candidates) {
    const target = normalised(candidate);
    const changes = distance(typed, target);
    const allowed = target.length <= SHORT_WORD ? 1 : Math.max(2, Math.floor(target.length * ALLOWED_SHARE));
    if (changes <= allowed && (best === undefined || changes < best.changes)) best = { candidate, changes };
  }
  if (best !== undefined) return best.candidate;
  const beginnings = candidates.filter((candidate) => normalised(candidate).startsWith(typed));
  return beginnings.length === 1 ? beginnings[0] : undefined;
}
