/** What the professional sets counts, is shown as theirs, and is warned of. */
import { describe, expect, test } from 'vitest';
import { applyOverride, levelInUse, type OverrideInput } from '../../src/plan/override.ts';
import type { ExerciseOverride } from '../../src/session.ts';
import { assessed, type CaseGiven, planned, singleLeg } from './base-client.ts';
import { applied, at, exercise } from './invented.ts';

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

describe('one override by itself', () => {
  const override = (set: ExerciseOverride, over: Partial<OverrideInput> = {}) =>
    applyOverride({
      exercise: exercise(),
      set,
      caps: [],
      held: false,
      byTests: { rung: 2, because: ['slow', 'weak'] },
      suggested: at(2),
      by: null,
      ...over,
    });

  test('of nothing says nothing and changes nothing', () => {
    const found = override({});
    expect(found).toEqual({
      level: null,
      dose: null,
      days: null,
      left_out: false,
      reason: null,
      by: null,
      suggested: at(2),
      warnings: [],
      refused: null,
    });
    expect(override({}, { held: true }).refused).toBeNull();
    expect(levelInUse(found, 2)).toBe(2);
    expect(levelInUse(null, 2)).toBe(2);
  });

  test('warns of every cap that closes the level and of the tests, and of none that leaves it open', () => {
    const caps = [
      applied({ reason: 'Closes it', lifts: 'Lifts later', effect: { least_support: 'fingertip' } }),
      applied({ reason: 'Leaves it open', effect: { least_support: 'hands_free' } }),
    ];
    const found = override({ level: 3 }, { caps });
    expect(found.warnings).toEqual(['Closes it; lifts later', 'higher than the tests allow: slow; weak']);
    expect(levelInUse(found, 2)).toBe(3);
    expect(override({ level: 2 }, { caps }).warnings).toEqual([]);
  });

  test('a seated level is applied, and neither caps nor tests speak against it', () => {
    const found = override({ level: 0 }, { caps: [applied({ effect: { seated: true } })], byTests: { rung: 0, because: [] } });
    expect(found).toMatchObject({ level: 0, warnings: [], refused: null });
    expect(levelInUse(found, 2)).toBe(0);
  });

  test('a level the ladder does not have is refused with where it ends; its last rung is not', () => {
    const found = override({ level: 4 });
    expect(found).toMatchObject({ level: 4, refused: 'not applied: the ladder ends at level 3', warnings: [] });
    expect(levelInUse(found, 2)).toBe(2);
    expect(override({ level: 3 }).refused).toBeNull();
  });

  test('a held exercise stays where it is', () => {
    const found = override({ level: 1 }, { held: true, caps: [applied({ effect: { hold: true } })] });
    expect(found.refused).toBe('not applied: the exercise is held until what holds it is cleared');
    expect(found.warnings).toEqual([]);
    expect(levelInUse(found, 0)).toBe(0);
  });

  test('what was written is kept', () =>
    expect(override({ dose: 'ten', days: 2, leaveOut: true, reason: 'knee' }, { by: 'A. Physio' })).toMatchObject({
      dose: 'ten',
      days: 2,
      left_out: true,
      reason: 'knee',
      by: 'A. Physio',
    }));
});
