/** Values against limits and ceilings, and entries against each other: which is told what, and where. */
import { describe, expect, it } from 'vitest';
import { checkContradictions, checkField, checkTrials } from '../../src/intake/values.ts';
import type { Fields } from '../../src/session.ts';
import { definition, line } from './invented.ts';

describe('a field', () => {
  const limits = [
    { field: 'vitals.other', name: 'Other', unit_text: '', whole: false, impossible: { below: 50, why: 'No' } },
    {
      field: 'vitals.spo2_rest',
      name: 'Saturation',
      unit_text: '%',
      whole: false,
      impossible: { below: 40, above: 100, why: 'No' },
      unusual: { below: 85, why: 'Rare' },
    },
  ];
  const told = (value: number, field = 'vitals.spo2_rest') => checkField(field, value, ['vitals', 'spo2_rest'], limits).map(line);
  it('is held against its own limits, at its place', () => {
    expect(told(94)).toEqual([]);
    expect(told(101)).toEqual([
      'vitals.spo2_rest (value) impossible: Saturation cannot be 101 % (No); write what was measured, or leave it out',
    ]);
    expect(told(80)).toEqual(['vitals.spo2_rest (value) unusual: Saturation of 80 % is unusual (Rare); ']);
    expect(told(80, 'vitals.no_such_field')).toEqual([]);
  });
});

describe('trials', () => {
  const told = (trials: readonly number[], over: Parameters<typeof definition>[0] = {}, stated?: number) =>
    checkTrials(
      definition(over),
      trials,
      trials.map((_, index) => ['tests', 'walk', index]),
      stated,
    ).map(line);
  it('each at its own place', () => {
    expect(told([12, 101, -1])).toEqual([
      'tests.walk.1 (value) impossible: Walk cannot be 101 s (No); write what was measured, or leave it out',
      'tests.walk.2 (value) impossible: Walk cannot be -1 s (No); write what was measured, or leave it out',
    ]);
    expect(told([60, 12])).toEqual(['tests.walk.0 (value) unusual: Walk of 60 s is unusual (Rare); ']);
    expect(told([12.5], { whole: true })).toEqual([
      'tests.walk.0 (value) not_whole: Walk is a whole number, not 12.5 s; write what was measured, or leave it out',
    ]);
    expect(checkTrials(definition(), [101], [], undefined)[0]?.path).toEqual([]);
  });
  it('beyond the ceiling of the catalogue or the one that was stated, with how to write either', () => {
    const beyond = (value: number, ceiling: number, next: number) =>
      `tests.walk.0 (value) above_ceiling: ${value} s is beyond the ceiling of ${ceiling} s for Walk; write ${ceiling} where the watch was stopped at ${ceiling}, or state the ceiling used, as in {value: ${value}, ceiling: ${next}}`;
    expect(told([30.5], { ceiling: 30 })).toEqual([beyond(30.5, 30, 31)]);
    expect(told([30], { ceiling: 30 })).toEqual([]);
    expect(told([30.5], { ceiling: 30 }, 45)).toEqual([]);
    expect(told([46], { ceiling: 30 }, 45)).toEqual([beyond(46, 45, 46)]);
    expect(told([60], { ceiling: 30 })).toHaveLength(1);
  });
  it('exactly a usual ceiling and none stated', () => {
    const usual = { common_ceilings: [30, 60] };
    const note = (value: number) =>
      `tests.walk.0 (value) ceiling_not_stated: Walk of exactly ${value} s and no ceiling stated: read as the time held; write ceiling: ${value} where the watch was stopped there`;
    expect(told([30], usual)).toEqual([note(30)]);
    expect(told([60], usual)).toEqual(['tests.walk.0 (value) unusual: Walk of 60 s is unusual (Rare); ', note(60)]);
    expect(told([29], usual)).toEqual([]);
    expect(told([30], usual, 45)).toEqual([]);
    expect(told([30], { ...usual, ceiling: 45 })).toEqual([]);
  });
});

