/** The records of a visit beside its findings: clearances, a level set by hand, the plan of the professional. */
import { describe, expect, it } from 'vitest';
import { type Known, textsOf, unknownWord, wellFormed } from '../../src/intake/entries.ts';
import { asNumber, asText } from '../../src/intake/forms.ts';
import type { Finding } from '../../src/intake/problems.ts';
import { readRecords } from '../../src/intake/records.ts';
import { CLEARANCE_KEYS } from '../../src/session-keys.ts';
import { line } from './invented.ts';

const limit = (field: string, below: number, above: number) => ({
  field,
  name: field,
  unit_text: '',
  whole: true,
  impossible: { below, above, why: 'No' },
});
const KNOWN: Known = {
  redFlags: [
    { id: 'blackout', when: { field: 'history.loss_of_consciousness', is: 'yes' } },
    { id: 'chest', when: { field: 'redflags.chest_pain', is: 'yes' } },
  ],
  pathways: [
    { levels: [{ id: 'low' }, { id: 'high' }] },
    { levels: [{ id: 'high' }, { id: 'at_risk' }] },
  ] as unknown as NonNullable<Known['pathways']>,
  exercises: [
    { id: 'squat', ladder: [1, 2, 3] },
    { id: 'toe_raises', ladder: [1, 2] },
  ] as unknown as NonNullable<Known['exercises']>,
  fields: [limit('plan.days', 1, 7), limit('plan.level', 0, 20), limit('plan.minutes_a_day', 5, 120)],
};

function read(tree: unknown, known: Known = KNOWN) {
  const findings: Finding[] = [];
  const records = readRecords(tree, known, '2026-06-01', findings);
  return { records, told: findings.map(line) };
}
function right(tree: unknown, known: Known = KNOWN) {
  const { records, told } = read(tree, known);
  expect(told).toEqual([]);
  return records;
}
const told = (tree: unknown, known: Known = KNOWN): string[] => read(tree, known).told;

describe('texts', () => {
  it('without blanks at their ends; what is blank or no text is none', () => {
    expect(asText(' a b ')).toBe('a b');
    expect([' ', '', 5, null, undefined, ['a']].map(asText)).toEqual(Array(6).fill(undefined));
    expect([5, 0, Number.NaN, Number.POSITIVE_INFINITY, '5', null].map(asNumber)).toEqual([5, 0, ...Array(4).fill(undefined)]);
    expect(textsOf([' a ', '', 5, 'b'])).toEqual(['a', 'b']);
    expect(textsOf('a')).toEqual(['a']);
    expect(textsOf(null)).toEqual([]);
  });
  it('an unknown word is told the nearest, or all of them', () => {
    expect(line(unknownWord('squatt', ['squat', 'toe_raises'], ['plan', 'choose', 0]))).toBe(
      'plan.choose.0 (value) not_a_choice: `squatt` cannot stand here; write squat instead',
    );
    expect(unknownWord('zzz', ['squat', 'toe_raises'], []).hint).toBe('write squat or toe_raises instead');
  });
  it('a mapping is whole only without faults', () => {
    const findings: Finding[] = [];
    expect(wellFormed(CLEARANCE_KEYS, { by: 'A', date: '2026-05-12', for: 'x' }, ['c'], findings)).toBe(true);
    expect(wellFormed(CLEARANCE_KEYS, { by: 'A' }, ['c'], findings)).toBe(false);
    expect(wellFormed(CLEARANCE_KEYS, 5, ['c'], findings)).toBe(false);
    expect(findings.map(({ path }) => path.join('.'))).toEqual(['c.date', 'c.for', 'c']);
  });
});

describe('nothing', () => {
  it('leaves nothing behind', () => {
    expect(right({})).toEqual({});
    expect(right({ clearance: null, risk: null, plan: null, goals: null, consent_to_share: null, assessor: null })).toEqual({});
    expect(right({ clearance: [], plan: {}, goals: [], assessor: ' ' })).toEqual({ planWishes: {} });
  });
});

