/** Levels, flags and steps of two visits side by side. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessment } from '../../src/assessment.ts';
import type { RedFlagResult, StepResult } from '../../src/assessment-risk.ts';
import { riskChange } from '../../src/change/risk-change.ts';
import type { Fields } from '../../src/session.ts';
import { evidence, FIRST, LATER, visit } from './support.ts';

type Risk = Assessment['risk'];

function at(assessed: string, over: Partial<Risk>, fields: Fields = {}) {
  const session = visit(assessed, [], fields);
  const assessment = assess(session, evidence);
  return { session, assessment: { ...assessment, risk: { ...assessment.risk, ...over } } };
}
const change = (before: Partial<Risk>, after: Partial<Risk>, newFallsOnly: Assessment | null = null) =>
  riskChange({ before: at(FIRST, before), previous: at(FIRST, before), after: at(LATER, after) }, newFallsOnly, evidence);

const range = (at_least: string, at_most: string): Partial<Risk> => ({ at_least, at_most });
const flag = (id: string, cleared = false): RedFlagResult => ({
  id,
  tier: 'same_day',
  finding: `Finding ${id}`,
  because: '',
  action: '',
  spread: null,
  cleared: cleared ? { by: 'Dr Example', date: FIRST } : null,
  clearance_refused: null,
  source: null,
  basis: 'own-rule',
  location: null,
});
const step = (id: string, answer: StepResult['answer'], over: Partial<StepResult> = {}): StepResult => ({
  id,
  question: `${id}?`,
  answer,
  because: '',
  reached: 'yes',
  source: null,
  basis: 'own-rule',
  location: null,
  ...over,
});

describe('direction', () => {
  // The built-in pathway has the levels low, intermediate and high.
  it.each([
    ['same', range('low', 'low'), range('low', 'low')],
    ['higher', range('low', 'low'), range('intermediate', 'intermediate')],
    ['higher', range('low', 'intermediate'), range('high', 'high')],
    ['higher', range('low', 'low'), range('intermediate', 'high')],
    ['lower', range('high', 'high'), range('low', 'intermediate')],
    ['lower', range('intermediate', 'high'), range('low', 'low')],
    ['unclear', range('low', 'intermediate'), range('intermediate', 'high')],
    ['unclear', range('intermediate', 'high'), range('low', 'intermediate')],
    ['unclear', range('low', 'high'), range('low', 'high')],
    ['unclear', range('low', 'low'), range('low', 'high')],
    ['unclear', range('low', 'high'), range('low', 'low')],
  ] as const)('%s (%#)', (direction, before, after) => expect(change(before, after).direction).toBe(direction));
  it('with both levels in words and their bounds', () =>
    expect(
      change(
        { level: 'undetermined', label: 'Open', ...range('low', 'high') },
        { level: 'low', label: 'Low', name: 'Pathway', ...range('low', 'low') },
      ),
    ).toMatchObject({
      before: 'undetermined',
      after: 'low',
      before_label: 'Open',
      after_label: 'Low',
      before_bounds: { at_least: 'low', at_most: 'high' },
      after_bounds: { at_least: 'low', at_most: 'low' },
      pathway: 'Pathway',
    }));
});

describe('answers that changed', () => {
  const because = (before: StepResult[], after: StepResult[]) => change({ steps: before }, { steps: after }).because;
  it('with both answers and what they rest on', () => {
    expect(
      because(
        [step('a', 'no', { because: '0 falls' }), step('b', 'no')],
        [step('a', 'yes', { because: '2 falls' }), step('b', 'no')],
      ),
    ).toEqual(['a? before no: 0 falls; now yes: 2 falls']);
    expect(because([step('a', 'unknown')], [step('a', 'yes')])).toEqual(['a? before unknown; now yes']);
  });
  it('not of a step that neither visit reached, nor of one that the earlier visit does not have', () => {
    const off = { reached: 'no' as const };
    expect(because([step('a', 'no', off)], [step('a', 'yes', off)])).toEqual([]);
    expect(because([step('a', 'no', off)], [step('a', 'yes')])).toHaveLength(1);
    expect(because([step('a', 'no')], [step('a', 'yes', off)])).toHaveLength(1);
    expect(because([step('b', 'no')], [step('a', 'yes')])).toEqual([]);
  });
});

describe('red flags', () => {
  it('new, still there and gone; one that was cleared is neither new nor still there, and is not gone', () => {
    const found = change(
      { red_flags: [flag('stays'), flag('gone'), flag('cleared_now'), flag('was_cleared', true)] },
      { red_flags: [flag('stays'), flag('new'), flag('cleared_now', true), flag('new_and_cleared', true), flag('was_cleared')] },
    );
    expect(found.red_flags).toEqual({
      new: ['Finding new'],
      still: ['Finding stays', 'Finding was_cleared'],
      no_longer_found: ['Finding gone'],
    });
  });
});

describe('on new falls only', () => {
  const other = (level: string): Assessment => ({ ...at(LATER, { level, label: level.toUpperCase() }).assessment });
  it('only where that level differs from the pathway level now', () => {
    expect(change({}, { level: 'high' }, other('low')).on_new_falls_only).toEqual({ level: 'low', label: 'LOW' });
    expect(change({}, { level: 'low' }, other('low')).on_new_falls_only).toBeNull();
    expect(change({}, { level: 'low' }).on_new_falls_only).toBeNull();
  });
});

it('falls and what else happened are those of the later visit, counted from the one before it', () => {
  const fields: Fields = { 'history.falls_past_year': 2, 'since_last.falls': 1 };
  const [before, previous, after] = [at('2020-01-01', {}), at(FIRST, {}), at(LATER, {}, fields)];
  const found = riskChange({ before, previous, after }, null, evidence);
  expect(found.since_last?.falls).toBe(1);
  expect(found.falls).toBe('1 fall since the last visit');
  const fewer = { ...after, session: visit(LATER, [], { ...fields, 'since_last.falls': 3 }) };
  expect(riskChange({ before, previous, after: fewer }, null, evidence).falls).toContain('one of the two cannot be right');
  expect(riskChange({ before, previous: before, after: fewer }, null, evidence).falls).not.toContain('cannot be right');
});
