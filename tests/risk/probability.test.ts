/** Which figures the probability is made of, and when there is none. Expected values are worked out by hand beside them. */
import { describe, expect, test } from 'vitest';
import { fallRatesFor, type RatePerson } from '../../src/risk/fall-rates.ts';
import { fallProbability } from '../../src/risk/probability.ts';
import { testEvidence } from '../support/evidence.ts';
import { type FieldInputs, facts, type TestInputs } from './support.ts';

const { likelihoodRatios, fallRates, accuracyCautions } = testEvidence();
const person = (over: Partial<RatePerson['client']> = {}, lungCondition: string | null = null): RatePerson => ({
  client: { age: 76, sex: 'female', setting: 'community', ...over },
  lungCondition,
});
const answerFor = (fields: FieldInputs, tests: TestInputs = {}, who = person(), over = {}) =>
  fallProbability({
    ratios: likelihoodRatios,
    rates: fallRates,
    cautions: accuracyCautions,
    facts: facts(fields, tests),
    person: who,
    ...over,
  });
function worked(...given: Parameters<typeof answerFor>) {
  const answer = answerFor(...given);
  if (answer.kind !== 'worked_out') throw new Error(answer.because);
  return answer.probability;
}
function whyNone(...given: Parameters<typeof answerFor>): string {
  const answer = answerFor(...given);
  if (answer.kind === 'worked_out') throw new Error('there is one');
  return answer.because;
}

describe('what it is made of', () => {
  test('27 % before, times 2.9 for a fall: 0.27/0.73 x 2.9 = 1.0726, so 51.8 %', () => {
    const found = worked({ 'history.falls_past_year': 1 });
    expect(found.before).toBe(0.27);
    expect(found.after).toBeCloseTo(0.5175, 4);
    // log odds 0.0701; errors ln((0.36/0.64)/(0.19/0.81))/3.92 = 0.2230 and ln(4.2/2)/3.92 = 0.1893; half 1.96 x 0.2925 = 0.5733
    expect(found.low).toBeCloseTo(0.377, 3);
    expect(found.high).toBeCloseTo(0.656, 3);
    expect(found.used).toEqual(['fall_past_year_burns']);
    expect(found.formula).toBe('odds 0.27/(1 - 0.27) x 2.9 = 1.07; probability 1.07/(1 + 1.07) = 0.518');
  });
  test('no fall and a quick walk multiply with the negative ratios', () => {
    const found = worked({ 'history.falls_past_year': 0 }, { timed_up_and_go: 9 });
    expect(found.used).toEqual(['fall_past_year_burns', 'timed_up_and_go_barry_usual_pace']);
    expect(found.after).toBeCloseTo(0.1698, 3);
  });
  test('at most one history item and one test', () => {
    const everything = worked(
      { 'history.falls_past_year': 2, 'history.feels_unsteady': 'yes', 'history.stay_independent': 9 },
      { timed_up_and_go: 20, balance_confidence: 40, falls_efficacy_short: 20, five_times_sit_to_stand: 20 },
    );
    expect(everything.parts.map((part) => part.kind)).toEqual(['before', 'history', 'test']);
  });
  test('the screen of three questions only where the number of falls is not known', () => {
    expect(worked({ 'history.feels_unsteady': 'yes' }).used).toEqual(['three_key_questions_burns']);
  });
  test('every part has its source, every figure its interval, and the warning of a guideline is there', () => {
    const found = worked({ 'history.falls_past_year': 1 }, { timed_up_and_go: 14 });
    for (const part of found.parts) {
      expect(part.source).not.toBeNull();
      expect(part.low).toBeLessThan(part.value);
      expect(part.high).toBeGreaterThan(part.value);
    }
    expect(found.warnings.map((warning) => warning.text).join(' ')).toContain('advises against');
    expect(found.warnings[0]?.source).toBe('nice-ng249-2025');
  });
  test('a pooled ratio whose interval includes 1 says so', () => {
    const found = worked({}, { timed_up_and_go: 9 });
    expect(found.parts[1]?.text).toContain('The interval includes 1');
    expect(worked({}, { timed_up_and_go: 14 }).parts[1]?.text).not.toContain('includes 1');
  });
});

describe('people with COPD', () => {
  test('start from the figure of a year of people with COPD, and are told that the ratios are of others', () => {
    const found = worked({ 'history.falls_past_year': 1 }, {}, person({}, 'copd'));
    expect(found.before).toBe(0.4);
    expect(found.parts[0]).toMatchObject({ id: 'falls_copd_oliveira', source: 'oliveira-2015-copd' });
    expect(found.parts[1]?.text).toContain('not in people with COPD');
  });
  test('are shown the rates in COPD beside the general one', () => {
    const shown = fallRatesFor(fallRates, person({}, 'copd'));
    expect(shown[0]).toMatchObject({ id: 'falls_one_year_ganz', probability: 0.27, condition: null });
    expect(shown.filter((rate) => rate.condition === 'copd').length).toBeGreaterThan(3);
    expect(fallRatesFor(fallRates, person()).map((rate) => rate.id)).toEqual(['falls_one_year_ganz']);
  });
});

describe('none, with the reason', () => {
  test('outside the community, and under 65', () => {
    expect(whyNone({ 'history.falls_past_year': 1 }, {}, person({ setting: 'hospital' }))).toContain('live at home');
    expect(whyNone({ 'history.falls_past_year': 1 }, {}, person({ age: 64 }))).toContain('64');
  });
  test('nothing recorded', () => {
    expect(whyNone({})).toContain('nothing recorded');
  });
  test('a range across studies is not an interval, and a ratio without one is not used', () => {
    const [ranged] = likelihoodRatios.filter((ratio) => ratio.id === 'fall_past_year_ganz');
    const conditioned = ranged && { ...ranged, when: { field: 'history.falls_past_year', at_least: 1 } };
    expect(whyNone({ 'history.falls_past_year': 1 }, {}, person(), { ratios: [conditioned] })).toContain('interval');
  });
  test('a test that could not be done: the ratio is of people who could', () => {
    expect(whyNone({}, { timed_up_and_go: 'unable' })).toContain('people who could do the test');
  });
  test('a figure before that was found in people chosen by the same item', () => {
    const rates = fallRates.map((rate) => ({ ...rate, conditioned_on: ['history.falls_past_year'] }));
    expect(whyNone({ 'history.falls_past_year': 1 }, {}, person(), { rates })).toContain('chosen by this very item');
  });
});
