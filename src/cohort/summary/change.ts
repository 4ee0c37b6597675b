/** The change between visits as the summary shows it. */

import type { Estimate } from '../../change/group.ts';
import { roundTo } from '../../scoring/performance.ts';
import { bandOf, isSmall, LEAST_FOR_MIDDLE, LEAST_FOR_QUARTILES, showAs } from './bands.ts';
import { type AtFirstVisit, type BetweenVisits, resultsAt } from './between-visits.ts';
import { nameOfSlot, type SummarySlot } from './of-test.ts';
import { countsOf, spreadOf, spreadOfAges } from './spread.ts';
import type { SummaryBetween, SummaryChange, SummaryEstimate, SummaryKind } from './types.ts';

export const NO_CONTROL =
  'There is no control group; being referred for poor scores favours improvement (regression to the mean), and those who came again may differ from those who did not.';

type Levels = readonly { readonly id: string; readonly name: string }[];

/** The interval of a median runs from one person's change to another's. */
const withoutPeople = (estimate: Estimate, enough: boolean): Estimate =>
  enough ? estimate : { ...estimate, low: null, high: null };

const rounded = (value: number | null, decimals: number): number | null => (value === null ? null : roundTo(value, decimals));
const roundedEstimate = ({ value, low, high }: Estimate, decimals: number): SummaryEstimate => ({
  value: roundTo(value, decimals),
  low: rounded(low, decimals),
  high: rounded(high, decimals),
});

type Middles = Pick<SummaryChange, 'mean_before' | 'mean_after' | 'mean_change' | 'median_change'>;

/**
 * On a masked page a mean has one decimal more than the results: with many, one of whole numbers tells of how many people it
 * is. A median has as many as they have: half way between two results is a number that only an even number of people can give.
 */
function middlesOf({ test, change }: BetweenVisits['tests'][number], masked: boolean): Middles {
  const { pairs, measured, mean_before, mean_after, mean_change, median_change } = change;
  const enough = (!masked || measured >= LEAST_FOR_MIDDLE) && 2 * measured >= pairs;
  if (!enough) return { mean_before: null, mean_after: null, mean_change: null, median_change: null };
  if (!masked) return { mean_before, mean_after, mean_change, median_change };
  const decimals = test.decimals + 1;
  const median = median_change === null ? null : withoutPeople(median_change, measured >= LEAST_FOR_QUARTILES);
  return {
    mean_before: rounded(mean_before, decimals),
    mean_after: rounded(mean_after, decimals),
    mean_change: mean_change === null ? null : roundedEstimate(mean_change, decimals),
    median_change: median === null ? null : roundedEstimate(median, test.decimals),
  };
}

function changeOf(slot: BetweenVisits['tests'][number], masked: boolean): SummaryChange {
  const { test, side, change } = slot;
  const { pairs, measured, verdicts } = change;
  const show = showAs(masked);
  return {
    test: test.id,
    side,
    name: nameOfSlot(slot),
    unit: test.unit_text,
    better: test.better,
    pairs: show(pairs),
    measured: show(measured),
    ...middlesOf(slot, masked),
    verdicts: {
      improved: show(verdicts.improved.n),
      worsened: show(verdicts.worsened.n),
      within_error: show(verdicts.within_error.n),
      cannot_tell: show(verdicts.cannot_tell.n),
    },
  };
}

/** One of the two kinds is a few people, or nobody, which must not look otherwise: what is said of the other, taken from all, would be said of them. */
const leavesFew = (kinds: readonly AtFirstVisit[]): boolean => kinds.some(({ ages }) => isSmall(bandOf(ages.length)));

function kindOf(kind: AtFirstVisit, levels: Levels, slots: readonly SummarySlot[], masked: boolean): SummaryKind {
  const show = showAs(masked);
  const counts = countsOf(kind.levels);
  return {
    n: show(kind.ages.length),
    age: spreadOfAges(countsOf(kind.ages), masked),
    levels: levels.map(({ id, name }) => ({ id, name, n: show(counts[id] ?? 0) })),
    tests: slots.map((slot) => {
      const { values, unable } = resultsAt(kind, slot);
      const value = spreadOf({ values: countsOf(values), unable, better: slot.test.better }, masked);
      return { test: slot.test.id, side: slot.side, name: nameOfSlot(slot), value };
    }),
  };
}

export function summariseChange(
  between: BetweenVisits,
  levels: Levels,
  slots: readonly SummarySlot[],
  masked: boolean,
): SummaryBetween {
  const { completers, left } = between;
  const bare = masked && leavesFew([completers, left]);
  const of = (kind: AtFirstVisit): SummaryKind =>
    bare ? { n: bandOf(kind.ages.length), age: null, levels: [], tests: [] } : kindOf(kind, levels, slots, masked);
  return {
    completers: of(completers),
    left: of(left),
    tests: between.tests.map((each) => changeOf(each, masked)),
    mixed_up: showAs(masked)(between.mixedUp),
    caution: NO_CONTROL,
  };
}
