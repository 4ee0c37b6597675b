/** Sides of a visit and what is worked out from them, where session files seldom go. Invented tests. */
import { describe, expect, it } from 'vitest';
import { missingNote, scoreSession } from '../../src/scoring/score-session.ts';
import type { RecordedTest } from '../../src/session.ts';
import { client, recorded, session, unable } from '../support/client.ts';
import { definition, evidence, hold, walk } from './invented.ts';

const cost = definition({ id: 'cost', name: 'Cost', kind: 'percent', unit: '%' });
const dual = definition({ id: 'dual', name: 'Dual' });
const relative = {
  test: 'cost',
  single: 'walk',
  dual: 'dual',
  basis: { status: 'common-practice' as const, note: 'x' },
  notes: [],
};
const held = evidence({
  tests: [walk, hold, dual, cost],
  derived: { point_totals: [], stage_ladders: [], relative_costs: [relative] },
});
const scored = (tests: readonly RecordedTest[]) =>
  scoreSession(session(tests), { evidence: held, subject: { client: client(), lungCondition: null }, applies: () => false });

describe('a result worked out from two sides', () => {
  it('takes the worse of both, which of a time is the longer: (18 - 12) / 12 = 50 %', () => {
    const { tests, notes } = scored([recorded('walk', 10, 'right'), recorded('walk', 12, 'left'), recorded('dual', 18)]);
    expect(tests.find(({ test }) => test === 'cost')).toMatchObject({ value: 50, trials: [50], outcome: 'measured' });
    expect(notes).toEqual([]);
  });
  it('what stands in the file and is no test of the catalogue changes nothing', () => {
    const known = [recorded('walk', 12), recorded('dual', 18)];
    expect(scored([recorded('gone', 9), ...known, recorded('gone', 8)])).toEqual(scored(known));
  });
  it('what cannot be formed is said with every part and why', () => {
    const missing = {
      kind: 'cannot_be_formed',
      test: 'cost',
      missing: ['walk', 'gone', 'dual'],
      unusable: ['gone'],
      unable: ['dual'],
    } as const;
    expect(missingNote(missing, held)).toBe(
      'Cost cannot be formed: walk not recorded, gone stopped too early to tell, dual unable',
    );
  });
});

it('the better side is noted beside the sides that have a number', () => {
  const { tests } = scored([recorded('hold', 9, 'right'), recorded('hold', 8, 'left'), recorded('hold', unable)]);
  expect(tests.map(({ side, notes }) => [side, notes.length])).toEqual([
    ['right', 1],
    ['left', 1],
    [null, 0],
  ]);
});