describe('clearances', () => {
  const one = { by: ' Dr A ', date: '2026-05-12', for: 'blackout' };
  it('one or several, each for one finding or several, by the flag or by its field', () => {
    expect(right({ clearance: one }).clearances).toEqual([{ by: 'Dr A', date: '2026-05-12', for: 'blackout' }]);
    expect(right({ clearance: [one, { ...one, by: 'B', for: ['chest', 'chest_pain'] }] }).clearances).toEqual([
      { by: 'Dr A', date: '2026-05-12', for: 'blackout' },
      { by: 'B', date: '2026-05-12', for: 'chest' },
      { by: 'B', date: '2026-05-12', for: 'chest_pain' },
    ]);
    expect(right({ clearance: { ...one, date: '2026-06-01' } }).clearances).toHaveLength(1);
  });
  it('to come: refused at its day', () => {
    expect(told({ clearance: { ...one, date: '2026-06-02' } })).toEqual([
      'clearance.date (value) future_date: 2026-06-02 lies in the future (today is 2026-06-01); write the day on which it happened',
    ]);
    expect(told({ clearance: [one, { ...one, date: '2026-06-02' }] })[0]).toMatch(/^clearance\.1\.date /);
  });
  it('of a word that names no flag: the nearest, or where the words stand', () => {
    expect(told({ clearance: { ...one, for: ['chest', 'blakcout'] } })).toEqual([
      'clearance.for (value) not_a_choice: `blakcout` cannot stand here; write blackout instead',
    ]);
    expect(told({ clearance: { ...one, for: 'zzzzzz' } })).toEqual([
      'clearance.for (value) not_a_choice: `zzzzzz` cannot stand here; write the word that the report names with the red flag',
    ]);
    expect(told({ clearance: { ...one, for: 'zzzzzz' } }, {})).toEqual([]);
  });
  it('with a part missing there is none', () => {
    expect(read({ clearance: { by: 'A', for: 'chest' } }).records).toEqual({});
    expect(read({ clearance: { by: 'A', for: 'chest' } }).told[0]).toContain('clearance.date (key) missing_key');
    expect(read({ clearance: { ...one, by: ' ' } }).records).toEqual({});
    expect(told({ clearance: [one, 5] })[0]).toContain('clearance.1 (value) not_a_mapping');
  });
});

describe('a level set by hand', () => {
  it('with its reason', () => {
    expect(right({ risk: { level: ' high ', reason: ' saw her stumble ' } })).toEqual({
      riskOverride: { level: 'high', reason: 'saw her stumble' },
    });
    expect(right({ risk: { level: 'at_risk', reason: 'x' } }).riskOverride?.level).toBe('at_risk');
  });
  it('only one that a pathway has, where the pathways are known', () => {
    expect(told({ risk: { level: 'loww', reason: 'x' } })).toEqual([
      'risk.level (value) not_a_choice: `loww` cannot stand here; write low instead',
    ]);
    expect(told({ risk: { level: 'zzzzzz', reason: 'x' } })[0]).toContain('write low or high or at_risk instead');
    expect(right({ risk: { level: 'zzzzzz', reason: 'x' } }, {}).riskOverride?.level).toBe('zzzzzz');
  });
  it('without its reason there is none', () => {
    expect(read({ risk: { level: 'high' } }).records).toEqual({});
    expect(told({ risk: { level: 'high' } })[0]).toContain('risk.reason (key) missing_key');
    expect(read({ risk: { level: 'high', reason: ' ' } }).records).toEqual({});
  });
});