describe('contradictions', () => {
  const told = (fields: Fields) => checkContradictions(fields).map(line);
  const NO_FALLS = { 'history.falls_past_year': 0 };
  it.each([
    ['fall_injury', 'an injury from a fall'],
    ['unable_to_rise', 'lying on the floor after a fall'],
    ['unexplained_fall', 'an unexplained fall'],
  ])('no falls, but %s', (key, what) => {
    expect(told({ ...NO_FALLS, [`history.${key}`]: 'yes' })).toEqual([
      `history.${key} (value) contradiction: ${what}, but no falls in the past year; write the number of falls in falls_past_year, or no here`,
    ]);
    expect(told({ ...NO_FALLS, [`history.${key}`]: 'no' })).toEqual([]);
    expect(told({ ...NO_FALLS, [`history.${key}`]: 'unknown' })).toEqual([]);
    expect(told({ 'history.falls_past_year': 1, [`history.${key}`]: 'yes' })).toEqual([]);
    expect(told({ [`history.${key}`]: 'yes' })).toEqual([]);
  });
  it.each(['bp_lying', 'bp_sitting', 'bp_standing', 'bp_standing_1min', 'bp_standing_3min'])('%s upside down', (key) => {
    const at = (systolic: number | undefined, diastolic: number | undefined) =>
      told({
        ...(systolic === undefined ? {} : { [`vitals.${key}_systolic`]: systolic }),
        ...(diastolic === undefined ? {} : { [`vitals.${key}_diastolic`]: diastolic }),
      });
    const words = [
      `vitals.${key} (value) contradiction: the diastolic pressure is not below the systolic one; write systolic/diastolic, such as 138/78, instead`,
    ];
    expect(at(78, 138)).toEqual(words);
    expect(at(80, 80)).toEqual(words);
    expect(at(138, 78)).toEqual([]);
    expect(at(undefined, 78)).toEqual([]);
    expect(at(78, undefined)).toEqual([]);
  });
  it('a target whose ends are the wrong way round', () => {
    const at = (low: number, high: number) => told({ 'vitals.spo2_target_low': low, 'vitals.spo2_target_high': high });
    expect(at(92, 88)).toEqual([
      'vitals.spo2_target (value) contradiction: the lower end of the target is above the upper one; write the lower end first, such as 88-92',
    ]);
    expect(at(90, 90)).toEqual([]);
    expect(at(88, 92)).toEqual([]);
  });
  it('an oxygen flow on air', () => {
    const at = (on: string, flow?: number) =>
      told({ 'vitals.spo2_on': on, ...(flow === undefined ? {} : { 'vitals.oxygen_flow': flow }) });
    expect(at('air', 0.5)).toEqual([
      'vitals.oxygen_flow (value) contradiction: an oxygen flow, but saturation measured on air; write spo2_on: oxygen, or leave the flow out',
    ]);
    expect(at('air', 0)).toEqual([]);
    expect(at('air')).toEqual([]);
    expect(at('oxygen', 2)).toEqual([]);
    expect(told({ 'vitals.oxygen_flow': 2 })).toEqual([]);
  });
  it('an injury without a fall since the last visit', () => {
    const at = (falls: number, injury: string) => told({ 'since_last.falls': falls, 'since_last.injury': injury });
    expect(at(0, 'yes')).toEqual([
      'since_last.injury (value) contradiction: an injury from a fall since the last visit, but no falls since then; write the number of falls in falls, or no here',
    ]);
    expect(at(0, 'no')).toEqual([]);
    expect(at(1, 'yes')).toEqual([]);
  });
  it('a lowest saturation above the one at rest is doubtful', () => {
    const at = (lowest: number, rest: number) => told({ 'vitals.spo2_lowest': lowest, 'vitals.spo2_rest': rest });
    expect(at(95, 94)).toEqual([
      'vitals.spo2_lowest (value) doubtful: the lowest saturation is above the one at rest; check that both are in their place',
    ]);
    expect(at(94, 94)).toEqual([]);
    expect(at(90, 94)).toEqual([]);
  });
});
