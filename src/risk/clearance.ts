/** Red flags that somebody has dealt with: which recorded clearance belongs to a flag, and whether it counts. */
import type { RedFlagResult } from '../assessment.ts';
import { clearanceNames } from '../evidence/condition-fields.ts';
import type { RedFlag } from '../evidence/schema/pathway.ts';
import type { Clearance } from '../session.ts';

export interface FlagClearance {
  readonly cleared: { readonly by: string; readonly date: string } | null;
  /** Why a recorded clearance does not count; null where none was recorded or one counts. */
  readonly refusedBecause: string | null;
}

/**
 * The latest clearance that counts for this flag. A finding of this very visit (every emergency, and flags that say so) cannot
 * have been cleared before it; anything else, such as a faint looked into last month, can. Dates are ISO dates.
 */
export function clearanceOf(flag: RedFlag, clearances: readonly Clearance[], assessed: string): FlagClearance {
  const names = clearanceNames(flag);
  const recorded = clearances
    .filter((clearance) => names.includes(clearance.for))
    .sort((a, b) => Date.parse(b.date) - Date.parse(a.date));
  const ofThisVisit = flag.tier === 'emergency' || flag.found_today;
  const counting = recorded.find((clearance) => !ofThisVisit || clearance.date >= assessed);
  if (counting !== undefined) return { cleared: { by: counting.by, date: counting.date }, refusedBecause: null };
  const [refused] = recorded;
  return {
    cleared: null,
    refusedBecause:
      refused === undefined
        ? null
        : `the clearance by ${refused.by} of ${refused.date} does not count: it is older than this visit, at which this was found`,
  };
}

/** Whether a raised flag still holds the exercise plan and the client's handout. */
export const isOpen = (flag: RedFlagResult): boolean => flag.cleared === null;
