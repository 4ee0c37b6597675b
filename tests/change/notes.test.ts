/** What stands beside a change, and when somebody is asked to look again. */
import { describe, expect, it } from 'vitest';
import { type Bare, notesOf, reviewOf } from '../../src/change/notes.ts';
import type { TestContext } from '../../src/change/test-change.ts';
import type { Compared, CrossedMark, ErrorUsed, ImportantChange } from '../../src/change/types.ts';
import { comparison, definition, done, doneResult, error, evidenceWith, unableDone } from './invented.ts';

const compared = (over: Partial<Compared> = {}): Compared => ({
  from: '2026-02-02',
  to: '2026-05-04',
  before: 12,
  after: 11,
  change: -1,
  change_bound: 'exact',
  direction: 'better',
  real: 'no',
  verdict: 'within_error',
  comparable: true,
  mdc95: 3,
  because: '',
  ...over,
});
const RAW = { change: -1, bound: 'exact', direction: 'better' } as const;

type Given = Omit<Partial<Bare>, 'pair'> & {
  compared?: Partial<Compared>;
  pair?: Partial<Omit<Bare['pair'], 'compared'>>;
};
const bare = ({ compared: over, pair, ...rest }: Given = {}): Bare => ({
  pair: { compared: compared(over), raw: RAW, error: null, others: [], conflicts: [], ...pair },
  matters: 'no',
  important: null,
  crossed: [],
  start: done(12),
  last: done(11),
  ...rest,
});
const context = (errors: Parameters<typeof evidenceWith>[0] = [], conditions: readonly string[] = []): TestContext =>
  ({
    evidence: evidenceWith(errors),
    test: definition(),
    conditions: new Set(conditions),
    holds: () => false,
  }) as unknown as TestContext;
const important = (most: number) => ({ least: most, most }) as ImportantChange;

describe('an important change smaller than the error', () => {
  const both = 'what matters on average (2 s) is smaller than the measurement error of one person (3 s)';
  it('is said where the change is within error, and whether this one may matter', () => {
    expect(notesOf(bare({ important: important(2), matters: 'yes' }), context())).toEqual([
      `${both}: this change may matter, and may still be chance`,
    ]);
    expect(notesOf(bare({ important: important(2) }), context())).toEqual([
      `${both}: a change can matter and still not be told from error`,
    ]);
  });
  it.each<[string, Given]>([
    ['it is as large as the error', { important: important(3) }],
    ['the change is beyond error', { important: important(2), matters: 'yes', compared: { verdict: 'improved' } }],
    ['no error is published', { important: important(2), compared: { mdc95: null } }],
    ['no figure is published', {}],
  ])('is not said where %s', (_, given) => expect(notesOf(bare(given), context())).toEqual([]));
});

describe('regression to the mean', () => {
  const first = (standing: 'well_below' | 'below' | 'above', over: object = {}) =>
    doneResult(12, { comparisons: [comparison({ standing })], ...over });
  const notes = (start: Bare['start'], direction: 'better' | 'worse' | 'same') =>
    notesOf(bare({ start, compared: { direction } }), context()).join();
  it('of a very low first result that got better, of a high one that got worse', () => {
    expect(notes(first('well_below'), 'better')).toMatch(/^the first result was among the lowest.*regression to the mean/);
    expect(notes(first('above'), 'worse')).toMatch(/^the first result was among the highest.*regression to the mean/);
  });
  it.each([
    [first('well_below'), 'worse'],
    [first('well_below'), 'same'],
    [first('above'), 'better'],
    [first('below'), 'better'],
    [first('well_below', { outcome: 'unable', value: null }), 'better'],
    [done(12), 'better'],
  ] as const)('not otherwise (%#)', (start, direction) => expect(notes(start, direction)).toBe(''));
});

describe('practice', () => {
  const used = { id: 'used' } as ErrorUsed;
  const errors = [
    error({ id: 'silent' }),
    error({ id: 'general', practice: 'Faster at the second go' }),
    error({ id: 'copd', practice: 'Learned', population: { description: 'COPD', condition: 'copd' } }),
  ];
  const practice = (given: Given, conditions: readonly string[] = []) => notesOf(bare(given), context(errors, conditions));
  it('stands beside a better number, from studies of people like the client or the one that decides', () => {
    expect(practice({})).toEqual(['practice: Faster at the second go (Older people)']);
    expect(practice({}, ['copd'])).toEqual(['practice: Faster at the second go (Older people)', 'practice: Learned (COPD)']);
    const decides = { ...used, id: 'copd', conversion: null, note: null };
    expect(practice({ pair: { error: decides } })).toHaveLength(2);
  });
  it('not beside a worse one, the same one or one that is no number', () => {
    expect(practice({ compared: { direction: 'worse' } })).toEqual([]);
    expect(practice({ compared: { direction: 'same' } })).toEqual([]);
    expect(practice({ pair: { raw: null } })).toEqual([]);
  });
});

