/** What a page that leaves the clinic says instead of numbers, and that it still holds what is true. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandOf, highest, isSmall, lowest } from '../../src/cohort/summary/bands.ts';
import { PartSum } from '../../src/cohort/summary/part.ts';
import { BELOW, NOT_BELOW } from '../../src/cohort/summary/places.ts';
import { spreadOf } from '../../src/cohort/summary/spread.ts';
import type { Count, SummaryGroup } from '../../src/cohort/summary/types.ts';
import { pageOf, partOf, seed, type Visit, visits } from './mask-cases.ts';

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

describe('a band', () => {
  it('holds its count, touches the next, and is narrower only than the first', () => {
    for (let count = 0; count < 300; count += 1) {
      const { from, to } = bandOf(count);
      expect(from <= count && count <= to).toBe(true);
      expect(bandOf(to + 1).from).toBe(to + 1);
      expect(to - from).toBe(from === 0 ? 5 : 4);
    }
    expect([0, 5, 6, 10, 11, 163].map((count) => bandOf(count))).toEqual([
      { from: 0, to: 5 },
      { from: 0, to: 5 },
      { from: 6, to: 10 },
      { from: 6, to: 10 },
      { from: 11, to: 15 },
      { from: 161, to: 165 },
    ]);
  });
  it('is small where nobody may be in it, and a number is small as nought alone', () => {
    expect([bandOf(4), bandOf(6), 0, 1].map(isSmall)).toEqual([true, false, true, false]);
    expect([lowest(7), highest(7), lowest(bandOf(7)), highest(bandOf(7))]).toEqual([7, 7, 6, 10]);
  });
  it('every place that a result can have belongs to one side', () => {
    expect(new Set([...BELOW, ...NOT_BELOW]).size).toBe(BELOW.length + NOT_BELOW.length);
  });
});

describe('a page that leaves the clinic', () => {
  it('has no count in it but as a band, wherever one is looked for', () => {
    fc.assert(
      fc.property(fc.tuple(visits(['a', 'b', 'c']), fc.constantFrom(null, 'site')), ([all, by]) => {
        const { groups, rows, sources, ...page } = pageOf(partOf(all), by, true);
        const isBand = (value: unknown): boolean =>
          typeof value === 'object' && value !== null && Object.keys(value).join() === 'from,to';
        /** What may be a number: shares that follow from bands, medians, and what says nothing of how many there are. */
        const free = new Set(['value', 'age', 'below_25', 'reference', 'summed']);
        const look = (value: unknown, path: string): void => {
          if (isBand(value)) return;
          expect(typeof value, path).not.toBe('number');
          if (typeof value !== 'object' || value === null) return;
          for (const [key, inner] of Object.entries(value)) if (!free.has(key)) look(inner, `${path}.${key}`);
        };
        for (const part of [groups, rows]) look(part, 'page');
        expect(page.bands).toEqual({ first_to: 5, width: 5 });
      }),
      { numRuns: 60 },
    );
  });
  it('gives a share that holds the true one, and a Wilson interval that holds that of the exact counts', () => {
    let seen = 0;
    fc.assert(
      fc.property(visits(['a']), (all) => {
        const part = partOf(all);
        const [page, real] = [true, false].map((masked) => pageOf(part, null, masked).groups[0]?.tests[0]?.below_25);
        if (page === null || page === undefined || real === null || real === undefined) return;
        seen += 1;
        expect(page.lowest).toBeLessThanOrEqual(real.lowest);
        expect(page.highest).toBeGreaterThanOrEqual(real.highest);
        expect(page.low).toBeLessThanOrEqual(real.low);
        expect(page.high).toBeGreaterThanOrEqual(real.high);
      }),
      { numRuns: 300, seed },
    );
    expect(seen).toBeGreaterThan(50);
  });
  it.each([['groups'], ['parts']])('has sums of bands in the row of all: of its %s', (kind) => {
    const sumOf = (counts: readonly Count[]): Count => ({ from: sum(counts.map(lowest)), to: sum(counts.map(highest)) });
    fc.assert(
      fc.property(fc.array(visits(['a']), { minLength: 2, maxLength: 3 }), (pieces) => {
        const parts = pieces.map((piece, index) => partOf(piece.map((visit) => ({ ...visit, group: `site ${index}` }))));
        const all = new PartSum();
        for (const part of parts) all.add(part);
        const whole = kind === 'groups' ? pageOf(all.part(), 'site', true) : pageOf(all.part(), null, true, parts);
        const alone = parts.map((part) => pageOf(part, null, true).groups[0]);
        for (const pick of [(of: SummaryGroup) => of.n, (of: SummaryGroup) => of.tests[0]?.outcomes.unable ?? 0]) {
          const row = whole.groups.at(-1);
          expect(row === undefined ? null : pick(row)).toEqual(
            sumOf(alone.flatMap((each) => (each === undefined ? [] : [pick(each)]))),
          );
        }
      }),
      { numRuns: 50 },
    );
  });
  it('does not list groups of the first band, nor says how many there are', () => {
    const one = (group: string, count: number): Visit[] =>
      Array.from({ length: count }, () => ({
        group,
        sex: 'female',
        level: 'low',
        flags: 'none',
        start: 1,
        result: 'measured',
        place: '4',
        mark: 'no',
        value: 120,
      }));
    const page = pageOf(partOf([...one('a', 5), ...one('b', 6), ...one('c', 1)]), 'site', true);
    expect(page.groups.map(({ group, n }) => [group, n])).toEqual([
      ['b', { from: 6, to: 10 }],
      // 0 to 5, 6 to 10 and 0 to 5.
      [null, { from: 6, to: 20 }],
    ]);
    expect(page.groups_withheld).toBe(true);
    expect(pageOf(partOf(one('b', 6)), 'site', true).groups_withheld).toBe(false);
    // All others taken from the whole would leave the three.
    const few = pageOf(partOf([...one('a', 40), ...one('b', 9), ...one('c', 3)]), 'site', true);
    expect(few.groups.map(({ group }) => group)).toEqual(['a', null]);
  });
  it('gives a median and quartiles that somebody had: half way between two results tells that a group is even, or of fours', () => {
    const counts = (values: readonly number[]): Record<string, number> =>
      Object.fromEntries(values.map((value) => [value.toFixed(1), 1]));
    const twentyFour = counts(Array.from({ length: 24 }, (_, index) => 10 + index / 10));
    expect(spreadOf({ values: twentyFour, unable: 0, better: 'lower' }, true)).toEqual({ median: 11.2, p25: 10.6, p75: 11.8 });
    expect(spreadOf({ values: twentyFour, unable: 0, better: 'higher' }, true)).toEqual({ median: 11.1, p25: 10.5, p75: 11.7 });
    expect(spreadOf({ values: twentyFour, unable: 0, better: 'lower' }, false)?.median).toBeCloseTo(11.15, 9);
  });
});
