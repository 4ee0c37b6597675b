/** What the summary says of one test of one group. */
import { wilsonShare } from '../../change/group.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { roundTo } from '../../scoring/performance.ts';
import type { Side } from '../../session.ts';
import { type CountOf, highest, LEAST_FOR_MIDDLE, lowest } from './bands.ts';
import { type Counts, emptyTest, type GroupCounts, slotName, type TestCounts } from './part.ts';
import { BELOW, ENDS, NOT_BELOW, NOT_JUDGED, OPEN, PLACES_OF_TENTH } from './places.ts';
import { spreadOf } from './spread.ts';
import type { Count, ShareOf, SummaryTest } from './types.ts';
import { countedInWords } from './words.ts';

export interface SummarySlot {
  readonly test: TestDefinition;
  readonly side: Side | null;
}

export const nameOfSlot = ({ test, side }: SummarySlot): string => (side === null ? test.name : `${test.name}, ${side}`);

const NONE = emptyTest();
const RESULTS = ['measured', 'unable'] as const;
const ABSENT = ['stopped', 'declined', 'not_recorded'] as const;

const sumOf = (counts: Counts, keys: readonly string[]): number => keys.reduce((sum, key) => sum + (counts[key] ?? 0), 0);

type Quarter = SummaryTest['quarter'];

/**
 * Share of the judged below, from the fewest to the most that the counts allow. Both Wilson limits fall with the total and rise
 * with the count, so that the ends of the bands give the widest interval.
 */
function shareBelow({ below, not_below: notBelow, open }: Quarter, judged: Count): ShareOf {
  const of = highest(judged);
  const [fewest, fewestOthers] = [wilsonShare(lowest(below), of), wilsonShare(lowest(notBelow), of)];
  const [least, most] = [roundTo(fewest.share, 4), roundTo(1 - fewestOthers.share, 4)];
  return {
    n: below,
    of: judged,
    open,
    share: least === most ? least : null,
    lowest: least,
    highest: most,
    low: roundTo(fewest.low, 4),
    high: roundTo(1 - fewestOthers.low, 4),
  };
}

/** The share, or in words why there is none. A share of a minority of those tested would be read as one of the group. */
function shareOrReason(quarter: Quarter, tested: Count, judged: Count): Pick<SummaryTest, 'below_25' | 'no_share_because'> {
  const none = (because: string) => ({ below_25: null, no_share_because: because });
  if (tested === 0) return none('nobody was tested');
  if (judged === 0)
    return none(
      'no table with a spread for the age and sex of anybody tested; a table of a mean or of one mark cannot give this share',
    );
  if (lowest(judged) * 2 < lowest(tested))
    return none(
      `only ${countedInWords(judged)} of ${countedInWords(tested)} tested have a table with a spread for their age and sex`,
    );
  if (typeof judged !== 'number' && judged.from < LEAST_FOR_MIDDLE)
    return none('too few people with a table with a spread for their age and sex');
  return { below_25: shareBelow(quarter, judged), no_share_because: null };
}

/** One row of the page. */
export interface PageRow {
  readonly evidence: Evidence;
  readonly masked: boolean;
  readonly count: CountOf<GroupCounts>;
  readonly group: GroupCounts;
  /** All rows of the page together. */
  readonly whole: GroupCounts;
}

export function summariseTest(slot: SummarySlot, { evidence, masked, count, group, whole }: PageRow): SummaryTest {
  const { test, side } = slot;
  const of = (counts: GroupCounts): TestCounts => counts.tests[slotName(test.id, side)] ?? NONE;
  const inTable = (table: 'outcomes' | 'places' | 'flags', keys: readonly string[]): Count =>
    count((each) => sumOf(of(each)[table], keys));
  const { outcomes, values, sources } = of(group);
  const tested = inTable('outcomes', RESULTS);
  const judged = count((each) => sumOf(of(each).outcomes, RESULTS) - (of(each).places[NOT_JUDGED] ?? 0));
  const quarter = {
    below: inTable('places', BELOW),
    not_below: inTable('places', NOT_BELOW),
    open: inTable('places', [OPEN]),
  };
  return {
    test: test.id,
    side,
    name: nameOfSlot(slot),
    unit: test.unit_text,
    better: test.better,
    tested,
    no_result: inTable('outcomes', ABSENT),
    outcomes: {
      measured: inTable('outcomes', ['measured']),
      unable: inTable('outcomes', ['unable']),
      stopped: inTable('outcomes', ['stopped']),
      declined: inTable('outcomes', ['declined']),
      not_recorded: inTable('outcomes', ['not_recorded']),
    },
    value: spreadOf({ values, unable: outcomes.unable ?? 0, better: test.better }, masked),
    judged,
    not_judged: inTable('places', [NOT_JUDGED]),
    quarter,
    ...shareOrReason(quarter, tested, judged),
    reference: evidence.defaults.standing.below_under / 100,
    tens: PLACES_OF_TENTH.map((tenth) => inTable('places', tenth)),
    off_scale: { worst: inTable('places', [ENDS.worst]), best: inTable('places', [ENDS.best]) },
    flagged: {
      yes: inTable('flags', ['yes']),
      no: inTable('flags', ['no']),
      undecided: inTable('flags', ['undecided']),
    },
    // That a table was used in a group tells that somebody of its sex and age is in it.
    sources: Object.keys(masked ? of(whole).sources : sources).sort(),
  };
}
