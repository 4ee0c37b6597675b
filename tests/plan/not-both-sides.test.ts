/** What a test of one leg, a hold of no time, or a reading taken sitting must not hide. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Reading } from '../../src/session.ts';
import { measured, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { assessed, planned, sessionOf } from './base-client.ts';

const STANCE = 'single_leg_stance_eyes_open';
const medical: Reading = { outcome: 'unsafe', reason: 'chest tight', why: 'medical' };
const declined: Reading = { outcome: 'declined', reason: 'tired' };
const legs = (right: Reading, left: Reading) => assessed({ tests: { [STANCE]: { right, left } } });
const start = (assessment: ReturnType<typeof assessed>) => planned(assessment, 'single_leg_standing').start.level;

describe('one leg tested, the other not', () => {
  it.each([
    ['declined', declined],
    ['left out for a medical reason', medical],
  ])('starts with the most support when the other was %s', (_, left) => {
    expect(start(legs(measured(25), measured(25)))).toBeGreaterThan(1);
    expect(start(legs(measured(25), left))).toBe(1);
    expect(planned(legs(measured(25), left), 'single_leg_standing').because.join()).toContain('only one side tested');
  });

  it('starts with the most support when the other leg is not in the file', () => {
    const session = sessionOf({ tests: { [STANCE]: { right: measured(25), left: measured(25) } } });
    const tests = session.tests.filter(({ side }) => side !== 'left');
    expect(start(assess({ ...session, tests }, testEvidence()))).toBe(1);
  });

  it('keeps the cap of a medical reason on one side, and the seated start of an unable one', () => {
    expect(planned(legs(measured(25), medical), 'squat').limited_by.join()).toContain('medical reason');
    expect(start(legs(unable, declined))).toBe(0);
  });

  it('believes one value for a test that was recorded without sides', () => {
    expect(start(assessed({ tests: { [STANCE]: 25 } }))).toBeGreaterThan(1);
  });
});

describe('a stance of 0 s', () => {
  it.each(['semi_tandem_stance', 'tandem_stance'])('has somebody beside, as unable has: %s', (test) => {
    expect(planned(assessed({ tests: { [test]: 0 } }), 'squat').supervision).toBe('someone_beside');
  });
  it('is seated work only where it is feet together', () => {
    expect(planned(assessed({ tests: { side_by_side_stance: 0 } }), 'squat').start.level).toBe(0);
  });
});

describe('blood pressure taken sitting', () => {
  const at = (sitting: readonly [number, number], standing: readonly [number, number]) =>
    assessed({
      fields: {
        'vitals.bp_lying_systolic': undefined,
        'vitals.bp_lying_diastolic': undefined,
        'vitals.bp_sitting_systolic': sitting[0],
        'vitals.bp_sitting_diastolic': sitting[1],
        'vitals.bp_standing_systolic': standing[0],
        'vitals.bp_standing_diastolic': standing[1],
      },
    });
  const flags = (assessment: ReturnType<typeof assessed>) => assessment.risk.red_flags.map(({ id }) => id);

  it('raises the flag of a high resting pressure, strictly over the mark', () => {
    expect(flags(at([181, 80], [170, 80]))).toContain('resting_pressure_high');
    expect(flags(at([150, 101], [150, 100]))).toContain('resting_pressure_high');
    expect(flags(at([180, 100], [175, 98]))).not.toContain('resting_pressure_high');
  });
  it('counts as asked, though not taken lying', () => {
    expect(at([130, 80], [128, 80]).risk.not_asked).not.toContain('blood pressure at rest');
  });
  it.each([
    [
      [135, 75],
      [120, 75],
    ],
    [
      [130, 82],
      [128, 75],
    ],
  ] as const)('a fall from %j to %j on standing keeps a hand on the support', (sitting, standing) => {
    expect(planned(at(sitting, standing), 'squat').limited_by.join()).toContain('fell on standing');
  });
});
