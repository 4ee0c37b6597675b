/** Two or more results of one invented test: which are compared, what disputes, and what stands beside. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { MeasurementErrorResult } from '../../src/assessment.ts';
import type { DoneTest } from '../../src/change/readings.ts';
import { changeOfTest, comparePair, type TestContext } from '../../src/change/test-change.ts';
import type { TestChange } from '../../src/change/types.ts';
import { comparison, cut, definition, doneResult, error, evidenceWith, missingDone, result, unableDone } from './invented.ts';
import { evidence, FIRST, visit } from './support.ts';

const used = (id: string | null) => ({ measurement_error: id === null ? null : ({ id } as MeasurementErrorResult) });
const at = (
  assessed: string,
  value: number,
  over: Parameters<typeof doneResult>[1] = {},
  more: Partial<DoneTest> = {},
): DoneTest => ({
  ...doneResult(value, { ...used('used'), ...over }, more),
  assessed,
});
const ERRORS = [error({ id: 'used', source: 'paper-used', mdc95: 3 })];

function context(
  errors = ERRORS,
  over: Partial<TestContext> = {},
  defaults: Parameters<typeof evidenceWith>[1] = [],
): TestContext {
  const session = visit(FIRST, []);
  return {
    evidence: evidenceWith(errors, defaults),
    test: definition({ better: 'lower' }),
    conditions: new Set(),
    holds: () => false,
    latest: { session, assessment: assess(session, evidence) },
    ...over,
  };
}
function changed(series: readonly DoneTest[], given = context()): TestChange {
  const found = changeOfTest(series, given);
  if (found === null) throw new Error('no change');
  return found;
}

describe('two results', () => {
  it('numbers, error, verdict and what it says', () => {
    const found = changed([at('2026-01-01', 15), at('2026-02-01', 11)]);
    expect(found).toMatchObject({
      test: 'walk',
      name: 'Walk',
      better: 'lower',
      from: '2026-01-01',
      to: '2026-02-01',
      before: 15,
      after: 11,
      change: -4,
      change_bound: 'exact',
      direction: 'better',
      real: 'yes',
      verdict: 'improved',
      comparable: true,
      mdc95: 3,
      sources: ['paper-used'],
      since_previous: null,
      against_best: null,
      trend: null,
    });
    expect(found.series.map(({ value }) => value)).toEqual([15, 11]);
  });
  it.each([
    [unableDone, at('x', 9), 'improved', 'better', 'yes'],
    [at('x', 9), unableDone, 'worsened', 'worse', 'yes'],
    [unableDone, unableDone, 'cannot_tell', 'same', 'unknown'],
    [missingDone, at('x', 9), 'cannot_tell', null, 'unknown'],
    [at('x', 9), missingDone, 'cannot_tell', null, 'unknown'],
    [unableDone, missingDone, 'cannot_tell', null, 'unknown'],
  ] as const)('without two numbers (%#): %s is %s', (before, after, verdict, direction, real) => {
    const { compared, raw, error: decides, others, conflicts } = comparePair(before, after, context());
    expect(compared).toMatchObject({ verdict, direction, real, change: null, change_bound: null, mdc95: null });
    expect(compared.comparable).toBe(direction !== null);
    expect([raw, decides, others, conflicts]).toEqual([null, null, [], []]);
  });
  it('done in another way: the numbers stand, nothing is concluded by any error', () => {
    const errors = [...ERRORS, error({ id: 'other', mdc95: 1 })];
    const found = changed([at('a', 15, {}, { aid: 'stick' }), at('b', 11)], context(errors, {}, [{ id: 'used' }]));
    expect(found).toMatchObject({
      change: -4,
      mdc95: 3,
      verdict: 'cannot_tell',
      real: 'unknown',
      comparable: false,
      disputed: false,
    });
    expect(found.because).toContain('another aid');
    expect(found.other_errors.map(({ verdict }) => verdict)).toEqual(['cannot_tell']);
    expect(found.matters).toBe('unknown');
  });
  it('what matters is judged by the figure of the defaults', () => {
    const errors = [...ERRORS, error({ id: 'matters', source: 'paper-matters', mcid: 2 })];
    const given = context(errors, {}, [{ id: 'matters' }]);
    const found = changed([at('a', 15), at('b', 13)], given);
    expect(found).toMatchObject({ matters: 'yes', mcid: 2, verdict: 'within_error', sources: ['paper-used', 'paper-matters'] });
    expect(changed([at('a', 15), at('b', 14)], given)).toMatchObject({ matters: 'no', mcid: 2 });
    expect(changed([at('a', 15, {}, { aid: 'stick' }), at('b', 13)], given).matters).toBe('unknown');
    expect(changed([at('a', 15), at('b', 13)])).toMatchObject({ matters: 'unknown', mcid: null, important: null });
  });
  it('each source stands once', () => {
    const errors = [...ERRORS, error({ id: 'again', source: 'paper-used', mdc95: 9 })];
    expect(changed([at('a', 15), at('b', 11)], context(errors)).sources).toEqual(['paper-used']);
  });
});

describe('disputed', () => {
  const disputed = (after: number, mdc95: number, condition?: 'copd', id: string | null = 'used') =>
    changed(
      [at('a', 15, used(id)), at('b', after, used(id))],
      context([...ERRORS, error({ id: 'other', mdc95, population: { description: 'x', ...(condition ? { condition } : {}) } })]),
    ).disputed;
  it('where another error that concerns the client puts the change on the other side', () => {
    expect(disputed(13, 1)).toBe(true);
    expect(disputed(11, 5)).toBe(true);
    expect(disputed(17, 1)).toBe(true);
    expect(disputed(13, 2.5)).toBe(false);
    expect(disputed(11, 2)).toBe(false);
  });
  it('not by an error of other people, nor where no error decides', () => {
    expect(disputed(13, 1, 'copd')).toBe(false);
    expect(disputed(13, 1, undefined, null)).toBe(false);
  });
});

describe('marks', () => {
  const marked = (value: number, met: boolean): DoneTest => at('a', value, { cut_points: [cut({ met })] });
  it('between two results that were both recorded', () => {
    expect(changed([marked(11, false), marked(13, true)]).crossed).toHaveLength(1);
    const declined = { ...marked(13, true), result: result(null, { outcome: 'declined', cut_points: [cut({ met: true })] }) };
    expect(changed([marked(11, false), declined]).crossed).toEqual([]);
    expect(changed([declined, marked(11, false)]).crossed).toEqual([]);
    expect(changed([missingDone, marked(11, false)]).crossed).toEqual([]);
    expect(changed([marked(11, false), missingDone]).crossed).toEqual([]);
  });
  it('unable is beyond every mark', () => {
    const unable = { ...marked(13, true), result: result(null, { outcome: 'unable', cut_points: [cut({ met: true })] }) };
    expect(changed([marked(11, false), unable]).crossed.map(({ way }) => way)).toEqual(['into']);
  });
});

describe('more than two visits', () => {
  const series = (...values: readonly (number | null)[]) =>
    values.map((value, index) => (value === null ? missingDone : at(`2026-0${index + 1}-01`, value)));
  it('the last against the first, the one before and the best before', () => {
    const found = changed(series(18, 15, 10, 16, 12));
    expect([found.before, found.after]).toEqual([18, 12]);
    expect([found.since_previous?.before, found.since_previous?.change]).toEqual([16, -4]);
    expect([found.against_best?.before, found.against_best?.change]).toEqual([10, 2]);
  });
  it('of two equally good ones the earlier', () => expect(changed(series(18, 10, 10, 12)).against_best?.from).toBe('2026-02-01'));
  it('nothing stands twice: where the one before, or the best, is the first itself', () => {
    expect(changed(series(18, null, 12))).toMatchObject({ since_previous: null, against_best: null });
    const firstIsBest = changed(series(10, 15, 12));
    expect([firstIsBest.since_previous?.before, firstIsBest.against_best]).toEqual([15, null]);
  });
  it('visits without the test are passed over; with it at one visit only, the first visit is what is missing', () => {
    expect(changed(series(null, 15, null, 12))).toMatchObject({ from: '2026-02-01', before: 15, after: 12 });
    const onlyLast = changed(series(null, null, 12));
    expect(onlyLast).toMatchObject({ before: null, after: 12, verdict: 'cannot_tell' });
    expect(onlyLast.because).toContain('not recorded at the first visit');
    const onlyFirst = changed(series(12, null, null));
    expect(onlyFirst).toMatchObject({ before: 12, after: null });
    expect(onlyFirst.because).toContain('not recorded at the last visit');
  });
  it('the best is one done in the same way, and a number', () => {
    const [first, second, third, last] = series(18, 5, 10, 12);
    if (first === undefined || second === undefined || third === undefined || last === undefined) throw new Error('four');
    expect(changed([first, { ...second, aid: 'frame' }, third, last]).against_best?.before).toBe(10);
    expect(changed([first, unableDone, third, last]).against_best?.before).toBe(10);
    expect(changed([unableDone, third, last]).against_best?.before).toBe(10);
  });
  it('the trend rests on exact numbers got in one way', () => {
    const [first, second, third, last] = series(18, 16, 14, 12);
    if (first === undefined || second === undefined || third === undefined || last === undefined) throw new Error('four');
    expect(changed([first, second, third, last]).trend).toMatchObject({ visits: 4, direction: 'better' });
    expect(changed([first, { ...second, aid: 'frame' }, third, last]).trend?.visits).toBe(3);
    const stopped = { ...second, result: result(16, { at_least: true }) };
    expect(changed([first, stopped, third, last]).trend?.visits).toBe(3);
    expect(changed([first, unableDone, third, last]).trend?.visits).toBe(3);
  });
});

describe('what stands beside', () => {
  it('the side of either visit, the marks of the later result or else of the earlier', () => {
    const marks = [{ id: 'mark', met_when: { at_least: 12 } }] as never;
    const given = context();
    const marked = { ...given, evidence: { ...given.evidence, cutPointsByTest: new Map([['walk', marks]]) } };
    const right = at('a', 15, { side: 'right', cut_points: [cut()] });
    expect(changed([right, missingDone], marked)).toMatchObject({ side: 'right', marks: [{ value: 12 }] });
    expect(changed([missingDone, right], marked)).toMatchObject({ side: 'right', marks: [{ value: 12 }] });
    expect(changed([right, at('b', 14, { side: 'right' })], marked).marks).toEqual([]);
    expect(changed([at('a', 15), at('b', 14)], given)).toMatchObject({ side: null, marks: [] });
  });
  it('the reference group of the later result, or else of the earlier', () => {
    const placed = (assessed: string, expected: number) => at(assessed, 15, { comparisons: [comparison({ expected })] });
    expect(changed([placed('a', 10), placed('b', 11)]).norm_band?.centre).toBe(11);
    expect(changed([placed('a', 10), missingDone]).norm_band?.centre).toBe(10);
    expect(changed([missingDone, placed('b', 11)]).norm_band?.centre).toBe(11);
  });
  it('of no visit there is no change', () => expect(changeOfTest([], context())).toBeNull());
});
