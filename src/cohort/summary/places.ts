/**
 * Where one result stands for the group: in which tenth of the reference group, or at which end of the table without a place.
 * Only people whose tables place every possible result are judged. A table of one mark gives those who pass a standing and
 * those who fail none, so that a share over whoever got one would hide the worst.
 */
import type { BriefResult } from '../../scoring/brief.ts';

/** Below the 25th percentile without a place: unable, or worse than the worst mark of the table. */
const WORST_END = 'worst_end';
/** Not below it, without a place: better than the best mark of the table. */
const BEST_END = 'best_end';
/** The third tenth lies on both sides of the 25th percentile, so its halves are kept apart. */
const THIRD_BELOW = '2_below';
const THIRD_ABOVE = '2_not_below';
const TENTHS = Array.from({ length: 10 }, (_, index) => String(index));
const THIRD = 2;
const LAST = 9;

export const BELOW: readonly string[] = [WORST_END, ...TENTHS.slice(0, THIRD), THIRD_BELOW];
export const NOT_BELOW: readonly string[] = [THIRD_ABOVE, ...TENTHS.slice(THIRD + 1), BEST_END];
/** Judged by their tables, but a watch stopped early (or an SD printed too coarsely) leaves the side open. */
export const OPEN = 'open';
export const NOT_JUDGED = 'not_judged';

/** The places that make up each tenth, the worst first. */
export const PLACES_OF_TENTH: readonly (readonly string[])[] = TENTHS.map((tenth, index) =>
  index === THIRD ? [THIRD_BELOW, THIRD_ABOVE] : [tenth],
);
export const ENDS = { worst: WORST_END, best: BEST_END } as const;

/** The tenth of a percentile: a bound counts where it lies whole in the outermost one. */
function tenthOf({ percentile, bound }: BriefResult): number | null {
  if (percentile === null) return null;
  const tenth = Math.min(LAST, Math.floor(percentile / 10));
  if (bound === 'exact') return tenth;
  if (bound === 'at_most') return percentile <= 10 ? 0 : null;
  return tenth === LAST ? LAST : null;
}

/** `brief` is of somebody who was tested. */
export function placeOf(brief: BriefResult): string {
  if (!brief.judged) return NOT_JUDGED;
  if (brief.standing === null) return OPEN;
  const below = brief.standing === 'well_below' || brief.standing === 'below';
  const tenth = brief.outcome === 'measured' ? tenthOf(brief) : null;
  if (below) return tenth === null ? WORST_END : tenth < THIRD ? String(tenth) : THIRD_BELOW;
  // At its own ceiling a test cannot tell people apart, however many of the reference group reach it.
  if (tenth === null || tenth < THIRD) return BEST_END;
  return tenth === THIRD ? THIRD_ABOVE : String(tenth);
}
