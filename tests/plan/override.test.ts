/** What the professional sets counts, is shown as theirs, and is warned of. */
import { describe, expect, test } from 'vitest';
import type { ExerciseOverride } from '../../src/session.ts';
import { assessed, type CaseGiven, planned, singleLeg } from './base-client.ts';

const withOverride = (set: ExerciseOverride, given: CaseGiven = {}) =>
  planned(
    assessed({ ...given, more: { assessor: 'A. Physio', planWishes: { exercises: { single_leg_standing: set } } } }),
    'single_leg_standing',
  );

describe('a level set by hand', () => {
  test('is the start, with what was suggested and by whom', () => {
    const found = withOverride({ level: 2, reason: 'first time' });
    expect(found.start.level).toBe(2);
    expect(found.override).toMatchObject({ level: 2, by: 'A. Physio', reason: 'first time', warnings: [], refused: null });
    expect(found.override?.suggested.level).toBeGreaterThan(2);
  });

  test('beyond a cap is theirs, and the cap warns', () => {
    const found = withOverride({ level: 8 }, { fields: { 'history.falls_past_year': 1, 'history.fall_injury': 'yes' } });
    expect(found.start.name).toContain('foam');
    expect(found.override?.warnings.join(' ')).toContain('High risk of falling');
  });

  test('beyond the tests alone warns too', () => {
    expect(withOverride({ level: 6 }, { tests: singleLeg(4, 4) }).override?.warnings.join(' ')).toContain(
      'higher than the tests allow',
    );
  });

  test('is not applied while a red flag holds the plan', () => {
    const found = withOverride({ level: 2 }, { fields: { 'redflags.chest_pain': 'yes' } });
    expect(found.held).toBe(true);
    expect(found.start.level).toBe(0);
    expect(found.override?.refused).toContain('held');
  });

  test('0 is the seated variant', () => expect(withOverride({ level: 0 }).start.support).toBe('seated'));
});

test('a dose and days set by hand', () => {
  const found = withOverride({ dose: '3 times 10 seconds', days: 2 });
  expect(found.dose).toBe('3 times 10 seconds');
  const { week } = assessed({ more: { planWishes: { exercises: { single_leg_standing: { days: 2 } } } } });
  expect(week?.days.filter(({ exercises }) => exercises.some(({ exercise }) => exercise === 'single_leg_standing'))).toHaveLength(
    2,
  );
});

test('left out: it stays in the plan, shown as left out, and does not go home', () => {
  const found = withOverride({ leaveOut: true, reason: 'knee' });
  expect(found.override?.left_out).toBe(true);
  expect(found.goes_home).toBe(false);
});
