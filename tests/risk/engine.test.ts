/** The engine on invented pathways: what the published ones never ask of it. */
import { describe, expect, test } from 'vitest';
import { itemFacts, readItems } from '../../src/risk/items.ts';
import { place, placement } from '../../src/risk/place.ts';
import { solve } from '../../src/risk/solve.ts';
import { withVariants } from '../../src/risk/variants.ts';
import { item, pathway, step } from './invented.ts';
import { type FieldInputs, facts } from './support.ts';

const HIGH = { level: 'high' };
const LOW = { level: 'low' };
const both = (a: string, b: string): FieldInputs => ({ 'x.a': a, 'x.b': b });

describe('which answers settle an open level', () => {
  const kinds = (first: string, second: string, third: string) =>
    pathway({
      items: [item('a', { kind: first }), item('b', { kind: second }), item('c', { kind: third })],
      steps: [step('s', { any: [{ item: 'a' }, { item: 'b' }, { item: 'c' }] }, HIGH, LOW)],
    });
  test('a record is looked up before a question is asked, and a test comes last', () => {
    expect(placement(kinds('test', 'question', 'record'), facts({})).missing).toEqual(['c', 'b', 'a']);
    expect(placement(kinds('question', 'record', 'test'), facts({})).missing).toEqual(['b', 'a', 'c']);
    expect(placement(kinds('record', 'test', 'question'), facts({})).missing).toEqual(['a', 'c', 'b']);
  });
  test('among equals the order of the file', () => {
    expect(placement(kinds('test', 'test', 'test'), facts({})).missing).toEqual(['a', 'b', 'c']);
    expect(placement(kinds('test', 'record', 'test'), facts({})).missing).toEqual(['b', 'a', 'c']);
  });
  test('none where the level is settled, and only those that can still change it', () => {
    expect(placement(kinds('test', 'test', 'test'), facts({ 'x.b': 'yes' }))).toEqual({
      level: 'high',
      at_least: 'high',
      at_most: 'high',
      missing: [],
    });
    expect(placement(kinds('test', 'test', 'test'), facts({ 'x.b': 'no', 'x.c': 'no' })).missing).toEqual(['a']);
  });
});

describe('the conditions of steps', () => {
  const levelBy = (condition: Record<string, unknown>, fields: FieldInputs) =>
    placement(pathway({ items: [item('a'), item('b')], steps: [step('s', condition, HIGH, LOW)] }), facts(fields)).level;
  test('not', () => {
    expect(levelBy({ not: { item: 'a' } }, both('no', 'no'))).toBe('high');
    expect(levelBy({ not: { item: 'a' } }, both('yes', 'no'))).toBe('low');
  });
  test('all, any and any recorded', () => {
    expect(levelBy({ all: [{ item: 'a' }, { item: 'b' }] }, both('yes', 'no'))).toBe('low');
    for (const key of ['any', 'any_recorded']) {
      expect(levelBy({ [key]: [{ item: 'a' }, { item: 'b' }] }, both('no', 'yes'))).toBe('high');
      expect(levelBy({ [key]: [{ item: 'a' }, { item: 'b' }] }, both('no', 'no'))).toBe('low');
    }
  });
  test('about anything but items are refused', () => {
    expect(() => levelBy({ field: 'x.a', is: 'yes' }, {})).toThrow('a step may ask about items only');
  });
  test('about an item that is not there are refused', () => {
    expect(() => levelBy({ item: 'z' }, {})).toThrow('unknown item "z"');
  });
});

describe('a pathway that cannot be walked is refused', () => {
  const walked = (...steps: Record<string, unknown>[]) => placement(pathway({ steps }), facts({ 'x.a': 'yes' }));
  test('a level that is not there', () => {
    expect(() => walked(step('s', { item: 'a' }, { level: 'middle' }, LOW))).toThrow('unknown level "middle"');
  });
  test('a circle, and a step that is not there', () => {
    expect(() => walked(step('s', { item: 'a' }, { step: 't' }, LOW), step('t', { item: 'a' }, { step: 's' }, LOW))).toThrow(
      'run in a circle',
    );
    expect(() => walked(step('s', { item: 'a' }, { step: 'z' }, LOW))).toThrow('a step that is not there');
  });
  test('a rule that gives what the item cannot be', () => {
    const wrong = item('a', { from: [{ when: { field: 'x.a', is: 'yes' }, values: ['perhaps'] }] });
    expect(() => placement(pathway({ items: [wrong] }), facts({ 'x.a': 'yes' }))).toThrow('"a": a rule gives values');
  });
});

test('what is remembered for one pattern of answers is not taken for another', () => {
  const asked = pathway({
    items: [item('a', { values: ['p', 'pq', 'q'] }), item('b', { values: ['r', 'qr', 'q'] })],
    steps: [
      step(
        's',
        {
          all: [
            { item: 'a', is: 'p' },
            { item: 'b', is: 'qr' },
          ],
        },
        HIGH,
        LOW,
      ),
    ],
  });
  expect(placement(asked, facts(both('pq', 'r'))).level).toBe('low');
  expect(placement(asked, facts(both('p', 'qr'))).level).toBe('high');
  // p or q left open, against the single value pq
  const [first, second] = readItems(asked, facts(both('p', 'qr')));
  if (first === undefined || second === undefined) throw new Error('two items');
  expect(solve(asked, [{ ...first, possible: ['pq'] }, second]).levels).toEqual([0]);
  expect(solve(asked, [{ ...first, possible: ['p', 'q'] }, second]).levels).toEqual([0, 1]);
});

test('an item that a condition names and the pathway does not have can be nothing', () => {
  expect(itemFacts(readItems(pathway({}), facts({ 'x.a': 'yes' }))).item?.('a')).toEqual(['yes']);
  expect(itemFacts([]).item?.('a')).toEqual([]);
});

