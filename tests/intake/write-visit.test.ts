/** A visit as the text of a file: every line with what can stand there. */
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { findTest } from '../../src/intake/test-names.ts';
import { inFlow, type VisitForm, visitText } from '../../src/intake/write-visit.ts';
import { definition } from './invented.ts';

const TESTS = [
  definition({ id: 'walk', name: 'Walk', unit_text: 's' }),
  definition({ id: 'score', name: 'Score', unit_text: '', headings: ['SC-1'], short_name: 'Sco' }),
];
const lines = (over: Partial<VisitForm> = {}): string[] =>
  visitText({ tree: {}, emptyKeys: [], emptyTests: [], tests: TESTS, ...over }).split('\n');
/** The line of a key, without the blanks before its comment. */
const lineOf = (key: string, over: Partial<VisitForm>): string | undefined =>
  lines(over)
    .find((each) => each.trimStart().startsWith(`${key}:`))
    ?.replace(/ +# /, ' # ');

describe('a value on one line', () => {
  it.each([
    [5, '5'],
    ['a b', 'a b'],
    ['no: yes', '"no: yes"'],
    [[1, 2.5], '[1, 2.5]'],
    [{ a: [1], b: 'x' }, '{a: [1], b: x}'],
  ])('%j', (value, text) => {
    expect(inFlow(value)).toBe(text);
    expect(parse(text)).toEqual(value);
  });
  it('however long', () => expect(inFlow({ note: 'x '.repeat(200).trim() })).not.toContain('\n'));
});

describe('the file', () => {
  it('begins with the line for editors and the format, and holds nothing that was not given', () => {
    expect(lines()).toEqual([
      '# yaml-language-server: $schema=./visit.schema.json',
      `${'format: 1'.padEnd(44)} # one file is one visit; a line without a value counts as not recorded, never as no`,
      '',
    ]);
  });
  it('values in the order of the tables, whatever the order they came in', () => {
    const tree = {
      tests: { score: 3, walk: [12, 13] },
      history: { falls_past_year: 1 },
      assessed: '2026-05-11',
      client: { age: 74, ref: 'M-1' },
    };
    const text = visitText({ tree, emptyKeys: [], emptyTests: [], tests: TESTS });
    expect(parse(text)).toEqual({ format: 1, ...tree });
    expect(text.split('\n').map((each) => each.split(':')[0])).toEqual([
      expect.stringContaining('#'),
      'format',
      'client',
      '  ref',
      '  age',
      'assessed',
      'history',
      '  falls_past_year',
      'tests',
      '  walk',
      '  score',
      '',
    ]);
  });
  it('every line says what can stand there, at one column', () => {
    const emptyKeys = [
      'client.ref',
      'client.sex',
      'assessed',
      'assessor',
      'history.feels_unsteady',
      'health.recent_surgery',
      'health.oral_steroid',
      'vitals.bp_lying',
      'vitals.spo2_rest',
    ];
    const of = (key: string) => lineOf(key, { emptyKeys });
    expect(of('ref')).toBe('  ref: # Your own reference for the client; not a name');
    expect(of('sex')).toBe('  sex: # Sex as the published tables use it (female | male | not recorded)');
    expect(of('assessed')).toBe('assessed: # Day of the visit');
    expect(of('assessor')).toBe('assessor: # Who made the assessment');
    expect(of('feels_unsteady')).toContain('(yes | no | unknown)');
    expect(of('recent_surgery')).toContain('(yes | no | unknown)');
    expect(of('oral_steroid')).toContain('(no | unknown | {daily_mg: 7.5, months: 14})');
    expect(of('bp_lying')).toContain('(138/78)');
    expect(of('spo2_rest')).toBe('  spo2_rest: # Oxygen saturation at rest, %');
    for (const each of lines({ emptyKeys }).filter((text) => / # /.test(text)))
      expect(each.indexOf(' # ')).toBeGreaterThanOrEqual(44);
    expect(lines({ emptyKeys }).filter((text) => text.startsWith('health')).length).toBe(1);
    expect(lines({ emptyKeys }).join()).not.toContain('medicines');
    expect(lines({ emptyKeys }).join()).not.toContain('osteoporosis');
  });
  it('tests with their names and units; how results are written stands above empty ones only', () => {
    expect(lineOf('walk', { emptyTests: ['walk'] })).toBe('  walk: # Walk, s');
    expect(lineOf('score', { tree: { tests: { score: 3 } } })).toBe('  score: 3 # Score, points');
    const empty = lines({ emptyTests: ['walk'] }).join('\n');
    expect(empty).toContain('{unable: the reason}');
    expect(empty).toContain('{right: [4.2, 6.0], left: 3.4, ceiling: 30}');
    expect(lines({ tree: { tests: { walk: 3 } } }).join('\n')).not.toContain('{unable');
    expect(lines({ emptyTests: ['walk'] }).join('\n')).not.toContain('score:');
    expect(lines({ tree: { tests: { walk: 3 } } }).join('\n')).toContain('tests:\n  walk: 3');
  });
  it('a group that is no mapping counts as empty', () => {
    for (const client of [5, null, ['a'], 'text']) expect(lines({ tree: { client } })).toHaveLength(3);
  });
});

describe('names of tests', () => {
  it('the id, the name, the short name or a heading, whatever the case and signs', () => {
    for (const name of ['score', 'SCORE', 'Sc-O_re', 'sco', 'SC1', 'sc 1']) expect(findTest(name, TESTS)?.id).toBe('score');
    expect(findTest('stroll', TESTS)?.id).toBe('walk');
    expect(findTest('zzz', TESTS)).toBeUndefined();
    const clash = [definition({ id: 'a', headings: ['b'] }), definition({ id: 'b', headings: [], name: 'B', short_name: 'B' })];
    expect(findTest('b', clash)?.id).toBe('b');
  });
});
