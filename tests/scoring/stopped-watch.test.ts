/** A watch stopped early, and values between two printed decimals, must not be judged beyond what is known. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { measured, recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const STANCE = 'single_leg_stance_eyes_open';
const comparisonsOf = (time: number, ceiling?: number) =>
  assess(
    session([recorded(STANCE, measured(time, ceiling === undefined ? {} : { ceiling }), 'right')], {}, { age: 78 }),
    evidence,
  ).tests[0]?.comparisons ?? [];

describe('against the mean', () => {
  it('a hold stopped at 10 s is not worse than a mean of 17 s: it may have gone on', () => {
    expect(comparisonsOf(10).map(({ against_mean }) => against_mean)).toContain('worse');
    expect(comparisonsOf(10, 10).map(({ against_mean }) => against_mean)).not.toContain('worse');
  });
  it('a hold stopped beyond the mean is not worse, whatever came after', () => {
    const compared = comparisonsOf(30, 30).filter(({ expected }) => expected !== null && expected < 30);
    expect(compared.length).toBeGreaterThan(0);
    expect(compared.every(({ against_mean }) => against_mean === 'not_worse')).toBe(true);
  });
  it('a walk stopped at 9 s is not "not worse" than a limit of 9 s', () => {
    const walk = recorded('timed_up_and_go', measured(9, { ceiling: 9 }));
    const [result] = assess(session([walk], {}, { age: 62, sex: 'male' }), evidence).tests;
    expect(result?.comparisons.map(({ against_mean }) => against_mean)).not.toContain('not_worse');
  });
});

describe('the mark of 0.8 m/s', () => {
  it('is judged on the speed that is shown, by the cut-point and by the pathway alike', () => {
    // 4 m in 4.29 s and in 5.99 s: 0.80010 m/s on average, shown as 0.8
    const walk = recorded('gait_speed_usual', measured([4 / 4.29, 4 / 5.99], { course: { distanceM: 4 } }));
    const assessment = assess(session([walk], { 'history.feels_unsteady': 'yes' }), evidence);
    const [result] = assessment.tests;
    expect(result?.value).toBe(0.8);
    expect(result?.cut_points.find(({ id }) => id === 'gait_speed_usual_world_guidelines')?.met).toBe(true);
    expect(assessment.risk.steps.find(({ id }) => id === 'gait_balance')?.answer).toBe('yes');
  });
});

describe('women in residential care', () => {
  it('a slow walk is not "above" for being usual in institutions', () => {
    const visit = session([recorded('timed_up_and_go', 20)], {}, { age: 68, setting: 'residential_care' });
    const comparisons = assess(visit, evidence).tests[0]?.comparisons ?? [];
    expect(comparisons.find(({ primary }) => primary)).toMatchObject({ percentile: null, standing: null });
  });
  it('a comparison with people of no stated age says so', () => {
    const comparisons = assess(session([recorded('functional_reach', 25)]), evidence).tests[0]?.comparisons ?? [];
    expect(comparisons.find(({ source }) => source === 'newton-2001')?.mismatches).toContain('the source states no age limits');
  });
});

describe('grip of both hands', () => {
  it('one hand becoming the stronger does not look worse for it', () => {
    const percentiles = [39.9, 40, 40.1].map((right) => {
      const hands = [recorded('grip_strength', measured(right), 'right'), recorded('grip_strength', measured(40), 'left')];
      const [result] = assess(session(hands, {}, { age: 65, sex: 'male' }), evidence).tests;
      return result?.comparisons.find(({ primary }) => primary)?.percentile ?? -1;
    });
    expect([...percentiles].sort((a, b) => a - b)).toEqual(percentiles);
  });
});
