/** Does a change reach what matters to patients? The published important change of the population that fits best. */
import type { Truth } from '../evidence/condition.ts';
import type { MeasurementError } from '../evidence/schema/numbers.ts';
import { type Better, performanceOf } from '../scoring/performance.ts';
import type { ImportantChange } from './types.ts';
import type { RawChange } from './verdict.ts';

/** The client's own condition first, then older people in general; other people's figures are shown, never used. */
function fit(error: MeasurementError, conditions: ReadonlySet<string>): number {
  const { condition } = error.population;
  if (condition !== undefined && conditions.has(condition)) return 0;
  return condition === undefined ? 1 : Number.POSITIVE_INFINITY;
}

function importantOf(error: MeasurementError, conditions: ReadonlySet<string>): ImportantChange[] {
  const most = error.mcid ?? error.mcid_range?.[1];
  if (most === undefined) return [];
  return [
    {
      id: error.id,
      source: error.source,
      location: error.location,
      status: error.status,
      population: error.population.description,
      method: error.mcid_method ?? null,
      least: Math.min(most, error.mcid_range?.[0] ?? most),
      most,
      concerns_client: Number.isFinite(fit(error, conditions)),
    },
  ];
}

export interface ImportantHeld {
  readonly chosen: ImportantChange | null;
  readonly others: readonly ImportantChange[];
}

/** Best fit first; within it one printed number before a range, then the larger study. */
export function importantFor(errors: readonly MeasurementError[], conditions: ReadonlySet<string>): ImportantHeld {
  const ranked = errors
    .flatMap((error) => importantOf(error, conditions).map((important) => ({ error, important })))
    .sort(
      (a, b) =>
        fit(a.error, conditions) - fit(b.error, conditions) ||
        Number(a.error.mcid === undefined) - Number(b.error.mcid === undefined) ||
        (b.error.population.n ?? 0) - (a.error.population.n ?? 0),
    );
  const first = ranked[0]?.important;
  const chosen = first?.concerns_client === true ? first : null;
  return { chosen, others: ranked.map((each) => each.important).filter((important) => important !== chosen) };
}

/**
 * `yes` from the strict end on, `no` under the least, `unknown` between or where no figure concerns the client. A change that
 * a stopped watch gives as a bound counts only as far as it is sure.
 */
export function reachesImportant(change: RawChange | null, important: ImportantChange | null, better: Better): Truth {
  if (change === null || important === null) return 'unknown';
  const size = Math.abs(change.change);
  const grows = change.bound === 'at_least' ? performanceOf(1, better) : performanceOf(-1, better);
  const sureSide = change.bound === 'exact' || (change.direction === 'better') === (grows > 0);
  if (change.bound === 'unknown' || !sureSide) return 'unknown';
  if (size >= important.most) return 'yes';
  return size < important.least && change.bound === 'exact' ? 'no' : 'unknown';
}
