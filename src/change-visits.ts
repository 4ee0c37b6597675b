/** The composition for several visits: sessions of one client and the evidence -> change. Pure, like `assess`. */
import { type AssessOptions, assess } from './assess.ts';
import { compareVisits, NotComparable } from './change/compare-visits.ts';
import { onNewFallsOnly } from './change/since-last.ts';
import type { Change } from './change/types.ts';
import type { Evidence } from './evidence/data.ts';
import type { Session } from './session.ts';

export { NotComparable };

/** Throws NotComparable with fewer than two sessions or with sessions of different clients. */
export function changeOf(sessions: readonly Session[], evidence: Evidence, options: AssessOptions = {}): Change {
  const ordered = [...sessions].sort((a, b) => (a.assessed < b.assessed ? -1 : a.assessed > b.assessed ? 1 : 0));
  const visits = ordered.map((session) => ({ session, assessment: assess(session, evidence, options) }));
  const [previous, last] = ordered.slice(-2);
  const newOnly = previous === undefined || last === undefined ? null : onNewFallsOnly(previous, last);
  return compareVisits(visits, evidence, { newFallsOnly: newOnly === null ? null : assess(newOnly, evidence, options) });
}
