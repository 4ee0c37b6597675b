/** Notes beside a result (edge of an age band, a source that disagrees), and what stands in it without a number. Invented figures. */
import { describe, expect, it } from 'vitest';
import type { Row } from '../../src/evidence/schema/table.ts';
import { anyMet, countsAsUnable, scoreTest } from '../../src/scoring/score-test.ts';
import type { Client, Reading } from '../../src/session.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { cut, definition, evidence, score, table, walk, women } from './invented.ts';

// 12.5 s: slower than the 12 s of three quarters of `women`, among the quicker of `older`, slower than all of `quick`.
const older = { ...women, percentiles: { p25: 12, p50: 14, p75: 16 } };
const quick = { ...women, percentiles: { p5: 4, p25: 5, p75: 7, p95: 8 } };
const VALUE = 12.5;

describe('close to the edge of an age band', () => {
  const notes = (next: object, who: Partial<Client> = {}, own: object = women, reading: Reading | number = VALUE) =>
    score(
      evidence({ tables: [table({}, [own, { ...older, ...next }])] }, { walk: [{ source: 'alpha-2020' }] }),
      {
        test: 'walk',
        side: 'right',
        reading: typeof reading === 'number' ? measured(reading) : reading,
      },
      who,
    ).notes;
  const note = (band: string, standing = 'expected') => [
    `close to the edge of the age band: among ${band} the standing would be "${standing}"`,
  ];
  const above = { age_min: 80, age_max: 89 };
  const below = { age_min: 60, age_max: 69 };
  it('means within a year of the next one, older or younger', () => {
    expect([77, 78, 79].map((age) => notes(above, { age }))).toEqual([[], [], note('women 80-89')]);
    expect([70, 71, 72].map((age) => notes(below, { age }))).toEqual([note('women 60-69'), [], []]);
  });
  it('a band that is open to the other end, and one that ends at an age of its own', () => {
    expect(notes({ age_min: 80, age_max: null }, { age: 79 })).toEqual(note('women 80 and over'));
    expect(notes({ age_min: null, age_max: 69 }, { age: 70 })).toEqual(note('women up to 69'));
    // a wider band that holds the client too is no next band, wherever it ends
    expect(notes({ age_min: 70, age_max: 95 }, { age: 70 })).toEqual([]);
    expect(notes({ age_min: 50, age_max: 79 }, { age: 79 })).toEqual([]);
    expect(notes({ age_min: null, age_max: null }, { age: 79 })).toEqual([]);
  });
  it('nothing where the standing would be the same, or none could be given', () => {
    expect(notes({ ...above, percentiles: women.percentiles }, { age: 79 })).toEqual([]);
    expect(notes({ ...above, percentiles: { p50: 10 } }, { age: 79 })).toEqual([]);
  });
  it('a standing of two words is written as words', () => {
    expect(notes({ ...quick, ...above }, { age: 79 })).toEqual(note('women 80-89', 'well below'));
  });
  it('only rows of the same sex, setting and side', () => {
    const near = { ...above };
    expect(notes({ ...near, sex: 'male' }, { age: 79 })).toEqual([]);
    expect(notes({ ...near, setting: 'hospital' }, { age: 79 })).toEqual([]);
    expect(notes({ ...near, side: 'left' }, { age: 79 })).toEqual([]);
    const own: Partial<Row> = { setting: 'community', side: 'right' };
    expect(notes({ ...near, ...own }, { age: 79 }, { ...women, ...own })).toEqual(note('women 80-89'));
    expect(notes({ ...near, side: 'right' }, { age: 79 }, { ...women, ...own })).toEqual([]);
    expect(notes({ ...near, setting: 'community' }, { age: 79 }, { ...women, ...own })).toEqual([]);
  });
});

describe('another source that would place the client otherwise', () => {
  const notes = (primary: object, other: object, rows: object = older, defaults = [{ source: 'alpha-2020' }]) =>
    score(
      evidence(
        {
          tables: [
            table({}, [{ sex: 'female', age_min: 70, age_max: 79, ...primary }]),
            table({ source: 'beta-2021', ...other }, [rows]),
          ],
        },
        { walk: defaults },
      ),
      recorded('walk', VALUE),
    ).notes;
  it('is named, its standing in words', () => {
    expect(notes(women, {})).toEqual(['by beta-2021 the standing would be "expected"']);
    expect(notes(women, {}, quick)).toEqual(['by beta-2021 the standing would be "well below"']);
  });
  it('not where it agrees, gives none, or was only recalled', () => {
    expect(notes(women, {}, women)).toEqual([]);
    expect(notes(women, {}, { ...women, percentiles: { p50: 10 } })).toEqual([]);
    expect(notes(women, { status: 'memory' })).toEqual([]);
  });
  it('not where the primary table gives no standing to disagree with', () => {
    expect(notes({ mean: 10 }, {})).toEqual([]);
  });
});

describe('a result without a number', () => {
  const held = evidence({ cutPoints: [cut({})] });
  it('only unable, and unsafe because of balance, count as the worst result', () => {
    const reasons = ['balance', 'medical', 'other', undefined] as const;
    const counts = (outcome: 'unable' | 'unsafe' | 'declined') =>
      reasons.map((why) => countsAsUnable({ outcome, reason: 'x', ...(why === undefined ? {} : { why }) }));
    expect(counts('unable')).toEqual([true, true, true, true]);
    expect(counts('unsafe')).toEqual([true, false, false, false]);
    expect(counts('declined')).toEqual([false, false, false, false]);
    expect(countsAsUnable(measured(9))).toBe(false);
  });
  it('has no trials and is no "at least"; the reason for unsafe stands only beside unsafe', () => {
    const empty = { value: null, trials: [], at_least: false, category: null };
    expect(score(held, recorded('walk', { outcome: 'declined', reason: 'tired' }))).toMatchObject({ ...empty, why: null });
    expect(score(held, recorded('walk', { ...unable, outcome: 'unable', reason: 'x', why: 'other' }))).toMatchObject({
      ...empty,
      outcome: 'unable',
      why: null,
      cut_points: [{ met: true }],
    });
  });
  it('with a number it has its trials to 0.001 s and, where something could be compared, no reason against it', () => {
    const tables = [table({}, [women])];
    const result = score(evidence({ tables }, { walk: [{ source: 'alpha-2020' }] }), recorded('walk', measured([9.12345, 8])));
    expect(result).toMatchObject({ outcome: 'measured', value: 8, trials: [9.123, 8], no_comparison_because: null });
  });
  it('the course is not asked of somebody who could not walk it', () => {
    const course = definition({ course: true });
    const context = { evidence: held, subject: { client: client(), lungCondition: null }, applies: () => false };
    expect(scoreTest(recorded('walk', unable), course, context).notes).toEqual([]);
    expect(scoreTest(recorded('walk', 9), course, context).notes).toHaveLength(1);
    expect(scoreTest(recorded('walk', 9), walk, context).notes).toEqual([]);
  });
});

it('marks: one that is met decides, none that could be decided is not "not met"', () => {
  expect([[], [null], [null, null], [false], [null, false], [false, true], [null, true]].map(anyMet)).toEqual([
    null,
    null,
    null,
    false,
    false,
    true,
    true,
  ]);
});
