/** Which keys may stand where, what is missing, and what a misspelt one is told. */
import { describe, expect, it } from 'vitest';
import { checkKeys, checkSession, explainList, isMapping, notAMapping, unknownKey, valueAt } from '../../src/intake/shape.ts';
import type { Keys } from '../../src/session-keys.ts';
import { line } from './invented.ts';

const RIGHT = { format: 1, assessed: '2026-05-11', client: { ref: 'M-1', sex: 'female', age: 74 } };

describe('trees', () => {
  it('a mapping is neither a list, a value nor nothing', () => {
    expect([{}, { a: 1 }].map(isMapping)).toEqual([true, true]);
    expect([[], null, undefined, 'a', 1].map(isMapping)).toEqual([false, false, false, false, false]);
  });
  it('what stands at a path; nothing that the file itself does not hold', () => {
    const tree = { a: { b: [1, { c: 2 }] }, n: null };
    expect(valueAt(tree, [])).toBe(tree);
    expect(valueAt(tree, ['a', 'b', 1, 'c'])).toBe(2);
    expect(valueAt(tree, ['n'])).toBeNull();
    expect(valueAt(tree, ['n', 'x'])).toBeUndefined();
    expect(valueAt(tree, ['a', 'x', 'y'])).toBeUndefined();
    expect(valueAt(tree, ['toString'])).toBeUndefined();
    expect(valueAt('text', ['length'])).toBeUndefined();
  });
});

describe('an unknown key', () => {
  it('is told the nearest, or all where they are few', () => {
    expect(line(unknownKey('ade', ['health'], ['aide', 'note'], 1))).toBe(
      'health.ade (key) unknown_key: unknown key `ade` in health; write aide instead',
    );
    expect(line(unknownKey('zzz', [], ['aide', 'note'], 1))).toBe(
      'zzz (key) unknown_key: unknown key `zzz`; write one of aide, note instead',
    );
    const many = (count: number) => Array.from({ length: count }, (_, index) => `long_known_key_${index}`);
    expect(unknownKey('zzz', [], many(16), 1).hint).toContain('write one of long_known_key_0, ');
    expect(unknownKey('zzz', [], many(17), 1).hint).toBe('write one of the known keys instead');
    expect(unknownKey('zzz', ['a', 'b'], ['x'], 1).message).toBe('unknown key `zzz` in a.b');
  });
  it('of digits without a value is what stands behind a decimal comma', () => {
    const comma =
      'tests.8 (key) decimal_comma: `8` looks like the part behind a decimal comma; write the number with a point instead, such as 4.2';
    expect(line(unknownKey('8', ['tests'], ['walk'], null))).toBe(comma);
    expect(line(unknownKey('8', ['tests'], ['walk'], undefined))).toBe(comma);
    expect(unknownKey('80', ['tests'], ['walk'], null).code).toBe('decimal_comma');
    expect(unknownKey('8', ['tests'], ['walk'], 3).code).toBe('unknown_key');
    expect(unknownKey('8x', ['tests'], ['walk'], null).code).toBe('unknown_key');
    expect(unknownKey('x8', ['tests'], ['walk'], null).code).toBe('unknown_key');
  });
});

describe('lists', () => {
  it('every entry that is no number, at its place', () =>
    expect(explainList([1, '2', Number.NaN, null], ['tests', 'walk']).map(line)).toEqual([
      'tests.walk.1 (value) quoted_number: `2` stands in quotes; write 2 without quotes',
      'tests.walk.2 (value) not_a_number: `null` is not a number; write one number for a trial instead',
      'tests.walk.3 (value) not_a_number: `null` is not a number; write one number for a trial instead',
    ]));
});

