/** What the summary says of one test of one group. */
import { wilsonShare } from '../../change/group.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { roundTo } from '../../scoring/performance.ts';
import type { Side } from '../../session.ts';
import { type Counts, emptyTest, type GroupCounts, slotName, type TestCounts } from './part.ts';
import { BELOW, ENDS, NOT_BELOW, NOT_JUDGED, OPEN, PLACES_OF_TENTH } from './places.ts';
import { LEAST_FOR_QUARTILES, spreadOf } from './spread.ts';
import type { Partition, RowName, Tables } from './tables.ts';
import type { ShareOf, Spread, SummaryTest } from './types.ts';

export interface SummarySlot {
  readonly test: TestDefinition;
  readonly side: Side | null;
}

export const nameOfSlot = ({ test, side }: SummarySlot): string => (side === null ? test.name : `${test.name}, ${side}`);

const NONE = emptyTest();
const RESULTS = ['measured', 'unable'] as const;
const ABSENT = ['stopped', 'declined', 'not_recorded'] as const;
const QUARTER = ['below', 'not_below', 'open'] as const;
const FLAGS = ['yes', 'no', 'undecided'] as const;

const sumOf = (counts: Counts, keys: readonly string[]): number => keys.reduce((sum, key) => sum + (counts[key] ?? 0), 0);

/**
 * The partitions of one test. How many were tested and how many are judged is always known, so each of them stands alone: what
 * is withheld in one does not follow from another.
 */
function partitionsOf(slot: string) {
  const of = (group: GroupCounts): TestCounts => group.tests[slot] ?? NONE;
  const partition = (name: string, categories: readonly string[], pick: (counts: TestCounts) => Counts): Partition => ({
    key: `test ${slot} ${name}`,
    categories,
    pick: (group) => pick(of(group)),
  });
  const quarter = partition('quarter', QUARTER, ({ places }) => ({
    below: sumOf(places, BELOW),
    not_below: sumOf(places, NOT_BELOW),
    open: places[OPEN] ?? 0,
  }));
  return {
    results: partition('results', RESULTS, ({ outcomes }) => outcomes),
    absent: partition('absent', ABSENT, ({ outcomes }) => outcomes),
    flags: partition('flags', FLAGS, ({ flags }) => flags),
    quarter,
    below: { ...partition('below', BELOW, ({ places }) => places), of: { partition: quarter, category: 'below' } },
    notBelow: { ...partition('not below', NOT_BELOW, ({ places }) => places), of: { partition: quarter, category: 'not_below' } },
  };
}

/** `below`, `notBelow` and `open` are all shown, and somebody is judged. */
function shareBelow(below: number, notBelow: number, open: number): ShareOf {
  const of = below + notBelow + open;
  const [lowest, highest] = [wilsonShare(below, of), wilsonShare(below + open, of)];
  return {
    n: below,
    of,
    open,
    share: open === 0 ? roundTo(lowest.share, 4) : null,
    lowest: roundTo(lowest.share, 4),
    highest: roundTo(highest.share, 4),
    low: roundTo(lowest.low, 4),
    high: roundTo(highest.high, 4),
  };
}

type Quarter = SummaryTest['quarter'];

/** The share, or in words why there is none. A share of a minority of those tested would be read as one of the group. */
function shareOrReason(quarter: Quarter, tested: number, judged: number): Pick<SummaryTest, 'below_25' | 'no_share_because'> {
  const none = (because: string) => ({ below_25: null, no_share_because: because });
  if (tested === 0) return none('nobody was tested');
  if (judged === 0)
    return none(
      'no table with a spread for the age and sex of anybody tested; a table of a mean or of one mark cannot give this share',
    );
  if (judged * 2 < tested) return none(`only ${judged} of ${tested} tested have a table with a spread for their age and sex`);
  const { below, not_below: notBelow, open } = quarter;
  if (below === null || notBelow === null || open === null) return none('withheld: too few people on one side');
  return { below_25: shareBelow(below, notBelow, open), no_share_because: null };
}