describe('the plan of the professional', () => {
  const plan = (given: unknown) => right({ plan: given }).planWishes;
  it('days, minutes, a choice, and levels and doses of exercises', () => {
    expect(
      plan({
        days: 3,
        minutes_a_day: 20,
        choose: ['squat', 'toe_raises'],
        exercises: {
          squat: { level: 2, dose: ' ten ', days: 4, leave_out: 'no', reason: ' knee ' },
          toe_raises: { leave_out: true },
        },
      }),
    ).toEqual({
      days: 3,
      minutesADay: 20,
      choose: ['squat', 'toe_raises'],
      exercises: { squat: { level: 2, dose: 'ten', days: 4, leaveOut: false, reason: 'knee' }, toe_raises: { leaveOut: true } },
    });
    expect(plan({ choose: 'squat' })).toEqual({ choose: ['squat'] });
    expect(plan({ exercises: { squat: { level: 0 } } })).toEqual({ exercises: { squat: { level: 0 } } });
    expect(plan({ exercises: null })).toEqual({});
    expect(plan({ exercises: { squat: {} } })).toEqual({ exercises: { squat: {} } });
  });
  it('a level that the ladder does not have', () => {
    expect(told({ plan: { exercises: { squat: { level: 4 } } } })).toEqual([
      'plan.exercises.squat.level (value) not_a_choice: level 4, but the ladder of squat ends at 3; write a level from 0 (seated) to 3',
    ]);
    expect(told({ plan: { exercises: { squat: { level: 3 } } } })).toEqual([]);
    expect(told({ plan: { exercises: { toe_raises: { level: 3 } } } })).toHaveLength(1);
    expect(right({ plan: { exercises: { squat: { level: 4 } } } }, {}).planWishes?.exercises?.squat?.level).toBe(4);
  });
  it('numbers beyond their limits, each at its place', () => {
    expect(
      told({ plan: { days: 8, minutes_a_day: 4, exercises: { squat: { days: 0 } } } }).map((each) => each.split(':')[0]),
    ).toEqual([
      'plan.days (value) impossible',
      'plan.minutes_a_day (value) impossible',
      'plan.exercises.squat.days (value) impossible',
    ]);
    expect(told({ plan: { exercises: { squat: { level: -1 } } } })[0]).toContain('plan.exercises.squat.level (value) impossible');
    expect(right({ plan: { days: 8 } }, {}).planWishes?.days).toBe(8);
  });
  it('an exercise that there is none of, in a choice or by its own line', () => {
    expect(told({ plan: { choose: ['squat', 'squta'] } })).toEqual([
      'plan.choose.1 (value) not_a_choice: `squta` cannot stand here; write squat instead',
    ]);
    expect(told({ plan: { choose: 'squta' } })[0]).toMatch(/^plan\.choose \(value\) not_a_choice/);
    expect(told({ plan: { exercises: { squta: { level: 1 } } } })).toEqual([
      'plan.exercises.squta (value) not_a_choice: `squta` cannot stand here; write squat instead',
    ]);
    expect(right({ plan: { choose: 'squta' } }, {}).planWishes?.choose).toEqual(['squta']);
  });
  it('what is not whole is told and left out', () => {
    expect(read({ plan: 5 })).toEqual({ records: {}, told: [expect.stringContaining('plan (value) not_a_mapping')] });
    expect(read({ plan: { dayss: 3 } }).records).toEqual({});
    expect(told({ plan: { dayss: 3 } })).toEqual([
      'plan.dayss (key) unknown_key: unknown key `dayss` in plan; write days instead',
    ]);
    expect(read({ plan: { days: 3, exercises: [1] } })).toEqual({
      records: { planWishes: { days: 3 } },
      told: [expect.stringContaining('plan.exercises (value) not_a_mapping')],
    });
    const wrong = read({ plan: { exercises: { squat: { leevl: 1 }, toe_raises: { level: 1 } } } });
    expect(wrong.records.planWishes?.exercises).toEqual({ toe_raises: { level: 1 } });
    expect(wrong.told[0]).toContain('plan.exercises.squat.leevl (key) unknown_key');
    expect(told({ plan: { days: 'x' } })[0]).toContain('plan.days (value) not_a_number');
  });
});

describe('what else is recorded', () => {
  it('goals, consent, who made it', () => {
    expect(right({ goals: 'walk', consent_to_share: true, assessor: ' A. Physio ' })).toEqual({
      goals: ['walk'],
      consentToShare: 'yes',
      assessor: 'A. Physio',
    });
    expect(right({ goals: ['walk', 'garden'], consent_to_share: 'unknown' })).toEqual({
      goals: ['walk', 'garden'],
      consentToShare: 'unknown',
    });
    expect(read({ consent_to_share: 'maybe' }).records).toEqual({});
  });
});
