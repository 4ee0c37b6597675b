/** What must be said beside a change, and when somebody should look again. */
import type { Band } from '../assessment.ts';
import type { Truth } from '../evidence/condition.ts';
import type { MeasurementError } from '../evidence/schema/numbers.ts';
import { concernsClient } from './errors.ts';
import { type DoneTest, kindOf, protocolRemarks, resultAt } from './readings.ts';
import { amount } from './reasons.ts';
import type { Pair, TestContext } from './test-change.ts';
import type { CrossedMark, ImportantChange, ResultAt } from './types.ts';

export interface Bare {
  readonly pair: Pair;
  readonly matters: Truth;
  readonly important: ImportantChange | null;
  readonly crossed: readonly CrossedMark[];
  readonly start: DoneTest;
  readonly last: DoneTest;
}

/** An important change smaller than the error is no contradiction, but it has to be said. */
function smallerThanError({ pair, matters, important }: Bare, { test }: TestContext): string[] {
  const { mdc95, verdict } = pair.compared;
  if (important === null || mdc95 === null || important.most >= mdc95) return [];
  const both = `what matters on average (${amount(important.most, test)}) is smaller than the measurement error of one person (${amount(mdc95, test)})`;
  if (matters === 'yes' && verdict === 'within_error') return [`${both}: this change may matter, and may still be chance`];
  return verdict === 'within_error' ? [`${both}: a change can matter and still not be told from error`] : [];
}

/** Extreme first results drift back by chance alone. */
function regressionToMean({ pair }: Bare, first: ResultAt): string[] {
  const { direction } = pair.compared;
  const again = 'part of the change is to be expected without any cause (regression to the mean)';
  if (first.standing === 'well_below' && first.outcome === 'measured' && direction === 'better')
    return [`the first result was among the lowest for age and sex: ${again}`];
  return first.standing === 'above' && direction === 'worse'
    ? [`the first result was among the highest for age and sex: ${again}`]
    : [];
}

function practiceNotes({ pair }: Bare, context: TestContext): string[] {
  const { evidence, test } = context;
  if (pair.compared.direction !== 'better' || pair.raw === null) return [];
  const errors: readonly MeasurementError[] = evidence.errorsByTest.get(test.id) ?? [];
  return errors
    .filter((error) => error.practice !== undefined && (concernsClient(error, context) || error.id === pair.error?.id))
    .map((error) => `practice: ${error.practice} (${error.population.description})`);
}

function ages({ age_min: from, age_max: to }: Band): string {
  if (from === null) return to === null ? 'any age' : `up to ${to}`;
  return to === null ? `${from} and over` : `${from}-${to}`;
}

/** A birthday moves the standing while the performance stays: both are shown, and why. */
function bandMoved(first: ResultAt, last: ResultAt): string[] {
  if (first.band === null || last.band === null || first.norm_source !== last.norm_source) return [];
  if (first.band.age_min === last.band.age_min && first.band.age_max === last.band.age_max) return [];
  return [
    `compared with people of ${ages(first.band)} before and of ${ages(last.band)} now: a change of standing is partly the birthday`,
  ];
}

function tableChanged(first: ResultAt, last: ResultAt): string[] {
  return first.norm_source !== null && last.norm_source !== null && first.norm_source !== last.norm_source
    ? ['the two visits are placed by different tables: compare the values, not the standings']
    : [];
}

/** Remarks beside the verdict, the most important first; none of them changes it. */
export function notesOf(bare: Bare, context: TestContext): string[] {
  const [first, last] = [resultAt(bare.start), resultAt(bare.last)];
  const conversion = bare.pair.error?.conversion ?? null;
  const condition = bare.pair.error?.note ?? null;
  return [
    ...smallerThanError(bare, context),
    ...regressionToMean(bare, first),
    ...practiceNotes(bare, context),
    ...bandMoved(first, last),
    ...tableChanged(first, last),
    ...protocolRemarks(bare.start, bare.last),
    ...(conversion === null ? [] : [`error: ${conversion}`]),
    ...(condition === null ? [] : [`error: ${condition}`]),
  ];
}

/** The words of a request, never of a verdict: what was crossed and whether error can explain it. */
export function reviewOf({ pair, crossed, start, last }: Bare, { test }: TestContext): string | null {
  const { verdict, direction } = pair.compared;
  if (kindOf(start) === 'value' && kindOf(last) === 'unable')
    return 'able before and unable now: find out why before the next exercise';
  if (direction !== 'worse' || pair.conflicts.length > 0) return null;
  const into = crossed.filter((mark) => mark.way === 'into');
  const counting = into.filter((mark) => mark.counts);
  const marks = (counting.length > 0 ? counting : into).map((mark) => `"${mark.rule}"`).join(', ');
  if (verdict === 'worsened')
    return `worse by more than measurement error${into.length === 0 ? '' : `, and past ${marks}`}: test again and ask what has changed`;
  if (into.length === 0) return null;
  const change = pair.raw === null ? '' : ` by ${amount(pair.raw.change, test)}`;
  return `worse${change} and past ${marks}, though error may explain it: test again soon and ask about falls, illness and medicines`;
}
