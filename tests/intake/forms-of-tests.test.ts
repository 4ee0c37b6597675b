/** Every form that a measured result may be written in, and what a wrong one is told, on an invented test. */
import { describe, expect, it } from 'vitest';
import { read, reading, told } from './read-one.ts';

const speed = { course: true, kind: 'speed', unit_text: 'm/s', impossible: { below: 0, above: 5, why: 'No' } } as const;

describe('a number or trials', () => {
  it('as they stand, or in a mapping with what was used', () => {
    expect(reading(12.8)).toEqual({ outcome: 'measured', trials: [12.8] });
    expect(reading([12.8, 12])).toEqual({ outcome: 'measured', trials: [12.8, 12] });
    expect(reading({ value: 12, aid: ' stick ', chair_cm: 43, note: 'slow', ceiling: 30 })).toEqual({
      outcome: 'measured',
      trials: [12],
      ceiling: 30,
      aid: 'stick',
      chairCm: 43,
      note: 'slow',
    });
    expect(reading({ trials: [12, 13], value: null })).toEqual({ outcome: 'measured', trials: [12, 13] });
    expect(reading({ value: 12, aid: null, chair_cm: null })).toEqual({ outcome: 'measured', trials: [12] });
  });
  it('nothing is not recorded', () => {
    expect(read(null)).toEqual({ tests: [], told: [] });
    expect(read(undefined)).toEqual({ tests: [], told: [] });
  });
  it('a value beyond its limits is told where it was written', () => {
    const impossible = (place: string) =>
      `${place} (value) impossible: Walk cannot be 101 s (No); write what was measured, or leave it out`;
    expect(told(101)).toEqual([impossible('tests.walk')]);
    expect(told([12, 101])).toEqual([impossible('tests.walk.1')]);
    expect(told({ value: 101 })).toEqual([impossible('tests.walk.value')]);
    expect(told({ trials: [101] })).toEqual([impossible('tests.walk.trials.0')]);
    expect(told({ trials: 101 })).toEqual([impossible('tests.walk.trials')]);
  });
  it('an entry that is no number is told once, and the others are kept', () => {
    expect(read([12, 'x', 13])).toEqual({
      tests: [{ test: 'walk', side: null, reading: { outcome: 'measured', trials: [12, 13] } }],
      told: ['tests.walk.1 (value) not_a_number: `x` is not a number; write a number such as 12.8 instead'],
    });
    expect(told(['x'])).toHaveLength(1);
    expect(read([]).tests).toEqual([]);
    expect(told([])).toEqual([
      'tests.walk (value) bad_test_form: the list is empty; write the results, such as [4.2, 6.0, 5.1], or leave the line out',
    ]);
    expect(told({ value: 'x' })).toEqual([
      'tests.walk.value (value) not_a_number: `x` is not a number; write a number such as 12.8 instead',
    ]);
  });
  it('exactly one result in a mapping', () => {
    const hint = 'write one of value or trials, or {unable: the reason}';
    expect(told({ aid: 'stick' })).toEqual([`tests.walk (value) bad_test_form: no result in it; ${hint}`]);
    expect(told({ value: 12, trials: [12] })).toEqual([
      `tests.walk (value) bad_test_form: value and trials are given together; ${hint}`,
    ]);
    expect(read({ value: 12, trials: [12] }).tests).toEqual([]);
  });
  it('what is neither', () =>
    expect(told(true)).toEqual([
      'tests.walk (value) bad_test_form: `true` is no result; write a number, a list of trials or {unable: the reason} instead',
    ]));
  it('an unknown key is told, and the result kept', () => {
    const { tests, told: words } = read({ value: 12, aidd: 'stick' });
    expect(tests).toHaveLength(1);
    expect(words).toEqual(['tests.walk.aidd (key) unknown_key: unknown key `aidd` in tests.walk; write aid instead']);
  });
});

describe('a ceiling', () => {
  const refused = (ceiling: number) =>
    `tests.walk.ceiling (value) bad_test_form: Walk has no ceiling of ${ceiling}; write a ceiling above 0 s for timed tests only`;
  it('above 0 s, and for timed tests only', () => {
    expect(told({ value: 0, ceiling: 0 })).toEqual([refused(0)]);
    expect(told({ value: 0, ceiling: 1 })).toEqual([]);
    expect(told({ value: 3, ceiling: 30 }, { kind: 'count' })).toEqual([refused(30)]);
  });
  it('is what the value is held against', () => {
    expect(told({ value: 31, ceiling: 30 })[0]).toContain('above_ceiling: 31 s is beyond the ceiling of 30 s');
    expect(told({ value: 40, ceiling: 45 }, { ceiling: 30 })).toEqual([]);
  });
});

