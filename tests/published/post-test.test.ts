/** Post-test arithmetic against printed values, each with its source beside it, to the printed precision. */
import { describe, expect, test } from 'vitest';
import { afterRatios, type Estimate, likelihoodRatios, oddsOf, probabilityOf } from '../../src/risk/odds.ts';

/** As if both figures were known exactly. */
const certain = (value: number): Estimate => ({ value, low: value, high: value });
const afterRatio = (before: number, ratio: number): number => afterRatios(certain(before), [certain(ratio)]).value;

const percent = (probability: number): number => Math.round(probability * 100);
const tenth = (value: number): number => Math.round(value * 10) / 10;

describe('probability after a test, from sensitivity and specificity at a pre-test probability of 30 %', () => {
  // Lusardi 2017 (J Geriatr Phys Ther 40(1):1-36), functional reach under 22 cm, as reprinted in Beck Jepsen 2022
  // (BMC Geriatr 22:615), Table 8: sensitivity 55 %, specificity 93 %, ratios 7.9 and 0.5, post-test 77 % and 17 %.
  const reach = likelihoodRatios(0.55, 0.93);
  test('functional reach: ratios 7.9 and 0.5', () => {
    expect(tenth(reach.positive)).toBe(7.9);
    expect(tenth(reach.negative)).toBe(0.5);
  });
  test('functional reach: 77 % when positive, 17 % when negative', () => {
    expect(percent(afterRatio(0.3, reach.positive))).toBe(77);
    expect(percent(afterRatio(0.3, reach.negative))).toBe(17);
  });

  // Lusardi 2017, five-times sit-to-stand 12 s or more, Table 11 of Beck Jepsen 2022: 30 % becomes 41 % or 20 %. The ratios were
  // worked back from these, so this holds the two directions against each other and no more.
  test('five times sit-to-stand: 41 % and 20 % follow from ratios of 1.62 and 0.58', () => {
    expect(percent(afterRatio(0.3, 1.62))).toBe(41);
    expect(percent(afterRatio(0.3, 0.58))).toBe(20);
  });
});

describe('likelihood ratios from sensitivity and specificity, to one decimal as printed', () => {
  // Burns 2022 (Arch Gerontol Geriatr 101:104713), Table 5.
  test.each([
    ['any of the three key questions', 0.687, 0.579, 1.6, 0.5],
    ['12-question form, 4 points or more', 0.557, 0.759, 2.3, 0.6],
    ['modified guideline screen', 0.601, 0.664, 1.8, 0.6],
    ['short falls-efficacy scale', 0.225, 0.894, 2.1, 0.9],
    ['fell in the past year', 0.403, 0.862, 2.9, 0.7],
    ['number of falls 1 or more', 0.453, 0.834, 2.7, 0.7],
  ])('%s', (_, sensitivity, specificity, positive, negative) => {
    const ratios = likelihoodRatios(sensitivity, specificity);
    expect(tenth(ratios.positive)).toBe(positive);
    expect(tenth(ratios.negative)).toBe(negative);
  });
  // Beck Jepsen 2022, Table 10 (Lusardi 2017): the reprint has the ratios of its two rows swapped; they fit so. The walk's 1.3 is
  // printed from unrounded shares; the printed ones give 1.25.
  test('tandem stance 1.6 and 0.7, tandem walk 1.25 and 0.2', () => {
    const [stance, walk] = [likelihoodRatios(0.56, 0.65), likelihoodRatios(0.96, 0.23)];
    expect([tenth(stance.positive), tenth(stance.negative)]).toEqual([1.6, 0.7]);
    expect([Math.round(walk.positive * 100) / 100, tenth(walk.negative)]).toEqual([1.25, 0.2]);
  });
});

describe('predictive values from a printed two-by-two table', () => {
  // The Mini-BESTest table of a falls study (minibest-falls-2x2): 24 true and 18 false positives, 58 false and 114 true negatives.
  test('the odds form gives what the counts give', () => {
    const ratios = likelihoodRatios(24 / 82, 114 / 132);
    expect(afterRatio(82 / 214, ratios.positive)).toBeCloseTo(24 / 42, 12);
    expect(afterRatio(82 / 214, ratios.negative)).toBeCloseTo(58 / 172, 12);
    // of the same counts, read in the paper as sensitivity 0.29 and specificity 0.86
    expect(Math.round(ratios.positive * 100) / 100).toBe(2.15);
    expect(Math.round(ratios.negative * 100) / 100).toBe(0.82);
  });
});

test('odds and probability undo each other', () => {
  for (const probability of [0.01, 0.27, 0.5, 0.93]) expect(probabilityOf(oddsOf(probability))).toBeCloseTo(probability, 14);
  expect(oddsOf(0.2)).toBeCloseTo(0.25, 14);
});
