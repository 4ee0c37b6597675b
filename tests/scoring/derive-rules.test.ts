/** Every rule by which a result is worked out from others, on invented tests; nothing here is clinical. */
import { describe, expect, it } from 'vitest';
import { PointTotal, RelativeCost, StageLadder } from '../../src/evidence/schema/derived.ts';
import {
  type Derived,
  deriveCost,
  derivePoints,
  deriveStages,
  type Recorded,
  type RecordedLookup,
} from '../../src/scoring/derive.ts';

const basis = { status: 'common-practice', note: 'invented' };
const cited = { source: 'alpha-2020', location: 'x', status: 'full-text' };
const item = (test: string, over: object = {}) => ({
  test,
  bands: [
    { points: 2, at_least: 10, ...cited },
    { points: 1, at_least: 5, ...cited },
    { points: 0, ...cited },
  ],
  unable: { points: 0, ...cited },
  ...over,
});
const total = (items: object[], over: object = {}): PointTotal => {
  const most = 2 * items.length;
  const part = { id: 'part', name: 'Part', max_points: most, items, ...over };
  return PointTotal.parse({ test: 'total', max_points: most, basis, notes: ['a note'], parts: [part] });
};
const known =
  (values: Record<string, Partial<Recorded>>): RecordedLookup =>
  (test) => {
    const found = values[test];
    return found === undefined ? undefined : { worse: null, better: null, course: undefined, ...found };
  };
const points = (rules: PointTotal, values: Record<string, Partial<Recorded>>): Derived | null =>
  derivePoints(rules, known(values));
const pointsOf = (rules: object, value: number | null, more: Partial<Recorded> = {}): unknown => {
  const found = points(total([item('a', rules)]), { a: { worse: value, ...more } });
  return found?.kind === 'formed' ? found.value : [found?.low, found?.high];
};
const banded = (mark: string) => ({
  bands: [
    { points: 2, [mark]: 10, ...cited },
    { points: 0, ...cited },
  ],
});

describe('points for a value', () => {
  it('each kind of mark, at the mark itself', () => {
    expect([9.9, 10, 10.1].map((value) => pointsOf(banded('at_least'), value))).toEqual([0, 2, 2]);
    expect([9.9, 10, 10.1].map((value) => pointsOf(banded('above'), value))).toEqual([0, 0, 2]);
    expect([9.9, 10, 10.1].map((value) => pointsOf(banded('at_most'), value))).toEqual([2, 2, 0]);
    expect([9.9, 10, 10.1].map((value) => pointsOf(banded('below'), value))).toEqual([2, 0, 0]);
    expect(pointsOf(banded('at_least'), null)).toBe(0);
  });
  it('are compared as printed, at the step of the print', () => {
    expect([9.94, 9.95, 10.04].map((value) => pointsOf({ ...banded('at_least'), round_to: 0.1 }, value))).toEqual([0, 2, 2]);
    expect(pointsOf({ ...banded('at_most'), round_to: 0.01 }, 10.004)).toBe(2);
    expect(pointsOf(banded('at_most'), 10.004)).toBe(0);
  });
  it('of a watch that was stopped only where a longer hold, or a longer walk, changes nothing', () => {
    expect(pointsOf({}, 12, { open: 'better' })).toBe(2);
    expect(pointsOf({}, 6, { open: 'better' })).toEqual([0, 2]);
    expect(pointsOf({}, 2, { open: 'better' })).toEqual([0, 2]);
    expect(pointsOf({}, 2, { open: 'worse' })).toBe(0);
    expect(pointsOf({}, 12, { open: 'worse' })).toEqual([0, 2]);
    expect(pointsOf({}, 6)).toBe(1);
  });
});

