/**
 * The record that other programs read: the assessment itself, its keys in the order of the contract. Numbers are as entered
 * or as scored; percentiles are rounded to 0.1 and z to 0.01. Characters that could do harm on a terminal are escaped.
 */
import type {
  Assessment,
  Comparison,
  OtherPathway,
  PathwayResult,
  PlannedExercise,
  RiskResult,
  TestResult,
} from '../assessment.ts';
import { roundFor } from './view/numbers.ts';

/** The keys named first, in this order; any other key after them in alphabetical order, so that the order is always the same. */
export function ordered<Value extends object>(value: Value, first: readonly (keyof Value & string)[]): Record<string, unknown> {
  const entries = new Map<string, unknown>(Object.entries(value));
  const rest = [...entries.keys()].filter((key) => !(first as readonly string[]).includes(key)).sort();
  return Object.fromEntries([...first.filter((key) => entries.has(key)), ...rest].map((key) => [key, entries.get(key)]));
}

const rounded = (value: number | null, decimals: number): number | null => (value === null ? null : roundFor(value, decimals));

const comparisonRecord = (comparison: Comparison): Record<string, unknown> =>
  ordered(
    {
      ...comparison,
      percentile: rounded(comparison.percentile, 1),
      z: rounded(comparison.z, 2),
      band: ordered(comparison.band, ['sex', 'age_min', 'age_max']),
    },
    [
      'source',
      'status',
      'primary',
      'band',
      'value',
      'trials_rule',
      'method',
      'percentile',
      'percentile_bound',
      'approximate',
      'z',
      'standing',
      'against_mean',
      'expected',
      'mismatches',
      'notes',
      'no_standing_because',
      'part',
      'location',
      'population',
      'working',
    ],
  );

const testRecord = (test: TestResult): Record<string, unknown> =>
  ordered(
    {
      ...test,
      comparisons: test.comparisons.map(comparisonRecord),
      cut_points: test.cut_points.map((cut) =>
        ordered(cut, ['source', 'status', 'rule', 'met', 'near', 'sensitivity', 'specificity', 'outcome', 'counts']),
      ),
      measurement_error:
        test.measurement_error === null
          ? null
          : ordered(test.measurement_error, ['source', 'status', 'sem', 'mdc95', 'low', 'high']),
    },
    [
      'test',
      'name',
      'side',
      'outcome',
      'value',
      'unit',
      'trials',
      'at_least',
      'category',
      'comparisons',
      'cut_points',
      'measurement_error',
      'notes',
    ],
  );

const PATHWAY_KEYS = ['pathway', 'level', 'at_least', 'at_most', 'caveats', 'steps', 'missing', 'actions', 'follow_up'] as const;

const withSteps = <Pathway extends PathwayResult>(pathway: Pathway) => ({
  ...pathway,
  steps: pathway.steps.map((step) => ordered(step, ['question', 'answer', 'because'])),
});

const otherRecord = (other: OtherPathway): Record<string, unknown> => ordered(withSteps(other), PATHWAY_KEYS);

export function riskRecord(risk: RiskResult): Record<string, unknown> {
  const probability =
    risk.probability === null
      ? null
      : {
          ...risk.probability,
          before: roundFor(risk.probability.before, 3),
          after: roundFor(risk.probability.after, 3),
          low: roundFor(risk.probability.low, 3),
          high: roundFor(risk.probability.high, 3),
        };
  return ordered(
    {
      ...withSteps(risk),
      red_flags: risk.red_flags.map((flag) => ordered(flag, ['tier', 'finding', 'because', 'action', 'source'])),
      other_pathways: risk.other_pathways.map(otherRecord),
      probability,
    },
    ['red_flags', 'not_asked', ...PATHWAY_KEYS, 'other_pathways', 'factors', 'probability'],
  );
}

const exerciseRecord = (exercise: PlannedExercise): Record<string, unknown> =>
  ordered(
    { ...exercise, start: ordered(exercise.start, ['level', 'of', 'name', 'support', 'base', 'surface', 'vision', 'task']) },
    ['exercise', 'name', 'purpose', 'start', 'because', 'limited_by', 'dose', 'move_up', 'move_down', 'cautions', 'supervision'],
  );

const record = (assessment: Assessment): Record<string, unknown> =>
  ordered(
    {
      ...assessment,
      tests: assessment.tests.map(testRecord),
      risk: riskRecord(assessment.risk),
      plan: assessment.plan.map(exerciseRecord),
      sources: ordered(
        Object.fromEntries(
          Object.entries(assessment.sources).map(([id, source]) => [
            id,
            ordered(source, ['citation', 'doi', 'location', 'status']),
          ]),
        ),
        [],
      ),
    },
    ['format', 'tool', 'evidence', 'client', 'assessed', 'tests', 'risk', 'plan', 'cautions', 'sources', 'stop_signs', 'notes'],
  );

/** C1 controls, direction marks and overrides, line separators, zero-width blanks, tags: legal in JSON, harmful on a screen. */
const HARMFUL = /[\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

const escaped = (text: string): string =>
  text.replace(HARMFUL, (character) =>
    Array.from({ length: character.length }, (_, unit) => `\\u${character.charCodeAt(unit).toString(16).padStart(4, '0')}`).join(
      '',
    ),
  );

/** JSON has no NaN: it would silently become null, which means "none" in the contract. */
function refuseNonNumbers(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`not a finite number at ${key}`);
  return value;
}

/** Any record as indented text with a line feed at the end. Throws RangeError where a number is not finite. */
export const escapedJson = (value: unknown): string => `${escaped(JSON.stringify(value, refuseNonNumbers, 2))}\n`;

/**
 * One object for one file, an array for several (`asArray`), ending with a line feed.
 * @throws RangeError when `asArray` is false and there is not exactly one assessment, or when a number is not finite.
 */
export function renderJson(assessments: readonly Assessment[], { asArray }: { readonly asArray: boolean }): string {
  const records = assessments.map(record);
  if (!asArray && records.length !== 1) throw new RangeError(`one assessment wanted, ${records.length} given`);
  return escapedJson(asArray ? records : records[0]);
}