/** Nothing of a group that is withheld. */
function nothing(slot: SummarySlot, evidence: Evidence): SummaryTest {
  return {
    test: slot.test.id,
    side: slot.side,
    name: nameOfSlot(slot),
    unit: slot.test.unit_text,
    better: slot.test.better,
    tested: null,
    no_result: null,
    outcomes: { measured: null, unable: null, stopped: null, declined: null, not_recorded: null },
    value: null,
    judged: null,
    not_judged: null,
    quarter: { below: null, not_below: null, open: null },
    below_25: null,
    no_share_because: 'withheld: too few people',
    reference: evidence.defaults.standing.below_under / 100,
    tens: PLACES_OF_TENTH.map(() => null),
    off_scale: { worst: null, best: null },
    flagged: { yes: null, no: null, undecided: null },
    sources: [],
  };
}

export interface TestContext {
  readonly tables: Tables;
  readonly evidence: Evidence;
  readonly masked: boolean;
  /** All rows of the page together. */
  readonly whole: GroupCounts;
}

/**
 * Where a quantile is "unable" or a number tells how many were unable at most or at least. Where that count is withheld, only
 * numbers of so many people are shown that every count that is withheld could be one more: then nothing follows from them.
 * Beside pages of parts they are not shown at all, since those give the count in pieces, nor are they for one of several groups:
 * that nothing is shown of a large group would tell that many were unable in it, and so how few in the others.
 */
function shownSpread(spread: Spread | null, tested: number, unableIsShown: boolean, mayBeCompared: boolean): Spread | null {
  if (spread === null || unableIsShown) return spread;
  if (mayBeCompared) return null;
  const areNumbers = ![spread.median, spread.p25, spread.p75].includes('unable');
  return areNumbers && tested > LEAST_FOR_QUARTILES ? spread : null;
}

/** `group` has the counts of the row `name`. */
export function summariseTest(slot: SummarySlot, group: GroupCounts, name: RowName, context: TestContext): SummaryTest {
  const { tables, evidence, masked, whole } = context;
  const empty = nothing(slot, evidence);
  if (tables.isWithheld(name)) return empty;
  const counts = group.tests[slotName(slot.test.id, slot.side)] ?? NONE;
  const parts = partitionsOf(slotName(slot.test.id, slot.side));
  const of = (partition: Partition, category: string) => tables.count(partition, name, category);
  const tested = sumOf(counts.outcomes, RESULTS);
  const notJudged = counts.places[NOT_JUDGED] ?? 0;
  const quarter = {
    below: of(parts.quarter, 'below'),
    not_below: of(parts.quarter, 'not_below'),
    open: of(parts.quarter, 'open'),
  };
  const sideOf = (place: string): Partition => (BELOW.includes(place) ? parts.below : parts.notBelow);
  const sum = (places: readonly string[]) =>
    places
      .map((place) => of(sideOf(place), place))
      .reduce((total, count) => (total === null || count === null ? null : total + count), 0);
  return {
    ...empty,
    tested,
    no_result: sumOf(counts.outcomes, ABSENT),
    outcomes: {
      measured: of(parts.results, 'measured'),
      unable: of(parts.results, 'unable'),
      stopped: of(parts.absent, 'stopped'),
      declined: of(parts.absent, 'declined'),
      not_recorded: of(parts.absent, 'not_recorded'),
    },
    value: shownSpread(
      spreadOf({ values: counts.values, unable: counts.outcomes.unable ?? 0, better: slot.test.better }, masked),
      tested,
      of(parts.results, 'unable') !== null,
      tables.isBesideParts || name !== null,
    ),
    judged: tested - notJudged,
    not_judged: notJudged,
    quarter,
    ...shareOrReason(quarter, tested, tested - notJudged),
    tens: PLACES_OF_TENTH.map(sum),
    off_scale: { worst: sum([ENDS.worst]), best: sum([ENDS.best]) },
    flagged: { yes: of(parts.flags, 'yes'), no: of(parts.flags, 'no'), undecided: of(parts.flags, 'undecided') },
    // That a table was used in a group tells that somebody of its sex and age is in it.
    sources: Object.keys((masked ? (whole.tests[slotName(slot.test.id, slot.side)] ?? NONE) : counts).sources).sort(),
  };
}