describe('a speed read as the time over a course', () => {
  const reading = (course_not_recorded: string) => ({
    ...banded('at_most'),
    reading: { kind: 'time_over_course', course_m: 4, start: 'standing', course_not_recorded, basis },
  });
  const asStated = reading('take_as_stated');
  const strict = reading('no_points');
  it('4 m at 0.4 m/s take 10 s; who does not get there gets no points', () => {
    expect(pointsOf(asStated, 0.4)).toBe(2);
    expect(pointsOf(asStated, 0.39)).toBe(0);
    expect(pointsOf(asStated, 0)).toBe(0);
    expect(pointsOf({ ...asStated, round_to: 0.01 }, 0)).toBe(0);
  });
  it('a course that was not recorded is taken as stated, or gives none, as the rule says', () => {
    expect(pointsOf(strict, 1)).toEqual([0, 2]);
    expect(pointsOf(strict, 1, { course: { distanceM: 4 } })).toBe(2);
    expect(pointsOf(asStated, 1, { course: { distanceM: 4 } })).toBe(2);
  });
  it('another course or another start is another test', () => {
    expect(pointsOf(asStated, 1, { course: { distanceM: 6 } })).toEqual([0, 2]);
    expect(pointsOf(asStated, 1, { course: { distanceM: 4, start: 'moving' } })).toEqual([0, 2]);
    expect(pointsOf(asStated, 1, { course: { distanceM: 4, start: 'standing' } })).toBe(2);
  });
});

describe('a sequence from easy to hard', () => {
  const items = [item('a'), item('b'), item('c')];
  const rules = { not_tried_after_failure: { basis }, implied_by_harder: { by: ['c'], basis } };
  const held = { worse: 10 };
  const missed = { worse: 3 };
  const sums = (values: Record<string, Partial<Recorded>>, sequence?: object) => {
    const found = points(total(items, sequence === undefined ? {} : { sequence }), values);
    return found?.kind === 'formed' ? found.value : found && { low: found.low, high: found.high, missing: found.missing };
  };
  it('without rules what was not recorded is open', () => {
    expect(sums({ a: held })).toEqual({ low: 2, high: 6, missing: ['b', 'c'] });
    expect(sums({ a: missed })).toEqual({ low: 0, high: 4, missing: ['b', 'c'] });
    expect(sums({ c: held })).toEqual({ low: 2, high: 6, missing: ['a', 'b'] });
    expect(sums({ a: { worse: 6 }, c: held }, {})).toEqual({ low: 3, high: 5, missing: ['b'] });
  });
  it('after a failure nothing harder counts, and nothing easier is lost', () => {
    expect(sums({ a: missed }, rules)).toBe(0);
    expect(sums({ a: held, b: missed }, rules)).toBe(2);
    expect(sums({ b: missed }, rules)).toEqual({ low: 0, high: 2, missing: ['a'] });
    // less than the most points is a failure too
    expect(sums({ a: { worse: 6 } }, rules)).toBe(1);
    expect(sums({ a: { worse: 6 } }, { implied_by_harder: rules.implied_by_harder })).toEqual({
      low: 1,
      high: 5,
      missing: ['b', 'c'],
    });
  });
  it('a harder one that speaks for the easier, held in full, does so; another does not', () => {
    expect(sums({ c: held }, rules)).toBe(6);
    expect(sums({ b: held }, rules)).toEqual({ low: 2, high: 6, missing: ['a', 'c'] });
    expect(sums({ c: { worse: 6 } }, rules)).toEqual({ low: 1, high: 5, missing: ['a', 'b'] });
    expect(sums({ c: held }, { not_tried_after_failure: { basis } })).toEqual({ low: 2, high: 6, missing: ['a', 'b'] });
  });
  it('is made of what was recorded, and nothing where nothing was', () => {
    expect(points(total(items, { sequence: rules }), { c: held })).toEqual({
      kind: 'formed',
      test: 'total',
      value: 6,
      from: [{ test: 'c', value: 10 }],
      notes: ['a note'],
    });
    expect(points(total(items), {})).toBeNull();
    expect(points(total(items), { b: { worse: null } })).toMatchObject({ missing: ['a', 'c'], unusable: [] });
    expect(points(total(items), { b: { worse: 6, open: 'better' } })).toMatchObject({
      missing: ['a', 'b', 'c'],
      unusable: ['b'],
    });
  });
});

