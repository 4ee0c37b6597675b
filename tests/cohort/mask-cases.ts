/** Invented programmes of which small counts could be worked out, and their pages. */
import fc from 'fast-check';
import { buildSummary } from '../../src/cohort/summary/build.ts';
import { add, emptyGroup, emptyTest, type Part } from '../../src/cohort/summary/part.ts';
import type { Summary } from '../../src/cohort/summary/types.ts';
import { testEvidence } from '../support/evidence.ts';
import type { Known, Seen } from './attacker-pages.ts';

const evidence = testEvidence();
export const SLOT = 'timed_up_and_go';
const test = evidence.testById.get(SLOT);
if (test === undefined) throw new Error(`no ${SLOT}`);
const [flag, otherFlag] = evidence.redFlags;
const [factor] = evidence.factors;
const [exercise] = evidence.exercises;
if (flag === undefined || otherFlag === undefined || factor === undefined || exercise === undefined)
  throw new Error('the evidence is empty');
export const KNOWN: Known = {
  flags: [flag.id, otherFlag.id],
  factor: factor.id,
  exercise: exercise.id,
  slot: `${SLOT} null`,
  sizes: false,
};

export interface Visit {
  readonly group: string;
  readonly sex: string;
  readonly level: string;
  readonly flags: 'none' | 'one' | 'other' | 'both';
  readonly start: number;
  readonly result: string;
  readonly place: string;
  readonly mark: string;
  readonly value: number;
}

/** Most visits alike and a few not, since small counts beside large ones are what is to be kept. */
const uneven = <Value>(...values: readonly [Value, ...Value[]]): fc.Arbitrary<Value> =>
  fc.oneof(...values.map((value, index) => ({ weight: index === 0 ? 12 : index === 1 ? 4 : 1, arbitrary: fc.constant(value) })));
const evenOrNot = <Value>(...values: readonly [Value, ...Value[]]): fc.Arbitrary<Value> =>
  fc.oneof({ weight: 2, arbitrary: uneven(...values) }, { weight: 1, arbitrary: fc.constantFrom(...values) });

const visitIn = (groups: readonly [string, ...string[]]): fc.Arbitrary<Visit> =>
  fc.record({
    group: evenOrNot(...groups),
    sex: evenOrNot('female', 'male', 'not recorded'),
    level: evenOrNot('low', 'high', 'intermediate', 'undetermined'),
    flags: evenOrNot('none', 'one', 'other', 'both'),
    start: evenOrNot(1, 2, 3),
    result: evenOrNot('measured', 'unable', 'not_recorded', 'declined', 'stopped'),
    place: evenOrNot('4', '2_below', '0', '1', '2_not_below', '5', '9', 'worst_end', 'best_end', 'open', 'not_judged'),
    mark: evenOrNot('no', 'yes', 'undecided'),
    value: fc.integer({ min: 70, max: 300 }),
  });

export const visits = (groups: readonly [string, ...string[]]): fc.Arbitrary<Visit[]> =>
  fc.oneof(
    fc.array(visitIn(groups), { minLength: 1, maxLength: 24, size: 'max' }),
    fc.array(visitIn(groups), { minLength: 20, maxLength: 90, size: 'max' }),
  );

function addVisit(part: Part, visit: Visit): void {
  const group = part.groups[visit.group] ?? emptyGroup();
  part.groups[visit.group] = group;
  add(group.rows, 'accepted');
  add(group.sex, visit.sex);
  add(group.ages, '75');
  add(group.levels, visit.level);
  if (visit.flags === 'one' || visit.flags === 'both') add(group.redFlags, flag?.id ?? '');
  if (visit.flags === 'other' || visit.flags === 'both') add(group.redFlags, otherFlag?.id ?? '');
  const starts = group.starts[exercise?.id ?? ''] ?? {};
  group.starts[exercise?.id ?? ''] = starts;
  // A red flag holds every exercise.
  add(starts, visit.flags === 'none' ? String(visit.start) : '0');
  const counts = group.tests[SLOT] ?? emptyTest();
  group.tests[SLOT] = counts;
  add(counts.outcomes, visit.result);
  if (visit.result !== 'measured' && visit.result !== 'unable') return;
  const unable = visit.result === 'unable';
  if (!unable) add(counts.values, (visit.value / 10).toFixed(1));
  const mark = unable ? 'yes' : visit.mark;
  add(counts.flags, mark);
  // One of the factors is that the mark is met.
  if (mark === 'yes') add(group.factors, factor?.id ?? '');
  add(counts.places, unable && visit.place !== 'not_judged' ? 'worst_end' : visit.place);
}

export function partOf(all: readonly Visit[]): Part {
  const part: Part = { accepted: all.length, refused: 0, groups: Object.create(null) as Part['groups'], clients: null };
  for (const visit of all) addVisit(part, visit);
  return part;
}

export function pageOf(part: Part, by: string | null, masked: boolean, known: readonly Part[] = []): Summary {
  if (test === undefined) throw new Error('no test');
  return buildSummary({
    part,
    known,
    slots: [{ test, side: null }],
    evidence,
    pathway: 'world_falls_guidelines_2022',
    by,
    masked,
    between: null,
    noChangeBecause: null,
  });
}

/** The halves of the third tenth are on no page, but one of them could follow. */
export function withHalves(truth: Map<string, number>, part: Part, prefix: string, by: string | null): void {
  const groups = Object.entries(part.groups);
  const rows = [...(by === null || groups.length < 2 ? [] : groups), ['all', null] as const];
  for (const [row, group] of rows) {
    const of = (place: string): number =>
      (group === null ? groups.map(([, each]) => each) : [group]).reduce(
        (sum, each) => sum + (each.tests[SLOT]?.places[place] ?? 0),
        0,
      );
    truth.set(`${prefix}:${row}:${SLOT} null worst/t2`, of('2_below'));
    truth.set(`${prefix}:${row}:${SLOT} null best/t2`, of('2_not_below'));
  }
}

export const seenOf = (part: Part, by: string | null, known: readonly Part[] = []): Seen => ({
  page: pageOf(part, by, true, known),
  real: pageOf(part, known.length > 1 ? null : by, false),
});

/** The same groups every time, so that this does not hang on luck; MASK_SEED and MASK_RUNS look for more. */
export const seed = Number(process.env.MASK_SEED ?? 20261125);
