/** Fields worked out from what was measured. */
import { describe, expect, test } from 'vitest';
import { fieldsOf } from '../../src/facts.ts';
import type { Fields } from '../../src/session.ts';
import { session } from '../support/client.ts';

const of = (fields: Fields) => fieldsOf(session([], fields));

describe('blood pressure on standing', () => {
  const lying: Fields = { 'vitals.bp_lying_systolic': 140, 'vitals.bp_lying_diastolic': 80 };
  test('lying minus standing; the larger of the readings counts, each pressure for itself', () => {
    const field = of({
      ...lying,
      'vitals.bp_standing_1min_systolic': 132,
      'vitals.bp_standing_1min_diastolic': 68,
      'vitals.bp_standing_3min_systolic': 118,
      'vitals.bp_standing_3min_diastolic': 76,
    });
    expect(field('vitals.systolic_drop')).toBe(22);
    expect(field('vitals.diastolic_drop')).toBe(12);
    expect(field('vitals.bp_standing_lowest_systolic')).toBe(118);
  });
  test('one reading alone is enough; none gives nothing', () => {
    expect(of({ ...lying, 'vitals.bp_standing_systolic': 121 })('vitals.systolic_drop')).toBe(19);
    expect(of({ ...lying, 'vitals.bp_standing_3min_systolic': 121 })('vitals.systolic_drop')).toBe(19);
    expect(of(lying)('vitals.systolic_drop')).toBeUndefined();
  });
  test('a rise is a drop below zero', () => {
    expect(of({ ...lying, 'vitals.bp_standing_systolic': 150 })('vitals.systolic_drop')).toBe(-10);
  });
  test('from sitting, apart from lying', () => {
    const field = of({ 'vitals.bp_sitting_systolic': 138, 'vitals.bp_standing_1min_systolic': 120 });
    expect(field('vitals.sitting_systolic_drop')).toBe(18);
    expect(field('vitals.systolic_drop')).toBeUndefined();
  });
});

describe('saturation', () => {
  test.each([
    [88, 'yes'],
    [87, 'no'],
    [95, 'yes'],
  ])('%d %% against a target from 88 is %s', (rest, within) => {
    expect(of({ 'vitals.spo2_rest': rest, 'vitals.spo2_target_low': 88 })('vitals.spo2_within_target')).toBe(within);
  });
  test('without a recorded target nothing is said', () => {
    expect(of({ 'vitals.spo2_rest': 84, 'vitals.spo2_usual': 84 })('vitals.spo2_within_target')).toBeUndefined();
  });
  test('fall on effort is rest minus lowest, never below zero', () => {
    expect(of({ 'vitals.spo2_rest': 94, 'vitals.spo2_lowest': 88 })('vitals.spo2_fall')).toBe(6);
    expect(of({ 'vitals.spo2_rest': 94, 'vitals.spo2_lowest': 95 })('vitals.spo2_fall')).toBe(0);
    expect(of({ 'vitals.spo2_rest': 94 })('vitals.spo2_fall')).toBeUndefined();
  });
});
