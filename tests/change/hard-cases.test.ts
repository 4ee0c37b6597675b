/** Ceilings, other protocols, birthdays, missing tests, several visits, extreme first values, practice. */
import { describe, expect, it } from 'vitest';
import { theilSenSlope, trendOf } from '../../src/change/trend.ts';
import { NotComparable } from '../../src/change-visits.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { change, FIRST, LATER, only, twice, visit } from './support.ts';

const LEG = 'single_leg_stance_eyes_open';
const leg = (value: number, ceiling = 30) => measured(value, { ceiling });

describe('ceilings', () => {
  it('30 s to 30 s says only that the test is too easy', () => {
    const found = twice(LEG, leg(30), leg(30), { side: 'left' });
    expect(found).toMatchObject({ verdict: 'cannot_tell', real: 'unknown', change_bound: 'unknown', matters: 'unknown' });
    expect(found.because).toContain('stopped at its ceiling at both visits');
    expect([found.before_result.at_least, found.after_result.at_least]).toEqual([true, true]);
  });

  it('a change that a stopped watch leaves open is a bound', () => {
    expect(twice(LEG, leg(12), leg(30), { side: 'left' })).toMatchObject({
      change: 18,
      change_bound: 'at_least',
      verdict: 'cannot_tell',
    });
    expect(twice(LEG, leg(30), leg(12), { side: 'left' })).toMatchObject({
      change: -18,
      change_bound: 'at_most',
      verdict: 'cannot_tell',
    });
    expect(twice(LEG, leg(2), leg(30), { side: 'left' })).toMatchObject({
      change: 28,
      change_bound: 'at_least',
      verdict: 'improved',
    });
    expect(twice(LEG, leg(30), leg(2), { side: 'left' })).toMatchObject({ verdict: 'worsened' });
    // Stopped at 30 s before, held on to 41 s of 45 now: how much was possible before is not known.
    expect(twice(LEG, leg(30), leg(41, 45), { side: 'left' })).toMatchObject({ verdict: 'cannot_tell', change_bound: 'at_most' });
  });

  it('an error larger than any room of the scale cannot tell', () => {
    // 10 s to 12 s of 30: 20 s upwards, 12 s downwards, error 24.1 s.
    const found = twice(LEG, leg(10), leg(12), { side: 'left' });
    expect(found).toMatchObject({ verdict: 'cannot_tell', real: 'unknown' });
    expect(found.because).toContain('larger than any change the scale leaves room for');
    expect(twice(LEG, leg(2), leg(4), { side: 'left' })).toMatchObject({ verdict: 'within_error' });
  });
});

