/** A whole result beside its comparisons: notes, blur, tests that were not done, bands of a score. Invented figures. */
import { describe, expect, it } from 'vitest';
import { scoreTest } from '../../src/scoring/score-test.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { cut, definition, error, evidence, walk } from './invented.ts';

describe('a whole result', () => {
  const error1 = error({ sem: 5 });
  const base = evidence({ cutPoints: [cut({})], errors: [error1] });
  const held = { ...base, defaults: { ...base.defaults, tests: { walk: { tables: [], error: [{ id: 'e' }] } } } };
  const result = (reading: Parameters<typeof recorded>[1], test = walk) =>
    scoreTest(recorded('walk', reading), test, {
      evidence: held,
      subject: { client: client(), lungCondition: null },
      applies: () => true,
    });
  const BLUR = 'so wide that nearly every mark lies within it';
  it('says so where the error reaches from zero over every mark', () => {
    // 9 ± 9.8 reaches from 0 to 18.8
    expect(result(9).notes.join()).toContain(BLUR);
    expect(result(10).notes.join()).not.toContain(BLUR);
    expect(result(1).notes.join()).not.toContain(BLUR);
    expect(result(unable).notes.join()).not.toContain(BLUR);
  });
  it('not where one mark lies outside it, nor where there is no mark', () => {
    // 30 is more than 9.8 away from 9
    const far = { ...held, cutPointsByTest: new Map([['walk', [cut({}), cut({ id: 'far', met_when: { at_least: 30 } })]]]) };
    const none = { ...held, cutPointsByTest: new Map() };
    for (const data of [far, none])
      expect(
        scoreTest(recorded('walk', 9), walk, {
          evidence: data,
          subject: { client: client(), lungCondition: null },
          applies: () => true,
        }).notes,
      ).toEqual([]);
  });
  it('has no interval around a watch that was stopped, and nothing is near it', () => {
    const stopped = result(measured(9, { ceiling: 9 }));
    expect(stopped).toMatchObject({ at_least: true, measurement_error: { low: null, high: null } });
    expect(stopped.cut_points[0]?.near).toBeNull();
  });
  it('of a test that was not done carries why, and no mark', () => {
    expect(result({ outcome: 'declined', reason: 'tired', note: 'next time' })).toMatchObject({
      outcome: 'declined',
      value: null,
      no_comparison_because: 'not tested today: the client declined',
      notes: ['next time'],
      reason: 'tired',
      why: null,
      cut_points: [],
      comparisons: [],
      measurement_error: null,
      trials: [],
      derived_from: [],
    });
    expect(result({ outcome: 'unsafe', reason: 'knee', why: 'medical' })).toMatchObject({
      outcome: 'unsafe',
      no_comparison_because: 'not tested today: stopped for another reason than balance',
      notes: [],
      why: 'medical',
      cut_points: [],
    });
    expect(result({ outcome: 'unsafe', reason: 'swayed', why: 'balance' })).toMatchObject({
      outcome: 'unsafe',
      why: 'balance',
      reason: 'swayed',
      value: null,
      cut_points: [{ met: true }],
    });
  });
  it('says what of the way it was done a reader must know', () => {
    expect(result(measured(9, { note: 'a pause' })).notes).toContain('a pause');
    expect(result(measured(9, { aid: 'stick' })).notes.join()).toContain(
      'done with an aid (stick); most tables are of people without one',
    );
    expect(result(measured(9, { aid: 'none' })).notes.join()).not.toContain('aid');
    const walked = definition({ course: true });
    const words = 'the course walked is not recorded; the default table is used';
    expect(result(9, walked).notes).toContain(words);
    expect(result(measured(9, { course: { distanceM: 4 } }), walked).notes).not.toContain(words);
    expect(result(9).notes).not.toContain(words);
    expect(result(unable, walked).notes).not.toContain(words);
  });
  it('names the band of the score, ends included', () => {
    const basis = { status: 'common-practice', note: 'x' };
    const banded = definition({
      bands: [
        { min: 0, max: 9, category: 'low', label: 'low', basis },
        { min: 10, max: 20, category: 'high', label: 'high', basis },
      ],
    });
    expect([0, 9, 9.5, 10, 20, 21].map((value) => result(value, banded).category)).toEqual([
      'low',
      'low',
      null,
      'high',
      'high',
      null,
    ]);
    expect(result(unable, banded).category).toBeNull();
  });
});