describe('a ladder of stances', () => {
  const ladder = (over: object = {}, last: object = {}) =>
    StageLadder.parse({
      test: 'stage',
      hold_s: 10,
      stages: [
        { test: 'a', name: 'A' },
        { test: 'b', name: 'B', ...last },
      ],
      sequence: {},
      basis,
      notes: ['a note'],
      ...over,
    });
  const stage = (values: Record<string, Partial<Recorded>>, rules = ladder()) => deriveStages(rules, known(values));
  it('counts those held for the full time, up to the first that was not', () => {
    const both = (a: number | null, b: number | null) => stage({ a: { worse: a }, b: { worse: b } });
    expect(both(10, 10)).toEqual({
      kind: 'formed',
      test: 'stage',
      value: 2,
      from: [
        { test: 'a', value: 10 },
        { test: 'b', value: 10 },
      ],
      notes: ['a note'],
    });
    expect(both(10, 9.9)).toMatchObject({ value: 1 });
    expect(both(9.9, 30)).toMatchObject({ value: 0 });
    expect(both(null, 30)).toMatchObject({ value: 0 });
    expect(stage({})).toBeNull();
  });
  it('by the side that the rule names', () => {
    const values = { a: { worse: 10, better: 10 }, b: { worse: 5, better: 12 } };
    expect(stage(values)).toMatchObject({ value: 1 });
    expect(stage(values, ladder({}, { side: 'better' }))).toMatchObject({ value: 2 });
    expect(stage(values, ladder({}, { side: 'worse' }))).toMatchObject({ value: 1 });
  });
  it('a watch stopped early leaves it open, unless the other side decides or the time was held anyway', () => {
    const early = (more: Partial<Recorded>) => stage({ a: { worse: 10 }, b: { worse: 5, open: 'better', ...more } });
    expect(early({})).toEqual({ kind: 'cannot_be_formed', test: 'stage', missing: ['b'], unusable: ['b'], low: 1, high: 2 });
    expect(early({ limit: 9.9 })).toMatchObject({ value: 1 });
    expect(early({ limit: 10 })).toMatchObject({ low: 1, high: 2 });
    expect(early({ worse: 10 })).toMatchObject({ value: 2 });
    expect(early({ open: 'worse' })).toMatchObject({ value: 1 });
    expect(early({ worse: null })).toMatchObject({ value: 1 });
  });
  it('what was not recorded is missing, and not unusable', () => {
    expect(stage({ a: { worse: 10 } })).toMatchObject({ missing: ['b'], unusable: [], low: 1, high: 2 });
    expect(stage({ b: { worse: 10 } })).toMatchObject({ missing: ['a'], low: 0, high: 2 });
  });
});

describe('what a second task costs', () => {
  const rules = RelativeCost.parse({ test: 'cost', single: 'one', dual: 'two', basis, notes: ['a note'] });
  const cost = (one: Partial<Recorded> | undefined, two: Partial<Recorded> | undefined) =>
    deriveCost(rules, known({ ...(one && { one }), ...(two && { two }) }));
  it('(15 - 12) / 12 = 25 %', () => {
    expect(cost({ worse: 12 }, { worse: 15 })).toEqual({
      kind: 'formed',
      test: 'cost',
      value: 25,
      from: [
        { test: 'one', value: 12 },
        { test: 'two', value: 15 },
      ],
      notes: ['a note'],
    });
    expect(cost({ worse: 12 }, { worse: 9 })).toMatchObject({ value: -25 });
  });
  it('cannot be formed without the first time, from nothing, or from a watch that was stopped', () => {
    const none = (missing: string[], more: object = {}) => ({
      kind: 'cannot_be_formed',
      missing,
      unusable: [],
      unable: [],
      ...more,
    });
    expect(cost(undefined, { worse: 15 })).toMatchObject(none(['one']));
    expect(cost({ worse: null }, { worse: 15 })).toMatchObject(none(['one'], { unable: ['one'] }));
    expect(cost({ worse: 0 }, { worse: 15 })?.kind).toBe('cannot_be_formed');
    expect(cost({ worse: 12, open: 'worse' }, { worse: 15 })).toMatchObject(none(['one'], { unusable: ['one'] }));
    expect(cost({ worse: 12 }, { worse: 15, open: 'worse' })).toMatchObject(none(['two'], { unusable: ['two'] }));
    expect(cost({ worse: 12 }, undefined)).toBeNull();
  });
});
