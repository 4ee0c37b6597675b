/** Invented results, errors and tests, so that a rule of change can be looked at by itself. The numbers mean nothing. */
import type { Comparison, CutPointResult, TestResult } from '../../src/assessment.ts';
import type { DoneTest } from '../../src/change/readings.ts';
import type { Evidence } from '../../src/evidence/data.ts';
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import type { MeasurementError } from '../../src/evidence/schema/numbers.ts';
import { evidence } from './support.ts';

export function definition(over: Partial<TestDefinition> = {}): TestDefinition {
  const known = evidence.testById.get('timed_up_and_go');
  if (known === undefined) throw new Error('no such test');
  return {
    ...known,
    id: 'walk',
    name: 'Walk',
    unit_text: 's',
    kind: 'time',
    better: 'lower',
    decimals: 1,
    ceiling: null,
    impossible: { why: 'x' },
    ...over,
  };
}

export const comparison = (over: Partial<Comparison> = {}): Comparison => ({
  source: 'table-a',
  part: 'x',
  location: 'Table 1',
  status: 'abstract',
  primary: true,
  band: { sex: 'all', age_min: 70, age_max: 74 },
  population: 'x',
  value: 12,
  trials_rule: 'best',
  method: 'mean_sd',
  percentile: 40,
  percentile_bound: 'exact',
  approximate: false,
  z: 0,
  standing: 'expected',
  against_mean: null,
  expected: 11,
  mismatches: [],
  notes: [],
  no_standing_because: null,
  working: { row: 'x', formula: 'x' },
  ...over,
});

export const cut = (over: Partial<CutPointResult> = {}): CutPointResult => ({
  id: 'mark',
  source: 'paper',
  location: 'Table 1',
  status: 'abstract',
  rule: '12 s or more',
  met: false,
  near: false,
  sensitivity: null,
  specificity: null,
  outcome: 'falls',
  counts: true,
  below_average: false,
  population: 'x',
  note: null,
  in_copd: null,
  ...over,
});

export const result = (value: number | null, over: Partial<TestResult> = {}): TestResult => ({
  test: 'walk',
  name: 'Walk',
  side: null,
  outcome: 'measured',
  value,
  unit: 's',
  trials: value === null ? [] : [value],
  at_least: false,
  category: null,
  comparisons: [],
  no_comparison_because: null,
  cut_points: [],
  measurement_error: null,
  notes: [],
  reason: null,
  why: null,
  derived_from: [],
  ...over,
});

export const done = (value: number | null, over: Partial<DoneTest> & { result?: TestResult | null } = {}): DoneTest => ({
  assessed: '2026-02-02',
  result: result(value),
  aid: null,
  chairCm: null,
  ceiling: null,
  course: null,
  ...over,
});

export const doneResult = (value: number | null, over: Partial<TestResult>, more: Partial<DoneTest> = {}): DoneTest =>
  done(value, { result: result(value, over), ...more });

export const unableDone = doneResult(null, { outcome: 'unable' });
export const missingDone = done(null, { result: null });

export const error = (over: Partial<MeasurementError> = {}): MeasurementError => ({
  id: 'error_a',
  source: 'paper-a',
  location: 'Table 1',
  status: 'abstract',
  test: 'walk',
  population: { description: 'Older people' },
  interval: 'one week',
  interval_days: 7,
  sem_converted: false,
  ...over,
});

type ErrorDefault = NonNullable<Evidence['defaults']['tests'][string]>['error'][number];

/** The project's own evidence with errors of the invented test, and their defaults. */
export const evidenceWith = (errors: readonly MeasurementError[], defaults: readonly ErrorDefault[] = []): Evidence => ({
  ...evidence,
  errorsByTest: new Map([['walk', errors]]),
  defaults: { ...evidence.defaults, tests: { walk: { ...emptyDefaults(), error: [...defaults] } } },
});

function emptyDefaults(): NonNullable<Evidence['defaults']['tests'][string]> {
  const some = evidence.defaults.tests.timed_up_and_go;
  if (some === undefined) throw new Error('no defaults');
  return some;
}
