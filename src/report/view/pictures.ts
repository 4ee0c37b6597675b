/** What the chart of one test shows, in raw values; the drawing itself computes no more than places on paper. */
import type { Assessment, Comparison, TestResult } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { TestDefinition } from '../../evidence/schema/catalogue.ts';
import { rowUsed, valueAtPercentile } from '../../scoring/value-at-percentile.ts';
import type { Client, Side } from '../../session.ts';
import { plainNumber, valueWithUnit } from './numbers.ts';
import { countingMarks, isNotTested, isUnable, primaryOf } from './standing.ts';
import { bandWords } from './words.ts';

/** Of one table: the middle half of its people, nine in ten of them, and its centre; null where it does not say. */
export interface PictureTable {
  readonly name: string;
  readonly primary: boolean;
  /** Ends in raw values, the smaller number first. */
  readonly middleHalf: readonly [number | null, number | null];
  readonly nineInTen: readonly [number | null, number | null];
  readonly centre: number | null;
}

export interface PictureMark {
  readonly value: number;
  readonly rule: string;
}

export interface PictureResult {
  readonly side: Side | null;
  /** null = unable. */
  readonly value: number | null;
  readonly atLeast: boolean;
  readonly trials: readonly number[];
  /** The interval that measurement error leaves, where one is published. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface Picture {
  readonly test: string;
  readonly name: string;
  readonly unit: string;
  readonly better: 'higher' | 'lower';
  readonly results: readonly PictureResult[];
  readonly tables: readonly PictureTable[];
  readonly marks: readonly PictureMark[];
  /** The same as rows of words: what, value. */
  readonly data: readonly (readonly [string, string])[];
}

const MOST_OTHER_TABLES = 5;

function tableOf(comparison: Comparison, test: TestDefinition, client: Client, evidence: Evidence): PictureTable {
  const used = rowUsed(evidence, test.id, comparison);
  const { well_below_under: tail, below_under: lower, above_over: upper } = evidence.defaults.standing;
  const at = (percentile: number): number | null =>
    used === null || comparison.percentile === null ? null : valueAtPercentile(used, percentile, { test, client });
  const ordered = (worse: number | null, better: number | null): [number | null, number | null] =>
    test.better === 'higher' ? [worse, better] : [better, worse];
  return {
    name: `${comparison.source}, ${bandWords(comparison.band)}`,
    primary: comparison.primary,
    middleHalf: ordered(at(lower), at(upper)),
    nineInTen: ordered(at(tail), at(100 - tail)),
    centre: comparison.expected ?? at(50),
  };
}

const says = (table: PictureTable): boolean =>
  [...table.middleHalf, ...table.nineInTen, table.centre].some((value) => value !== null);

function marksOf(results: readonly TestResult[], evidence: Evidence): PictureMark[] {
  const ids = new Map(results.flatMap(countingMarks).map((cut) => [`${cut.source} ${cut.id}`, cut.rule]));
  const marks = (evidence.cutPointsByTest.get(results[0]?.test ?? '') ?? []).flatMap((cut) => {
    const rule = ids.get(`${cut.source} ${cut.id}`);
    const [value] = Object.values(cut.met_when).filter((each) => each !== undefined);
    return rule === undefined || value === undefined ? [] : [{ value, rule }];
  });
  return marks.filter((mark, index) => marks.findIndex((other) => other.value === mark.value) === index);
}

const resultOf = (test: TestResult): PictureResult => ({
  side: test.side,
  value: isUnable(test) ? null : test.value,
  atLeast: test.at_least,
  trials: test.trials.length > 1 ? test.trials : [],
  low: test.at_least ? null : (test.measurement_error?.low ?? null),
  high: test.at_least ? null : (test.measurement_error?.high ?? null),
});

function span([low, high]: readonly [number | null, number | null], unit: string): string | null {
  if (low === null && high === null) return null;
  if (low === null) return `up to ${valueWithUnit(high ?? 0, unit)}`;
  return high === null ? `from ${valueWithUnit(low, unit)}` : `${plainNumber(low, unit)} to ${valueWithUnit(high, unit)}`;
}

function dataOf(picture: Omit<Picture, 'data'>): [string, string][] {
  const { unit } = picture;
  const who = (side: Side | null): string => (side === null ? 'Client' : `Client, ${side}`);
  return [
    ...picture.results.flatMap((result): [string, string][] => [
      [
        who(result.side),
        result.value === null ? 'unable' : `${result.atLeast ? 'at least ' : ''}${valueWithUnit(result.value, unit)}`,
      ],
      ...(result.trials.length === 0
        ? []
        : [
            [`${who(result.side)}: trials`, result.trials.map((trial) => plainNumber(trial, unit)).join(', ')] as [
              string,
              string,
            ],
          ]),
      ...(result.low === null || result.high === null
        ? []
        : [[`${who(result.side)}: with measurement error`, span([result.low, result.high], unit) ?? ''] as [string, string]]),
    ]),
    ...picture.tables.map((table): [string, string] => {
      const parts = [
        table.centre === null ? null : `centre ${valueWithUnit(table.centre, unit)}`,
        span(table.middleHalf, unit) === null ? null : `middle half ${span(table.middleHalf, unit)}`,
        span(table.nineInTen, unit) === null ? null : `nine in ten ${span(table.nineInTen, unit)}`,
      ];
      return [
        `${table.name}${table.primary ? ' (used)' : ''}`,
        parts.filter((part) => part !== null).join('; ') || 'prints no spread that could be drawn',
      ];
    }),
    ...picture.marks.map((mark): [string, string] => ['Mark linked with falls', mark.rule]),
  ];
}

function pictureOf(results: readonly TestResult[], test: TestDefinition, client: Client, evidence: Evidence): Picture | null {
  const [first] = results;
  if (first === undefined) return null;
  const primary = results.map(primaryOf).find((each) => each !== null) ?? null;
  const from = results.find((result) => primaryOf(result) !== null) ?? first;
  const others = from.comparisons.filter((each) => !each.primary);
  const tables = [...(primary === null ? [] : [primary]), ...others]
    .map((each) => tableOf(each, test, client, evidence))
    .filter((table) => table.primary || says(table))
    .slice(0, MOST_OTHER_TABLES + 1);
  const picture = {
    test: test.id,
    name: test.name,
    unit: test.unit,
    better: test.better,
    results: results.map(resultOf),
    tables,
    marks: marksOf(results, evidence),
  };
  return { ...picture, data: dataOf(picture) };
}

/** One a test that was done, both sides together, in the order of the assessment. The assessment must be sanitised. */
export function picturesOf(assessment: Assessment, client: Client, evidence: Evidence): Picture[] {
  const done = assessment.tests.filter((test) => !isNotTested(test));
  return [...new Set(done.map((test) => test.test))].flatMap((id) => {
    const test = evidence.testById.get(id);
    const results = done.filter((each) => each.test === id);
    const picture = test === undefined ? null : pictureOf(results, test, client, evidence);
    return picture === null ? [] : [picture];
  });
}
