/** The interval: delta method on the log scale against simulation, and what must always hold. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { afterRatios, type Estimate, likelihoodRatios, oddsOf, probabilityOf } from '../../src/risk/odds.ts';

/** As if both figures were known exactly. */
const certain = (value: number): Estimate => ({ value, low: value, high: value });
const afterRatio = (before: number, ratio: number): number => afterRatios(certain(before), [certain(ratio)]).value;

/** A small generator with a fixed start, so that the simulation is the same everywhere (mulberry32). */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const random = generator(20260511);
const binomial = (n: number, p: number): number => Array.from({ length: n }, () => random()).filter((each) => each < p).length;

/** Share of a sample and its 95 % interval on the logit scale. */
function sampled(count: number, n: number): Estimate {
  const half = 1.959964 * Math.sqrt(1 / count + 1 / (n - count));
  const odds = count / (n - count);
  return { value: count / n, low: probabilityOf(odds * Math.exp(-half)), high: probabilityOf(odds * Math.exp(half)) };
}

/** Positive likelihood ratio of counts with its log-scale interval (Simel, Samsa and Matchar, J Clin Epidemiol 1991;44:763-770). */
function sampledRatio(truePositive: number, fallers: number, falsePositive: number, others: number): Estimate {
  const { positive } = likelihoodRatios(truePositive / fallers, 1 - falsePositive / others);
  const half = 1.959964 * Math.sqrt(1 / truePositive - 1 / fallers + 1 / falsePositive - 1 / others);
  return { value: positive, low: positive * Math.exp(-half), high: positive * Math.exp(half) };
}

describe('the interval of the probability', () => {
  test('covers the true value in about 95 of 100 repeated studies', () => {
    const truth = {
      before: 0.27,
      history: { sensitivity: 0.4, specificity: 0.86 },
      gait: { sensitivity: 0.44, specificity: 0.71 },
    };
    const after = afterRatio(
      afterRatio(truth.before, likelihoodRatios(truth.history.sensitivity, truth.history.specificity).positive),
      likelihoodRatios(truth.gait.sensitivity, truth.gait.specificity).positive,
    );
    const study = (test: { sensitivity: number; specificity: number }): Estimate =>
      sampledRatio(binomial(150, test.sensitivity), 150, binomial(350, 1 - test.specificity), 350);
    const runs = 2000;
    let covered = 0;
    for (let run = 0; run < runs; run += 1) {
      const before = sampled(binomial(400, truth.before), 400);
      const { low, high } = afterRatios(before, [study(truth.history), study(truth.gait)]);
      if (low <= after && after <= high) covered += 1;
    }
    expect(covered / runs).toBeGreaterThan(0.935);
    expect(covered / runs).toBeLessThan(0.965);
  });

  test('agrees with the middle 95 % of draws from the parts', () => {
    const before: Estimate = { value: 0.27, low: 0.19, high: 0.36 };
    const ratio: Estimate = { value: 2.9, low: 2.0, high: 4.2 };
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const spread = (low: number, high: number): number => Math.log(high / low) / (2 * 1.959964);
    const draws = Array.from({ length: 40_000 }, () =>
      probabilityOf(
        oddsOf(before.value) *
          Math.exp(normal() * spread(oddsOf(before.low), oddsOf(before.high))) *
          ratio.value *
          Math.exp(normal() * spread(ratio.low, ratio.high)),
      ),
    ).sort((a, b) => a - b);
    const { low, high } = afterRatios(before, [ratio]);
    expect(draws[1000]).toBeCloseTo(low, 2);
    expect(draws[39_000]).toBeCloseTo(high, 2);
  });
});

const probability = fc.double({ min: 0.02, max: 0.9, noNaN: true });
const estimate = fc.tuple(probability, fc.double({ min: 1.01, max: 3, noNaN: true })).map(
  ([value, factor]): Estimate => ({
    value,
    low: probabilityOf(oddsOf(value) / factor),
    high: probabilityOf(oddsOf(value) * factor),
  }),
);
const ratio = fc
  .tuple(fc.double({ min: 0.1, max: 10, noNaN: true }), fc.double({ min: 1, max: 4, noNaN: true }))
  .map(([value, factor]): Estimate => ({ value, low: value / factor, high: value * factor }));

describe('always', () => {
  test('the probability lies inside its interval, the interval inside 0 to 1', () => {
    fc.assert(
      fc.property(estimate, fc.array(ratio, { maxLength: 2 }), (before, ratios) => {
        const { value, low, high } = afterRatios(before, ratios);
        expect(low).toBeGreaterThan(0);
        expect(low).toBeLessThanOrEqual(value);
        expect(value).toBeLessThanOrEqual(high);
        expect(high).toBeLessThan(1);
      }),
    );
  });
  test('a further ratio never narrows the interval of the log odds, and ratios may come in any order', () => {
    fc.assert(
      fc.property(estimate, ratio, ratio, (before, first, second) => {
        const width = ({ low, high }: Estimate): number => Math.log(oddsOf(high)) - Math.log(oddsOf(low));
        const [one, both, reversed] = [
          afterRatios(before, [first]),
          afterRatios(before, [first, second]),
          afterRatios(before, [second, first]),
        ];
        expect(width(both)).toBeGreaterThanOrEqual(width(one) - 1e-9);
        expect(both.value).toBeCloseTo(reversed.value, 12);
      }),
    );
  });
  test('without a ratio the figure before comes back with its interval', () => {
    const before: Estimate = { value: 0.27, low: 0.19, high: probabilityOf((oddsOf(0.27) * oddsOf(0.27)) / oddsOf(0.19)) };
    const same = afterRatios(before, []);
    expect(same.value).toBeCloseTo(before.value, 12);
    expect(same.low).toBeCloseTo(before.low, 12);
    expect(same.high).toBeCloseTo(before.high, 12);
  });
});