describe('not comparable, and why', () => {
  const TUG = 'timed_up_and_go';
  it('another aid', () => {
    const found = twice(TUG, measured(20, { aid: 'Stick' }), 12);
    expect(found).toMatchObject({ verdict: 'cannot_tell', real: 'unknown', matters: 'unknown', disputed: false });
    expect(found.because).toBe('not comparable: done with another aid (stick before, none now)');
    expect(twice(TUG, measured(20, { aid: 'stick' }), measured(12, { aid: 'stick' }))).toMatchObject({ verdict: 'improved' });
    expect(twice(TUG, measured(20, { aid: 'none' }), 12)).toMatchObject({ verdict: 'improved' });
  });

  it('another chair', () => {
    const found = twice('five_times_sit_to_stand', measured(20, { chairCm: 43 }), measured(12, { chairCm: 48 }));
    expect(found.because).toBe('not comparable: done from another chair (seat 43 cm before, 48 cm now)');
    expect(found.verdict).toBe('cannot_tell');
  });

  it('another course', () => {
    const walk = (distanceM: number) => measured(0.9, { course: { distanceM, start: 'standing' } });
    const found = twice('gait_speed_usual', walk(4), walk(10));
    expect(found.because).toBe('not comparable: walked over 4 m before and 10 m now');
    expect(found.verdict).toBe('cannot_tell');
  });

  it('another aid in a part of a total', () => {
    const tests = (speed: number, aid?: string) => [
      recorded(
        'gait_speed_usual',
        measured(speed, { course: { distanceM: 4, start: 'standing' }, ...(aid === undefined ? {} : { aid }) }),
      ),
      recorded('five_times_sit_to_stand', 12),
      ...['tandem_stance', 'semi_tandem_stance', 'side_by_side_stance'].map((test) => recorded(test, 10)),
    ];
    const battery = (aid?: string) =>
      only(change([visit(FIRST, tests(0.4)), visit(LATER, tests(0.9, aid))]), 'short_physical_performance_battery');
    expect(battery().because).not.toContain('not comparable');
    expect(battery('stick').because).toBe('not comparable: done with another aid (none before, stick now)');
  });

  it('sides and a test without a side are never mixed', () => {
    const found = change([visit(FIRST, [recorded(LEG, leg(5), 'right')]), visit(LATER, [recorded(LEG, leg(29), 'left')])]);
    expect(found.tests.filter((test) => test.test === LEG).map((test) => [test.side, test.verdict, test.change])).toEqual([
      ['right', 'cannot_tell', null],
      ['left', 'cannot_tell', null],
    ]);
  });

  it('visits of two clients, or one visit, are refused', () => {
    expect(() => change([visit(FIRST, [], {}, { ref: 'A' }), visit(LATER, [], {}, { ref: 'B' })])).toThrow(NotComparable);
    expect(() => change([visit(FIRST, [])])).toThrow(NotComparable);
  });
});

describe('missing tests', () => {
  it('are listed, and say which visit lacks them', () => {
    const found = change([visit(FIRST, [recorded('timed_up_and_go', 12)]), visit(LATER, [recorded('berg_balance', 50)])]);
    expect(only(found, 'timed_up_and_go')).toMatchObject({ verdict: 'cannot_tell', direction: null, after: null });
    expect(only(found, 'timed_up_and_go').because).toBe('not recorded at the last visit, so nothing can be compared');
    expect(only(found, 'berg_balance').because).toBe('not recorded at the first visit, so nothing can be compared');
  });

  it('declined is not unable', () => {
    const found = twice('timed_up_and_go', 12, { outcome: 'declined', reason: 'tired' });
    expect(found).toMatchObject({ verdict: 'cannot_tell', review: null });
    expect(found.because).toContain('declined at the last visit');
  });

  it('no published error: cannot tell, never "no change"', () => {
    expect(twice('tandem_stance', 3, 9)).toMatchObject({ verdict: 'cannot_tell', real: 'unknown', mdc95: null });
    expect(twice('falls_efficacy_short', 10, 20)).toMatchObject({ verdict: 'cannot_tell', mdc95: null });
  });
});

describe('birthdays', () => {
  it('a new age band moves the standing while the performance stays: both are shown', () => {
    const test = [recorded('timed_up_and_go', 10.9)];
    const found = change([visit(FIRST, test, {}, { age: 75 }), visit(LATER, test, {}, { age: 76 })]);
    const tug = only(found, 'timed_up_and_go');
    expect(tug).toMatchObject({ change: 0, verdict: 'within_error', because: 'the same result at both visits' });
    expect(tug.before_result.band).toMatchObject({ age_min: 71, age_max: 75 });
    expect(tug.after_result.band).toMatchObject({ age_min: 76, age_max: 80 });
    expect(tug.before_result.percentile).not.toBe(tug.after_result.percentile);
    expect(tug.notes.join()).toContain('partly the birthday');
  });
});

