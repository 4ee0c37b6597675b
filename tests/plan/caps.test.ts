/** One cap at a time: when it is in force, what it concerns, which rungs it closes, and how it is worded. */
import { describe, expect, it } from 'vitest';
import { allows, appliedCaps, capInWords, concerns, featuresOf, strictestSupervision } from '../../src/plan/caps.ts';
import { applied, cap, exercise, facts, rung } from './invented.ts';

describe('in force', () => {
  const caps = [cap({ id: 'ignores' }), cap({ id: 'applies', when_unknown: 'apply' })];
  const found = (fields: Parameters<typeof facts>[0]) =>
    appliedCaps(caps, facts(fields)).map(({ cap: { id }, becauseUnknown }) => [id, becauseUnknown]);

  it('where its condition holds, in the order of the file', () =>
    expect(found({ it: 'yes' })).toEqual([
      ['ignores', false],
      ['applies', false],
    ]));
  it('not where the answer is no', () => expect(found({ it: 'no' })).toEqual([]));
  it('where the answer is missing only if it says so, and then marked as such', () => {
    expect(found({})).toEqual([['applies', true]]);
    expect(found({ it: 'unknown' })).toEqual([['applies', true]]);
  });
});

describe('concerns', () => {
  const squat = exercise({ id: 'squat', purpose: 'strength' });
  it.each([
    ['every exercise where it names none', {}, true],
    ['an exercise it names', { exercises: ['squat', 'other'] }, true],
    ['no exercise it does not name', { exercises: ['other'] }, false],
    ['a purpose it names', { purposes: ['strength' as const] }, true],
    ['no purpose it does not name', { purposes: ['stretch' as const] }, false],
    ['only what fits both of its lists', { exercises: ['squat'], purposes: ['stretch' as const] }, false],
    ['only what fits both of its lists', { exercises: ['other'], purposes: ['strength' as const] }, false],
  ])('%s', (_, given, expected) => expect(concerns(cap(given), squat)).toBe(expected));
});

describe('features of a rung', () => {
  it.each([
    [{}, []],
    [{ features: ['loaded' as const] }, ['loaded']],
    [{ surface: 'foam' as const }, ['foam']],
    [{ surface: 'chair' as const }, []],
    [{ vision: 'eyes_closed' as const }, ['eyes_closed']],
    [{ head: 'turning' as const }, ['head_turns']],
    [{ task: 'counting backwards' }, ['second_task']],
  ])('%j has %j, written or implied', (given, expected) => expect([...featuresOf(rung(given))]).toEqual(expected));
});

describe('closes', () => {
  const light = { effect: { least_support: 'light_touch' as const } };
  it.each([
    ['nothing without an effect', {}, rung({ support: 'hands_free' }), true],
    ['every rung where it holds', { effect: { hold: true } }, rung(), false],
    ['every rung where it seats', { effect: { seated: true } }, rung(), false],
    ['not the support it asks for', light, rung({ support: 'light_touch' }), true],
    ['not more support than it asks for', light, rung({ support: 'one_hand_firm' }), true],
    ['less support than it asks for', light, rung({ support: 'fingertip' }), false],
    ['a feature it forbids', { effect: { forbid: ['loaded', 'foam'] } }, rung({ features: ['fast', 'foam'] }), false],
    ['no feature it does not forbid', { effect: { forbid: ['loaded'] } }, rung({ features: ['fast', 'foam'] }), true],
    ['a feature that the rung only implies', { effect: { forbid: ['second_task'] } }, rung({ task: 'a ball' }), false],
  ] as const)('%s', (_, given, step, open) => expect(allows(cap(given as Parameters<typeof cap>[0]), step)).toBe(open));
});

describe('in words', () => {
  it('the reason, and what would lift it in the same sentence', () => {
    expect(capInWords(applied({}))).toBe('It is so');
    expect(capInWords(applied({ lifts: 'Lifts when it is over' }))).toBe('It is so; lifts when it is over');
  });
  it('a missing answer is said to be missing, in the words of the cap where it has some', () => {
    expect(capInWords(applied({}, true))).toBe('It is so (not recorded, so taken as possible)');
    expect(capInWords(applied({ reason_unknown: 'It may be so', lifts: 'Lifts when asked' }, true))).toBe(
      'It may be so; lifts when asked',
    );
    expect(capInWords(applied({ reason_unknown: 'It may be so' }))).toBe('It is so');
  });
});

describe('supervision', () => {
  it('is the strictest that is asked for; on their own where nothing is', () => {
    expect(strictestSupervision([])).toBe('on_own');
    expect(strictestSupervision(['on_own', 'someone_nearby'])).toBe('someone_nearby');
    expect(strictestSupervision(['someone_beside', 'someone_nearby'])).toBe('someone_beside');
    expect(strictestSupervision(['someone_beside', 'professional', 'on_own'])).toBe('professional');
  });
});