describe('options', () => {
  const always = (value: string) => ({
    items: [item('a', { from: [{ when: { field: 'x.z', recorded: false }, values: [value] }] })],
  });
  const option = (id: string, more: Record<string, unknown>) => ({
    id,
    name: `Name ${id}`,
    text: `Text ${id}`,
    basis: { own_rule: true, note: 'x' },
    ...more,
  });
  const optional = pathway({
    variants: [option('p', always('no')), option('qr', always('yes')), option('pq', always('yes')), option('r', always('no'))],
  });
  test('the same options give the same pathway again, so that what was worked out for it is kept', () => {
    expect(withVariants(optional, ['p'])).toBe(withVariants(optional, ['p']));
    expect(withVariants(optional, [])).toBe(optional);
  });
  test('options whose ids run together are not mistaken for each other', () => {
    expect(placement(optional, facts({}), ['p', 'qr']).level).toBe('high');
    expect(placement(optional, facts({}), ['pq', 'r']).level).toBe('low');
  });
  test('those that are on are named, the others not, and what they change is said first', () => {
    const placed = place(optional, facts({}), {}, ['qr']);
    expect(placed.options).toEqual([{ id: 'qr', name: 'Name qr' }]);
    expect(placed.caveats).toMatchObject([{ id: 'qr', text: 'Text qr', basis: 'own-rule' }]);
    expect(place(optional, facts({ 'x.a': 'no' }), {}).options).toEqual([]);
  });
});

describe('the reason of a step', () => {
  const because = (over: Record<string, unknown>, fields: FieldInputs): string | undefined =>
    place(pathway({ items: [item('a', over)] }), facts(fields), {}).steps[0]?.because;
  test('says of what is not known that it was not asked, or not tested', () => {
    expect(because({}, {})).toBe('a not recorded');
    expect(because({ kind: 'test' }, {})).toBe('a not tested');
    expect(because({ kind: 'record' }, {})).toBe('a not recorded');
  });
  test('names all that decided, one after the other', () => {
    const rule = (values: string[]) => ({
      when: {
        all: [
          { field: 'x.a', is: 'yes' },
          { field: 'x.b', is: 'yes' },
        ],
      },
      values,
    });
    const said = because({ from: [rule(['yes'])] }, { 'x.a': 'yes', 'x.b': 'yes' });
    expect(said).toMatch(/^a\b.*, b\b/);
  });
  test('says so where several values are left', () => {
    expect(
      because({ from: [{ when: { field: 'x.a', is: 'yes' }, values: ['no', 'yes'], because: 'so it is' }] }, { 'x.a': 'yes' }),
    ).toBe('so it is, not settled');
  });
  test('marks a reading of our own and a recalled border', () => {
    const from = [{ when: { field: 'x.a', is: 'yes' }, values: ['yes'], because: 'so it is' }];
    const basis = { source: 'alpha-2020', location: 'x', status: 'full-text' };
    expect(because({ from, basis }, { 'x.a': 'yes' })).toBe('so it is');
    expect(because({ from, basis: { ...basis, status: 'memory' } }, { 'x.a': 'yes' })).toBe(
      'so it is (recalled, not checked against the paper)',
    );
    expect(because({ from, basis: { own_rule: true, note: 'x' } }, { 'x.a': 'yes' })).toBe(
      "so it is (the program's own reading)",
    );
  });
});

describe('what follows from a level', () => {
  test('settled: its actions with their requests, and its follow-up', () => {
    const { actions, follow_up } = place(pathway({}), facts({ 'x.a': 'no' }), {});
    expect(actions).toEqual([
      { text: 'Low: first action', request: 'Low: please look', source: 'alpha-2020', basis: 'full-text', location: 'Figure 1' },
      { text: 'Low: second action', request: null, source: null, basis: 'own-rule', location: 'invented' },
    ]);
    expect(follow_up).toMatchObject({ text: 'Low: come back', within_days: 300 });
  });
  test('open: first settle it, plan with care until then, and come back as the highest level would', () => {
    const open = pathway({
      items: [item('a'), item('b')],
      steps: [step('s', { any: [{ item: 'a' }, { item: 'b' }] }, HIGH, LOW)],
    });
    const { actions, follow_up } = place(open, facts({}), {});
    expect(actions.map(({ text }) => text)).toEqual([
      'Settle the level: Is it a? Is it b?',
      'Until then plan with care, as for the highest level still possible (High).',
      'Low: first action',
      'Low: second action',
    ]);
    for (const own of actions.slice(0, 2)) expect(own).toMatchObject({ source: null, basis: 'own-rule', location: null });
    expect(follow_up).toMatchObject({ text: 'High: come back (as for High until the level is settled)', within_days: 30 });
  });
});

test('a remark that holds for everybody is told from one about this client', () => {
  const caveat = (id: string, when: Record<string, unknown>) => ({ id, when, text: id, basis: { own_rule: true, note: 'x' } });
  const remarked = pathway({
    caveats: [
      caveat('everybody', { field: 'client.age', recorded: true }),
      caveat('older', { field: 'client.age', at_least: 60 }),
      caveat('asked', { field: 'x.a', recorded: true }),
      caveat('settled', { item: 'a' }),
      caveat('several', { all: [{ field: 'client.age', recorded: true }] }),
    ],
  });
  const found = place(remarked, facts({ 'client.age': 74, 'x.a': 'yes' }), {}).caveats;
  expect(Object.fromEntries(found.map(({ id, specific }) => [id, specific]))).toEqual({
    everybody: false,
    older: true,
    asked: true,
    several: true,
  });
});
