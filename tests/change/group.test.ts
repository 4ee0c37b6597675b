/** Group change: the library's numbers against those of a second library, against printed intervals, and against definitions. */
import fc from 'fast-check';
import { jStat } from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  groupChange,
  meanWithInterval,
  medianWithInterval,
  pairedResult,
  standardisedResponseMean,
  wilsonShare,
} from '../../src/change/group.ts';
import { measured, unable } from '../support/client.ts';
import { twice } from './support.ts';

const values = fc.array(
  fc.integer({ min: -300, max: 300 }).map((tenths) => tenths / 10),
  { minLength: 2, maxLength: 60 },
);

describe('mean and median', () => {
  it('mean and its interval agree with a second library', () => {
    fc.assert(
      fc.property(values, (list) => {
        const found = meanWithInterval(list);
        expect(found.value).toBeCloseTo(jStat.mean(list), 9);
        if (jStat.stdev(list, true) < 1e-9) return;
        const [low, high] = jStat.tci(jStat.mean(list), 0.05, list);
        expect(found.low).toBeCloseTo(low, 5);
        expect(found.high).toBeCloseTo(high, 5);
      }),
    );
  });

  it('the median agrees, and its interval covers at least 95 % by the binomial distribution of a second library', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), (n) => {
        const list = Array.from({ length: n }, (_, index) => index + 1);
        const found = medianWithInterval(list);
        expect(found.value).toBe(jStat.median(list));
        if (n < 6) {
          expect(found.low).toBeNull();
          return;
        }
        // Of ranks k to n - k + 1 the cover is 1 - 2 P(X <= k - 1); one rank narrower it would fall under 95 %.
        const rank = found.low ?? 0;
        expect(found.high).toBe(n - rank + 1);
        expect(1 - 2 * jStat.binomial.cdf(rank - 1, n, 0.5)).toBeGreaterThanOrEqual(0.95);
        expect(1 - 2 * jStat.binomial.cdf(rank, n, 0.5)).toBeLessThan(0.95);
      }),
    );
  });

  it('refuses an empty list', () => {
    expect(() => meanWithInterval([])).toThrow(RangeError);
    expect(() => medianWithInterval([])).toThrow(RangeError);
  });
});

describe('Wilson interval', () => {
  // R. G. Newcombe, Statistics in Medicine 1998;17:857-872, Table I, method 3 (score without continuity correction).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (count, total, low, high) => {
    const found = wilsonShare(count, total);
    expect(found.low).toBeCloseTo(low, 4);
    expect(found.high).toBeCloseTo(high, 4);
  });

  it('its ends are where the score test just fails', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 0, max: 500 }), (total, some) => {
        const count = some % (total + 1);
        const { share, low, high } = wilsonShare(count, total);
        for (const end of [low, high])
          if (end > 0 && end < 1) expect(Math.abs(share - end) / Math.sqrt((end * (1 - end)) / total)).toBeCloseTo(1.959964, 4);
        expect(low).toBeLessThanOrEqual(share);
        expect(high).toBeGreaterThanOrEqual(share);
      }),
    );
  });

  it.each([
    [-1, 5],
    [6, 5],
    [1, 0],
    [0.5, 3],
  ])('%d of %d is refused', (count, total) => expect(() => wilsonShare(count, total)).toThrow(RangeError));
});

describe('group', () => {
  it('standardised response mean: mean over SD of the changes, as by a second library', () => {
    fc.assert(
      fc.property(values, (list) => {
        const spread = jStat.stdev(list, true);
        if (spread < 1e-6) expect(standardisedResponseMean(list)).toBeNull();
        else expect(standardisedResponseMean(list)).toBeCloseTo(jStat.mean(list) / spread, 3);
      }),
    );
  });

  it('a small spread is not rounded before it divides: mean -29.55, SD of -29.6 and -29.5 0.1 / root 2', () => {
    expect(standardisedResponseMean([-29.6, -29.5])).toBeCloseTo(-29.55 / (0.1 / Math.SQRT2), 3);
  });

  it('unable, stopped and unlike results count in the shares and join no mean', () => {
    const changes = [
      twice('timed_up_and_go', 14, 10),
      twice('timed_up_and_go', 12, 11),
      twice('timed_up_and_go', 11, 15),
      twice('timed_up_and_go', unable, 20),
      twice('timed_up_and_go', measured(20, { aid: 'stick' }), 12),
    ];
    const group = groupChange(changes.map(pairedResult));
    expect(group).toMatchObject({
      pairs: 5,
      measured: 3,
      verdicts: { improved: { n: 2 }, worsened: { n: 1 }, within_error: { n: 1 }, cannot_tell: { n: 1 } },
    });
    const stopped = pairedResult(
      twice('single_leg_stance_eyes_open', measured(5), measured(30, { ceiling: 30 }), { side: 'right' }),
    );
    expect([stopped.before, stopped.after]).toEqual([null, null]);
    expect(groupChange([])).toBeNull();
    expect(groupChange([{ before: null, after: null, verdict: 'improved' }])).toMatchObject({
      mean_change: null,
      measured: 0,
      standardised_response_mean: null,
    });
  });
});
