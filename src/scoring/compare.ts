/** One client's result against one row of one table: the value by the table's own rule, the method's numbers, the standing. */
import type { Band, Comparison, Standing } from '../assessment.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { StandingBands } from '../evidence/schema/numbers.ts';
import type { Row, TableFile } from '../evidence/schema/table.ts';
import type { Client, Measured } from '../session.ts';
import { cellsOf } from './knots.ts';
import { type Question, type Scored, scoreAgainstRow } from './methods.ts';
import { PERCENTILE_DECIMALS, roundTo, VALUE_DECIMALS, Z_DECIMALS } from './performance.ts';
import type { Candidate } from './select.ts';
import { cannotSay, standingOf } from './standing.ts';
import { type TrialsRule, type TrialsValue, valueByRule } from './trials.ts';

export interface CompareContext {
  readonly test: TestDefinition;
  readonly client: Client;
  readonly bands: StandingBands;
  /** null = unable, or unsafe for balance. */
  readonly measured: Measured | null;
}

/** The values that a result of this test can take, for the question whether a bell curve fits. */
function possibleRange(test: TestDefinition, table: TableFile): Question['range'] {
  const bounded = test.kind === 'score' || test.kind === 'percent' || test.kind === 'stage';
  const top = table.protocol.ceiling ?? (bounded ? test.impossible.above : undefined);
  return { lowest: 0, highest: top ?? Number.POSITIVE_INFINITY };
}

/** Sex, ages (completed years, null = open) and further strata of a row, as the result shows them. */
export function bandOf(row: Row): Band {
  const strata = ['setting', 'side', 'stance', 'language', 'height_min_cm', 'height_max_cm', 'group'] as const;
  const given = strata.flatMap((key) => (row[key] === undefined ? [] : [[key, row[key]] as const]));
  return { sex: row.sex, age_min: row.age_min, age_max: row.age_max, ...Object.fromEntries(given) };
}

/** "women 75-79", for people. */
export function bandInWords(row: Row): string {
  const who = row.sex === 'female' ? 'women' : row.sex === 'male' ? 'men' : 'both sexes';
  const ages =
    row.age_max === null
      ? row.age_min === null
        ? 'all ages'
        : `${row.age_min} and over`
      : `${row.age_min ?? 'up to'}${row.age_min === null ? ' ' : '-'}${row.age_max}`;
  return `${who} ${ages}`;
}

/** What is asked of a row of this table; `value` in the test's unit, null = unable. */
export function question(
  table: TableFile,
  { client, test }: Pick<CompareContext, 'client' | 'test'>,
  value: number | null,
): Question {
  return {
    value,
    better: test.better,
    isTime: test.kind === 'time',
    range: possibleRange(test, table),
    client: { age: client.age, sex: client.sex, heightCm: client.heightCm, weightKg: client.weightKg },
    unit: test.unit_text,
  };
}

interface Judged {
  readonly standing: Standing | null;
  readonly because: string | null;
  readonly notes: readonly string[];
}

/** Share of the row's people that reach the best printed mark, for the note beside a ceiling. */
function shareAtTop(row: Row): string {
  if (row.percent_at_ceiling !== undefined) return `${row.percent_at_ceiling} % of the group reach it`;
  if (row.shares === undefined) return 'many people reach it';
  const cells = cellsOf(row.shares);
  const total = cells.reduce((sum, cell) => sum + cell, 0);
  return `${Math.round((100 * (cells.at(-1) ?? 0)) / total)} % of the group reach it`;
}

/** The worst result: well below wherever the row has a spread; a single mark says only that it lies beyond it. */
function judgeUnable(scored: Scored, candidate: Candidate, context: CompareContext): Judged {
  const notes = ['unable counts as the worst result'];
  if (scored.noneBecause === null && !isOneMark(candidate.row)) return { standing: 'well_below', because: null, notes };
  if (scored.percentile === null) return { standing: null, because: scored.noneBecause, notes };
  const result = { percentile: scored.percentile, bound: 'at_most' as const };
  const standing = standingOf(result, context.bands);
  return { standing, because: standing === null ? (scored.noneBecause ?? cannotSay(result)) : null, notes };
}

