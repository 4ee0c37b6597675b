/** What is said of a call, a header or a map before and while rows are read: nothing that was asked for is dropped without a word. */
import { describe, expect, it } from 'vitest';
import { runInMemory } from '../hardening/memory-io.ts';

const TABLE = 'ref,age,site,timed_up_and_go\nA-1,74,N,12.8\n';

async function cohort(args: readonly string[], files: Readonly<Record<string, string>> = {}) {
  const { code, io } = await runInMemory(['cohort', ...args], { files: { 'in.csv': TABLE, ...files } });
  return { code, out: io.out(), said: io.err(), io };
}

describe('an option that would do nothing', () => {
  it.each([
    [['in.csv', '--by', 'site'], '--by parts the group summary'],
    [['in.csv', '--unmasked'], '--unmasked is about the group summary'],
    [['in.csv', '--split'], '--split goes with --merge'],
    [['in.csv', '--suggest-columns', '--summary', 'x.json'], '--summary cannot stand beside --suggest-columns'],
    [['p.json', '--merge', '--summary', 'x.json', '-o', 'y.csv'], '--output cannot stand beside --merge'],
    [
      ['p.json', '--merge', '--summary', 'x.json', '--columns', 'm', '--rejects', 'r'],
      '--rejects and --columns cannot stand beside',
    ],
    [['visits', '--header', 'a,b', '--workers', '2'], '--header and --workers cannot be used with a folder'],
  ])('%j is refused', async (args, words) => {
    const { code, out, said } = await cohort(args, { 'visits/a.yaml': 'format: 1\n' });
    expect(said).toContain(words);
    expect([code, out]).toEqual([2, '']);
  });
});

describe('a page by something that names clients', () => {
  it.each([
    ['in.csv', 'ref'],
    ['visits', 'ref'],
    ['visits', 'file'],
  ])('%s by %s is refused, but for one that stays in the clinic', async (input, by) => {
    const files = { 'visits/a.yaml': 'format: 1\nassessed: 2026-05-11\nclient: {ref: A-1, sex: female, age: 74}\n' };
    const refused = await cohort([input, '--summary', 'x.json', '--by', by], files);
    expect(refused.said).toContain('tells single clients');
    expect([refused.code, refused.io.files.has('x.json')]).toEqual([2, false]);
    expect((await cohort([input, '--summary', 'x.json', '--by', by, '--unmasked'], files)).code).toBe(0);
  });
});

describe('columns that nobody reads', () => {
  it('are named, unless the map says that they are to be passed on', async () => {
    const table = 'age,Falls,Diary,timed_up_and_go\n74,2,x,12.8\n';
    const map = 'columns: {Falls: pass}\n';
    expect((await cohort(['in.csv'], { 'in.csv': table })).said).toContain(
      'passed on unread, since the headings say nothing known: "Falls", "Diary"; ',
    );
    const { said } = await cohort(['in.csv', '--columns', 'm.yaml'], { 'in.csv': table, 'm.yaml': map });
    expect(said).toContain(': "Diary"; ');
    expect(said).not.toContain('Falls');
  });
  it('are not those that part the cohort', async () => {
    const files = { 'in.csv': 'age,clinic,TUG\n74,N,12\n' };
    expect((await cohort(['in.csv'], files)).said).toContain('column "clinic" is passed on unread');
    expect((await cohort(['in.csv', '--by', 'clinic', '--summary', 's.json'], files)).said).not.toContain('clinic');
  });
  it('are not all named where they are many', async () => {
    const many = Array.from({ length: 40 }, (_, index) => `Q${index}`);
    const { said } = await cohort(['in.csv'], { 'in.csv': `age,${many.join(',')}\n` });
    expect(said).toContain('"Q11" and 28 more;');
    expect(said).not.toContain('"Q12"');
  });
});

describe('what to write instead', () => {
  const HEAD = 'age,assessed,timed_up_and_go_trial1,timed_up_and_go_trial2,five_times_sit_to_stand,lung_condition';
  const reasons = async (row: string, map = 'format: 1\n') =>
    (await cohort(['in.csv', '--columns', 'm.yaml'], { 'in.csv': `${HEAD}\n${row}\n`, 'm.yaml': map })).said;
  it('is said for a table, not for a session file', async () => {
    for (const row of [
      '74,,{unable: x},,,',
      '74,,12,,{value: 3},',
      '74,,,,"{declined: x}",',
      '74,,,,not possible,',
      '74,,,,>60,',
      '74,,,,,{a: b}',
    ])
      expect((await reasons(row)).replace(/`[^`]*`/g, '').replace(/\((?:values|words): [^)]*\)/g, '')).not.toContain('{');
  });
  it('is a word of the map for a word that a test has instead of a number', async () => {
    expect(await reasons('74,,,,knee gave way,')).toContain('which outcome the word stands for (words: {unable: [...]})');
    expect(await reasons('74,,,,12 s,')).not.toContain('words:');
  });
  it('is the order of dates only where none is stated', async () => {
    expect(await reasons('74,11/13/2026,,,,')).toContain('dates: dmy');
    expect(await reasons('74,11/13/2026,,,,', 'dates: dmy\n')).not.toContain('dates: dmy');
  });
  it('is left to whoever was there for a trial that could not be done beside one with a number', async () => {
    expect(await reasons('74,,unable,12.3,,')).toContain(
      'column "timed_up_and_go_trial1": unable at this trial, and another trial has a number;',
    );
  });
});

describe('a map whose word its column cannot hold', () => {
  it('stops the work once, with the place in the map, instead of refusing every row', async () => {
    const files = {
      'in.csv': 'Sex,Age,TUG\n1,74,12.8\n2,75,9.4\n',
      'm.yaml':
        'format: 1\ncolumns:\n  Sex: {to: sex, values: {1: femal, 2: male}}\n  TUG: {to: timed_up_and_go, values: {x: unabel, y: unable, z: n/a}}\n',
    };
    const { code, out, said } = await cohort(['in.csv', '--columns', 'm.yaml'], files);
    expect(said).toMatch(/^m\.yaml:3:\d+: what "1" stands for cannot be there: .*`femal`/m);
    expect(said).toMatch(/^m\.yaml:4:\d+: what "x" stands for cannot be there: .*`unabel`/m);
    expect(said.match(/stands for cannot/g)).toHaveLength(2);
    expect([code, out]).toEqual([2, '']);
  });
});

describe('where the output goes', () => {
  it('a name that ends in .ndjson is written as that', async () => {
    const { io } = await cohort(['in.csv', '-o', 'scored.ndjson']);
    expect(JSON.parse(io.files.get('scored.ndjson')?.toString('utf8') ?? '')).toMatchObject({
      ref: 'A-1',
      timed_up_and_go_value: 12.8,
    });
  });
  it('a proposed map is written to --output', async () => {
    const { io, out } = await cohort(['in.csv', '--suggest-columns', '-o', 'm.yaml']);
    expect(io.files.get('m.yaml')?.toString('utf8')).toContain('timed_up_and_go: timed_up_and_go');
    expect(out).toBe('');
  });
});
