/** The rung after the one in use, and why a client does not go there alone. */
import { describe, expect, it } from 'vitest';
import { barsBeyondHandsFree, isBeyondHandsFree, nextRung } from '../../src/plan/next.ts';
import { testEvidence } from '../support/evidence.ts';
import { applied, exercise, facts, rung } from './invented.ts';

const ladder = [
  rung({ name: 'One', support: 'one_hand_firm' }),
  rung({ name: 'Two', support: 'hands_free' }),
  rung({ name: 'Three', support: 'hands_ready' }),
  rung({ name: 'Four', support: 'hands_free', self_progress: false }),
];
const next = (level: number, over: Partial<Parameters<typeof nextRung>[0]> = {}) =>
  nextRung({ exercise: exercise({ ladder }), level, caps: [], supervision: 'on_own', bars: [], ...over });

describe('beyond hands free', () => {
  it('are the rungs after the first with free hands, whatever their own support', () => {
    const given = exercise({ ladder });
    expect([0, 1, 2, 3, 4].map((level) => isBeyondHandsFree(given, level))).toEqual([false, false, false, true, true]);
  });
  it('starts at the second rung where the first has free hands already', () => {
    const given = exercise({ ladder: [rung({ support: 'hands_free' }), rung()] });
    expect([1, 2].map((level) => isBeyondHandsFree(given, level))).toEqual([false, true]);
  });
  it('is nothing on a ladder that never frees the hands', () => {
    const given = exercise({ ladder: [rung(), rung({ support: 'fingertip' })] });
    expect([1, 2, 3].map((level) => isBeyondHandsFree(given, level))).toEqual([false, false, false]);
  });
});

describe('the next rung', () => {
  it('is one up, by the client alone where nothing speaks against it', () =>
    expect(next(1)).toEqual({ level: 2, name: 'Two', by: 'client', because: null }));
  it('is none at the top', () => expect(next(4)).toBeNull());
  it('is none where any cap closes it, and none is jumped', () => {
    const open = applied({ effect: { least_support: 'hands_free' } });
    expect(next(1, { caps: [open, applied({ effect: { least_support: 'fingertip' } })] })).toBeNull();
    expect(next(1, { caps: [open] })?.level).toBe(2);
  });
  it.each([
    ['supervision one to one', 1, { supervision: 'professional' as const }, 'supervised one to one first'],
    ['the first try in standing', 0, {}, 'the first try in standing'],
    ['a rung that nobody tries first alone', 3, {}, 'a rung that nobody tries first alone'],
    ['a bar, beyond hands free', 2, { bars: ['frail', 'other'] }, 'frail'],
  ])('%s: with the professional, and why', (_, level, over, because) =>
    expect(next(level, over)).toMatchObject({ level: level + 1, by: 'professional', because }),
  );
  it('a bar says nothing up to hands free; somebody beside is no bar', () => {
    expect(next(1, { bars: ['frail'] })).toMatchObject({ by: 'client', because: null });
    expect(next(2, { supervision: 'someone_beside' })).toMatchObject({ by: 'client', because: null });
  });
});

describe('bars', () => {
  const bar = (id: string, when_unknown: 'apply' | 'ignore') => ({
    id,
    when: { field: 'it', is: 'yes' },
    when_unknown,
    reason: id,
    basis: exercise().ladder_basis,
  });
  const rules = { ...testEvidence().dose, not_beyond_hands_free_alone: [bar('ignores', 'ignore'), bar('applies', 'apply')] };
  it('hold where their condition does; a missing answer bars only where the rule says so', () => {
    expect(barsBeyondHandsFree(rules, facts({ it: 'yes' }))).toEqual(['ignores', 'applies']);
    expect(barsBeyondHandsFree(rules, facts({}))).toEqual(['applies']);
    expect(barsBeyondHandsFree(rules, facts({ it: 'no' }))).toEqual([]);
  });
});
