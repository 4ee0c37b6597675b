/** Up, stay or down between two visits. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlannedExercise } from '../../src/assessment.ts';
import { NOTHING_RECORDED, type Progress, progressBetween, type Since } from '../../src/plan/progress.ts';
import { testEvidence } from '../support/evidence.ts';
import { assessed, singleLeg } from './base-client.ts';
import { randomClient } from './random-client.ts';

const rules = testEvidence().dose.between_visits;
const WELL: Since = { falls: 0, exacerbation: 'no', adverse_events: 0, sessions_done: 20 };
const weak = () => assessed({ tests: singleLeg(4, 4) }).plan;
const strong = () => assessed({}).plan;

const stance = (before: readonly PlannedExercise[], after: readonly PlannedExercise[], since: Since): Progress => {
  const found = progressBetween({ before, after, since, rules }).find(({ exercise }) => exercise === 'single_leg_standing');
  if (found === undefined) throw new Error('missing');
  return found;
};

describe('between two visits', () => {
  test('better results: one rung up, not more, with the rule that goes before', () => {
    const found = stance(weak(), strong(), WELL);
    expect(found).toMatchObject({ move: 'up', from: 2, to: 3 });
    expect(found.because.join(' ')).toContain('one change at a time');
    expect(found.rule).toContain('Hold 30 seconds on two of three tries');
  });

  test('worse results: down to what they allow', () => {
    const found = stance(strong(), weak(), WELL);
    expect(found).toMatchObject({ move: 'down', to: 2 });
  });

  test('the same results: stay, and how to move up', () =>
    expect(stance(weak(), weak(), WELL)).toMatchObject({ move: 'stay', from: 2, to: 2 }));

  test.each<[string, Partial<Since>]>([
    ['a fall', { falls: 1 }],
    ['a flare-up', { exacerbation: 'yes' }],
    ['an unwanted event', { adverse_events: 1 }],
  ])('%s takes a level away, whatever the results', (what, happened) => {
    const found = stance(weak(), strong(), { ...WELL, ...happened });
    expect(found).toMatchObject({ move: 'down', from: 2, to: 1 });
    expect(found.because.join(' ')).toContain(what);
  });

  test.each<[string, Partial<Since>]>([
    ['falls', { falls: null }],
    ['sessions done', { sessions_done: null }],
  ])('%s not recorded: nothing moves up', (what, unknown) => {
    const found = stance(weak(), strong(), { ...WELL, ...unknown });
    expect(found.move).toBe('stay');
    expect(found.because.join(' ')).toContain(`${what} since the last visit not recorded`);
  });

  test('too few sessions: stay', () => expect(stance(weak(), strong(), { ...WELL, sessions_done: 2 }).move).toBe('stay'));

  test('held now, and begun again after a hold', () => {
    const held = assessed({ fields: { 'redflags.chest_pain': 'yes' } }).plan;
    expect(stance(weak(), held, WELL)).toMatchObject({ move: 'hold', to: 0 });
    expect(stance(held, weak(), WELL)).toMatchObject({ move: 'resume', to: 2 });
  });

  test('a level set by the professional is taken as set', () => {
    const set = assessed({
      tests: singleLeg(4, 4),
      more: { planWishes: { exercises: { single_leg_standing: { level: 4 } } } },
    }).plan;
    expect(stance(weak(), set, NOTHING_RECORDED)).toMatchObject({
      move: 'up',
      to: 4,
      because: ['set by the professional', expect.stringContaining('higher')],
    });
  });

  test('never beyond the new plan, never more than one rung up, never up after a setback or on a missing answer', () => {
    const since: fc.Arbitrary<Since> = fc.record({
      falls: fc.constantFrom(0, 0, 0, 1, null),
      exacerbation: fc.constantFrom('no', 'no', 'yes', 'unknown', null),
      adverse_events: fc.constantFrom(0, 0, 1, null),
      sessions_done: fc.constantFrom(3, 12, 30, null),
    });
    fc.assert(
      fc.property(randomClient, randomClient, since, (one, other, happened) => {
        const [before, after] = [assessed(one).plan, assessed(other).plan];
        for (const each of progressBetween({ before, after, since: happened, rules })) {
          const allowed = after.find(({ exercise }) => exercise === each.exercise)?.start.level ?? 0;
          expect(each.to).toBeLessThanOrEqual(allowed);
          if (each.move !== 'up') continue;
          expect(each.to).toBe(each.from + 1);
          expect([happened.falls, happened.adverse_events ?? 0, happened.exacerbation === 'yes']).toEqual([0, 0, false]);
          expect(happened.sessions_done).not.toBeNull();
        }
      }),
      { numRuns: 40 },
    );
  });
});
