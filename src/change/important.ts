/** Does a change reach what matters to patients? The published important change of the population that fits best. */
import type { Truth } from '../evidence/condition.ts';
import type { MeasurementError } from '../evidence/schema/numbers.ts';
import { type Better, performanceOf } from '../scoring/performance.ts';
import { concernsClient, type Likeness } from './errors.ts';
import type { ImportantChange } from './types.ts';
import type { RawChange } from './verdict.ts';

function importantOf(error: MeasurementError, likeness: Likeness): ImportantChange[] {
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
      concerns_client: concernsClient(error, likeness),
    },
  ];
}

export interface ImportantHeld {
  readonly chosen: ImportantChange | null;
  readonly others: readonly ImportantChange[];
}

/**
 * The first default of `norms/defaults.yaml` that carries an important change and whose condition holds; the others are shown
 * beside it. `holds` answers for the client at either visit, so that the order of the visits makes no difference.
 */
export function importantFor(test: string, likeness: Likeness): ImportantHeld {
  const { evidence, holds } = likeness;
  const all = (evidence.errorsByTest.get(test) ?? []).flatMap((error) => importantOf(error, likeness));
  const defaults = evidence.defaults.tests[test]?.error.filter(({ when }) => when === undefined || holds(when)) ?? [];
  const chosen = defaults.flatMap(({ id }) => all.filter((important) => important.id === id))[0] ?? null;
  return { chosen, others: all.filter((important) => important !== chosen) };
}

/**
 * `yes` from the strict end on, `no` under the least, `unknown` between or where no figure concerns the client. A change that
 * a stopped watch gives as a bound counts only as far as it is sure.
 */
export function reachesImportant(change: RawChange | null, important: ImportantChange | null, better: Better): Truth {
  if (change === null || important === null) return 'unknown';
  const size = Math.abs(change.change);
  const grows = change.bound === 'at_least' ? performanceOf(1, better) : performanceOf(-1, better);
  const sureSide = change.bound === 'exact' || (change.direction === 'better') === grows > 0;
  if (change.bound === 'unknown' || !sureSide) return 'unknown';
  if (size >= important.most) return 'yes';
  return size < important.least && change.bound === 'exact' ? 'no' : 'unknown';
}
