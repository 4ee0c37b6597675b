/** How well each mark told fallers apart, for this result. */
import { describe, expect, test } from 'vitest';
import type { CutPointResult, TestResult } from '../../src/assessment.ts';
import { agreementOf } from '../../src/risk/agreement.ts';

const mark = (over: Partial<CutPointResult>): CutPointResult => ({
  id: 'mark',
  source: 'alpha-2020',
  location: 'Table 1',
  status: 'abstract',
  rule: 'under 22 cm',
  met: true,
  near: null,
  sensitivity: 0.55,
  specificity: 0.93,
  outcome: 'falls',
  counts: true,
  below_average: false,
  population: 'people',
  note: null,
  in_copd: null,
  ...over,
});

const result = (cuts: readonly CutPointResult[], over: Partial<TestResult> = {}): TestResult => ({
  test: 'functional_reach',
  name: 'Functional reach',
  side: null,
  outcome: 'measured',
  value: 20,
  unit: 'cm',
  trials: [20],
  at_least: false,
  category: null,
  comparisons: [],
  no_comparison_because: null,
  cut_points: cuts,
  measurement_error: null,
  notes: [],
  reason: null,
  why: null,
  derived_from: [],
  ...over,
});

const ratioOf = (over: Partial<CutPointResult>): number | null | undefined =>
  agreementOf([result([mark(over)])])[0]?.likelihood_ratio;

describe('the likelihood ratio of a result', () => {
  // Lusardi 2017 (J Geriatr Phys Ther 40(1):1-36), functional reach under 22 cm, as reprinted in Beck Jepsen 2022
  // (BMC Geriatr 22:615), Table 8: sensitivity 55 %, specificity 93 %, ratios 7.9 and 0.5.
  test('is the positive one where the mark is met, else the negative one', () => {
    expect(ratioOf({ met: true })).toBeCloseTo(7.9, 1);
    expect(ratioOf({ met: false })).toBeCloseTo(0.5, 1);
  });
  test('is not given where the mark cannot be decided or a share is not published', () => {
    expect(ratioOf({ met: null })).toBeNull();
    expect(ratioOf({ sensitivity: null })).toBeNull();
    expect(ratioOf({ specificity: null })).toBeNull();
  });
  test('is not given where it has no end', () => {
    expect(ratioOf({ specificity: 1 })).toBeNull();
    expect(ratioOf({ specificity: 1, met: false })).toBeCloseTo(0.45, 12);
  });
});

describe('the rows', () => {
  test('come with the result they are about, marks that count first, tests in their order', () => {
    const other = result([mark({ id: 'third' })], { test: 'grip_strength', name: 'Grip', side: 'left', value: 19, unit: 'kg' });
    const rows = agreementOf([result([mark({ id: 'second', counts: false }), mark({ id: 'first' })]), other]);
    expect(rows.map((row) => row.cut_point.id)).toEqual(['first', 'second', 'third']);
    expect(rows[0]).toMatchObject({ test: 'functional_reach', name: 'Functional reach', side: null, value: 20, unit: 'cm' });
    expect(rows[2]).toMatchObject({ test: 'grip_strength', name: 'Grip', side: 'left', value: 19, unit: 'kg', at_least: false });
  });
  test('stand for tests with a result, and for those that were beyond the client', () => {
    const rowsFor = (over: Partial<TestResult>) => agreementOf([result([mark({})], over)]).length;
    expect(rowsFor({ outcome: 'unable', value: null })).toBe(1);
    expect(rowsFor({ outcome: 'unsafe', value: null, why: 'balance' })).toBe(1);
    expect(rowsFor({ outcome: 'unsafe', value: null, why: 'medical' })).toBe(0);
    expect(rowsFor({ outcome: 'declined', value: null })).toBe(0);
  });
});
