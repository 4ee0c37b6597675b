/** What of YAML a visit file may use, where each fault stands, and what the text becomes. */
import { describe, expect, it } from 'vitest';
import { readDocument } from '../../src/intake/document.ts';

/** `from-to code: message; hint` with offsets into the text. */
const faults = (text: string): string[] =>
  readDocument(text).faults.map(({ span, code, message, hint }) => `${span.start}-${span.end} ${code}: ${message}; ${hint}`);
const value = (text: string): unknown => readDocument(text).tree?.value;

describe('a plain text', () => {
  it('becomes a tree, with yes and no as words and dates as texts', () => {
    expect(faults('a: 1\n')).toEqual([]);
    expect(value('a: {b: [1, 2.5], c: yes, d: true, e: ~, f: 2026-05-11}\n')).toEqual({
      a: { b: [1, 2.5], c: 'yes', d: true, e: null, f: '2026-05-11' },
    });
    expect(value('')).toBeNull();
  });
  it('keeps a reference as it was typed, and leaves everything else', () => {
    expect(value('client: {ref: 007, age: 74}\nx: 1\n')).toEqual({ client: { ref: '007', age: 74 }, x: 1 });
    expect(value('client: {ref: M-7}\n')).toEqual({ client: { ref: 'M-7' } });
    expect(value('client: 5\n')).toEqual({ client: 5 });
    expect(value('ref: 007\n')).toEqual({ ref: 7 });
  });
});

describe('what YAML allows and a visit does not', () => {
  it('anchors and aliases', () => {
    const alias =
      'alias: anchors and aliases (&name, *name) are not used here; write the value out, in quotes where it begins with & or *';
    expect(faults('a: &x 1\nb: *x\n')).toEqual([`6-7 ${alias}`, `11-13 ${alias}`]);
    expect(faults('a: &x [1]\n')).toHaveLength(1);
    expect(faults('a: &x {b: 1}\n')).toHaveLength(1);
  });
  it('merge keys', () =>
    expect(faults('a:\n  <<: {b: 1}\n')).toEqual(['5-7 merge_key: merge keys (<<) are not used here; write the entries out']));
  it('tags, each by its name', () => {
    expect(faults('a: !!str 5\n')).toEqual([
      expect.stringMatching(/ tag: the tag tag:yaml\.org,2002:str is not used here; leave it out, or write the text in quotes$/),
    ]);
    expect(faults('a: !mine 5\n').join()).toContain('the tag !mine is not used here');
  });
  it('directives', () => {
    const directive = '0-0 directive: directives (%YAML, %TAG) are not used here; leave the line out';
    expect(faults('%YAML 1.2\n---\na: 1\n')).toEqual([directive]);
    expect(faults('%TAG !e! tag:example.org,2000:\n---\na: 1\n')).toEqual([directive]);
    expect(faults('---\na: 1\n')).toEqual([]);
  });
  it('a second document; the first can still be read', () => {
    const text = 'a: 1\n---\nb: 2\n';
    expect(faults(text)).toEqual([
      expect.stringMatching(/ two_documents: a second document begins here; write one file a visit, without --- between$/),
    ]);
    expect(value(text)).toEqual({ a: 1 });
  });
  it('a key that is written twice; the rest can still be read', () => {
    const text = 'a: 1\nb: {c: 1, d: 2, c: 3}\na: 2\n';
    expect(faults(text)).toEqual([
      '27-28 duplicate_key: `a` is written twice; keep one of the two lines',
      '21-22 duplicate_key: `c` is written twice; keep one of the two lines',
    ]);
    expect(value(text)).not.toBeUndefined();
    expect(faults('a: {x: 1}\nb: {x: 1}\n')).toEqual([]);
  });
});

