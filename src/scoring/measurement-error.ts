/** Which study's measurement error is used for a client, and the interval it puts around one value. */
import type { MeasurementErrorResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import type { MeasurementError } from '../evidence/schema/numbers.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { MDC_DECIMALS, roundTo, VALUE_DECIMALS } from './performance.ts';
import type { TrialsValue } from './trials.ts';

/** 1.96 and 1.645: half the width of a two-sided 95 % and 90 % interval in standard errors. */
export const Z95 = normalQuantile(0.975);
export const Z90 = normalQuantile(0.95);

/**
 * SEM in the test's unit: printed, or from MDC95 = 1.96 x root 2 x SEM (MDC90 with 1.645). A detectable change whose level
 * the source does not name is taken as 95 %, the usual one. null where none is printed.
 */
export function semOf(error: MeasurementError): number | null {
  if (error.sem !== undefined) return error.sem;
  if (error.mdc95 !== undefined) return error.mdc95 / (Z95 * Math.SQRT2);
  if (error.mdc90 !== undefined) return error.mdc90 / (Z90 * Math.SQRT2);
  if (error.mdc_level_unstated !== undefined) return error.mdc_level_unstated / (Z95 * Math.SQRT2);
  return null;
}

/** MDC95 in the test's unit: printed (a level not named is taken as 95 %), by starting score, or 1.96 x root 2 x SEM. */
export function mdc95Of(error: MeasurementError, score?: number): number | null {
  const band = score === undefined ? undefined : error.by_score?.find((each) => score >= each.min && score <= each.max);
  if (band !== undefined) return band.mdc95;
  const printed = error.mdc95 ?? (error.sem === undefined && error.mdc90 === undefined ? error.mdc_level_unstated : undefined);
  if (printed !== undefined) return printed;
  const sem = semOf(error);
  return sem === null ? null : Z95 * Math.SQRT2 * sem;
}

/**
 * The first default that carries a measurement error and whose condition holds; entries that only carry an important change
 * are passed over. `applies` answers "yes" for this client.
 */
function defaultError(evidence: Evidence, test: string, applies: (condition: Condition) => boolean): MeasurementError | null {
  const held = new Map(evidence.errorsByTest.get(test)?.map((error) => [error.id, error]));
  for (const entry of evidence.defaults.tests[test]?.error ?? []) {
    const error = held.get(entry.id);
    if (error === undefined || (mdc95Of(error) === null && error.by_score === undefined)) continue;
    if (entry.when === undefined || applies(entry.when)) return error;
  }
  return null;
}

/**
 * The largest error beyond `used` (both as MDC95 at this `score`, in the test's unit) among the defaults that are said to be
 * meant for people like this client. The order of the defaults decides which one is used; that they disagree is to be seen.
 */
function largerError(
  evidence: Evidence,
  used: MeasurementError,
  applies: (condition: Condition) => boolean,
  score: number | undefined,
): MeasurementError | null {
  const meant = (evidence.defaults.tests[used.test]?.error ?? []).filter(({ when }) => when !== undefined && applies(when));
  const sizeOf = (error: MeasurementError): number => mdc95Of(error, score) ?? 0;
  const larger = (evidence.errorsByTest.get(used.test) ?? []).filter(
    (error) => meant.some(({ id }) => id === error.id) && sizeOf(error) > sizeOf(used),
  );
  return larger.sort((a, b) => sizeOf(b) - sizeOf(a))[0] ?? null;
}

/** value +/- 1.96 SEM, not below zero; none around a time that was stopped at its ceiling. With error by score the SEM is that of the client's own score. */
export function errorResult(
  error: MeasurementError,
  value: number | null,
  decimals: number,
  atLeast = false,
): MeasurementErrorResult {
  const mdc95 = mdc95Of(error, value ?? undefined);
  const sem = error.by_score !== undefined && mdc95 !== null ? mdc95 / (Z95 * Math.SQRT2) : semOf(error);
  const half = sem === null || value === null || atLeast ? null : Z95 * sem;
  return {
    id: error.id,
    source: error.source,
    location: error.location,
    status: error.status,
    population: error.population.description,
    interval: error.interval,
    sem: sem === null ? null : roundTo(sem, VALUE_DECIMALS),
    mdc95: mdc95 === null ? null : roundTo(mdc95, MDC_DECIMALS),
    low: half === null || value === null ? null : roundTo(Math.max(0, value - half), decimals + 1),
    high: half === null || value === null ? null : roundTo(value + half, decimals + 1),
    note: error.note ?? null,
  };
}

/**
 * The default error with the interval around the value, and beside it a larger one that is meant for this client too; null
 * where none is published. Numbers as in `errorResult`.
 */
export function errorFor(
  taken: TrialsValue | null,
  test: TestDefinition,
  { evidence, applies }: { readonly evidence: Evidence; readonly applies: (condition: Condition) => boolean },
): MeasurementErrorResult | null {
  const error = defaultError(evidence, test.id, applies);
  if (error === null) return null;
  const [value, stopped] = [taken?.value ?? null, taken?.atLeast ?? false];
  const larger = largerError(evidence, error, applies, value ?? undefined);
  return {
    ...errorResult(error, value, test.decimals, stopped),
    ...(larger === null ? {} : { larger: errorResult(larger, value, test.decimals, stopped) }),
  };
}

/** The larger error in a sentence, with the interval that it would leave; nothing where there is none, or no number to put it around. */
export function largerErrorNotes(error: MeasurementErrorResult | null, test: TestDefinition): string[] {
  const larger = error?.larger;
  if (larger === undefined || larger.low === null) return [];
  const unit = test.unit_text === '' ? '' : ` ${test.unit_text}`;
  return [
    `a larger measurement error is published for people like this client too: smallest real change ${larger.mdc95}${unit} by ${larger.source} (${larger.population}); by it the true value probably lies between ${larger.low} and ${larger.high}${unit}`,
  ];
}
