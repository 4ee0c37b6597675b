import { describe, expect, test } from 'vitest';
import { assessRisk } from '../../src/risk/assess-risk.ts';
import { placement } from '../../src/risk/place.ts';
import { cdc, type FieldInputs, factors, facts, redFlags, type TestInputs, worldGuidelines } from './support.ts';

const steady: FieldInputs = {
  'client.setting': 'community',
  'client.age': 74,
  'history.falls_past_year': 0,
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
  'history.fall_injury': 'no',
  'history.unable_to_rise': 'no',
  'history.loss_of_consciousness': 'no',
  'health.clinical_frailty_scale': 3,
};
const assess = (
  change: FieldInputs,
  tests: TestInputs = { timed_up_and_go: 9 },
  more: { pathway?: string; variants?: readonly string[] } = {},
) =>
  assessRisk({
    facts: facts({ ...steady, ...change }, tests),
    pathways: [worldGuidelines, cdc],
    pathway: 'world_falls_guidelines_2022',
    redFlags,
    factors,
    labels: { test: () => ({ name: 'Timed up and go', unit: 's' }) },
    ...more,
  });
const ids = (entries: readonly { readonly id: string }[]): string[] => entries.map((entry) => entry.id);

describe('nobody is falsely reassured', () => {
  test('frail with three times no: low, and the same line says to assess', () => {
    const result = assess({ 'health.clinical_frailty_scale': 6 });
    expect(result.level).toBe('low');
    expect(result.caveats[0]?.text).toBe('low by the questions only; gait impaired / frail: assess as if not low');
  });
  test('slow with three times no: the same', () => {
    expect(ids(assess({}, { timed_up_and_go: 16 }).caveats)).toContain('low_by_questions_only');
    expect(ids(assess({}, { gait_speed_usual: 'unable' }).caveats)).toContain('low_by_questions_only');
  });
  test('not frail, not slow: no such line, but low is not none', () => {
    const found = ids(assess({}).caveats);
    expect(found).not.toContain('low_by_questions_only');
    expect(found).toContain('one_third_of_low_fall');
    expect(found).toContain('few_at_intermediate');
  });
  test('three times no without gait and frailty says what is missing', () => {
    const { 'health.clinical_frailty_scale': _frailty, ...rest } = steady;
    const result = assessRisk({
      facts: facts(rest),
      pathways: [worldGuidelines],
      pathway: worldGuidelines.id,
      redFlags,
      factors,
    });
    expect(result.level).toBe('low');
    expect(ids(result.caveats)).toContain('low_with_gaps');
  });
  test('frail and open: the caveat stands there too', () => {
    const result = assess({ 'history.feels_unsteady': 'unknown', 'health.clinical_frailty_scale': 6 });
    expect(result).toMatchObject({ level: 'undetermined', at_least: 'low', at_most: 'high' });
    expect(ids(result.caveats)).toContain('frail_or_slow_undetermined');
  });
  test('a blackout without a fall does not make a fall, is a red flag, and the report says both', () => {
    const result = assess({ 'history.loss_of_consciousness': 'yes', 'history.feels_unsteady': 'yes' });
    expect(result.level).toBe('low');
    expect(ids(result.red_flags)).toEqual(['blackout']);
    expect(ids(result.caveats)).toContain('blackout_without_fall');
  });
  test('a blackout with falls not recorded: cannot be low for certain', () => {
    const result = assess({ 'history.loss_of_consciousness': 'yes', 'history.falls_past_year': 'unknown' });
    expect(result).toMatchObject({ level: 'undetermined', at_most: 'high' });
    expect(result.missing.map((item) => item.item)).toEqual(['falls']);
  });
  test('an injury or a long lie without a recorded fall is a fall, and says so', () => {
    for (const field of ['history.fall_injury', 'history.unable_to_rise']) {
      const result = assess({ 'history.falls_past_year': 'unknown', [field]: 'yes' });
      expect(result.level).toBe('high');
      expect(ids(result.caveats)).toContain('fall_implied');
    }
  });
  test('an unexplained fall is a fall, how many is open', () => {
    const result = assess({ 'history.falls_past_year': 'unknown', 'history.unexplained_fall': 'yes' });
    expect(result).toMatchObject({ level: 'undetermined', at_least: 'low', at_most: 'high' });
    expect(result.steps.find((step) => step.id === 'key_questions')?.answer).toBe('yes');
    expect(ids(result.red_flags)).toEqual(['unexplained_fall']);
  });
});

test('outside the age range, exactly on the gait border, and in care', () => {
  expect(ids(assess({ 'client.age': 64 }).caveats)).toContain('under_age');
  expect(ids(assess({ 'client.age': 65 }).caveats)).not.toContain('under_age');
  expect(ids(assess({}, { gait_speed_usual: 0.8 }).caveats)).toContain('exactly_on_gait_border');
  expect(ids(assess({}, { gait_speed_usual: 0.79 }).caveats)).not.toContain('exactly_on_gait_border');
  for (const setting of ['residential_care', 'hospital']) {
    const result = assess({ 'client.setting': setting });
    expect(result.level).toBe('high');
    expect(ids(result.caveats)).toContain('care_is_high');
  }
});

test('a settled level carries its actions, its follow-up and their sources', () => {
  const result = assess({ 'history.falls_past_year': 2 });
  expect(result).toMatchObject({
    level: 'high',
    label: 'High risk',
    at_least: 'high',
    at_most: 'high',
    missing: [],
    probability: null,
  });
  expect(result.follow_up).toMatchObject({ within_days: 90, basis: 'memory', source: 'wfg-2022-algorithm' });
  expect(result.actions[0]?.text).toContain('comprehensive assessment');
});