describe('what is no YAML', () => {
  it('a tab, and what to write instead', () => {
    expect(faults('a:\n\tb: 1\n')).toEqual([expect.stringMatching(/ tab: a tab sets this line in; write blanks instead$/)]);
    expect(readDocument('a:\n\tb: 1\n').tree).toBeNull();
  });
  it.each([
    ['a: "x\n', 'close every quote, bracket and brace, and put a comma between entries'],
    ['a:\n    b: 1\n  c: 2\n', 'set lines that belong together in by the same number of blanks'],
    ['a\nb: 1\n', 'write a colon and a blank after each key'],
    ['a: b: c\n', 'write text that contains a colon in quotes'],
    ['a: @x\n', 'write `key: value` with a blank after the colon, and text with : or # in quotes'],
  ])('%j is told how to go on', (text, hint) => {
    const [first] = readDocument(text).faults;
    expect(first?.code).toBe('yaml_syntax');
    expect(first?.message).toMatch(/^cannot be read as YAML \(.+\)$/);
    expect(first?.message).not.toContain('\n');
    expect(readDocument(text).faults.map((each) => each.hint)).toContain(hint);
    expect(readDocument(text)).toMatchObject({ tree: null, findings: [] });
  });
  it('one message a line, however many there are', () => {
    const { faults: found, lineCounter } = readDocument('a: b: c: d: e\nx: "1" "2" "3"\n');
    const lines = found.map(({ span }) => lineCounter.linePos(span.start).line);
    expect(new Set(lines).size).toBe(lines.length);
    expect(lines.length).toBeGreaterThan(0);
  });
  it('nested beyond fifty levels, in lists and mappings, values and keys', () => {
    const deep = '0-0 yaml_syntax: brackets or lines are nested too deeply; write the session as `key: value` lines';
    const lists = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}\n`;
    const maps = (depth: number) => `${'{a: '.repeat(depth)}1${'}'.repeat(depth)}\n`;
    expect(faults(lists(50))).toEqual([]);
    expect(faults(lists(52))).toEqual([deep]);
    expect(faults(maps(49))).toEqual([]);
    expect(faults(maps(52))).toEqual([deep]);
    expect(faults(`? ${lists(52)}: 1\n`)).toEqual([deep]);
    expect(readDocument(lists(52)).tree).toBeNull();
  });
});

describe('places', () => {
  const text = 'client: {ref: A-1, age: 74}\ntests:\n  walk: [1, 22, 3]\n  stand:\n';
  const at = (path: readonly (string | number)[], of: 'key' | 'value' = 'value'): string => {
    const { start, end } = readDocument(text).spanOf(path, of);
    return text.slice(start, end).trim();
  };
  it('of a value, of its key, of an entry of a list', () => {
    expect(at(['client', 'age'])).toBe('74');
    expect(at(['client', 'age'], 'key')).toBe('age');
    expect(at(['tests', 'walk', 1])).toBe('22');
    expect(at(['tests', 'walk'])).toBe('[1, 22, 3]');
    expect(at(['client'], 'key')).toBe('client');
    expect(at(['client'])).toBe('{ref: A-1, age: 74}');
  });
  it('of an empty value its key; of what is missing the key that lacks it, or the beginning', () => {
    expect(at(['tests', 'stand'])).toBe('stand');
    expect(at(['client', 'sex'])).toBe('client');
    expect(at(['client', 'sex', 'more'])).toBe('client');
    expect(at(['tests', 'walk', 9])).toBe('walk');
    expect(readDocument(text).spanOf(['nothing'], 'key')).toEqual({ start: 0, end: 0 });
    expect(readDocument(text).spanOf([], 'value')).toEqual({ start: 0, end: 0 });
    expect(readDocument('').spanOf(['a'], 'key')).toEqual({ start: 0, end: 0 });
  });
  it('of a file that is one list or one word the whole of it', () => {
    expect(readDocument('[1, 2]').spanOf([], 'value')).toEqual({ start: 0, end: 6 });
    expect(readDocument('word').spanOf(['a'], 'key')).toEqual({ start: 0, end: 4 });
  });
  it('of a key that is written twice the last one, whose value counts', () => {
    const twice = 'a: 1\na: 22\n';
    const { start, end } = readDocument(twice).spanOf(['a'], 'value');
    expect(twice.slice(start, end)).toBe('22');
  });
  it('of a numeric key as it stands in a path of texts', () => {
    const { start, end } = readDocument('5: x\n').spanOf(['5'], 'value');
    expect([start, end]).toEqual([3, 4]);
  });
});

describe('numbers in a doubtful form', () => {
  const found = (text: string) =>
    readDocument(text).findings.map(
      ({ path, at, code, message, hint }) => `${path.join('.')} (${at}) ${code}: ${message}; ${hint}`,
    );
  it.each([
    ['08', '8'],
    ['1e3', '1000'],
    ['0x1F', '31'],
    ['.5', '0.5'],
    ['+5', '5'],
    ['5.', '5'],
  ])('%s', (typed, read) =>
    expect(found(`a: {b: ${typed}}\n`)).toEqual([
      `a.b (value) number_format: \`${typed}\` may be read in more than one way; write ${read} instead`,
    ]),
  );
  it('not those that can be read in one way, nor texts, keys and the reference of the client', () => {
    expect(found('a: [1, 2.5, -3, "08", yes]\n08: x\nclient: {ref: 007}\n')).toEqual([]);
    expect(found('other: {ref: 007}\n')).toHaveLength(1);
    expect(found('client: {age: 074}\n')).toHaveLength(1);
  });
  it('in a list at their place', () => expect(found('a: [1, 08]\n')[0]).toMatch(/^a\.1 \(value\) number_format/));

  const mixed =
    'a (value) decimal_comma: some commas of this list look like decimal commas; write each number with a point, as in [4.2, 6.0]';
  const two =
    'a (value) doubtful: two whole numbers with a bare comma between: read as two trials; write a point where one number with decimals was meant';
  it.each([
    ['[4,2, 6,0]', [mixed]],
    ['[4, 2,6]', [mixed]],
    ['[4,2,\n 6]', [mixed]],
    ['[12,8]', [two]],
    ['[12,8,9]', []],
    ['[12, 8]', []],
    ['[12 ,8]', []],
    ['[4.2,6.0]', []],
    ['[4,2.5]', []],
    ['[a,b]', []],
    ['[1]', []],
    ['[]', []],
    ['[[1],2]', []],
    ['[2,[1]]', []],
    ['[12,-8]', []],
  ] as const)('a list %s', (list, expected) => expect(found(`a: ${list}\n`)).toEqual(expected));
  it('a list of lines has no commas', () => expect(found('a:\n  - 12\n  - 8\n')).toEqual([]));
});