/** A time stopped at the ceiling is never `below`; at the test's own ceiling it is `expected`, however many reach it. */
function judge(scored: Scored, candidate: Candidate, context: CompareContext, atOwnCeiling: boolean, stopped: boolean): Judged {
  if (candidate.orientationOnly)
    return { standing: null, because: 'shown for orientation only: not a sample of the general population', notes: [] };
  if (context.measured === null) return judgeUnable(scored, candidate, context);
  if (scored.agreedStanding !== undefined && scored.agreedStanding !== null)
    return judgeAgreed(scored.agreedStanding, context.test, stopped);
  if (scored.percentile === null || scored.bound === null) return { standing: null, because: scored.noneBecause, notes: [] };
  const result = { percentile: scored.percentile, bound: scored.bound };
  if (atOwnCeiling) {
    const standing = standingOf({ ...result, bound: 'at_least' }, context.bands);
    const share = shareAtTop(candidate.row);
    return {
      standing: standing ?? 'expected',
      because: null,
      notes: [`stopped at the test's own ceiling: ${share}, the test cannot tell them apart`],
    };
  }
  const standing = standingOf(result, context.bands);
  return { standing, because: standing === null ? cannotSay(result) : null, notes: [] };
}

/** A standing without a percentile holds for a watch stopped early only where a longer time could not take it back. */
function judgeAgreed(standing: Standing, test: TestDefinition, stopped: boolean): Judged {
  const isLow = standing === 'below' || standing === 'well_below';
  if (!stopped || isLow === (test.better === 'lower')) return { standing, because: null, notes: [] };
  return { standing: null, because: 'the watch was stopped before the standing was decided', notes: [] };
}

const isOneMark = (row: Row): boolean => row.shares !== undefined && row.shares.marks.length === 1;

/** Rule of the table; where it is unknown, of the catalogue. */
const ruleFor = (candidate: Candidate, test: TestDefinition): TrialsRule =>
  candidate.table.protocol.trials_rule === 'unknown' ? test.trials : candidate.table.protocol.trials_rule;

function valueFor(candidate: Candidate, context: CompareContext): TrialsValue | null {
  const { measured, test } = context;
  if (measured === null) return null;
  return valueByRule(measured.trials, ruleFor(candidate, test), test.better, {
    ceiling: measured.ceiling ?? test.ceiling ?? undefined,
    cap: candidate.table.protocol.ceiling,
  });
}

/**
 * A watch stopped early leaves one side open: a longer hold could only be better, a longer walk only worse. Where the table
 * already bounds the other side, nothing is left to say.
 */
function boundWhenStopped(all: Scored, test: TestDefinition, stopped: boolean, atOwnCeiling: boolean): Scored {
  // A hold stopped short of the mean may have gone on past it; a walk stopped before it may have ended after it.
  const undecided = stopped && all.againstMean === (test.better === 'higher' ? 'worse' : 'not_worse');
  const scored = undecided ? { ...all, againstMean: null } : all;
  if (scored.bound === null || (!stopped && !(atOwnCeiling && scored.method === 'cumulative_share'))) return scored;
  const open = test.better === 'higher' ? 'at_least' : 'at_most';
  if (scored.bound !== 'exact' && scored.bound !== open)
    return {
      ...scored,
      percentile: null,
      bound: null,
      z: null,
      noneBecause: 'the watch was stopped before the worst published mark',
    };
  return { ...scored, bound: open };
}

/**
 * A table may declare what its print cannot carry: a part for orientation only, or SDs rounded so coarsely that only a
 * standing on which SD - and SD + the rounding agree is worth giving, and no z or percentile.
 */
