/** What a prediction equation can say about one value; every expected number is worked out beside it. */
import { describe, expect, it } from 'vitest';
import { type Predictors, predict } from '../../src/scoring/distribution.ts';
import { row, score } from './one-row.ts';

describe('an equation', () => {
  const equation = (over: object = {}) => ({
    equation: {
      intercept: 20,
      terms: [{ term: 'age_years', coefficient: -0.1 }],
      residual_sd: 2,
      lower_limit: null,
      ...over,
    },
  });
  const terms = (...list: [string, number][]) => list.map(([term, coefficient]) => ({ term, coefficient }));
  const predicted = (list: [string, number][], client: Predictors) => {
    const { equation: found } = row(equation({ intercept: 1, terms: terms(...list) }));
    return found === undefined ? undefined : predict(found, client);
  };
  const woman: Predictors = { age: 70, sex: 'female', heightCm: 160, weightKg: 64 };
  it('adds each of its terms', () => {
    expect(predicted([['age_years', 2]], woman)).toBe(141);
    expect(predicted([['age_years_squared', 2]], woman)).toBe(9801);
    expect(predicted([['height_cm', 2]], woman)).toBe(321);
    expect(predicted([['weight_kg', 2]], woman)).toBe(129);
    // 64 / 1.6^2 = 25
    expect(predicted([['bmi', 2]], woman)).toBeCloseTo(51, 10);
    for (const sex of ['female', 'male'] as const) {
      expect(predicted([['female', 2]], { ...woman, sex })).toBe(sex === 'female' ? 3 : 1);
      expect(predicted([['male', 2]], { ...woman, sex })).toBe(sex === 'male' ? 3 : 1);
    }
  });
  it('has no answer where something it needs is not recorded', () => {
    const bare: Predictors = { age: 70, sex: 'not recorded' };
    for (const term of ['male', 'female', 'height_cm', 'weight_kg', 'bmi']) expect(predicted([[term, 2]], bare)).toBeNull();
    expect(predicted([['bmi', 2]], { ...bare, heightCm: 160 })).toBeNull();
    expect(predicted([['bmi', 2]], { ...bare, weightKg: 60 })).toBeNull();
    expect(score(equation({ terms: terms(['height_cm', 0.1]) }), { client: bare })).toMatchObject({
      method: 'equation',
      expected: null,
      percentile: null,
      formula: 'predicted = 20 + 0.1 × height cm',
      noneBecause: 'the equation needs sex, height or weight, which is not recorded',
    });
  });
  it('20 - 0.1 x 70 = 13; 15 is one residual SD of 2 above it', () => {
    const found = score(equation(), { value: 15 });
    expect(found).toMatchObject({
      expected: 13,
      z: 1,
      bound: 'exact',
      approximate: true,
      againstMean: null,
      noneBecause: null,
      notes: [],
      formula: 'predicted = 20 - 0.1 × age years = 13.0 s; residual SD 2.00',
    });
    expect(found.percentile).toBeCloseTo(84.13, 2);
    expect(score(equation(), { value: 15, better: 'lower' }).z).toBe(-1);
    expect(score(equation({ terms: terms(['age_years', -0.1], ['height_cm', 0.05]) })).formula).toContain(
      '20 - 0.1 × age years + 0.05 × height cm = 21.0 s',
    );
    expect(score(equation(), { value: null })).toMatchObject({ percentile: null, noneBecause: null, z: null });
  });
  it('the lower limit of the source is shown beside it', () => {
    expect(score(equation({ lower_limit: 3 })).notes).toEqual(['lower limit of normal by the source: 10.0 s']);
  });
  it('the spread may be a line on age: 0.6 + 0.02 x 70 = 2', () => {
    const found = score(equation({ residual_sd: null, residual_sd_by_age: { intercept: 0.6, per_year: 0.02 } }), { value: 15 });
    expect(found.z).toBeCloseTo(1, 12);
  });
  it('without a spread only which side of the prediction', () => {
    const bare = equation({ residual_sd: null });
    expect(score(bare, { value: 13 })).toMatchObject({
      againstMean: 'not_worse',
      percentile: null,
      noneBecause: 'the source prints no residual spread for its equation',
    });
    expect(score(bare, { value: 12.9 }).againstMean).toBe('worse');
    for (const better of ['higher', 'lower'] as const) expect(score(bare, { value: null, better }).againstMean).toBe('worse');
  });
  it('a spread that leaves what is possible gives no percentile', () => {
    const wide = equation({ residual_sd: 7, lower_limit: 3 });
    expect(score(wide, { value: 12 })).toMatchObject({
      percentile: null,
      againstMean: 'worse',
      noneBecause: 'the predicted value ± 2 SD leaves the possible range, so no percentile is given',
      notes: ['lower limit of normal by the source: 10.0 s'],
    });
  });
});
