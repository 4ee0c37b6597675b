import { describe, expect, test } from 'vitest';
import { renderJson } from '../../src/report/json.ts';
import { copd74, everyFixture, undetermined } from './fixture.ts';
import { assessment, comparison, result, risk } from './parts.ts';

const read = (text: string) => JSON.parse(text);
const one = (given = copd74) => read(renderJson([given], { asArray: false }));

/** The first keys of the contract, in its order; further keys may only follow. */
const startsWith = (value: object, keys: readonly string[]) => expect(Object.keys(value).slice(0, keys.length)).toEqual(keys);

describe('the JSON record', () => {
  test('keeps the keys of the contract, in its order', () => {
    const record = one();
    startsWith(record, ['format', 'tool', 'evidence', 'client', 'assessed', 'tests', 'risk', 'plan', 'cautions', 'sources']);
    startsWith(record.tests[0], [
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
    ]);
    startsWith(record.tests[0].comparisons[0], [
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
    ]);
    startsWith(record.tests[0].cut_points[0], [
      'source',
      'status',
      'rule',
      'met',
      'near',
      'sensitivity',
      'specificity',
      'outcome',
      'counts',
    ]);
    startsWith(record.risk, [
      'red_flags',
      'not_asked',
      'pathway',
      'level',
      'at_least',
      'at_most',
      'caveats',
      'steps',
      'missing',
      'actions',
      'follow_up',
      'other_pathways',
      'factors',
      'probability',
    ]);
    startsWith(record.risk.red_flags[0], ['tier', 'finding', 'because', 'action', 'source']);
    startsWith(record.risk.steps[0], ['question', 'answer', 'because']);
    startsWith(record.plan[0], [
      'exercise',
      'name',
      'purpose',
      'start',
      'because',
      'limited_by',
      'dose',
      'move_up',
      'move_down',
      'cautions',
      'supervision',
    ]);
    startsWith(record.plan[0].start, ['level', 'of', 'name', 'support', 'base', 'surface', 'vision', 'task']);
    startsWith(record.sources['invented-guideline'], ['citation', 'doi', 'location', 'status']);
  });

  test('loses nothing of the assessment but unrounded decimals', () => {
    expect(one(undetermined)).toEqual(JSON.parse(JSON.stringify(undetermined)));
  });

  test('rounds percentiles to 0.1, z to 0.01, probabilities to 0.001 and leaves values as entered', () => {
    const given = assessment({
      tests: [result({ value: 12.8456, comparisons: [comparison({ percentile: 18.34567, z: -0.90499, value: 12.8456 })] })],
      risk: risk({
        probability: {
          before: 0.30004,
          after: 0.41421356,
          low: 0.1,
          high: 0.5,
          used: [],
          parts: [],
          formula: '',
          not_used: [],
          warnings: [],
        },
      }),
    });
    const record = one(given);
    expect(record.tests[0].value).toBe(12.8456);
    expect(record.tests[0].comparisons[0]).toMatchObject({ percentile: 18.3, z: -0.9, value: 12.8456 });
    expect(record.risk.probability).toMatchObject({ before: 0.3, after: 0.414 });
  });

  test('an object for one file, an array for several', () => {
    expect(Array.isArray(one())).toBe(false);
    expect(read(renderJson(everyFixture, { asArray: true }))).toHaveLength(3);
    expect(read(renderJson([copd74], { asArray: true }))).toHaveLength(1);
    expect(read(renderJson([], { asArray: true }))).toEqual([]);
    expect(() => renderJson(everyFixture, { asArray: false })).toThrow(RangeError);
  });

  test('the same keys come in the same order whatever the order they were made in', () => {
    const turned = Object.fromEntries(Object.entries(copd74).reverse()) as unknown as typeof copd74;
    const sources = Object.fromEntries(Object.entries(copd74.sources).reverse());
    expect(renderJson([{ ...turned, sources }], { asArray: false })).toBe(renderJson([copd74], { asArray: false }));
  });

  test('a number that is none is a fault, not a null', () => {
    const broken = (value: number) => () => renderJson([assessment({ tests: [result({ value })] })], { asArray: false });
    expect(broken(Number.NaN)).toThrow(RangeError);
    expect(broken(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });

  test('ends with one line feed', () => expect(renderJson([copd74], { asArray: false })).toMatch(/[^\n]\n$/));
});
