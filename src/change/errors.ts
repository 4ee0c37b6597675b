/** Which published error decides a change, what the others would say, and how each number came about. */
import type { Evidence } from '../evidence/data.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import type { MeasurementError } from '../evidence/schema/numbers.ts';
import { mdc95Of, semOf, Z90, Z95 } from '../scoring/measurement-error.ts';
import { MDC_DECIMALS, roundTo } from '../scoring/performance.ts';
import type { ErrorUsed } from './types.ts';

/** Conditions a study population may have that older people in general may share. */
const GENERAL: readonly MeasurementError['population']['condition'][] = [undefined, 'frail'];

/** What a study can be held against to tell whether its people are like the client. */
export interface Likeness {
  readonly evidence: Evidence;
  /** Conditions of the client that studies are named after: copd, parkinson, ... */
  readonly conditions: ReadonlySet<string>;
  /** Is a condition of `norms/` true for the client at the first or the last visit? */
  readonly holds: (condition: Condition) => boolean;
}

/**
 * Was this found in people who may be like the client: older people in general, or people with a condition the client has?
 * Where `norms/defaults.yaml` says for whom a figure is meant, that decides.
 */
export function concernsClient(error: MeasurementError, { evidence, conditions, holds }: Likeness): boolean {
  const stated = evidence.defaults.tests[error.test]?.error.find((entry) => entry.id === error.id)?.when;
  if (stated !== undefined) return holds(stated);
  const { condition } = error.population;
  return GENERAL.includes(condition) || (condition !== undefined && conditions.has(condition));
}

const shown = (value: number): string => String(roundTo(value, MDC_DECIMALS));

/** How MDC95 follows from what the source prints; null where it prints MDC95 itself. */
export function conversionOf(error: MeasurementError): string | null {
  if (error.by_score !== undefined) return 'depends on the score; the larger of both visits counts';
  const sem = semOf(error);
  const mdc95 = mdc95Of(error);
  if (sem === null || mdc95 === null) return null;
  const fromSem = `MDC95 = ${shown(Z95)} × √2 × SEM ${shown(sem)} = ${shown(mdc95)}`;
  if (error.mdc90 !== undefined)
    return error.sem === undefined
      ? `printed at 90 % (${shown(error.mdc90)}): SEM = ${shown(error.mdc90)} / (${roundTo(Z90, 3)} × √2) = ${shown(sem)}; ${fromSem}`
      : `printed at 90 % (${shown(error.mdc90)}); by its own SEM ${fromSem}`;
  if (error.mdc_level_unstated !== undefined) return 'the source does not name the level; the usual 95 % is taken';
  return error.mdc95 === undefined ? fromSem : null;
}

/** Ends of the stretch, and where between them the published error changes. */
function stops(error: MeasurementError, low: number, high: number): number[] {
  const inside = (error.by_score ?? []).flatMap((band) => [band.min, band.max]).filter((stop) => stop > low && stop < high);
  return [...new Set([low, ...inside, high])].sort((a, b) => a - b);
}

/**
 * MDC95 for two results, to 0.01 in the test's unit. Of an error that depends on the score the larger of both ends counts;
 * only where a shorter stretch inside the change is already beyond its own error is that one taken, so that a larger change
 * is never judged more weakly than the smaller one it contains. null where the source gives no such number.
 */
export function mdc95Between(error: MeasurementError, before: number, after: number): number | null {
  const at = (score: number): number | null => mdc95Of(error, error.by_score === undefined ? undefined : score);
  const larger = (a: number, b: number): number | null => {
    const [first, second] = [at(a), at(b)];
    return first === null || second === null ? null : Math.max(first, second);
  };
  const ends = larger(before, after);
  if (ends === null || error.by_score === undefined) return ends === null ? null : roundTo(ends, MDC_DECIMALS);
  const [low, high] = before < after ? [before, after] : [after, before];
  const points = stops(error, low, high);
  const inner = points.flatMap((from, index) =>
    points.slice(index + 1).flatMap((to) => {
      const limit = larger(from, to);
      return limit !== null && to - from > limit ? [limit] : [];
    }),
  );
  return inner.length === 0 || high - low > ends ? ends : Math.min(...inner);
}

/** `mdc95` as it was used for this pair of results, in the test's unit. */
export function errorUsed(error: MeasurementError, mdc95: number): ErrorUsed {
  return {
    id: error.id,
    source: error.source,
    location: error.location,
    status: error.status,
    population: error.population.description,
    interval: error.interval,
    mdc95,
    conversion: conversionOf(error),
    note: error.note ?? null,
  };
}

export interface ErrorsHeld {
  readonly chosen: { readonly error: MeasurementError; readonly mdc95: number } | null;
  readonly others: readonly { readonly error: MeasurementError; readonly mdc95: number }[];
}

/**
 * `defaults`: the ids that `norms/defaults.yaml` gives for the client at each visit. Where the client changed between them
 * (became frail), the larger counts, so that the order of the visits makes no difference.
 */
export function errorsFor(
  evidence: Evidence,
  test: string,
  defaults: readonly (string | null)[],
  before: number,
  after: number,
): ErrorsHeld {
  const usable = (evidence.errorsByTest.get(test) ?? []).flatMap((error) => {
    const mdc95 = mdc95Between(error, before, after);
    return mdc95 === null ? [] : [{ error, mdc95 }];
  });
  const candidates = usable.filter(({ error }) => defaults.includes(error.id)).sort((a, b) => b.mdc95 - a.mdc95);
  const chosen = candidates[0] ?? null;
  return { chosen, others: usable.filter((each) => each !== chosen) };
}
