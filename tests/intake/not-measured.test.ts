/** No result and the reason why; and all tests of a file together. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/intake/problems.ts';
import { readTests } from '../../src/intake/readings.ts';
import { definition, line } from './invented.ts';
import { read, reading, told } from './read-one.ts';

describe('no result, with a reason', () => {
  it('unable, declined, unsafe with what the danger was', () => {
    expect(reading({ unable: ' could not ' })).toEqual({ outcome: 'unable', reason: 'could not' });
    expect(reading({ declined: 'tired', note: 'later' })).toEqual({ outcome: 'declined', reason: 'tired', note: 'later' });
    for (const why of ['balance', 'medical', 'other'])
      expect(reading({ unsafe: 'dizzy', why })).toEqual({ outcome: 'unsafe', reason: 'dizzy', why });
  });
  it('without the reason', () => {
    for (const outcome of ['unable', 'declined'])
      expect(told({ [outcome]: null })).toEqual([
        `tests.walk.${outcome} (key) bare_outcome: \`${outcome}\` lacks its reason; write {${outcome}: the reason} instead`,
      ]);
    expect(read({ unable: null }).tests).toEqual([]);
    expect(told({ unable: 5 })).toHaveLength(1);
    expect(told({ unable: 5 })[0]).toContain('bad_text');
  });
  it('unsafe without what the danger was, and why beside another reason', () => {
    const { tests, told: words } = read({ unsafe: 'dizzy' });
    expect(words).toEqual([
      'tests.walk.unsafe (key) bad_test_form: unsafe without what the danger was; add why: balance, why: medical or why: other, as in {unsafe: the reason, why: balance}',
    ]);
    expect(tests[0]?.reading).toEqual({ outcome: 'unsafe', reason: 'dizzy' });
    expect(told({ unsafe: 'dizzy', why: 'wet floor' })).toHaveLength(1);
    expect(told({ unsafe: 'dizzy', why: 'wet floor' })[0]).toContain('tests.walk.why (value) not_a_choice');
    const other = read({ unable: 'sore', why: 'medical' });
    expect(other.told).toEqual(['tests.walk.why (key) bad_test_form: why does not belong to unable; leave it out']);
    expect(other.tests[0]?.reading).toEqual({ outcome: 'unable', reason: 'sore' });
  });
  it('beside a result, or two of them', () => {
    const hint = 'write either the result or one reason why there is none';
    expect(told({ unable: 'sore', value: 12 })).toEqual([
      `tests.walk (value) bad_test_form: unable and value are given together; ${hint}`,
    ]);
    expect(told({ declined: 'tired', unable: 'sore' })).toEqual([
      `tests.walk (value) bad_test_form: unable and declined are given together; ${hint}`,
    ]);
    expect(told({ unsafe: 'x', unable: 'sore', trials: [1] })[0]).toContain('unable and unsafe and trials are given together');
    expect(read({ unable: 'sore', value: 12 }).tests).toEqual([]);
    expect(told({ unable: 'sore', value: null }).join()).not.toContain('given together');
  });
  it.each([
    ['unable', '{unable: the reason}'],
    ['Cannot', '{unable: the reason}'],
    ['failed', '{unable: the reason}'],
    ['fail', '{unable: the reason}'],
    ['declined', '{declined: the reason}'],
    ['REFUSED', '{declined: the reason}'],
    ['unsafe', '{unsafe: the reason, why: balance}'],
  ])('the bare word %s lacks its reason', (word, instead) =>
    expect(told(word)).toEqual([`tests.walk (value) bare_outcome: \`${word}\` lacks its reason; write ${instead} instead`]),
  );
  it.each(['no', 'None', 'n/a', 'ND', 'nil', 'not done', 'not tested', 'not attempted', 'skipped', 'missing', '-'])(
    'the word "%s" is no result',
    (word) =>
      expect(told(word)).toEqual([
        `tests.walk (value) bare_outcome: \`${word}\` is no result; leave the line out, or write {declined: the reason} or {unable: the reason} instead`,
      ]),
  );
  it('any other word is read as a number that went wrong', () => {
    expect(told('12,8')).toEqual([
      'tests.walk (value) decimal_comma: `12,8` has a decimal comma; write 12.8 with a point instead',
    ]);
    expect(read('12,8').tests).toEqual([]);
  });
});

describe('all tests', () => {
  const tests = [definition({ id: 'walk' }), definition({ id: 'stand', headings: ['Chair-Stand'], name: 'Stand' })];
  function all(value: unknown) {
    const findings: Finding[] = [];
    return { found: readTests(value, tests, findings).map(({ test }) => test), told: findings.map(line) };
  }
  it('in the order of the catalogue', () => expect(all({ stand: 3, walk: 4 })).toEqual({ found: ['walk', 'stand'], told: [] }));
  it('what is no mapping has no tests', () => {
    expect(all(null)).toEqual({ found: [], told: [] });
    expect(all([1])).toEqual({ found: [], told: [] });
  });
  it.each([
    ['chair stand', 'write stand instead'],
    ['strol', 'write walk instead'],
    ['stnad', 'write stand instead'],
    ['zzzzzz', 'write the id of a test of the catalogue instead'],
  ])('an unknown test: %s', (key, hint) =>
    expect(all({ [key]: 3, walk: 4 })).toEqual({
      found: ['walk'],
      told: [`tests.${key} (key) unknown_key: unknown test \`${key}\`; ${hint}`],
    }),
  );
  it('the part behind a decimal comma is told as such', () =>
    expect(all({ walk: 12, 8: null }).told).toEqual([
      'tests.8 (key) decimal_comma: `8` looks like the part behind a decimal comma; write the number with a point instead, such as 4.2',
    ]));
  it('of very many only the first are told', () => {
    const keys = Array.from({ length: 250 }, (_, index) => [`zzzz${index}`, 1]);
    expect(all(Object.fromEntries(keys)).told).toHaveLength(200);
  });
});
