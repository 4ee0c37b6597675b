/** Every published cut-point that concerns this client: met or not, and whether the measurement error blurs it. */
import type { CutPointResult } from '../assessment.ts';
import type { CutPoint } from '../evidence/schema/numbers.ts';
import { type Better, performanceOf, roundTo, VALUE_DECIMALS } from './performance.ts';
import type { Subject } from './select.ts';

export interface CutValue {
  /** null = unable, which meets every cut. */
  readonly value: number | null;
  readonly atLeast: boolean;
  readonly better: Better;
  /** 1.96 SEM, null where no error is published. */
  readonly halfInterval: number | null;
}

interface Mark {
  readonly mark: number;
  readonly inclusive: boolean;
  /** The rule is met above the mark. */
  readonly above: boolean;
}

function markOf(cut: CutPoint): Mark {
  const { at_least, above, at_most, below } = cut.met_when;
  if (at_least !== undefined) return { mark: at_least, inclusive: true, above: true };
  if (above !== undefined) return { mark: above, inclusive: false, above: true };
  if (at_most !== undefined) return { mark: at_most, inclusive: true, above: false };
  return { mark: below ?? Number.NaN, inclusive: false, above: false };
}

const reaches = (value: number, { mark, inclusive, above }: Mark): boolean =>
  (inclusive && value === mark) || (above ? value > mark : value < mark);

/** true / false, or null where a watch stopped early cannot decide it. */
export function isMet(cut: CutPoint, { value, atLeast }: CutValue): boolean | null {
  if (value === null) return true;
  const mark = markOf(cut);
  const met = reaches(value, mark);
  if (!atLeast) return met;
  // The true value may be larger: that can only take it further above a mark.
  if (mark.above) return met ? true : null;
  return met ? null : false;
}

function concerns(cut: CutPoint, subject: Subject): boolean {
  const { age, sex } = subject.client;
  if (age < (cut.age_min ?? 0) || age > (cut.age_max ?? Number.POSITIVE_INFINITY)) return false;
  return cut.sex === 'all' || sex === 'not recorded' || cut.sex === sex;
}

/** A cut made for one condition counts only for clients with it; one for a known sex only where the sex is known. */
function countsFor(cut: CutPoint, subject: Subject): boolean {
  if (!cut.counts) return false;
  if (cut.sex !== 'all' && subject.client.sex === 'not recorded') return false;
  if (cut.applies_to === 'copd') return subject.lungCondition === 'copd';
  return cut.applies_to === 'everyone';
}

/** The cut-points that count for this client, in the order of `cutPointsFor`. */
export const countedCuts = (cuts: readonly CutPoint[], subject: Subject): CutPoint[] =>
  cuts.filter((cut) => concerns(cut, subject) && countsFor(cut, subject));

/** Every mark that concerns the client's age and sex, in the order of the data, those that do not count among them. */
export function cutPointsFor(cuts: readonly CutPoint[], subject: Subject, result: CutValue): CutPointResult[] {
  return cuts
    .filter((cut) => concerns(cut, subject))
    .map((cut) => {
      const met = isMet(cut, result);
      const distance = result.value === null ? null : Math.abs(performanceOf(result.value - markOf(cut).mark, result.better));
      return {
        id: cut.id,
        source: cut.source,
        location: cut.location,
        status: cut.status,
        rule: cut.rule,
        met,
        // As values are shown and judged: a mark on the shown end of the interval lies inside it.
        near:
          distance === null || result.halfInterval === null
            ? null
            : roundTo(distance, VALUE_DECIMALS) <= roundTo(result.halfInterval, VALUE_DECIMALS),
        sensitivity: cut.accuracy?.sensitivity ?? null,
        specificity: cut.accuracy?.specificity ?? null,
        outcome: cut.outcome,
        counts: countsFor(cut, subject),
        below_average: cut.below_average,
        population: cut.population.description,
        note: cut.note ?? null,
        in_copd: subject.lungCondition === 'copd' ? (cut.in_copd ?? null) : null,
      };
    });
}
