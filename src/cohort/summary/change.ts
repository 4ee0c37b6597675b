/** The change between visits as the summary shows it, withheld where few people are behind it. */
import { type AtFirstVisit, type BetweenVisits, valuesAt } from './between-visits.ts';
import type { SummarySlot } from './build.ts';
import { LEAST_SHOWN } from './mask.ts';
import { countsOf, spreadOf } from './spread.ts';
import { countTable } from './tables.ts';
import type { SummaryBetween, SummaryChange, SummaryKind } from './types.ts';

const VERDICTS = ['improved', 'worsened', 'within_error', 'cannot_tell'] as const;

export const NO_CONTROL =
  'There is no control group; being referred for poor scores favours improvement (regression to the mean), and those who came again may differ from those who did not.';

const nameOf = ({ test, side }: SummarySlot): string => (side === null ? test.name : `${test.name}, ${side}`);

function changeOf(slot: BetweenVisits['tests'][number], masked: boolean): SummaryChange {
  const { test, side, change } = slot;
  const { pairs, measured, verdicts } = change;
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, verdicts[verdict].n]));
  const shown = countTable([counts], VERDICTS, { masked, withheld: [], known: [] });
  const enough = !masked || measured >= LEAST_SHOWN;
  return {
    test: test.id,
    side,
    name: nameOf(slot),
    unit: test.unit_text,
    better: test.better,
    pairs: masked && pairs < LEAST_SHOWN ? null : pairs,
    mean_before: enough ? change.mean_before : null,
    mean_after: enough ? change.mean_after : null,
    mean_change: enough ? change.mean_change : null,
    median_change: enough ? change.median_change : null,
    verdicts: {
      improved: shown.count(0, 'improved'),
      worsened: shown.count(0, 'worsened'),
      within_error: shown.count(0, 'within_error'),
      cannot_tell: shown.count(0, 'cannot_tell'),
    },
  };
}

export function summariseChange(
  between: BetweenVisits,
  levels: readonly { readonly id: string; readonly name: string }[],
  slots: readonly SummarySlot[],
  masked: boolean,
): SummaryBetween {
  const kinds = [between.completers, between.left];
  const ids = levels.map(({ id }) => id);
  const of = countTable(
    kinds.map((kind) => countsOf(kind.levels)),
    ids,
    { masked, withheld: [], known: [] },
  );
  const kindOf = (kind: AtFirstVisit, row: number): SummaryKind => ({
    n: of.total(row),
    age: spreadOf(countsOf(kind.ages), masked),
    levels: levels.map(({ id, name }) => ({ id, name, n: of.count(row, id) })),
    tests: slots.map((slot) => ({
      test: slot.test.id,
      side: slot.side,
      name: nameOf(slot),
      value: spreadOf(countsOf(valuesAt(kind, slot)), masked),
    })),
  });
  return {
    completers: kindOf(between.completers, 0),
    left: kindOf(between.left, 1),
    tests: between.tests.map((each) => changeOf(each, masked)),
    caution: NO_CONTROL,
  };
}
