/** Marks on a value: which concern a client, which count, which are near. Invented figures. */
import { describe, expect, it } from 'vitest';
import { countedCuts, cutPointsFor } from '../../src/scoring/cut-points.ts';
import type { Subject } from '../../src/scoring/select.ts';
import { client } from '../support/client.ts';
import { cut } from './invented.ts';

describe('which marks concern a client, and which of them count', () => {
  const who = (over: object = {}, lungCondition: string | null = null): Subject => ({ client: client(over), lungCondition });
  const at = { value: 12, atLeast: false, better: 'lower' as const, halfInterval: null };
  const shown = (mark: object, subject: Subject) => cutPointsFor([cut(mark)], subject, at).map(({ counts }) => counts);
  const counted = (mark: object, subject: Subject): number => countedCuts([cut(mark)], subject).length;
  it('those of the client’s age, ends included, and sex', () => {
    const band = { age_min: 70, age_max: 79 };
    expect([69, 70, 79, 80].map((age) => shown(band, who({ age })).length)).toEqual([0, 1, 1, 0]);
    expect([69, 70, 79, 80].map((age) => counted(band, who({ age })))).toEqual([0, 1, 1, 0]);
    expect(shown({}, who({ age: 1 })).length).toBe(1);
    expect(shown({ sex: 'male' }, who())).toEqual([]);
    expect(shown({ sex: 'female' }, who())).toEqual([true]);
    expect(counted({ sex: 'male' }, who())).toBe(0);
  });
  it('with sex not recorded those of one sex are shown and do not count', () => {
    expect(shown({ sex: 'male' }, who({ sex: 'not recorded' }))).toEqual([false]);
    expect(shown({ sex: 'all' }, who({ sex: 'not recorded' }))).toEqual([true]);
    expect(counted({ sex: 'male' }, who({ sex: 'not recorded' }))).toBe(0);
  });
  it('those that are said not to count do not, nor those of another condition', () => {
    expect(shown({ counts: false }, who())).toEqual([false]);
    expect(counted({ counts: false }, who())).toBe(0);
    expect(shown({ applies_to: 'copd' }, who())).toEqual([false]);
    expect(shown({ applies_to: 'copd' }, who({}, 'asthma'))).toEqual([false]);
    expect(shown({ applies_to: 'copd' }, who({}, 'copd'))).toEqual([true]);
    expect(shown({ applies_to: 'other_condition' }, who())).toEqual([false]);
    expect(counted({}, who())).toBe(1);
  });
});

describe('what is shown of a mark', () => {
  const half = (halfInterval: number | null, value: number | null) =>
    cutPointsFor(
      [cut({})],
      { client: client(), lungCondition: null },
      { value, atLeast: false, better: 'lower', halfInterval },
    )[0]?.near;
  it('near: from 12 ± 2, the ends included', () => {
    expect([9.9, 10, 12, 14, 14.1].map((value) => half(2, value))).toEqual([false, true, true, true, false]);
    expect(half(null, 12)).toBeNull();
    expect(half(2, null)).toBeNull();
    // 0.1 + 0.2 in binary is a little more than 0.3
    expect(half(0.1 + 0.2, 12.3)).toBe(true);
    expect(half(0.3, 12 + (0.1 + 0.2))).toBe(true);
  });
  it('its accuracy, its note and what is known of it in COPD, where there is any', () => {
    const inCopd = { text: 'not in these', source: 'beta-2021', location: 'Abstract', status: 'abstract' };
    const mark = cut({ accuracy: { sensitivity: 0.6, specificity: 0.7 }, note: 'one study', in_copd: inCopd });
    const shown = (lungCondition: string | null, each = mark) =>
      cutPointsFor(
        [each],
        { client: client(), lungCondition },
        { value: 12, atLeast: false, better: 'lower', halfInterval: null },
      )[0];
    expect(shown(null)).toMatchObject({ sensitivity: 0.6, specificity: 0.7, note: 'one study', in_copd: null, met: true });
    expect(shown('copd')?.in_copd).toEqual(inCopd);
    expect(shown('copd', cut({}))).toMatchObject({ sensitivity: null, specificity: null, note: null, in_copd: null });
  });
});
