/** The list of who is due, on assessments whose risk part is set by hand. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessment } from '../../src/assessment.ts';
import { dueList, type NewestVisit, newestOf } from '../../src/change/due.ts';
import { evidence, visit } from './support.ts';

type Risk = Assessment['risk'];
const based = { source: null, basis: 'own-rule', location: null } as const;
const followUp = (within_days: number) => ({ text: `in ${within_days} days`, within_days, ...based });
const flag = (finding: string, cleared = false): Risk['red_flags'][number] => ({
  id: finding,
  tier: 'same_day',
  finding,
  because: '',
  action: '',
  spread: null,
  cleared: cleared ? { by: 'Dr Example', date: '2026-01-02' } : null,
  clearance_refused: null,
  ...based,
});

/** Follow-up within ten days of 1 January, nothing found. */
function client(ref: string, over: Partial<Risk> = {}, assessed = '2026-01-01'): NewestVisit {
  const assessment = assess(visit(assessed, [], {}, { ref }), evidence);
  const risk = { ...assessment.risk, follow_up: followUp(10), override: null, red_flags: [], caveats: [], ...over };
  return { file: `${ref}.yaml`, assessment: { ...assessment, risk } };
}
const list = (clients: readonly NewestVisit[], today: string, within = 3) => dueList(clients, today, within);

describe('one client', () => {
  it('with everything the list shows', () => {
    const caveats: Risk['caveats'] = [
      { id: 'a', text: 'Frail', ...based },
      { id: 'b', text: 'A remark on the pathway', source: 'paper', basis: 'abstract', location: 'x' },
    ];
    const given = client('A', {
      level: 'low',
      at_least: 'low',
      at_most: 'low',
      red_flags: [flag('open'), flag('closed', true)],
      caveats,
    });
    expect(list([given], '2026-01-05')).toEqual([
      {
        ref: 'A',
        file: 'A.yaml',
        assessed: '2026-01-01',
        level: 'low',
        at_least: 'low',
        at_most: 'low',
        due: '2026-01-11',
        days: 6,
        state: 'flagged',
        flags: ['open'],
        caveats: ['Frail'],
        follow_up: { text: 'in 10 days', source: null, basis: 'own-rule' },
      },
    ]);
  });
  it.each([
    ['2026-01-05', 'later'],
    ['2026-01-07', 'later'],
    ['2026-01-08', 'due'],
    ['2026-01-11', 'due'],
    ['2026-01-12', 'overdue'],
  ])('on %s: %s', (today, state) => expect(list([client('A')], today)[0]?.state).toBe(state));
  it('a flag changes nothing for who is due or overdue, and one that is cleared nothing at all', () => {
    const red_flags = [flag('open')];
    expect(list([client('A', { red_flags })], '2026-01-11')[0]?.state).toBe('due');
    expect(list([client('A', { red_flags })], '2026-01-12')[0]?.state).toBe('overdue');
    expect(list([client('A', { red_flags: [flag('closed', true)] })], '2026-01-05')[0]?.state).toBe('later');
  });
  it('the interval of a level set by hand counts; without any interval the client is not on the list', () => {
    const override = { level: 'high', label: 'High', reason: 'x', by: null, actions: [], follow_up: followUp(2) };
    expect(list([client('A', { override })], '2026-01-01')[0]).toMatchObject({
      due: '2026-01-03',
      level: 'high',
      at_most: 'high',
      follow_up: { text: 'in 2 days' },
    });
    expect(list([client('A', { override, follow_up: null })], '2026-01-01')).toHaveLength(1);
    expect(list([client('A', { follow_up: null })], '2026-01-01')).toEqual([]);
  });
});

describe('order', () => {
  const refs = (clients: readonly NewestVisit[], today: string) => list(clients, today).map(({ ref }) => ref);
  it('state, then days, then reference, however they come in', () => {
    const clients = [
      client('later', {}, '2026-03-01'),
      client('flagged', { red_flags: [flag('open')] }, '2026-03-05'),
      client('due', {}, '2026-01-10'),
      client('b', {}, '2026-01-01'),
      client('a', {}, '2026-01-01'),
      client('longest', {}, '2025-06-01'),
    ];
    const wanted = ['longest', 'a', 'b', 'due', 'flagged', 'later'];
    expect(refs(clients, '2026-01-18')).toEqual(wanted);
    expect(refs([...clients].reverse(), '2026-01-18')).toEqual(wanted);
  });
});

describe('the newest visit', () => {
  it('of each client, the later in the list where two are of one day', () => {
    const items = [
      { ref: 'A', assessed: '2026-01-02', id: 1 },
      { ref: 'A', assessed: '2026-01-01', id: 2 },
      { ref: 'B', assessed: '2026-01-01', id: 3 },
      { ref: 'B', assessed: '2026-01-01', id: 4 },
      { ref: 'C', assessed: '2026-01-01', id: 5 },
      { ref: 'C', assessed: '2026-01-02', id: 6 },
    ];
    expect(newestOf(items).map(({ id }) => id)).toEqual([1, 4, 6]);
    expect(newestOf([])).toEqual([]);
  });
});
