/**
 * Derived results by the rules of norms/derived.yaml. Borders: sppb-scoring-4m (Figure 1 legend), sppb-balance-points
 * (Table 3), sppb-chair-stand-points (Table 3); four stages: CDC STEADI 4-Stage Balance Test handout (2017).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { DerivedFile } from '../../src/evidence/schema/derived.ts';
import { type Derived, deriveCost, derivePoints, deriveStages, lookupOf, type RecordedLookup } from '../../src/scoring/derive.ts';
import { measured, recorded, unable } from '../support/client.ts';

const file = DerivedFile.parse(parse(readFileSync(new URL('../../norms/derived.yaml', import.meta.url), 'utf8')));
const battery = file.point_totals[0];
const stages = file.stage_ladders[0];
const cost = file.relative_costs[0];
if (battery === undefined || stages === undefined || cost === undefined) throw new Error('derived.yaml is not complete');

/** null = unable. */
type Values = Readonly<Record<string, number | null | readonly [number | null, number | null]>>;

function lookup(values: Values): RecordedLookup {
  const tests = Object.entries(values).flatMap(([test, value]) => {
    if (value === null) return [recorded(test, unable)];
    if (typeof value === 'number') return [recorded(test, value)];
    return value.map((side, index) => recorded(test, side === null ? unable : measured(side), index === 0 ? 'right' : 'left'));
  });
  return lookupOf(
    tests,
    (each) => (each.reading.outcome === 'measured' ? each.reading.trials[0] : null),
    (test) => (test.includes('sit_to_stand') || test.includes('timed') ? 'lower' : 'higher'),
  );
}

const full = {
  side_by_side_stance: 10,
  semi_tandem_stance: 10,
  tandem_stance: 10,
  gait_speed_usual: 1,
  five_times_sit_to_stand: 10,
};
const points = (values: Values): Derived | null => derivePoints(battery, lookup(values));
const total = (values: Values): number | null => {
  const result = points(values);
  return result?.kind === 'formed' ? result.value : null;
};

describe('short physical performance battery', () => {
  it('12 when everything is at its best, 0 when everything is unable', () => {
    expect(total(full)).toBe(12);
    expect(
      total({
        side_by_side_stance: null,
        semi_tandem_stance: null,
        tandem_stance: null,
        gait_speed_usual: null,
        five_times_sit_to_stand: null,
      }),
    ).toBe(0);
  });

  // Walk over 4 m: under 4.82 s 4 points, 4.82-6.20 3, 6.21-8.70 2, over 8.70 1 (the last border recalled).
  it.each([
    [4 / 4.81, 12],
    [4 / 4.82, 11],
    [4 / 6.2, 11],
    [4 / 6.21, 10],
    [4 / 8.7, 10],
    [4 / 8.71, 9],
  ])('walk at %s m/s', (speed, expected) => {
    expect(total({ ...full, gait_speed_usual: speed })).toBe(expected);
  });

  // Chair stands: under 11.2 s 4 points, to 13.6 3, to 16.6 2, to 60 1, unable 0.
  it.each([
    [11.19, 12],
    [11.2, 11],
    [13.69, 11],
    [13.7, 10],
    [16.69, 10],
    [16.7, 9],
    [60, 9],
    [60.1, 8],
    [null, 8],
  ])('five chair stands in %s s', (seconds, expected) => {
    expect(total({ ...full, five_times_sit_to_stand: seconds })).toBe(expected);
  });

  // Balance: side by side 10 s 1 point, semi-tandem 10 s 1 point, tandem 10 s 2 points, 3 to 9.99 s 1, less 0.
  it.each([
    [{ tandem_stance: 9.99 }, 11],
    [{ tandem_stance: 3 }, 11],
    [{ tandem_stance: 2.99 }, 10],
    [{ semi_tandem_stance: 9.9, tandem_stance: 0 }, 9],
    [{ side_by_side_stance: 9.9, semi_tandem_stance: 0, tandem_stance: 0 }, 8],
  ])('stances %o', (stances, expected) => {
    expect(total({ ...full, ...stances })).toBe(expected);
  });

  it('cannot be formed while a part is missing, and says what is still possible', () => {
    const { gait_speed_usual: _gait, ...rest } = full;
    expect(points(rest)).toEqual({
      kind: 'cannot_be_formed',
      test: 'short_physical_performance_battery',
      missing: ['gait_speed_usual'],
      unusable: [],
      low: 8,
      high: 12,
    });
    expect(points({})).toBeNull();
  });

  it('a walk over another course is another test', () => {
    const held = lookupOf(
      [...Object.entries(full)].map(([test, value]) =>
        recorded(test, measured(value, test === 'gait_speed_usual' ? { course: { distanceM: 6 } } : {})),
      ),
      (each) => (each.reading.outcome === 'measured' ? each.reading.trials[0] : null),
      () => 'higher',
    );
    expect(derivePoints(battery, held)).toMatchObject({
      kind: 'cannot_be_formed',
      missing: ['gait_speed_usual'],
      unusable: ['gait_speed_usual'],
    });
  });
});

describe('four-stage balance', () => {
  const stage = (values: Values): Derived | null => deriveStages(stages, lookup(values));
  it.each([
    [{ side_by_side_stance: 10, semi_tandem_stance: 10, tandem_stance: 10, single_leg_stance_eyes_open: [10, 12] }, 4],
    [{ side_by_side_stance: 10, semi_tandem_stance: 10, tandem_stance: 10, single_leg_stance_eyes_open: [9.9, 30] }, 3],
    [{ side_by_side_stance: 10, semi_tandem_stance: 10, tandem_stance: 9.9 }, 2],
    [{ side_by_side_stance: 10, semi_tandem_stance: 4 }, 1],
    [{ side_by_side_stance: null }, 0],
    [{ tandem_stance: 8.5, semi_tandem_stance: 10 }, 2],
  ] as const)('%o gives stage %s', (values, expected) => {
    expect(stage(values)).toMatchObject({ kind: 'formed', value: expected });
  });
  it('an untried last stage leaves it open', () => {
    expect(stage({ tandem_stance: 10 })).toMatchObject({
      kind: 'cannot_be_formed',
      low: 3,
      high: 4,
      missing: ['single_leg_stance_eyes_open'],
    });
  });
  it('an arm missing altogether is not zero', () => {
    expect(stage({ single_leg_stance_eyes_open: [12, 12] })).toMatchObject({ kind: 'cannot_be_formed', low: 0, high: 4 });
  });
});

describe('dual-task cost', () => {
  it('is the extra time in per cent of the time without: (15 - 12) / 12 = 25 %', () => {
    expect(deriveCost(cost, lookup({ timed_up_and_go: 12, timed_up_and_go_cognitive: 15 }))).toMatchObject({
      kind: 'formed',
      value: 25,
    });
  });
  it('needs both times; where no second task was tried there is nothing to say', () => {
    expect(deriveCost(cost, lookup({ timed_up_and_go: 12 }))).toBeNull();
    expect(deriveCost(cost, lookup({ timed_up_and_go: 12, timed_up_and_go_cognitive: null }))).toMatchObject({
      kind: 'cannot_be_formed',
      missing: ['timed_up_and_go_cognitive'],
      unable: ['timed_up_and_go_cognitive'],
    });
  });
});
