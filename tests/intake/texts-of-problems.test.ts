/** Problems as they are printed: one line, nothing that a terminal would obey, and the line at fault with marks under it. */
import { describe, expect, it } from 'vitest';
import { sourceExcerpt } from '../../src/intake/excerpt.ts';
import { formatProblem, isRefusal, PROBLEM_CODES, type Problem, severityOf, shown } from '../../src/intake/problems.ts';

const problem = (over: Partial<Problem> = {}): Problem => ({
  code: 'impossible',
  severity: 'error',
  file: 'visit.yaml',
  line: 2,
  column: 4,
  path: 'client.age',
  message: 'cannot be',
  hint: 'write another',
  ...over,
});

describe('a value as it is shown', () => {
  it('texts as they are, everything else as YAML flow would have it', () => {
    expect(shown('a b')).toBe('a b');
    expect([5, true, null, [1, 'x'], { a: 1 }].map(shown)).toEqual(['5', 'true', 'null', '[1,"x"]', '{"a":1}']);
    expect(shown(undefined)).toBe('undefined');
  });
  it('on one line without control characters, and cut after forty', () => {
    expect(shown('a\u001b[2J\u0000\u0007b\nc\u007fd\u009fe\u2028f\u2029g')).toBe('a [2J b c d e f g');
    expect(shown('x'.repeat(40))).toBe('x'.repeat(40));
    expect(shown('x'.repeat(41))).toBe(`${'x'.repeat(40)}…`);
  });
});

describe('a problem as a line', () => {
  it('place, what, and what to write; a note says that it is one', () => {
    expect(formatProblem(problem())).toBe('visit.yaml:2:4: cannot be; write another');
    expect(formatProblem(problem({ hint: '' }))).toBe('visit.yaml:2:4: cannot be');
    expect(formatProblem(problem({ severity: 'warning' }))).toBe('visit.yaml:2:4: note: cannot be; write another');
  });
  it('only three codes are notes: the value is kept', () => {
    const notes = Object.keys(PROBLEM_CODES).filter((code) => severityOf(code as keyof typeof PROBLEM_CODES) === 'warning');
    expect(notes).toEqual(['ceiling_not_stated', 'unusual', 'doubtful']);
    const finding = { path: [], at: 'value', message: '', hint: '' } as const;
    expect(isRefusal({ ...finding, code: 'unusual' })).toBe(false);
    expect(isRefusal({ ...finding, code: 'impossible' })).toBe(true);
    for (const { meaning } of Object.values(PROBLEM_CODES)) expect(meaning).toMatch(/^[A-Z].{10}/);
  });
});

describe('the line at fault', () => {
  const text = 'first\r\nab: 12,8 # x\nlast';
  const excerpt = (over: Partial<Problem>, of = text) => sourceExcerpt(of, problem(over)).split('\n');
  it('with marks under the fault, one where its end is not known', () => {
    expect(excerpt({ column: 5, endColumn: 9 })).toEqual(['    ab: 12,8 # x', '        ^^^^']);
    expect(excerpt({ column: 5 })).toEqual(['    ab: 12,8 # x', '        ^']);
    expect(excerpt({ column: 1, endColumn: 1 })).toEqual(['    ab: 12,8 # x', '    ^']);
    expect(excerpt({ line: 1, column: 1, endColumn: 99 })).toEqual(['    first', '    ^^^^^']);
    expect(excerpt({ line: 9, column: 1 })).toEqual(['    ', '    ^']);
  });
  it('without a mark at the beginning of the file or what a terminal would obey', () => {
    expect(excerpt({ line: 1, column: 1 }, '\uFEFFab')[0]).toBe('    ab');
    expect(excerpt({ line: 1, column: 1 }, 'a\u001bb\tc\u007f\u009f')[0]).toBe('    a b c  ');
  });
  it('a long line is cut around a fault far to the right', () => {
    const long = `${'a'.repeat(150)}X${'b'.repeat(150)}`;
    const [line, marks] = excerpt({ line: 1, column: 151 }, long);
    expect(line).toHaveLength(104);
    expect(line?.[(marks ?? '').indexOf('^')]).toBe('X');
    expect(excerpt({ line: 1, column: 80 }, long)[0]).toBe(`    ${'a'.repeat(100)}`);
    expect(excerpt({ line: 1, column: 81 }, long)[0]).toBe(`    ${'a'.repeat(150 - 61)}X${'b'.repeat(10)}`);
  });
});
