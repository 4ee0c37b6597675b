/** Words for a choice, where the cases of fit-words.test.ts leave them open: a declared reason, a wish, nobody like the client. */
import { describe, expect, it } from 'vitest';
import type { TableFile } from '../../src/evidence/schema/table.ts';
import { askedOf } from '../../src/scoring/score-test.ts';
import { candidatesFor } from '../../src/scoring/select.ts';
import { countryNotes, whyNoComparison } from '../../src/scoring/why.ts';
import { client, recorded } from '../support/client.ts';
import { A, choice, pair, people, ROW, Z } from './choice.ts';
import { evidence, score, table } from './invented.ts';

describe('why a table goes first', () => {
  const tables = [table({}, [ROW]), table({ source: Z }, [ROW])];
  it('the declared reason of its entry in the defaults stands after the criterion', () => {
    const because = (entries: object[]) =>
      score(evidence({ tables }, { walk: entries as { source: string }[] }), recorded('walk', 9)).selection?.because;
    const criterion = `before ${Z} because it comes first in the order of defaults`;
    expect(
      because([
        { source: A, why: 'the largest' },
        { source: Z, why: 'another' },
      ]),
    ).toBe(`${criterion}; the largest`);
    expect(because([{ source: A }, { source: Z, why: 'another' }])).toBe(criterion);
  });
  it('tables that are alike in everything: the order of the ids', () => {
    const { selection } = choice(tables, { defaults: [A] });
    expect(selection?.because).toBe(`before ${Z} because only it is a default table of this test`);
    const parts = ['one', 'two'].map((id) => ({ id, location: 'x', rows: [ROW] }));
    const alike = choice([table({ parts }, [])]).selection;
    expect(alike?.because).toBe(`before ${A} (two) because nothing else tells them apart and its id comes first`);
    expect(alike?.also_fit[0]?.because).toBe('nothing tells them apart but the order of the ids');
  });
  it('what only one protocol says keeps no tables apart', () => {
    const because = (worse: object, better: object) =>
      choice(pair({}, {}, {}, { worse, better }), { defaults: [Z] }).selection?.also_fit[0]?.because;
    expect(because({ ceiling: 30 }, {})).toBe('not a default table of this test');
    expect(because({}, { ceiling: 30 })).toBe('not a default table of this test');
  });
});

describe('nobody like the client', () => {
  it('is said of a client whose sex is not recorded too, with every reason once', () => {
    const held = evidence({ tables: [table({}, [ROW]), table({ source: Z }, [{ ...ROW, age_max: 75 }])] });
    const { no_comparison_because } = score(held, recorded('walk', 9), { sex: 'not recorded', age: 90 });
    expect(no_comparison_because).toBe(
      `no published norm for this: neither of the two tables held has a row for age 90, sex not recorded (${A}: it covers the ages 70 to 79; ${Z}: it covers the ages 70 to 75)`,
    );
    const twice = { source: A, part: null, because: 'x' };
    const who = { client: client({ sex: 'male', age: 90 }), lungCondition: null };
    expect(whyNoComparison('walk', held, who, [twice, { ...twice, part: 'b' }])).toBe(
      `no published norm for this: neither of the two tables held has a row for a male client of 90 (${A}: x)`,
    );
  });
  it.each([
    ['female', 'male', 'men'],
    ['male', 'female', 'women'],
  ] as const)('a %s client before rows of the other sex', (sex, other, words) => {
    expect(choice([table({}, [{ ...ROW, sex: other }])], { who: { sex } }).selection?.do_not_fit[0]?.because).toBe(
      `its rows are of ${words} only`,
    );
  });
});

describe('the wish for a country', () => {
  const [norway, other] = pair(people('general', { country: ['NO'] }), people('general', { country: ['US'] })) as [
    TableFile,
    TableFile,
  ];
  const notes = (tables: TableFile[], chosen: number, preferredCountry?: string) => {
    const subject = { client: client(), lungCondition: null, preferredCountry };
    const candidates = candidatesFor(evidence({ tables }), subject, askedOf(recorded('walk', 9), null));
    return countryNotes(subject, { candidates, chosen });
  };
  it('is met by a primary table from there, and only by that', () => {
    expect(notes([norway, other], 0, 'NO')).toEqual([]);
    expect(notes([norway, other], 1, 'NO')).toHaveLength(1);
    expect(notes([norway, other], -1, 'NO')).toHaveLength(1);
    expect(notes([norway, other], 1)).toEqual([]);
    expect(notes([], -1, 'NO')).toEqual([]);
  });
  it('names a source of several parts once', () => {
    const parts = ['one', 'two'].map((id) => ({ id, location: 'x', rows: [ROW] }));
    expect(notes([{ ...norway, parts: table({ parts }, []).parts }, other], 2, 'NO').join()).toContain(
      `from NO there is ${A}, shown beside`,
    );
  });
});