describe('more than two visits', () => {
  const dates = ['2026-01-05', '2026-02-02', '2026-03-02', '2026-04-06'];
  const times = [18, 15, 10, 12.5];
  const inOrder = () => change(dates.map((date, index) => visit(date, [recorded('timed_up_and_go', times[index] ?? 0)])));

  it('first against last, the one before and the best', () => {
    const tug = only(inOrder(), 'timed_up_and_go');
    expect([tug.from, tug.to, tug.before, tug.after, tug.verdict]).toEqual(['2026-01-05', '2026-04-06', 18, 12.5, 'improved']);
    expect(tug.since_previous).toMatchObject({ from: '2026-03-02', change: 2.5, direction: 'worse' });
    expect(tug.against_best).toMatchObject({ from: '2026-03-02', before: 10 });
    expect(tug.series.map((result) => result.value)).toEqual(times);
  });

  it('order of the files makes no difference', () => {
    const shuffled = [2, 0, 3, 1].map((index) => visit(dates[index] ?? '', [recorded('timed_up_and_go', times[index] ?? 0)]));
    expect(change(shuffled)).toEqual(inOrder());
  });

  it('a test taken up later starts where it was first done', () => {
    const later = change(dates.map((date, index) => visit(date, index === 0 ? [] : [recorded('berg_balance', 40 + 3 * index)])));
    expect(only(later, 'berg_balance')).toMatchObject({ from: '2026-02-02', before: 43, after: 49 });
  });

  it('two visits give no trend and no second comparison', () => {
    expect(twice('timed_up_and_go', 12, 11)).toMatchObject({ trend: null, since_previous: null, against_best: null });
  });
});

describe('trend', () => {
  it('Theil-Sen: the median of all slopes; one wild value does not turn it', () => {
    // Slopes of the points (0,1) (1,2) (2,3) (3,40): 1, 1, 13, 1, 19, 37; their median is 7. Without the wild one 1.
    expect(theilSenSlope([1, 2, 3, 40].map((y, x) => ({ x, y })))).toBe(7);
    expect(theilSenSlope([1, 2, 3, 4, 60].map((y, x) => ({ x, y })))).toBe(1);
    expect(theilSenSlope([{ x: 1, y: 1 }])).toBeNull();
  });

  it('per month, in the direction of performance', () => {
    const values = ['2026-01-01', '2026-01-31', '2026-03-02'].map((assessed, index) => ({ assessed, value: 20 - 3 * index }));
    expect(trendOf(values, 'lower')).toMatchObject({ direction: 'better', visits: 3, days: 60 });
    // -0.1 s a day × 30.4375 days
    expect(trendOf(values, 'lower')?.per_month).toBeCloseTo(-3.0438, 4);
    expect(trendOf(values.slice(1), 'lower')).toBeNull();
  });

  it('leaves out what was done with another aid or stopped at a ceiling', () => {
    const days = ['2026-01-05', '2026-02-02', '2026-03-02', '2026-04-06'];
    const walk = [measured(14), measured(25, { aid: 'frame' }), measured(13), measured(12)];
    const found = change(days.map((date, index) => visit(date, [recorded('timed_up_and_go', walk[index] ?? unable)])));
    expect(only(found, 'timed_up_and_go').trend).toMatchObject({ visits: 3, direction: 'better' });
  });
});

describe('notes', () => {
  it('an extreme first value: regression to the mean', () => {
    expect(twice('timed_up_and_go', 30, 20).notes.join()).toContain('regression to the mean');
    expect(twice('timed_up_and_go', 9.5, 8.5).notes.join()).not.toContain('regression to the mean');
  });

  it('a published practice effect stands beside a better result only', () => {
    // Donoghue et al. 2019: repeated chair stands improved on retest.
    expect(twice('five_times_sit_to_stand', 15, 13).notes.join()).toContain('practice: Times were better at the second visit');
    expect(twice('five_times_sit_to_stand', 13, 15).notes.join()).not.toContain('practice');
  });

  it('with many tests it says what chance alone would give', () => {
    const tests = (shift: number) => [
      recorded('timed_up_and_go', 12 - shift),
      recorded('five_times_sit_to_stand', 15 - shift),
      recorded('berg_balance', 45 + shift),
      recorded('gait_speed_usual', 0.9),
      recorded('mini_bestest', 20),
      recorded('grip_strength', 20, 'right'),
    ];
    expect(change([visit(FIRST, tests(0)), visit(LATER, tests(1))]).chance).toBe(
      '6 results were held against a 95 % limit: about 0.3 would pass it by chance alone; 0 did',
    );
  });
});