describe('tables', () => {
  const placed = (source: string, age_min: number | null, age_max: number | null) =>
    doneResult(12, { comparisons: [comparison({ source, band: { sex: 'all', age_min, age_max }, standing: null })] });
  const notes = (start: Bare['start'], last: Bare['last']) => notesOf(bare({ start, last }), context());
  it('another band of one table: the ages, open ends included', () => {
    const moved = (before: string, after: string) => [
      `compared with people of ${before} before and of ${after} now: a change of standing is partly the birthday`,
    ];
    expect(notes(placed('a', 70, 74), placed('a', 75, 79))).toEqual(moved('70-74', '75-79'));
    expect(notes(placed('a', 70, 74), placed('a', 75, null))).toEqual(moved('70-74', '75 and over'));
    expect(notes(placed('a', null, 74), placed('a', 75, 79))).toEqual(moved('up to 74', '75-79'));
    expect(notes(placed('a', null, null), placed('a', 75, 79))).toEqual(moved('any age', '75-79'));
    expect(notes(placed('a', 70, 74), placed('a', 70, 79))).toHaveLength(1);
    expect(notes(placed('a', 70, 79), placed('a', 75, 79))).toHaveLength(1);
    expect(notes(placed('a', 70, 74), placed('a', 70, 74))).toEqual([]);
  });
  it('another table: the standings must not be compared, and no birthday is named', () => {
    expect(notes(placed('a', 70, 74), placed('b', 75, 79))).toEqual([
      'the two visits are placed by different tables: compare the values, not the standings',
    ]);
    expect(notes(placed('a', 70, 74), done(12))).toEqual([]);
    expect(notes(done(12), placed('a', 70, 74))).toEqual([]);
  });
});

describe('the error', () => {
  it('how it follows and what its source says, and what of the protocol differs', () => {
    const used = { id: 'used', conversion: 'by SEM', note: 'in women' } as ErrorUsed;
    const last = doneResult(12, { trials: [1, 2] });
    const found = notesOf(bare({ last, pair: { error: used } }), context());
    expect(found).toEqual(['1 trial before and 2 now: more trials favour the better value', 'error: by SEM', 'error: in women']);
    expect(notesOf(bare({ pair: { error: { ...used, conversion: null, note: null } } }), context())).toEqual([]);
  });
});

describe('review', () => {
  const mark = (rule: string, over: Partial<CrossedMark> = {}) => ({ rule, counts: true, way: 'into', ...over }) as CrossedMark;
  const worse = { direction: 'worse', verdict: 'within_error' } as const;
  const review = (given: Given) => reviewOf(bare({ pair: { raw: { ...RAW, change: 2.5 } }, ...given }), context());
  it('able and then unable, whatever else', () => {
    expect(review({ last: unableDone, compared: { direction: 'worse', verdict: 'worsened' } })).toBe(
      'able before and unable now: find out why before the next exercise',
    );
    expect(review({ start: unableDone, last: unableDone, compared: { direction: 'same' } })).toBeNull();
    expect(review({ start: unableDone, compared: { direction: 'better', verdict: 'improved' } })).toBeNull();
  });
  it('worse beyond error, with the marks that were passed', () => {
    const beyond = { direction: 'worse', verdict: 'worsened' } as const;
    expect(review({ compared: beyond })).toBe('worse by more than measurement error: test again and ask what has changed');
    expect(review({ compared: beyond, crossed: [mark('12 s'), mark('14 s')] })).toBe(
      'worse by more than measurement error, and past "12 s", "14 s": test again and ask what has changed',
    );
  });
  it('within error only past a mark, and by how much', () => {
    expect(review({ compared: worse })).toBeNull();
    expect(review({ compared: worse, crossed: [mark('12 s')] })).toBe(
      'worse by 2.5 s and past "12 s", though error may explain it: test again soon and ask about falls, illness and medicines',
    );
    expect(review({ compared: worse, crossed: [mark('12 s')], pair: { raw: null } })).toMatch(/^worse and past "12 s"/);
  });
  it('marks that count are named before others, and those that were left behind never', () => {
    const others = mark('others', { counts: false });
    expect(review({ compared: worse, crossed: [others, mark('counts')] })).toContain('past "counts", though');
    expect(review({ compared: worse, crossed: [others] })).toContain('past "others", though');
    expect(review({ compared: worse, crossed: [mark('behind', { way: 'out_of' })] })).toBeNull();
  });
  it('never of a better or equal result, nor of one that must not be compared', () => {
    for (const direction of ['better', 'same', null] as const)
      expect(review({ compared: { direction }, crossed: [mark('12 s')] })).toBeNull();
    const pair = { conflicts: ['another aid'] };
    expect(review({ compared: worse, crossed: [mark('12 s')], pair })).toBeNull();
  });
});