describe('a walk', () => {
  it('as time and distance becomes a speed, to a millionth', () => {
    expect(reading({ time: 3, distance: 2.4, start: 'moving' }, speed)).toEqual({
      outcome: 'measured',
      trials: [0.8],
      course: { distanceM: 2.4, timeS: 3, start: 'moving' },
    });
    expect(reading({ time: 3, distance: 4 }, speed)).toEqual({
      outcome: 'measured',
      trials: [1.333333],
      course: { distanceM: 4, timeS: 3 },
    });
    expect(reading({ time: [5, 4], distance: 4, start: 'standing' }, speed)).toEqual({
      outcome: 'measured',
      trials: [0.8, 1],
      course: { distanceM: 4, start: 'standing' },
    });
  });
  it('as a speed may say over what', () => {
    expect(reading({ value: 0.9 }, speed)).toEqual({ outcome: 'measured', trials: [0.9] });
    expect(reading({ value: 0.9, distance: 6 }, speed)).toMatchObject({ course: { distanceM: 6 } });
    expect(reading({ value: 0.9, start: 'standing' }, speed)).toMatchObject({ course: { start: 'standing' } });
  });
  it('is told what is missing or cannot be', () => {
    expect(told({ time: 4 }, speed)).toEqual([
      'tests.walk.time (key) bad_test_form: a time without the distance walked; write {time: 4.6, distance: 4, start: standing} with your own numbers',
    ]);
    const above =
      'tests.walk (value) bad_test_form: time and distance of a walk are above 0; write seconds and metres, or {unable: the reason} instead';
    for (const wrong of [
      { time: 0, distance: 4 },
      { time: [4, 0], distance: 4 },
      { time: -4, distance: 4 },
      { time: 4, distance: 0 },
      { time: 4, distance: -4 },
    ]) {
      expect(told(wrong, speed)).toEqual([above]);
      expect(read(wrong, speed).tests).toEqual([]);
    }
    expect(told({ value: 0.9, distance: 0 }, speed)).toEqual([
      'tests.walk.distance (value) bad_test_form: the distance of a walk is above 0; write metres',
    ]);
    expect(told({ value: 0.9, distance: 0.5 }, speed)).toEqual([]);
  });
  it('what is no number has been told already, and nothing more', () => {
    expect(told({ time: 'x', distance: 4 }, speed)).toEqual([
      'tests.walk.time (value) not_a_number: `x` is not a number; write a number such as 12.8 instead',
    ]);
    expect(told({ time: 4, distance: 'x' }, speed)).toEqual([
      'tests.walk.distance (value) not_a_number: `x` is not a number; write a number such as 12.8 instead',
    ]);
    expect(told({ value: 0.9, start: 'running' }, speed)).toHaveLength(1);
    expect(reading({ time: [4], distance: 4 }, speed)).toMatchObject({ course: { distanceM: 4, timeS: 4 } });
  });
  it('a speed that cannot be is told at the time', () =>
    expect(told({ time: [4, 0.5], distance: 4 }, speed)).toEqual([
      'tests.walk.time (value) impossible: Walk cannot be 8 m/s (No); write what was measured, or leave it out',
    ]));
  it('time and distance are keys of walks only', () => {
    const words = told({ time: 4, distance: 4 });
    expect(words.join()).toContain('unknown key `time`');
    expect(words.join()).toContain('no result in it');
    expect(told({ value: 4, distance: 4 }).join()).toContain('unknown key `distance`');
  });
});

describe('sides', () => {
  const sided = { sided: true } as const;
  it('each its own, right first; keys beside them hold for both', () => {
    expect(read({ left: 9, right: { trials: [8, 7], ceiling: 45 }, ceiling: 30, aid: 'rail' }, sided)).toEqual({
      tests: [
        { test: 'walk', side: 'right', reading: { outcome: 'measured', trials: [8, 7], ceiling: 45, aid: 'rail' } },
        { test: 'walk', side: 'left', reading: { outcome: 'measured', trials: [9], ceiling: 30, aid: 'rail' } },
      ],
      told: [],
    });
    expect(read({ right: [8, 7], aid: 'rail' }, sided).tests).toEqual([
      { test: 'walk', side: 'right', reading: { outcome: 'measured', trials: [8, 7], aid: 'rail' } },
    ]);
    expect(read({ left: { unable: 'sore' }, right: null }, sided).tests).toEqual([
      { test: 'walk', side: 'left', reading: { outcome: 'unable', reason: 'sore' } },
    ]);
  });
  it('what is wrong on a side is told there', () => {
    expect(told({ left: 101, right: 12 }, sided)).toEqual([
      'tests.walk.left (value) impossible: Walk cannot be 101 s (No); write what was measured, or leave it out',
    ]);
    expect(told({ left: [12, 101] }, sided)[0]).toMatch(/^tests\.walk\.left\.1 /);
  });
  it('what is wrong beside them is told once, and not used', () => {
    const { tests, told: words } = read({ left: 12, right: 13, ceiling: 'x', value: 5, aidd: 'rail' }, sided);
    expect(words).toEqual([
      expect.stringMatching(/^tests\.walk\.value \(key\) unknown_key: unknown key `value` in tests\.walk; /),
      'tests.walk.aidd (key) unknown_key: unknown key `aidd` in tests.walk; write aid instead',
      'tests.walk.ceiling (value) not_a_number: `x` is not a number; write a number such as 12.8 instead',
    ]);
    expect(words[0]).toContain('right, left, ceiling, aid, chair_cm, note');
    expect(tests.map((each) => each.reading)).toEqual([
      { outcome: 'measured', trials: [13] },
      { outcome: 'measured', trials: [12] },
    ]);
  });
  it('of a test that has none', () => {
    const { tests, told: words } = read({ left: 12, right: 13 });
    expect(tests).toEqual([]);
    expect(words).toEqual(['tests.walk (value) not_sided: Walk has no sides; write one number or a list of trials instead']);
  });
});
