/** The probability on invented ratios and rates: what is said, what stands in the way, and when there is none. */
import { describe, expect, test } from 'vitest';
import { FallRate, LikelihoodRatio } from '../../src/evidence/schema/numbers.ts';
import { assessRisk } from '../../src/risk/assess-risk.ts';
import { fallProbability, type ProbabilityInput } from '../../src/risk/probability.ts';
import { pathway } from './invented.ts';
import { type FieldInputs, factors, facts, redFlags } from './support.ts';

const rate = (over: object = {}): FallRate =>
  FallRate.parse({
    id: 'before',
    source: 'alpha-2020',
    location: 'Table 1',
    status: 'abstract',
    outcome: 'A fall in a year',
    population: { description: 'people at home' },
    probability: 0.5,
    probability_ci95: [0.4, 0.6],
    pretest_for: ['general', 'copd'],
    ...over,
  });

const ratio = (over: object = {}): LikelihoodRatio =>
  LikelihoodRatio.parse({
    id: 'ratio',
    source: 'beta-2021',
    location: 'Table 2',
    status: 'full-text',
    kind: 'history',
    finding: 'Unsteady',
    rule: 'yes',
    when: { field: 'x.a', is: 'yes' },
    lr_positive: 3,
    lr_positive_ci95: [2, 4],
    lr_negative: 0.5,
    lr_negative_ci95: [0.4, 0.6],
    outcome: 'falls',
    population: { description: 'others' },
    ...over,
  });

const asked = (fields: FieldInputs, over: Partial<ProbabilityInput> = {}) =>
  fallProbability({
    ratios: [ratio()],
    rates: [rate()],
    cautions: [],
    facts: facts(fields),
    person: { client: { age: 76, sex: 'female', setting: 'community' }, lungCondition: null },
    ...over,
  });
function worked(...given: Parameters<typeof asked>) {
  const answer = asked(...given);
  if (answer.kind !== 'worked_out') throw new Error(answer.because);
  return answer.probability;
}
function none(...given: Parameters<typeof asked>): string {
  const answer = asked(...given);
  if (answer.kind !== 'none') throw new Error('there is one');
  return answer.because;
}
const YES = { 'x.a': 'yes' };
const NO = { 'x.a': 'no' };
const inCopd = { client: { age: 76, sex: 'female', setting: 'community' }, lungCondition: 'copd' } as const;

describe('what is said of each part', () => {
  test('the figure before, then the finding with its mark, whether it was found and in whom', () => {
    const [before, used] = worked(YES).parts;
    expect(before).toMatchObject({ kind: 'before', text: 'A fall in a year; people at home', value: 0.5, low: 0.4, high: 0.6 });
    expect(used).toMatchObject({ kind: 'history', text: 'Unsteady (mark: yes): found; others', value: 3, low: 2, high: 4 });
    expect(worked(NO).parts[1]).toMatchObject({
      text: 'Unsteady (mark: yes): not found; others',
      value: 0.5,
      low: 0.4,
      high: 0.6,
    });
  });
  // even odds times 3 are 3 to 1, so 3/4; times 1/2 they are 1 to 2, so 1/3
  test('odds form: 1/2 becomes 3/4 when found and 1/3 when not', () => {
    expect(worked(YES).after).toBeCloseTo(0.75, 12);
    expect(worked(NO).after).toBeCloseTo(1 / 3, 12);
    expect(worked(YES).formula).toBe('odds 0.5/(1 - 0.5) x 3 = 3; probability 3/(1 + 3) = 0.75');
    expect(worked(YES).not_used).toEqual([]);
  });
  test.each([
    ['ends at 1', [0.5, 1], true],
    ['starts at 1', [1, 4], true],
    ['holds 1', [0.5, 4], true],
    ['lies above 1', [1.1, 4], false],
    ['lies below 1', [0.5, 0.9], false],
  ])('an interval that %s', (_words, interval, doubt) => {
    const text = worked(YES, { ratios: [ratio({ lr_positive_ci95: interval })] }).parts[1]?.text;
    const said = 'Unsteady (mark: yes): found; others';
    expect(text).toBe(doubt ? `${said}. The interval includes 1, so this may not change the likelihood at all` : said);
  });
  test('a ratio found in others is marked for people with COPD, and for nobody else', () => {
    const ofCopd = ratio({ population: { description: 'patients', condition: 'copd' } });
    const doubt = 'Found in older people in general, not in people with COPD';
    expect(worked(YES, { person: inCopd }).parts[1]?.text).toContain(doubt);
    expect(worked(YES, { person: inCopd, ratios: [ofCopd] }).parts[1]?.text).not.toContain(doubt);
    expect(worked(YES, { ratios: [ofCopd] }).parts[1]?.text).not.toContain(doubt);
    expect(worked(YES).parts[1]?.text).not.toContain(doubt);
  });
});

