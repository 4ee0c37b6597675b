/** A group small enough to work out by hand. */
import { describe, expect, it } from 'vitest';
import {
  groupChange,
  meanWithInterval,
  medianWithInterval,
  type PairedResult,
  pairedResult,
  standardisedResponseMean,
  wilsonShare,
} from '../../src/change/group.ts';

const pair = (before: number | null, after: number | null, verdict: PairedResult['verdict'] = 'within_error'): PairedResult => ({
  before,
  after,
  verdict,
});

describe('a group', () => {
  it('means, changes and shares of four clients, one of whom has no number', () => {
    const found = groupChange([pair(10, 12, 'improved'), pair(12, 13), pair(14, 17, 'improved'), pair(null, 9, 'cannot_tell')]);
    // changes 2, 1 and 3: mean 2, SD 1, t(2, 0.975) = 4.302653 (printed tables of Student's t: 4.303)
    expect(found).toMatchObject({
      pairs: 4,
      measured: 3,
      mean_before: 12,
      mean_after: 14,
      mean_change: { value: 2 },
      median_change: { value: 2, low: null, high: null },
      standardised_response_mean: 2,
      verdicts: {
        improved: { n: 2, share: 0.5 },
        worsened: { n: 0, share: 0, low: 0 },
        within_error: { n: 1, share: 0.25 },
        cannot_tell: { n: 1, share: 0.25 },
      },
    });
    expect(found?.mean_change?.low).toBeCloseTo(2 - 4.303 / Math.sqrt(3), 3);
    expect(found?.mean_change?.high).toBeCloseTo(2 + 4.303 / Math.sqrt(3), 3);
  });
  it('numbers go out to six decimals, without the dust of binary fractions', () => {
    const found = groupChange([pair(0.1, 0.3), pair(0.1, 0.3), pair(0, 0.1)]);
    expect(found?.mean_before).toBe(0.066667);
    expect(found?.mean_after).toBe(0.233333);
    expect(found?.mean_change?.value).toBe(0.166667);
    expect(found?.median_change?.value).toBe(0.2);
  });
  it('of one pair there is a mean and no interval; of none without numbers no mean', () => {
    expect(groupChange([pair(1, 3)])).toMatchObject({
      mean_change: { value: 2, low: null, high: null },
      median_change: { value: 2, low: null, high: null },
      standardised_response_mean: null,
    });
    expect(groupChange([pair(1, null)])).toMatchObject({
      measured: 0,
      mean_before: null,
      mean_after: null,
      mean_change: null,
      median_change: null,
      standardised_response_mean: null,
    });
  });
});

describe('intervals', () => {
  it('a list without values is refused in words', () => {
    expect(() => meanWithInterval([])).toThrow('a mean needs at least one value');
    expect(() => medianWithInterval([])).toThrow('a median needs at least one value');
  });
  it('of a mean of two values there is one', () => {
    // t(1, 0.975) = 12.706 (printed tables of Student's t); SD root 2, over root 2
    const { value, low, high } = meanWithInterval([1, 3]);
    expect(value).toBe(2);
    expect(low).toBeCloseTo(2 - 12.706, 2);
    expect(high).toBeCloseTo(2 + 12.706, 2);
  });
  it('of a median: from five values none, from six the smallest and the largest, in any order given', () => {
    // 1 - 2 / 2^5 = 93.75 %, 1 - 2 / 2^6 = 96.9 % (W. J. Conover, ch. 3)
    expect(medianWithInterval([5, 1, 4, 2, 3])).toEqual({ value: 3, low: null, high: null });
    expect(medianWithInterval([6, 10, 5, 1, 4, 2])).toEqual({ value: 4.5, low: 1, high: 10 });
  });
  it('of a share: exact at none and at all, and one that is none is refused in words', () => {
    expect(wilsonShare(0, 7).low).toBe(0);
    for (let total = 1; total <= 200; total += 1) expect(wilsonShare(total, total).high).toBe(1);
    expect(wilsonShare(7, 7).low).toBeGreaterThan(0);
    expect(() => wilsonShare(6, 5)).toThrow('6 of 5 is no share');
    expect(() => wilsonShare(1, 2.5)).toThrow(RangeError);
    expect(() => wilsonShare(0, 0)).toThrow(RangeError);
  });
  it('the response mean of one change, or of changes all alike, is none; of two it is one', () => {
    expect(standardisedResponseMean([1])).toBeNull();
    expect(standardisedResponseMean([2, 2])).toBeNull();
    // mean 2, SD root 2
    expect(standardisedResponseMean([1, 3])).toBeCloseTo(Math.SQRT2, 4);
  });
});

describe('a pair', () => {
  const of = (change_bound: string | null, comparable: boolean) =>
    pairedResult({ before: 1, after: 2, change_bound, comparable, verdict: 'improved' });
  it('has numbers only where both are exact and were got in one way', () => {
    expect(of('exact', true)).toEqual({ before: 1, after: 2, verdict: 'improved' });
    const none = { before: null, after: null, verdict: 'improved' };
    expect(of('exact', false)).toEqual(none);
    expect(of('at_least', true)).toEqual(none);
    expect(of(null, true)).toEqual(none);
  });
});
