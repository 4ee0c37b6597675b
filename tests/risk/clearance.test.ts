/** Cleared red flags: what counts, what does not, and what that does to the plan. */
import { describe, expect, test } from 'vitest';
import { assess } from '../../src/assess.ts';
import { clearanceOf, isOpen } from '../../src/risk/clearance.ts';
import { levelInForce } from '../../src/risk/override.ts';
import type { Clearance, Fields } from '../../src/session.ts';
import { session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { redFlags } from './support.ts';

const flag = (id: string) => {
  const found = redFlags.find((each) => each.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};
const VISIT = '2026-05-11';
const by = (over: Partial<Clearance>): Clearance => ({ by: 'Dr Example', date: '2026-05-12', for: 'blackout', ...over });
const assessed = (fields: Fields, clearances: readonly Clearance[] = []) =>
  assess({ ...session([], fields), clearances }, testEvidence());

describe('which clearance belongs to a flag', () => {
  test('by its id, or by the field it asks about; not by another', () => {
    expect(clearanceOf(flag('blackout'), [by({})], VISIT).cleared).toEqual({ by: 'Dr Example', date: '2026-05-12' });
    expect(clearanceOf(flag('blackout'), [by({ for: 'loss_of_consciousness' })], VISIT).cleared).not.toBeNull();
    expect(clearanceOf(flag('blackout'), [by({ for: 'chest_pain' })], VISIT)).toEqual({ cleared: null, refusedBecause: null });
  });
  test('a faint looked into before the visit counts; an emergency of the visit cannot have been', () => {
    expect(clearanceOf(flag('blackout'), [by({ date: '2026-04-02' })], VISIT).cleared).not.toBeNull();
    for (const emergency of redFlags.filter((each) => each.tier === 'emergency' || each.found_today)) {
      const early = clearanceOf(emergency, [by({ for: emergency.id, date: '2026-05-10' })], VISIT);
      expect(early.cleared).toBeNull();
      expect(early.refusedBecause).toContain('2026-05-10');
      expect(clearanceOf(emergency, [by({ for: emergency.id, date: VISIT })], VISIT).cleared).not.toBeNull();
    }
  });
  test('of several the latest that counts', () => {
    const both = [by({ date: '2026-05-12', by: 'first' }), by({ date: '2026-05-20', by: 'second' })];
    expect(clearanceOf(flag('blackout'), both, VISIT).cleared?.by).toBe('second');
  });
});

describe('what an open flag holds', () => {
  test.each(redFlags.map((each) => each.tier).filter((tier, index, all) => all.indexOf(tier) === index))(
    'a flag of tier %s holds every exercise until it is cleared',
    (tier) => {
      const raised: Record<typeof tier, Fields> = {
        emergency: { 'redflags.chest_pain': 'yes' },
        same_day: { 'history.loss_of_consciousness': 'yes' },
        clear_first: { 'history.unexplained_fall': 'yes' },
      };
      const id = { emergency: 'chest_pain', same_day: 'blackout', clear_first: 'unexplained_fall' }[tier];
      const open = assessed(raised[tier]);
      expect(open.risk.red_flags.map(isOpen)).toEqual([true]);
      expect(open.plan.every((exercise) => exercise.held)).toBe(true);
      const cleared = assessed(raised[tier], [by({ for: id })]);
      expect(cleared.risk.red_flags).toMatchObject([{ id, cleared: { by: 'Dr Example', date: '2026-05-12' } }]);
      expect(cleared.plan.some((exercise) => exercise.held)).toBe(false);
    },
  );
  test('one cleared flag of two leaves the hold', () => {
    const fields: Fields = { 'history.loss_of_consciousness': 'yes', 'health.recent_surgery': 'yes' };
    const half = assessed(fields, [by({})]);
    expect(half.risk.red_flags.map((each) => [each.id, isOpen(each)])).toEqual([
      ['recent_surgery', true],
      ['blackout', false],
    ]);
    expect(half.plan.every((exercise) => exercise.held)).toBe(true);
    expect(assessed(fields, [by({}), by({ for: 'recent_surgery' })]).plan.some((exercise) => exercise.held)).toBe(false);
  });
  test('a cleared faint still counts for the level', () => {
    const fields: Fields = { 'history.loss_of_consciousness': 'yes', 'history.falls_past_year': 1 };
    expect(assessed(fields, [by({})]).risk.level).toBe('high');
  });
});

describe('the level set by the professional', () => {
  const answers: Fields = {
    'history.falls_past_year': 0,
    'history.feels_unsteady': 'no',
    'history.worries_about_falling': 'no',
    'health.clinical_frailty_scale': 2,
  };
  const set = (level: string) =>
    assess(
      { ...session([], answers), riskOverride: { level, reason: 'saw her catch the wall twice' }, assessor: 'A. Physio' },
      testEvidence(),
    );
  test('stands beside the level of the pathway, with what it calls for', () => {
    const { risk } = set('high');
    expect(risk.level).toBe('low');
    expect(risk.override).toMatchObject({ level: 'high', reason: 'saw her catch the wall twice', by: 'A. Physio' });
    expect(risk.override?.follow_up.within_days).toBe(90);
    expect(levelInForce(risk)).toEqual({ level: 'high', at_least: 'high', at_most: 'high' });
  });
  test('decides the limits of the plan', () => {
    expect(JSON.stringify(set('high').plan)).toContain('High risk of falling');
    expect(JSON.stringify(set('low').plan)).not.toContain('High risk of falling');
  });
  test('a level of another pathway is not applied, and that is said', () => {
    const { risk, notes } = set('at_risk');
    expect(risk.override).toBeNull();
    expect(notes.join(' ')).toContain('not applied');
  });
});
