/** What several visits say together: who, when, what happened, by chance, and the sources. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { compareVisits, NotComparable } from '../../src/change/compare-visits.ts';
import type { Client, Fields } from '../../src/session.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { error } from './invented.ts';
import { change, evidence, FIRST, LATER, only, visit } from './support.ts';

const tug = (seconds: number) => [recorded('timed_up_and_go', seconds)];
const notes = (
  before: Partial<Client>,
  after: Partial<Client>,
  fields: Fields = {},
  dates: readonly [string, string] = [FIRST, LATER],
) => change([visit(dates[0], [], {}, before), visit(dates[1], [], fields, after)]).notes;

describe('visits', () => {
  it('are refused with fewer than two, or with those of several clients, who are named', () => {
    const compare =
      (...refs: string[]) =>
      () =>
        compareVisits(
          refs.map((ref) => {
            const session = visit(FIRST, [], {}, { ref });
            return { session, assessment: assess(session, evidence) };
          }),
          evidence,
          { newFallsOnly: null },
        );
    expect(compare()).toThrow('two visits are needed');
    expect(compare('A')).toThrow('two visits are needed');
    expect(compare('A', 'B', 'A')).toThrow('the visits are of different clients: A, B');
    expect(compare('A', 'B')).toThrow(expect.objectContaining({ name: 'NotComparable' }));
    expect(compare('A', 'B')).toThrow(NotComparable);
    expect(compare('A', 'A')).not.toThrow();
  });
  it('are put in order of date, first against last, with the days between', () => {
    const found = change(['2026-03-01', '2026-01-01', '2026-02-01'].map((date) => visit(date, [])));
    expect(found).toMatchObject({
      format: 1,
      from: '2026-01-01',
      to: '2026-03-01',
      days: 59,
      visits: ['2026-01-01', '2026-02-01', '2026-03-01'],
    });
  });
  it('the client, the tool and the evidence are those of the last', () => {
    const found = change([visit(FIRST, [], {}, { age: 74 }), visit(LATER, [], {}, { age: 75 })]);
    const last = assess(visit(LATER, [], {}, { age: 75 }), evidence);
    expect([found.client, found.tool, found.evidence]).toEqual([last.client, last.tool, last.evidence]);
  });
  it('in whatever order they are given', () => {
    const visits = [LATER, FIRST].map((date) => {
      const session = visit(date, tug(date === FIRST ? 15 : 12));
      return { session, assessment: assess(session, evidence) };
    });
    const found = compareVisits(visits, evidence, { newFallsOnly: null });
    expect([found.from, found.to, only(found, 'timed_up_and_go').change]).toEqual([FIRST, LATER, -3]);
  });
  it('falls count from the visit before the last, not from the last itself', () => {
    // two years lie between: no fall can be counted twice, so nothing contradicts
    const fields = { 'history.falls_past_year': 1, 'since_last.falls': 3 };
    expect(change([visit('2020-01-01', []), visit('2024-05-04', []), visit(LATER, [], fields)]).risk.falls).toBe(
      '3 falls since the last visit',
    );
  });
  it('what is advised starts from the plan of the visit before the last', () => {
    const leg = (seconds: number) =>
      (['right', 'left'] as const).map((side) =>
        recorded('single_leg_stance_eyes_open', measured(seconds, { ceiling: 45 }), side),
      );
    const fields = { 'history.falls_past_year': 0, 'since_last.falls': 0, 'since_last.sessions_done': 20 };
    const visits = [1, 40, 40].map((seconds, index) => visit(['2026-01-05', FIRST, LATER][index] ?? '', leg(seconds), fields));
    const found = change(visits).plan.find(({ exercise }) => exercise === 'single_leg_standing');
    expect(found?.move).toBe('up');
    expect(found?.advised?.move).toBe('stay');
  });
  it('risk and plan count from the visit before the last', () => {
    const visits = (since: Fields) => [
      visit('2025-01-01', []),
      visit(FIRST, []),
      visit(LATER, [], { 'history.falls_past_year': 1, 'since_last.falls': 3, ...since }),
    ];
    // over a year lies between the first and the last, three months between the last two
    expect(change(visits({})).risk.falls).toContain('one of the two cannot be right');
  });
});

describe('the person', () => {
  it('nothing where nothing changed', () => expect(notes({}, {})).toEqual([]));
  it('what should not change, or not backwards, is pointed out', () => {
    expect(notes({ sex: 'female' }, { sex: 'male' })).toEqual([
      'sex is female at the first visit and male at the last: norms of both were used',
    ]);
    expect(notes({ born: '1950-01-01' }, { born: '1950-01-02' })).toEqual([
      'the date of birth differs between the visits: check that this is one client',
    ]);
    expect(notes({ born: '1950-01-01' }, {})).toEqual([]);
    expect(notes({}, { born: '1950-01-01' })).toEqual([]);
    expect(notes({ born: '1950-01-01' }, { born: '1950-01-01' })).toEqual([]);
    expect(notes({ age: 75 }, { age: 74 })).toEqual(['age 75 at the first visit and 74 at the last: check the ages']);
    expect(notes({ age: 74 }, { age: 75 })).toEqual([]);
    expect(notes({ setting: 'community' }, { setting: 'residential_care' })).toEqual([
      'setting before: community; now: residential care',
    ]);
    expect(notes({ setting: 'residential_care' }, { setting: 'hospital' })).toEqual([
      'setting before: residential care; now: hospital',
    ]);
  });
  it('two visits of one day', () =>
    expect(notes({}, {}, {}, [FIRST, FIRST])).toEqual([
      'the first and the last visit are of the same day: the published errors are for days to months apart',
    ]));
});

describe('what happened since', () => {
  const happened = (fields: Fields) => notes({}, {}, fields);
  it('a flare-up, unwanted events and how many', () => {
    expect(happened({ 'since_last.exacerbation': 'yes' })).toEqual([expect.stringContaining('flare-up')]);
    expect(happened({ 'since_last.adverse_events': 1 })).toEqual(['1 unwanted event in exercise since the last visit']);
    expect(happened({ 'since_last.adverse_events': 2 })).toEqual(['2 unwanted events in exercise since the last visit']);
  });
  it('none, not known, or only at the first visit: nothing', () => {
    expect(happened({ 'since_last.exacerbation': 'no', 'since_last.adverse_events': 0 })).toEqual([]);
    expect(happened({ 'since_last.exacerbation': 'unknown' })).toEqual([]);
    const earlier = visit(FIRST, [], { 'since_last.exacerbation': 'yes', 'since_last.adverse_events': 3 });
    expect(change([earlier, visit(LATER, [])]).notes).toEqual([]);
  });
});

describe('tests', () => {
  it('in the order of the catalogue; of one test without a side, right, left', () => {
    const leg = 'single_leg_stance_eyes_open';
    const found = change([
      visit(FIRST, [recorded(leg, 9, 'left'), recorded('berg_balance', 40), recorded(leg, 9, 'right')]),
      visit(LATER, [recorded('timed_up_and_go', 12)]),
    ]);
    const order = evidence.tests.map(({ id }) => id);
    const ids = found.tests.map(({ test }) => test);
    expect([...ids].sort((a, b) => order.indexOf(a) - order.indexOf(b))).toEqual(ids);
    expect(found.tests.filter(({ test }) => test === leg).map(({ side }) => side)).toEqual(['right', 'left']);
    expect(new Set(ids)).toEqual(new Set([leg, 'berg_balance', 'timed_up_and_go']));
  });
});

describe('a condition of the client', () => {
  const concerns = (before: Fields, after: Fields) =>
    Object.fromEntries(
      only(change([visit(FIRST, tug(15), before), visit(LATER, tug(12), after)]), 'timed_up_and_go').other_errors.map((each) => [
        evidence.errors.find(({ id }) => id === each.id)?.population.condition ?? 'general',
        each.concerns_client,
      ]),
    );
  it('makes studies of people with it concern the client, at whichever visit it was recorded', () => {
    expect(concerns({}, {})).toMatchObject({ general: true, parkinson: false });
    for (const [before, after] of [
      [{ 'health.parkinson_disease': 'yes' }, {}],
      [{}, { 'health.parkinson_disease': 'yes' }],
    ] as const)
      expect(concerns(before, after)).toMatchObject({ parkinson: true });
    expect(concerns({ 'health.parkinson_disease': 'no' }, { 'health.parkinson_disease': 'unknown' })).toMatchObject({
      parkinson: false,
    });
  });
});

describe('a condition at one of the visits', () => {
  const TEST = 'five_times_sit_to_stand';
  const found = (before: Fields, after: Fields) =>
    only(change([visit(FIRST, [recorded(TEST, 15)], before), visit(LATER, [recorded(TEST, 13.3)], after)]), TEST);
  it('is enough for what matters to people with it (Jones et al. 2013: 1.7 s in COPD)', () => {
    const copd = { 'health.lung_condition': 'copd' };
    expect(found(copd, {}).mcid).toBe(1.7);
    expect(found({}, copd).mcid).toBe(1.7);
    expect(found({}, {}).mcid).toBeNull();
  });
  it('another lung condition is not the other condition of a study; a disease of the balance organ is that of a study', () => {
    const study = (condition: 'other' | 'vestibular') => ({
      ...evidence,
      errorsByTest: new Map([
        [
          'timed_up_and_go',
          [error({ id: 'study', test: 'timed_up_and_go', mdc95: 1, population: { description: 'x', condition } })],
        ],
      ]),
    });
    const concerns = (condition: 'other' | 'vestibular', fields: Fields) => {
      const visits = [FIRST, LATER].map((date) => {
        const session = visit(date, tug(12), fields);
        return { session, assessment: assess(session, evidence) };
      });
      return only(compareVisits(visits, study(condition), { newFallsOnly: null }), 'timed_up_and_go').other_errors[0]
        ?.concerns_client;
    };
    expect(concerns('other', { 'health.lung_condition': 'other' })).toBe(false);
    expect(concerns('vestibular', { 'health.vestibular_disease': 'yes' })).toBe(true);
    expect(concerns('vestibular', { 'health.vestibular_disease': 'no' })).toBe(false);
  });
});

describe('chance', () => {
  const five = (shift: number, more: number) => [
    recorded('timed_up_and_go', 20 - shift),
    recorded('five_times_sit_to_stand', 15),
    recorded('berg_balance', 45),
    recorded('gait_speed_usual', 0.9),
    ...(more > 4 ? [recorded('mini_bestest', 20)] : []),
  ];
  const chance = (shift: number, more: number) => change([visit(FIRST, five(0, more)), visit(LATER, five(shift, more))]).chance;
  it('is spoken of from five results on that were held against an error', () => {
    expect(chance(0, 4)).toBeNull();
    expect(chance(0, 5)).toMatch(/^5 results were held against a 95 % limit: about 0.3 would .*; 0 did$/);
    expect(chance(9, 5)).toMatch(/; 1 did$/);
  });
  it('results that could not be judged, or without a number, are not counted', () => {
    const visits = [0, 9].map((shift, index) =>
      visit([FIRST, LATER][index] ?? '', [...five(shift, 4), recorded('tandem_stance', 3), recorded('falls_efficacy_short', 10)]),
    );
    expect(change(visits).chance).toBeNull();
    const unlike = [
      visit(FIRST, [...five(0, 4), recorded('mini_bestest', measured(20))]),
      visit(LATER, [...five(0, 4), recorded('mini_bestest', measured(20, { aid: 'stick' }))]),
    ];
    expect(change(unlike).chance).toBeNull();
    // unable and then able is a real change without a number: no limit was passed
    const able = [
      visit(FIRST, [...five(0, 4), recorded('mini_bestest', unable)]),
      visit(LATER, [...five(0, 4), recorded('mini_bestest', 20)]),
    ];
    expect(only(change(able), 'mini_bestest').verdict).toBe('improved');
    expect(change(able).chance).toBeNull();
  });
});

describe('sources', () => {
  it('every source that the tests cite and both assessments rest on, in order, each with its citation', () => {
    const found = change([
      visit(FIRST, tug(15), { 'health.lung_condition': 'copd' }),
      visit(LATER, tug(12), { 'health.lung_condition': 'copd' }),
    ]);
    const ids = Object.keys(found.sources);
    expect(ids).toEqual([...ids].sort());
    const test = only(found, 'timed_up_and_go');
    const cited = [test.error, ...test.other_errors, test.important, ...test.other_important, ...test.crossed].flatMap(
      (each) => each?.source ?? [],
    );
    expect(cited.length).toBeGreaterThan(3);
    for (const id of cited) expect(ids).toContain(id);
    for (const [id, { citation, doi }] of Object.entries(found.sources)) {
      expect(citation).toBe(evidence.sources[id]?.citation);
      expect(doi).toBe(evidence.sources[id]?.doi ?? null);
    }
    const both = [FIRST, LATER].map((date, index) =>
      assess(visit(date, tug(index === 0 ? 15 : 12), { 'health.lung_condition': 'copd' }), evidence),
    );
    for (const assessment of both) for (const id of Object.keys(assessment.sources)) expect(ids).toContain(id);
    expect(found.sources[test.error?.source ?? '']?.location).toBe(test.error?.location);
  });
  it('of one source the place in the comparison itself counts, then that of the last visit', () => {
    const copd = { 'health.lung_condition': 'copd' };
    const visits = [15, 12].map((seconds, index) => {
      const session = visit([FIRST, LATER][index] ?? '', tug(seconds), copd);
      const place = { citation: 'x', doi: null, location: `visit ${index}`, status: 'abstract' as const };
      const assessment = assess(session, evidence);
      const error_source = assessment.tests.find(({ test }) => test === 'timed_up_and_go')?.measurement_error?.source ?? '';
      return { session, assessment: { ...assessment, sources: { 'of-both': place, [error_source]: place } } };
    });
    const found = compareVisits(visits, evidence, { newFallsOnly: null });
    const test = only(found, 'timed_up_and_go');
    expect(found.sources['of-both']?.location).toBe('visit 1');
    expect(found.sources[test.error?.source ?? '']?.location).toBe(test.error?.location);
    expect(found.sources[test.important?.source ?? '']?.location).toBe(test.important?.location);
  });
  it('a source that the bibliography does not have stands by its id', () => {
    const visits = [15, 12].map((seconds, index) => {
      const session = visit([FIRST, LATER][index] ?? '', tug(seconds));
      return { session, assessment: { ...assess(session, evidence), sources: {} } };
    });
    const found = compareVisits(visits, { ...evidence, sources: {} }, { newFallsOnly: null });
    const [id = ''] = Object.keys(found.sources);
    expect(found.sources[id]).toMatchObject({ citation: id, doi: null });
  });
});
