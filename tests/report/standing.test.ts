import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TestResult } from '../../src/assessment.ts';
import { markOf, standingWords } from '../../src/report/view/standing.ts';
import { comparison, cutPoint, result } from './parts.ts';

const placed = (standing: 'well_below' | 'below' | 'expected' | 'above' | null, more: Partial<TestResult> = {}): TestResult =>
  result({ comparisons: [comparison({ standing })], ...more });
const met = [cutPoint({ met: true })];

describe('the standing in words', () => {
  test.each([
    ['well_below', 'well below what is usual for age and sex'],
    ['below', 'below what is usual for age and sex'],
    ['expected', 'usual for age and sex'],
    ['above', 'better than usual for age and sex'],
  ] as const)('%s', (standing, words) => expect(standingWords(placed(standing))).toBe(words));

  test('a good standing never hides a mark linked with falls', () => {
    expect(standingWords(placed('expected', { cut_points: met }))).toBe('usual for age, yet in the range linked with falls');
    expect(standingWords(placed('above', { cut_points: met }))).toBe(
      'better than usual for age, yet in the range linked with falls',
    );
    expect(standingWords(placed('below', { cut_points: met }))).toBe(
      'below what is usual for age and sex, and in the range linked with falls',
    );
  });

  test('whatever the rest, a counting mark that is met is in the sentence and in the sign', () => {
    const standings = fc.constantFrom('well_below', 'below', 'expected', 'above', null);
    const against = fc.constantFrom('worse', 'not_worse', null);
    const sex = fc.constantFrom('female', 'male', 'all');
    fc.assert(
      fc.property(standings, against, sex, fc.boolean(), fc.boolean(), (standing, against_mean, bandSex, at_least, primary) => {
        const band = { sex: bandSex, age_min: 70, age_max: 74 } as const;
        const test = result({ at_least, cut_points: met, comparisons: [comparison({ standing, against_mean, band, primary })] });
        return standingWords(test).includes('in the range linked with falls') && markOf(test) === 'linked';
      }),
    );
  });

  test('a mark that does not count changes nothing', () => {
    expect(standingWords(placed('expected', { cut_points: [cutPoint({ met: true, counts: false })] }))).toBe(
      'usual for age and sex',
    );
  });

  test('a ceiling is not called normal', () => {
    expect(standingWords(placed('expected', { at_least: true }))).toBe('usual for age and sex, as far as this test can tell');
  });

  test('an average gives no standing', () => {
    const average = (against_mean: 'worse' | 'not_worse', method: 'mean_ci' | 'median_only' = 'mean_ci') =>
      result({ comparisons: [comparison({ standing: null, percentile: null, against_mean, method })] });
    expect(standingWords(average('worse'))).toBe('worse than the average for age and sex (no percentile: see the basis)');
    expect(standingWords(average('not_worse', 'median_only'))).toBe(
      'not worse than the median for age and sex (no percentile: see the basis)',
    );
  });

  test('untested is never fine, unable is the worst result', () => {
    expect(standingWords(result({ outcome: 'declined', value: null }))).toBe('not tested today, so nothing is known');
    expect(standingWords(result({ outcome: 'unsafe', why: 'medical', value: null }))).toBe(
      'not tested today, so nothing is known',
    );
    const unable = result({
      outcome: 'unsafe',
      why: 'balance',
      value: null,
      no_comparison_because: 'no published norm for this',
    });
    expect(standingWords(unable)).toBe('unable, the worst result; no published norm for this');
    expect(markOf(unable)).toBe('linked');
  });

  test('no norm is said, with the reason', () => {
    expect(standingWords(result({}))).toBe('no published norm for this');
    expect(
      standingWords(
        placed(null, {
          comparisons: [comparison({ standing: null, no_standing_because: 'a single mark; the table cannot say more' })],
        }),
      ),
    ).toBe('a single mark; the table cannot say more');
  });
});

describe('the sign before a test', () => {
  test('near a mark and stopped before a mark are unclear, far from it is neither', () => {
    expect(markOf(result({ cut_points: [cutPoint({ near: true })] }))).toBe('unclear');
    expect(markOf(result({ cut_points: [cutPoint({ met: null, near: null })] }))).toBe('unclear');
    expect(markOf(result({ cut_points: [cutPoint({})] }))).toBe('none');
    expect(markOf(result({ outcome: 'declined', cut_points: [] }))).toBe('not_tested');
  });
});