describe('a table of keys', () => {
  const keys: Keys = {
    name: { leaf: { kind: 'text' }, about: '', required: true },
    count: { leaf: { kind: 'number' }, about: '', required: true },
    steroid: { leaf: { kind: 'steroid' }, about: '' },
    trials: { leaf: { kind: 'numbers' }, about: '' },
    goals: { leaf: { kind: 'texts' }, about: '' },
  };
  const told = (value: unknown) => checkKeys(keys, value, ['top']).map(line);
  const whole = { name: 'a', count: 1 };
  it('what is right is told nothing, and what is empty is as good as absent', () => {
    expect(told(whole)).toEqual([]);
    expect(told({ ...whole, steroid: null, trials: undefined, goals: null })).toEqual([]);
    expect(told({ ...whole, steroid: { daily_mg: 5 }, trials: [1, 2], goals: ['a', 'b'] })).toEqual([]);
    expect(told({ ...whole, steroid: 'no', trials: 1, goals: 'a' })).toEqual([]);
  });
  it('what is missing, with what to write', () => {
    const missing = (name: string, hint: string) => `top.${name} (key) missing_key: \`top.${name}\` is missing; ${hint}`;
    expect(told({})).toEqual([missing('name', 'write name: and a reason'), missing('count', 'write count: and its value')]);
    expect(told({ name: null, count: 1 })).toEqual([missing('name', 'write name: and a reason')]);
  });
  it('values of another kind, each at its place', () => {
    expect(told({ ...whole, count: 'x' })).toEqual([
      'top.count (value) not_a_number: `x` is not a number; write a number such as 12.8 instead',
    ]);
    expect(told({ ...whole, count: true })).toEqual([
      'top.count (value) not_a_number: `true` is not a number; write one number for count instead',
    ]);
    expect(told({ ...whole, count: [1] })[0]).toContain('top.count (value) not_a_number');
    expect(told({ ...whole, steroid: { daily: 5 } })[0]).toContain('top.steroid.daily (key) unknown_key');
    expect(told({ ...whole, steroid: [5] })[0]).toContain('top.steroid (value) not_yes_no');
    expect(told({ ...whole, trials: [1, 'x'] })[0]).toContain('top.trials.1 (value) not_a_number');
    expect(told({ ...whole, trials: [] })[0]).toContain('top.trials (value) bad_test_form');
    expect(told({ ...whole, goals: ['a', 5, ''] })).toEqual([
      'top.goals.1 (value) bad_text: `5` is not a short text; write a few words, in quotes where they contain : or #',
      'top.goals.2 (value) bad_text: `` is not a short text; write a few words, in quotes where they contain : or #',
    ]);
    expect(told({ ...whole, goals: [] })[0]).toContain('top.goals (value) bad_text');
    expect(told({ ...whole, name: ['a'] })[0]).toContain('top.name (value) bad_text');
  });
  it('unknown keys before the rest, and of very many only the first', () => {
    expect(told({ nmae: 1, count: 1 }).map((each) => each.split(':')[0])).toEqual([
      'top.nmae (key) unknown_key',
      'top.name (key) missing_key',
    ]);
    const many = Object.fromEntries(Array.from({ length: 250 }, (_, index) => [`zzzz${index}`, 1]));
    expect(told({ ...whole, ...many })).toHaveLength(200);
  });
  it('what is no mapping', () =>
    expect(told([1])).toEqual([
      'top (value) not_a_mapping: `top` is not made of lines of `key: value`; write one `key: value` a line, set in by two blanks',
    ]));
});

describe('a whole session', () => {
  const told = (tree: unknown) => checkSession(tree).map(line);
  it('that is right is told nothing', () => {
    expect(told(RIGHT)).toEqual([]);
    expect(told({ ...RIGHT, history: null, tests: null, vitals: {}, clearance: 1, risk: 1, plan: 1 })).toEqual([]);
    expect(told({ ...RIGHT, tests: {} })).toEqual([]);
  });
  it('what every session needs, with an example', () => {
    expect(told({})).toEqual([
      'format (key) missing_key: `format` is missing; write format: 1 in the first line',
      'assessed (key) missing_key: `assessed` is missing; write assessed: and the day of the visit as year-month-day',
      'client (key) missing_key: `client` is missing; write client: {ref: M-207, sex: female, age: 74} with your own values',
    ]);
    expect(told({ ...RIGHT, client: null })).toHaveLength(1);
    expect(told({ ...RIGHT, client: { age: 74 } })).toEqual([
      'client.ref (key) missing_key: `client.ref` is missing; write ref: and your own reference for the client',
      'client.sex (key) missing_key: `client.sex` is missing; write sex: female, sex: male or sex: not recorded',
    ]);
  });
  it('groups that are no mappings, and their unknown keys', () => {
    expect(told([])).toEqual([expect.stringContaining('not_a_mapping: a session is not made of lines')]);
    expect(told({ ...RIGHT, client: 5 })).toEqual([
      expect.stringContaining('client (value) not_a_mapping: `client` is not made'),
    ]);
    expect(told({ ...RIGHT, history: [1] })).toEqual([expect.stringContaining('history (value) not_a_mapping')]);
    expect(told({ ...RIGHT, tests: [1] })).toEqual([expect.stringContaining('tests (value) not_a_mapping')]);
    expect(told({ ...RIGHT, health: { osteoporosys: 'no' } })).toEqual([
      'health.osteoporosys (key) unknown_key: unknown key `osteoporosys` in health; write osteoporosis instead',
    ]);
    expect(told({ ...RIGHT, histroy: {} })).toEqual(['histroy (key) unknown_key: unknown key `histroy`; write history instead']);
  });
  it.each([
    'format',
    'assessed',
    'assessor',
    'goals',
    'client',
    'history',
    'health',
    'vitals',
    'redflags',
    'medicines',
    'since_last',
    'clearance',
    'tests',
  ])('the key %s is known', (key) => expect(told({ ...RIGHT, [`${key}x`]: 1 }).join()).toContain(`write ${key} instead`));
  it('a list of nothing is no mapping either', () => expect(line(notAMapping(['a', 'b']))).toContain('`a.b` is not made'));
});