function withDeclaredLimits(candidate: Candidate, asked: Question, context: CompareContext): Scored {
  const { row, part, table } = candidate;
  const scored = scoreAgainstRow(row, asked);
  if (part.no_standing_because !== undefined)
    return { ...scored, percentile: null, bound: null, z: null, approximate: false, noneBecause: part.no_standing_because };
  if (table.sd_rounding === undefined || scored.method !== 'mean_sd' || row.sd === undefined || scored.percentile === null)
    return scored;
  const rounding = table.sd_rounding;
  const standings = [-rounding, rounding].map((shift) => {
    const { percentile, bound } = scoreAgainstRow({ ...row, sd: (row.sd ?? 0) + shift }, asked);
    return percentile === null || bound === null ? null : standingOf({ percentile, bound }, context.bands);
  });
  const agreed = standings[0] === standings[1] ? (standings[0] ?? null) : null;
  const coarse = `the SD is printed to ${rounding} only, too coarse for a percentile`;
  return {
    ...scored,
    percentile: null,
    bound: null,
    z: null,
    notes: [coarse],
    noneBecause: coarse,
    agreedStanding: agreed,
  };
}

/** What a row says of a value before anything is put into words. */
interface Weighed {
  readonly taken: TrialsValue | null;
  readonly scored: Scored;
  readonly bounded: Scored;
  readonly judged: Judged;
}

function weigh(candidate: Candidate, context: CompareContext): Weighed {
  const taken = valueFor(candidate, context);
  const scored = withDeclaredLimits(candidate, question(candidate.table, context, taken?.value ?? null), context);
  const stopped = taken?.atLeast ?? false;
  // The catalogue's ceiling is part of the test itself (ten seconds of tandem): nobody can do better.
  const atOwnCeiling =
    context.test.ceiling !== null && taken !== null && context.test.better === 'higher' && taken.value >= context.test.ceiling;
  const bounded = boundWhenStopped(scored, context.test, stopped, atOwnCeiling);
  return { taken, scored, bounded, judged: judge(bounded, candidate, context, atOwnCeiling, stopped) };
}

/** The numbers of a comparison alone. */
export type BareComparison = Pick<Comparison, 'percentile' | 'percentile_bound' | 'standing'>;

const bare = ({ bounded, judged }: Weighed): BareComparison => ({
  percentile: bounded.percentile === null ? null : roundTo(bounded.percentile, PERCENTILE_DECIMALS),
  percentile_bound: bounded.bound,
  standing: judged.standing,
});

/** Percentile (0-100 to 0.1), bound and standing of `compare`, without its words: what a row of a cohort shows. */
export const compareBare = (candidate: Candidate, context: CompareContext): BareComparison => bare(weigh(candidate, context));

/** The whole comparison; `primary` is decided afterwards over all of them. */
export function compare(candidate: Candidate, context: CompareContext): Comparison {
  const { table, part, row } = candidate;
  const weighed = weigh(candidate, context);
  const { taken, scored, bounded, judged } = weighed;
  return {
    source: table.source,
    part: part.id,
    location: part.location,
    status: row.status ?? table.status,
    primary: false,
    band: bandOf(row),
    population: table.population.description,
    value: taken === null ? null : roundTo(taken.value, VALUE_DECIMALS),
    trials_rule: ruleFor(candidate, context.test),
    method: scored.method,
    ...bare(weighed),
    approximate: scored.approximate,
    z: scored.z === null ? null : roundTo(scored.z, Z_DECIMALS),
    against_mean: bounded.againstMean,
    expected: scored.expected === null ? null : roundTo(scored.expected, VALUE_DECIMALS),
    mismatches: candidate.mismatches,
    notes: [...scored.notes, ...judged.notes, ...table.notes, ...(row.note === undefined ? [] : [row.note])],
    no_standing_because: judged.because,
    working: { row: `${table.source}, ${part.location}, ${bandInWords(row)}`, formula: scored.formula },
  };
}

/** The same question to the next age band, for the note at a band edge. */
export const standingOnly = (candidate: Candidate, context: CompareContext): Standing | null =>
  compareBare(candidate, context).standing;
