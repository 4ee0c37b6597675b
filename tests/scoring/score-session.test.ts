/** All tests of a visit together: sides, results worked out from others, and what could not be. */
import { describe, expect, it } from 'vitest';
import { indexEvidence } from '../../src/evidence/data.ts';
import { missingNote, scoreSession, strongerSide } from '../../src/scoring/score-session.ts';
import type { RecordedTest } from '../../src/session.ts';
import { client, measured, recorded, session, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { definition, hold, evidence as invented, table, tenSeconds, walk, women } from './invented.ts';

const evidence = testEvidence();
const applies = () => false;
const scored = (tests: readonly RecordedTest[], held = evidence) =>
  scoreSession(session(tests), { evidence: held, subject: { client: client(), lungCondition: null }, applies });
const only = (tests: readonly RecordedTest[], id: string, held = evidence) =>
  scored(tests, held).tests.filter(({ test }) => test === id);

describe('the stronger side', () => {
  const sides = (right: RecordedTest['reading'] | number, left: RecordedTest['reading'] | number) => [
    recorded('hold', right, 'right'),
    recorded('hold', left, 'left'),
  ];
  it('has the better result, whichever way the test runs', () => {
    expect(strongerSide(sides(9, 8), hold)).toBe('right');
    expect(strongerSide(sides(8, 9), hold)).toBe('left');
    const quick = definition({ id: 'hold', better: 'lower', sided: true });
    expect(strongerSide(sides(8, 9), quick)).toBe('right');
  });
  it('is not known where one side was not measured, and not taken from another test', () => {
    expect(strongerSide(sides(9, unable), hold)).toBeNull();
    expect(strongerSide([recorded('hold', 9, 'right')], hold)).toBeNull();
    expect(strongerSide([...sides(8, 9), recorded('other', 30, 'right')], hold)).toBe('left');
    expect(strongerSide([recorded('other', 9, 'right'), recorded('hold', 8, 'left')], hold)).toBeNull();
    expect(strongerSide([recorded('hold', 9), recorded('hold', 8, 'left')], hold)).toBeNull();
    expect(strongerSide([recorded('hold', 7), recorded('hold', 8, 'left')], hold)).toBeNull();
  });
});

describe('both sides of a test', () => {
  const held = invented({});
  const notes = (right: RecordedTest['reading'] | number, left: RecordedTest['reading'] | number, data = held) =>
    only([recorded('hold', right, 'right'), recorded('hold', left, 'left')], 'hold', data).map((result) => result.notes.join());
  it('are compared in both results: 9.25 - 8 = 1.3 s to one decimal', () => {
    const note = 'right is the better side by 1.3 s; the worse side decides risk and plan';
    expect(notes(9.25, 8)).toEqual([note, note]);
    expect(notes(8, 9)[0]).toBe('left is the better side by 1.0 s; the worse side decides risk and plan');
  });
  it('whichever was written down first', () => {
    const [first] = only([recorded('hold', 8, 'left'), recorded('hold', 9.25, 'right')], 'hold', held);
    expect(first?.notes.join()).toContain('right is the better side by 1.3 s');
  });
  it('without a unit where the test has none', () => {
    const points = { ...hold, unit_text: '', decimals: 0 };
    expect(notes(9, 8, invented({ tests: [points] }))[0]).toContain('better side by 1; the worse');
  });
  it('not where they are equal or one was not measured', () => {
    expect(notes(9, 9)).toEqual(['', '']);
    expect(notes(9, unable)).toEqual(['', '']);
    expect(notes(unable, 9)).toEqual(['', '']);
    expect(only([recorded('hold', 9, 'right')], 'hold', held)[0]?.notes).toEqual([]);
    expect(only([recorded('hold', 9, 'left')], 'hold', held)[0]?.notes).toEqual([]);
  });
  it('right before left as recorded, tests in the order of the catalogue', () => {
    const tests = scored(
      [recorded('ten', 10), recorded('hold', 9, 'right'), recorded('hold', 8, 'left'), recorded('walk', 9)],
      held,
    ).tests;
    expect(tests.map(({ test, side }) => `${test} ${side}`)).toEqual(['walk null', 'hold right', 'hold left', 'ten null']);
  });
  it('a table of the stronger side holds that side', () => {
    const stronger = { ...women, side: 'stronger' };
    const data = invented({ tables: [table({ test: 'hold' }, [stronger])] }, { hold: [{ source: 'alpha-2020' }] });
    const results = only([recorded('hold', 9, 'right'), recorded('hold', 8, 'left')], 'hold', data);
    expect(results.map(({ comparisons }) => comparisons.length)).toEqual([1, 0]);
  });
});

// Borders as in derive.test.ts: sppb-scoring-4m (Figure 1 legend), sppb-balance-points and sppb-chair-stand-points (Table 3).
const STANCES = ['side_by_side_stance', 'semi_tandem_stance', 'tandem_stance'].map((id) => recorded(id, 10));
const BATTERY = [...STANCES, recorded('gait_speed_usual', measured(1)), recorded('five_times_sit_to_stand', 10)];

describe('results worked out from others', () => {
  it('stand after what was recorded, with what they are made of: 4 + 4 + 4 = 12 points', () => {
    const [total] = only(BATTERY, 'short_physical_performance_battery');
    expect(total).toMatchObject({ value: 12, at_least: false, side: null, outcome: 'measured' });
    expect(total?.derived_from.map(({ test, value }) => [test, value])).toEqual([
      ['side_by_side_stance', 10],
      ['semi_tandem_stance', 10],
      ['tandem_stance', 10],
      ['gait_speed_usual', 1],
      ['five_times_sit_to_stand', 10],
    ]);
    expect(total?.notes.join()).toContain("The walk's border at 8.70 s");
    expect(
      scored(BATTERY)
        .tests.map(({ test }) => test)
        .slice(0, 5),
    ).not.toContain('short_physical_performance_battery');
  });
  it('a recorded total goes before one that could be worked out', () => {
    const found = only([...BATTERY, recorded('short_physical_performance_battery', 7)], 'short_physical_performance_battery');
    expect(found.map(({ value }) => value)).toEqual([7]);
    expect(found[0]?.derived_from).toEqual([]);
  });
  it('the worst of both sides decides, in the direction of each test', () => {
    const legs = [recorded('single_leg_stance_eyes_open', 10, 'right'), recorded('single_leg_stance_eyes_open', 9, 'left')];
    expect(only([...STANCES, ...legs], 'four_stage_balance')[0]?.value).toBe(3);
    const both = [recorded('single_leg_stance_eyes_open', 10, 'right'), recorded('single_leg_stance_eyes_open', 12, 'left')];
    expect(only([...STANCES, ...both], 'four_stage_balance')[0]?.value).toBe(4);
  });
  it('what cannot be formed is said with what is missing and what is still possible', () => {
    const { notes, tests } = scored([...STANCES, recorded('five_times_sit_to_stand', 10)]);
    expect(tests.some(({ test }) => test === 'short_physical_performance_battery')).toBe(false);
    expect(notes.join()).toMatch(/battery cannot be formed: [a-z ,]*speed[a-z ,]* not recorded; still possible: 8 to 12/i);
  });
  it('a walk over another course is said to be another test', () => {
    const other = BATTERY.map((each) =>
      each.test === 'gait_speed_usual' ? recorded(each.test, measured(1, { course: { distanceM: 10 } })) : each,
    );
    expect(scored(other).notes.join()).toContain('recorded over another course or start');
  });
  it('a stance whose watch was stopped early is said to leave it open', () => {
    const early = BATTERY.map((each) =>
      each.test === 'tandem_stance' ? recorded(each.test, measured(5, { ceiling: 5 })) : each,
    );
    expect(scored(early).notes.join()).toContain('stopped too early to tell');
  });
  it('a test that could not be done, where that gives no number, is said to be so', () => {
    const { notes } = scored([recorded('timed_up_and_go', 12), recorded('timed_up_and_go_cognitive', unable)]);
    expect(notes.join()).toMatch(/cannot be formed: .* unable$/);
  });
  it('everything that is missing is named; without any test there is nothing to say', () => {
    expect(scored(STANCES).notes.find((note) => note.includes('battery'))).toMatch(
      /: [^,]* not recorded, [^,]* not recorded; still possible: 4 to 12$/,
    );
    expect(scored([])).toEqual({ tests: [], notes: [] });
    expect(scored([recorded('gone', 3)])).toEqual({ tests: [], notes: [] });
  });
  it('of tests that the catalogue does not have nothing is worked out', () => {
    const fewer = evidence.tests.filter(({ id }) => id !== 'short_physical_performance_battery');
    const data = indexEvidence({ ...evidence, tests: fewer });
    expect(only(BATTERY, 'short_physical_performance_battery', data)).toEqual([]);
    const unknown = { kind: 'cannot_be_formed', test: 'gone', missing: ['also_gone'], unusable: [] } as const;
    expect(missingNote(unknown, data)).toBe('gone cannot be formed: also_gone not recorded');
  });
});

describe('a result at the ceiling of the test itself', () => {
  it('is an ordinary result of a total, and an open one of a stance', () => {
    const held = invented({});
    expect(only([recorded('ten', 10)], 'ten', held)[0]).toMatchObject({ value: 10, at_least: true });
    expect(only([recorded('ten', 9.9)], 'ten', held)[0]?.at_least).toBe(false);
    expect(tenSeconds.ceiling).toBe(10);
    expect(walk.ceiling).toBeNull();
  });
});