describe('what stands in the way is said', () => {
  test('a ratio without an interval, on the side that was found', () => {
    const bare = { lr_positive_ci95: undefined };
    expect(none(YES, { ratios: [ratio(bare)] })).toBe(
      'nothing recorded has a published likelihood ratio with an interval for this client; Unsteady: no ratio with an interval is published for this',
    );
    expect(none(NO, { ratios: [ratio({ lr_negative_ci95: undefined })] })).toContain('is published for its absence');
    expect(none(NO, { ratios: [ratio({ lr_negative: undefined })] })).toContain('is published for its absence');
    expect(worked(NO, { ratios: [ratio(bare)] }).after).toBeCloseTo(1 / 3, 12);
  });
  test('and does not keep the next one from being used', () => {
    const found = worked(YES, { ratios: [ratio({ id: 'bare', lr_positive_ci95: undefined }), ratio()] });
    expect(found.used).toEqual(['ratio']);
    expect(found.not_used).toEqual(['Unsteady: no ratio with an interval is published for this']);
  });
  test('a test that nobody timed is no test that was passed', () => {
    const ofTest = ratio({ kind: 'test', test: 'walk', when: { field: 'x.a', is: 'yes' } });
    expect(none(YES, { ratios: [ofTest] })).toContain('Unsteady: the studies were of people who could do the test');
  });
});

describe('there is none', () => {
  const noFigure = 'no figure of how many people of 76 fall in a year, with its interval, is held';
  test('without a figure before, or where it has no interval', () => {
    expect(none(YES, { rates: [] })).toBe(noFigure);
    expect(none(YES, { rates: [rate({ probability: undefined })] })).toBe(noFigure);
    expect(none(YES, { rates: [rate({ probability_ci95: undefined })] })).toBe(noFigure);
  });
  test('where nothing that has a ratio was recorded', () => {
    expect(none({})).toBe('nothing recorded has a published likelihood ratio with an interval for this client');
    expect(none(YES, { ratios: [ratio({ age_min: 80 })] })).toBe(none({}));
    expect(none(YES, { ratios: [ratio({ when: undefined })] })).toBe(none({}));
  });
});

describe('in the whole answer', () => {
  const figures = {
    person: { client: { age: 76, sex: 'female', setting: 'community' }, lungCondition: null },
    rates: [rate()],
    ratios: [ratio()],
    cautions: [],
  } as const;
  const input = { pathways: [pathway({})], pathway: 'invented', redFlags, factors };
  const answer = (fields: FieldInputs, more: object = {}) => assessRisk({ ...input, facts: facts(fields), ...more });
  test('a probability is given only where it was asked for', () => {
    expect(answer(YES)).toMatchObject({ probability: null, no_probability_because: null, fall_rates: [] });
    expect(answer(YES, { figures: { ...figures, probability: false } })).toMatchObject({
      probability: null,
      no_probability_because: null,
      fall_rates: [{ id: 'before' }],
    });
    const given = answer(YES, { figures: { ...figures, probability: true } });
    expect(given.probability?.after).toBeCloseTo(0.75, 12);
    expect(given.no_probability_because).toBeNull();
    const without = answer({}, { figures: { ...figures, probability: true } });
    expect(without.probability).toBeNull();
    expect(without.no_probability_because).toContain('nothing recorded');
  });
  test('without the day of the visit no clearance counts for an emergency', () => {
    const clearances = [{ for: 'chest_pain', by: 'Dr Example', date: '2026-05-12' }];
    const pain = { 'redflags.chest_pain': 'yes' };
    expect(answer(pain, { clearances }).red_flags).toMatchObject([{ id: 'chest_pain', cleared: null }]);
    expect(answer(pain, { clearances, assessed: '2026-05-12' }).red_flags[0]?.cleared).not.toBeNull();
    expect(answer(pain).red_flags[0]).toMatchObject({ cleared: null, clearance_refused: null });
  });
});
