/** Days, minutes and the weekly target; what goes home; how a dose is adapted. */
import { describe, expect, test } from 'vitest';
import { spreadDays } from '../../src/plan/week.ts';
import { testEvidence } from '../support/evidence.ts';
import { assessed, planned, singleLeg } from './base-client.ts';

const { dose } = testEvidence();
const purposesOf = (plan: ReturnType<typeof assessed>['plan'], ids: readonly string[]) =>
  ids.map((id) => plan.find(({ exercise }) => exercise === id)?.purpose ?? '');

describe('days', () => {
  test('spread over the week, the first of them Monday', () => {
    expect([1, 2, 3, 4, 5, 7].map(spreadDays)).toEqual([
      [1],
      [1, 4],
      [1, 3, 5],
      [1, 2, 4, 6],
      [1, 2, 3, 5, 6],
      [1, 2, 3, 4, 5, 6, 7],
    ]);
  });

  test('warm-up first, stretches last; strength never on two days in a row, also over the weekend', () => {
    for (const days of [2, 3, 4, 5, 6, 7]) {
      const { week, plan } = assessed({ more: { planWishes: { days } } });
      const strength = (week?.days ?? [])
        .filter((day) =>
          purposesOf(
            plan,
            day.exercises.map(({ exercise }) => exercise),
          ).includes('strength'),
        )
        .map(({ day }) => day);
      expect(strength.length).toBeGreaterThanOrEqual(2);
      for (const day of strength) expect(strength).not.toContain(day === 7 ? 1 : day + 1);
      for (const day of week?.days ?? []) {
        const purposes = purposesOf(
          plan,
          day.exercises.map(({ exercise }) => exercise),
        );
        expect(purposes[0]).toBe('warm_up');
        expect(purposes.at(-1)).toBe('stretch');
      }
    }
  });

  test('few minutes a day: balance before the rest, and what never fits is named', () => {
    const { week, plan } = assessed({ more: { planWishes: { days: 3, minutesADay: 8 } } });
    for (const day of week?.days ?? []) expect(day.minutes).toBeLessThanOrEqual(8);
    const first = (week?.days[0]?.exercises ?? []).map(({ exercise }) => exercise);
    expect(purposesOf(plan, first)).toEqual(['warm_up', 'standing_balance', 'standing_balance']);
    const placed = new Set(week?.days.flatMap(({ exercises }) => exercises.map(({ exercise }) => exercise)));
    const left = plan.filter((each) => each.goes_home && !placed.has(each.exercise));
    for (const { name } of left) expect(week?.notes.join('\n')).toContain(`${name} does not fit into 8 minutes a day`);
  });

  test('fewer days than the guidance asks for is said', () => {
    expect(assessed({ more: { planWishes: { days: 2 } } }).week?.notes.join(' ')).toContain('3 or more days a week');
  });
});

describe('the weekly target', () => {
  test('is 3 hours of challenging balance work a week (sherrington-2017-bjsm, best-practice list)', () => {
    const { week } = assessed({});
    expect(week?.target_minutes).toBe(180);
    expect(week?.basis[0]?.source).toBe('sherrington-2017-bjsm-secondary');
    expect(week?.target_met).toBe(false);
  });

  test('time counts where two of three hold: narrow base, whole body moving, little support (evidence-based-exercise-criteria-bmjopen, Table 2)', () => {
    const firm = assessed({ tests: singleLeg(4, 4) });
    // on one leg with a firm hold: one of three
    expect(planned(firm, 'single_leg_standing').counts_as_challenge).toBe(false);
    const light = assessed({ tests: singleLeg(12, 12) });
    expect(planned(light, 'single_leg_standing').counts_as_challenge).toBe(true);
    // strength and stretches never count
    for (const { purpose, counts_as_challenge } of assessed({}).plan)
      if (['strength', 'stretch'].includes(purpose)) expect(counts_as_challenge).toBe(false);
  });

  test('rests do not count as balance work', () => {
    const { week, plan } = assessed({ fields: { 'health.lung_condition': 'copd' } });
    const stance = plan.find(({ exercise }) => exercise === 'single_leg_standing');
    expect(stance?.dose_parts.minutes).toBeGreaterThan(stance?.dose_parts.working_minutes ?? 0);
    const entry = week?.days[0]?.exercises.find(({ exercise }) => exercise === 'single_leg_standing');
    expect(entry?.challenging_minutes).toBe(stance?.dose_parts.working_minutes);
  });
});

describe('what goes home', () => {
  const home = (given: Parameters<typeof assessed>[0]) =>
    assessed(given)
      .plan.filter((each) => each.goes_home)
      .map(({ exercise }) => exercise);

  test('nine by default, one of every purpose at least', () => {
    expect(home({})).toHaveLength(9);
    expect(new Set(purposesOf(assessed({}).plan, home({}))).size).toBe(5);
  });

  test('frail or on home oxygen: a short list', () => {
    expect(home({ fields: { 'health.clinical_frailty_scale': 6 } })).toHaveLength(6);
    expect(home({ fields: { 'health.lung_condition': 'copd', 'health.home_oxygen': 'yes' } })).toHaveLength(6);
  });

  test('a standing exercise takes the place of one that could only be done seated', () => {
    const unable = { outcome: 'unable', reason: 'could not' } as const;
    const ids = home({ tests: { five_times_sit_to_stand: unable, thirty_second_chair_stand: unable } });
    expect(ids).not.toContain('squat');
    expect(ids).toContain('sit_to_stand');
  });

  test('the choice of the professional counts, but never what is held or left out', () => {
    const planWishes = { choose: ['squat', 'toe_raises'], exercises: { squat: { leaveOut: true } } };
    expect(home({ more: { planWishes } })).toEqual(['toe_raises']);
    expect(home({ fields: { 'redflags.chest_pain': 'yes' }, more: { planWishes } })).toEqual([]);
  });
});

describe('an adapted dose', () => {
  test('lung disease: intervals with rest, breathlessness target, pursed lips, each with its source', () => {
    const { adaptations, dose_parts } = planned(assessed({ fields: { 'health.lung_condition': 'copd' } }), 'squat');
    expect(adaptations.map(({ source }) => source)).toEqual([
      'copd-training-site-sets',
      'home-pr-borg-target',
      'pursed-lip-copd',
    ]);
    expect(dose_parts.rest_minutes).toBe(2);
  });

  test('frail: fewer, and said so', () => {
    const { dose_parts, dose: words } = planned(assessed({ fields: { 'health.clinical_frailty_scale': 6 } }), 'squat');
    expect([dose_parts.sets, dose_parts.repetitions]).toEqual([1, [8, 8]]);
    expect(words).toMatch(/^1 set of up to 8 to begin with\. Later: /);
  });

  test('no adaptation ever asks for more than the exercise does', () => {
    for (const adaptation of dose.adaptations)
      expect(Object.keys(adaptation.effect).every((key) => /at_most|rest|most_/.test(key))).toBe(true);
  });
});