test('an open level asks for what would settle it, questions before tests, and is followed up as the highest possible', () => {
  const result = assess({ 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': 'unknown' }, {});
  expect(result).toMatchObject({
    level: 'undetermined',
    at_least: 'low',
    at_most: 'high',
    label: 'Undetermined: Low risk to High risk',
  });
  expect(result.missing.map((item) => [item.item, item.kind])).toEqual([
    ['frailty', 'question'],
    ['gait_impaired', 'test'],
  ]);
  expect(result.actions[0]?.text).toMatch(/^Settle the level: Is the client frail\?.*timed up and go\.$/);
  expect(result.follow_up?.within_days).toBe(90);
  expect(result.steps.map((step) => step.reached)).toEqual(['yes', 'yes', 'yes', 'perhaps', 'perhaps']);
  expect(result.steps.at(-1)?.because).toBe('gait and balance not tested');
});

describe('the other pathway', () => {
  test('is silent where both agree', () => {
    expect(assess({ 'history.falls_past_year': 2 }).other_pathways).toMatchObject([
      { pathway: 'cdc_2019', level: 'at_risk', differs_because: null },
    ]);
    expect(assess({}).other_pathways[0]?.differs_because).toBeNull();
  });
  test('says in one sentence which steps decided where they differ', () => {
    expect(assess({ 'history.worries_about_falling': 'yes' }).other_pathways[0]?.differs_because).toBe(
      'World Falls Guidelines 2022 gives low risk, decided by "Are gait and balance impaired - walking speed at or under 0.8 m/s, or timed up and go over 15 s?" (no: timed up and go 9 s is not over 15 s), while CDC screening and assessment 2019 gives screened at risk, decided by "Does the client feel unsteady, or worry about falling?" (yes: worries about falling).',
    );
  });
  test('can be the one that decides', () => {
    const result = assess({ 'history.worries_about_falling': 'yes' }, undefined, { pathway: 'cdc_2019' });
    expect(result).toMatchObject({ pathway: 'cdc_2019', level: 'at_risk' });
    expect(result.other_pathways[0]).toMatchObject({ pathway: 'world_falls_guidelines_2022', level: 'low' });
  });
  test('an open one names the first question', () => {
    const result = assess({ 'history.worries_about_falling': 'yes', 'history.falls_past_year': 'unknown' });
    expect(result.other_pathways[0]?.differs_because).toContain(
      'cannot tell yet (first to ask: How many falls in the past year)',
    );
  });
  test('an unknown pathway or option is refused', () => {
    expect(() => assess({}, undefined, { pathway: 'another' })).toThrow('there is no pathway "another"');
    expect(() => assess({}, undefined, { variants: ['another'] })).toThrow('has no option "another"');
  });
});

describe('options', () => {
  const level = (variant: string, change: FieldInputs, tests: TestInputs = { timed_up_and_go: 9 }) =>
    assess(change, tests, { variants: [variant] }).level;
  test('are visible when on', () => {
    expect(assess({}, undefined, { variants: ['entry_by_fall_history'] }).caveats[0]).toMatchObject({
      id: 'entry_by_fall_history',
      source: 'vandeloo-2024-wfg-accuracy',
    });
  });
  test('entry by fall history alone', () => {
    expect(level('entry_by_fall_history', { 'history.feels_unsteady': 'yes' }, { timed_up_and_go: 16 })).toBe('low');
    expect(level('entry_by_fall_history', { 'history.falls_past_year': 1 }, { timed_up_and_go: 16 })).toBe('intermediate');
  });
  test('frailty by one instrument', () => {
    const both = { 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': 3, 'health.frailty_phenotype': 4 };
    expect(assess(both).level).toBe('high');
    expect(level('frailty_by_scale', both)).toBe('low');
    expect(level('frailty_by_phenotype', both)).toBe('high');
  });
  test('gait speed first', () => {
    const unsteady = { 'history.feels_unsteady': 'yes' };
    expect(assess(unsteady, { gait_speed_usual: 1.1, timed_up_and_go: 16 }).level).toBe('intermediate');
    expect(level('gait_speed_first', unsteady, { gait_speed_usual: 1.1, timed_up_and_go: 16 })).toBe('low');
    expect(level('gait_speed_first', unsteady, { timed_up_and_go: 16 })).toBe('intermediate');
    expect(level('gait_speed_first', unsteady, { gait_speed_usual: 'unable', timed_up_and_go: 9 })).toBe('intermediate');
    expect(level('gait_speed_first', unsteady, {})).toBe('undetermined');
  });
  test('the 2024 modification sends everyone on, over 10 s', () => {
    expect(level('modified_2024', {}, { timed_up_and_go: 10.1 })).toBe('intermediate');
    expect(level('modified_2024', {}, { timed_up_and_go: 10 })).toBe('low');
    expect(level('modified_2024', { 'health.clinical_frailty_scale': 6 })).toBe('high');
  });
});

test('a cohort row asks each combination of answers once: 20 000 placements stay quick', () => {
  const row = facts({ ...steady, 'history.feels_unsteady': 'yes', 'health.clinical_frailty_scale': 'unknown' });
  placement(worldGuidelines, row);
  const started = performance.now();
  for (let index = 0; index < 20_000; index += 1) placement(worldGuidelines, row);
  // a wide margin, so that a busy machine does not fail it: without remembering it would take minutes
  expect(performance.now() - started).toBeLessThan(5000);
});
