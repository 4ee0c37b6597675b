/** Without any test result an exercise starts with the most support, never at the top of its ladder. */
import { describe, expect, it } from 'vitest';
import type { Facts } from '../../src/evidence/condition.ts';
import type { Exercise } from '../../src/evidence/schema/exercise.ts';
import { startRung } from '../../src/plan/start.ts';
import { testEvidence } from '../support/evidence.ts';

const nothing: Facts = { field: () => undefined, test: () => undefined };
const start = (exercise: Exercise) => startRung(exercise, nothing, (id) => id);
const { exercises } = testEvidence();

/** As if none of its tests were required. */
const optional = (exercise: Exercise, also: Exercise['start']['also'] = []): Exercise => ({
  ...exercise,
  start: { ...exercise.start, by_test: exercise.start.by_test.map((rule) => ({ ...rule, required: false })), also },
});

describe.each(exercises.map((exercise) => [exercise.id, exercise] as const))('%s where no test applies', (_, exercise) => {
  it('starts at rung 1 at most, with a reason, as written and with every test made optional', () => {
    for (const given of [exercise, optional(exercise)]) {
      expect(start(given).rung).toBeLessThanOrEqual(1);
      expect(start(given).because).not.toEqual([]);
    }
    expect(start(optional(exercise))).toEqual({
      rung: 1,
      because: ['no test that the start goes by was recorded: start with the most support'],
    });
  });

  it('a condition can lower it and cannot raise it', () => {
    const condition = (rung: number) => ({ when: { field: 'x.y', recorded: false }, rung, because: `rung ${rung} at most` });
    expect(start(optional(exercise, [condition(0)]))).toEqual({ rung: 0, because: ['rung 0 at most'] });
    expect(start(optional(exercise, [condition(1)]))).toEqual({ rung: 1, because: ['rung 1 at most'] });
    expect(start(optional(exercise, [condition(4)])).rung).toBe(1);
  });
});
