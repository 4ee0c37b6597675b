/** What the second implementation (tests/independent) found in this one: binary dust, stopped watches, marks on the edge of an interval. */
import { describe, expect, it } from 'vitest';
import { assess, loadEvidence, type TestResult } from '../../src/index.ts';
import { valueByRule } from '../../src/scoring/trials.ts';
import { measured, recorded, session } from '../support/client.ts';

const evidence = loadEvidence();
type Visit = Parameters<typeof session>[0];
const visit = (tests: Visit) => assess(session(tests), evidence);
const resultOf = (tests: Visit, id: string): TestResult | undefined => visit(tests).tests.find((each) => each.test === id);

describe('a mean of trials', () => {
  it('that is exactly a mark is on it, whatever the binary sum', () => {
    expect((0.54 + 1.15 + 0.8) / 3).not.toBe(0.83);
    expect(valueByRule([0.54, 1.15, 0.8], 'mean', 'higher').value).toBe(0.83);
    expect(valueByRule([27, 25.7, 13.6], 'mean', 'higher').value).toBe(22.1);
  });
});

describe('a mark on the shown end of the measurement error', () => {
  it('lies inside it', () => {
    // 13.47 - 1.96 x 0.75 = 12.00
    const result = resultOf([recorded('timed_up_and_go', 13.47)], 'timed_up_and_go');
    expect(result?.measurement_error?.low).toBe(12);
    expect(result?.cut_points.find((cut) => cut.id === 'timed_up_and_go_cdc')?.near).toBe(true);
  });
});

describe('a watch stopped at the usual ceiling', () => {
  it('is not worse than the mean of a table with a longer one', () => {
    const result = resultOf([recorded('tandem_stance', 10)], 'tandem_stance');
    const longer = result?.comparisons.filter((each) => each.expected !== null && each.expected > 10) ?? [];
    expect(longer.length).toBeGreaterThan(0);
    for (const each of longer) expect(each.against_mean).toBeNull();
  });
});

describe('results worked out from a stance that was stopped early', () => {
  const first = [recorded('side_by_side_stance', 10), recorded('semi_tandem_stance', 10), recorded('tandem_stance', 10)];
  const leg = (right: number, left: number, ceiling?: number) => [
    recorded('single_leg_stance_eyes_open', measured(right, ceiling === undefined ? {} : { ceiling }), 'right'),
    recorded('single_leg_stance_eyes_open', left, 'left'),
  ];
  it('a hold stopped under 10 s is not a stage that was missed', () => {
    expect(resultOf([...first, ...leg(5, 12, 5)], 'four_stage_balance')).toBeUndefined();
    expect(visit([...first, ...leg(5, 12, 5)]).notes.join(' ')).toContain('stopped too early to tell');
    expect(resultOf([...first, ...leg(5, 12)], 'four_stage_balance')?.value).toBe(3);
  });
  it('the other leg, timed to its end under 10 s, decides', () => {
    expect(resultOf([...first, ...leg(5, 7, 5)], 'four_stage_balance')?.value).toBe(3);
    expect(resultOf([...first, ...leg(5, 5, 5)], 'four_stage_balance')?.value).toBe(3);
  });
  it('gives no points to the battery either', () => {
    const rest = [recorded('gait_speed_usual', 1), recorded('five_times_sit_to_stand', 10)];
    const stopped = [recorded('side_by_side_stance', 10), recorded('semi_tandem_stance', 10)];
    const tandem = recorded('tandem_stance', measured(5, { ceiling: 5 }));
    expect(resultOf([...stopped, tandem, ...rest], 'short_physical_performance_battery')).toBeUndefined();
    expect(resultOf([...first, ...rest], 'short_physical_performance_battery')?.value).toBe(12);
  });
});

describe('the start of an exercise', () => {
  it('does not take a stopped time for one under a mark', () => {
    const levelOf = (ceiling?: number) => {
      const time = measured([20, 12, 8], ceiling === undefined ? {} : { ceiling });
      const tests = [
        recorded('timed_up_and_go', time),
        ...['right', 'left'].map((side) => leg30(side === 'right' ? 'right' : 'left')),
      ];
      return (
        visit(tests)
          .plan.find((each) => each.exercise === 'side_stepping')
          ?.because.join(' ') ?? ''
      );
    };
    const leg30 = (side: 'right' | 'left') => recorded('single_leg_stance_eyes_open', 30, side);
    expect(levelOf()).toContain('14 s or less');
    expect(levelOf(20)).not.toContain('14 s or less');
  });
});
