/** The change between visits as the summary shows it, withheld where few people are behind it. */

import type { Estimate } from '../../change/group.ts';
import { type AtFirstVisit, type BetweenVisits, resultsAt } from './between-visits.ts';
import { LEAST_SHOWN, maskGroups, maskLine } from './mask.ts';
import { nameOfSlot, type SummarySlot } from './of-test.ts';
import type { Counts } from './part.ts';
import { countsOf, LEAST_FOR_QUARTILES, spreadOf, spreadOfAges } from './spread.ts';
import type { Count, SummaryBetween, SummaryChange, SummaryKind } from './types.ts';

const VERDICTS = ['improved', 'worsened', 'within_error', 'cannot_tell'] as const;

export const NO_CONTROL =
  'There is no control group; being referred for poor scores favours improvement (regression to the mean), and those who came again may differ from those who did not.';

type Levels = readonly { readonly id: string; readonly name: string }[];

/** The interval of a median runs from one person's change to another's. */
const withoutPeople = (estimate: Estimate | null, enough: boolean): Estimate | null =>
  estimate === null || enough ? estimate : { ...estimate, low: null, high: null };

/** `sizesShown`: how many came again is shown. Where it is not, no number of pairs is, since it comes near it. */
function changeOf(slot: BetweenVisits['tests'][number], masked: boolean, sizesShown: boolean): SummaryChange {
  const { test, side, change } = slot;
  const { pairs, measured, verdicts } = change;
  const shown = !masked || (sizesShown && pairs >= LEAST_SHOWN);
  const hidden = masked ? maskLine(VERDICTS.map((verdict) => verdicts[verdict].n)) : [];
  const count = (verdict: (typeof VERDICTS)[number]): Count =>
    !shown || hidden[VERDICTS.indexOf(verdict)] === true ? null : verdicts[verdict].n;
  const enough = (!masked || measured >= LEAST_SHOWN) && 2 * measured >= pairs;
  const countable = !masked || maskLine([measured, pairs - measured]).every((hide) => !hide);
  return {
    test: test.id,
    side,
    name: nameOfSlot(slot),
    unit: test.unit_text,
    better: test.better,
    pairs: shown ? pairs : null,
    measured: shown && countable ? measured : null,
    mean_before: enough ? change.mean_before : null,
    mean_after: enough ? change.mean_after : null,
    mean_change: enough ? change.mean_change : null,
    median_change: enough ? withoutPeople(change.median_change, !masked || measured >= LEAST_FOR_QUARTILES) : null,
    verdicts: {
      improved: count('improved'),
      worsened: count('worsened'),
      within_error: count('within_error'),
      cannot_tell: count('cannot_tell'),
    },
  };
}

interface Kinds {
  readonly sizesShown: boolean;
  readonly levels: readonly Counts[];
  readonly hidden: readonly (readonly boolean[])[];
}

/** How many came again and how many did not; their sum may be known, as from a page by first and later visits. */
function kindsOf(between: BetweenVisits, ids: readonly string[], masked: boolean): Kinds {
  const kinds = [between.completers, between.left];
  const levels = kinds.map((kind) => countsOf(kind.levels));
  const lines = levels.map((counts) => ids.map((id) => counts[id] ?? 0));
  if (!masked) return { sizesShown: true, levels, hidden: [] };
  const sizesShown = !maskLine(kinds.map(({ ages }) => ages.length)).includes(true);
  const total = maskLine(ids.map((_, column) => lines.reduce((sum, line) => sum + (line[column] ?? 0), 0)));
  return { sizesShown, levels, hidden: sizesShown ? maskGroups(lines, total) : lines.map((line) => line.map(() => true)) };
}

export function summariseChange(
  between: BetweenVisits,
  levels: Levels,
  slots: readonly SummarySlot[],
  masked: boolean,
): SummaryBetween {
  const kinds = kindsOf(
    between,
    levels.map(({ id }) => id),
    masked,
  );
  const { sizesShown } = kinds;
  const kindOf = (kind: AtFirstVisit, row: number): SummaryKind => ({
    n: sizesShown ? kind.ages.length : null,
    age: sizesShown ? spreadOfAges(countsOf(kind.ages), masked) : null,
    levels: levels.map(({ id, name }, column) => ({
      id,
      name,
      n: kinds.hidden[row]?.[column] === true ? null : (kinds.levels[row]?.[id] ?? 0),
    })),
    tests: slots.map((slot) => {
      const { values, unable } = resultsAt(kind, slot);
      const value = sizesShown ? spreadOf({ values: countsOf(values), unable, better: slot.test.better }, masked) : null;
      return { test: slot.test.id, side: slot.side, name: nameOfSlot(slot), value };
    }),
  });
  return {
    completers: kindOf(between.completers, 0),
    left: kindOf(between.left, 1),
    tests: between.tests.map((each) => changeOf(each, masked, sizesShown)),
    mixed_up: masked && maskLine([between.mixedUp]).includes(true) ? null : between.mixedUp,
    caution: NO_CONTROL,
  };
}
