/** Who is due: newest visit a client, interval of the level, most urgent first. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { dayLater, daysBetween } from '../../src/change/days.ts';
import { dueList, newestOf } from '../../src/change/due.ts';
import type { Fields } from '../../src/session.ts';
import { recorded } from '../support/client.ts';
import { evidence, visit } from './support.ts';

const NO_FALLS: Fields = {
  'history.falls_past_year': 0,
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
};
const tests = [recorded('gait_speed_usual', 1.1)];
const newest = (ref: string, assessed: string, fields: Fields) => ({
  file: `${ref}.yaml`,
  assessment: assess(visit(assessed, tests, fields, { ref }), evidence),
});
// World guidelines 2022: low and intermediate one year, high 30 to 90 days (recalled).
const interval = (fields: Fields) => assess(visit('2026-01-01', tests, fields), evidence).risk.follow_up?.within_days ?? 0;

describe('days', () => {
  it('count calendar days over leap years and clock changes', () => {
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(daysBetween('2026-05-04', '2026-05-03')).toBe(-1);
    expect(dayLater('2025-12-31', 1)).toBe('2026-01-01');
    expect(() => daysBetween('2026-13-01', '2026-05-04')).toThrow(RangeError);
  });
});

describe('due', () => {
  const HIGH: Fields = { ...NO_FALLS, 'history.falls_past_year': 3 };

  it('the newest visit of each client decides; of one day the later file', () => {
    const items = [
      { ref: 'A', assessed: '2026-01-01', file: 1 },
      { ref: 'B', assessed: '2026-02-01', file: 2 },
      { ref: 'A', assessed: '2026-03-01', file: 3 },
      { ref: 'A', assessed: '2026-03-01', file: 4 },
      { ref: 'B', assessed: '2025-02-01', file: 5 },
    ];
    expect(newestOf(items).map((item) => item.file)).toEqual([4, 2]);
  });

  it('overdue from the day after, due up to the days asked about', () => {
    const days = interval(HIGH);
    expect(days).toBe(90);
    const at = (offset: number) => dueList([newest('A', '2026-01-01', HIGH)], dayLater('2026-01-01', days + offset), 14)[0];
    expect(at(1)).toMatchObject({ state: 'overdue', days: -1, due: dayLater('2026-01-01', days) });
    expect(at(0)).toMatchObject({ state: 'due', days: 0 });
    expect(at(-14)).toMatchObject({ state: 'due', days: 14 });
    expect(at(-15)).toMatchObject({ state: 'later', days: 15 });
  });

  it('an open level is due by the highest level still possible', () => {
    expect(dueList([newest('A', '2026-01-01', {})], '2026-01-01', 14)[0]).toMatchObject({
      level: 'undetermined',
      due: dayLater('2026-01-01', interval(HIGH)),
    });
  });

  it('a warning sign flags who is not due yet; a low level with frailty keeps its caveat', () => {
    const flagged = dueList([newest('A', '2026-01-01', { ...NO_FALLS, 'vitals.spo2_rest': 80 })], '2026-01-02', 14)[0];
    expect(flagged?.state).toBe('flagged');
    expect(flagged?.flags.length).toBeGreaterThan(0);
    const frail = dueList([newest('A', '2026-01-01', { ...NO_FALLS, 'health.clinical_frailty_scale': 6 })], '2026-01-02', 14)[0];
    expect(frail?.caveats.join()).toContain('frail');
  });

  it('a cleared warning sign flags nobody; a level set by the professional decides when', () => {
    const faint: Fields = { ...NO_FALLS, 'history.loss_of_consciousness': 'yes', 'health.clinical_frailty_scale': 2 };
    const cleared = {
      ...visit('2026-01-01', tests, faint, { ref: 'A' }),
      clearances: [{ by: 'Dr Example', date: '2026-01-03', for: 'blackout' }],
      riskOverride: { level: 'high', reason: 'saw her stumble' },
    };
    const [client] = dueList([{ file: 'A.yaml', assessment: assess(cleared, evidence) }], '2026-01-05', 14);
    expect(client).toMatchObject({ state: 'later', flags: [], level: 'high', due: dayLater('2026-01-01', interval(HIGH)) });
  });

  it('most urgent first', () => {
    const list = dueList(
      [
        newest('later', '2026-05-01', NO_FALLS),
        newest('due', '2026-02-20', HIGH),
        newest('long overdue', '2025-01-01', HIGH),
        newest('overdue', '2026-01-01', HIGH),
      ],
      '2026-05-15',
      14,
    );
    expect(list.map((client) => client.ref)).toEqual(['long overdue', 'overdue', 'due', 'later']);
  });
});
