/** The text of a file as a whole: too long, empty, how many problems are told, and where each stands. */
import { describe, expect, it } from 'vitest';
import { parseSession } from '../../src/intake/parse-session.ts';
import { definition } from './invented.ts';

const catalogue = { tests: [definition()], fields: [] };
const read = (text: string) => parseSession(text, { file: 'visit.yaml', catalogue, today: '2026-06-01' });
const FRAME = 'format: 1\nclient: {ref: M-1, sex: female, age: 74}\nassessed: 2026-05-11\n';
const places = (text: string) => read(text).problems.map(({ line, column, endColumn, path }) => [line, column, endColumn, path]);

describe('too long or empty', () => {
  it('a file of more than a million characters is told how long it may be', () => {
    expect(read('#'.repeat(1_000_001))).toStrictEqual({
      session: null,
      problems: [
        {
          code: 'too_large',
          severity: 'error',
          file: 'visit.yaml',
          line: 1,
          column: 1,
          path: '',
          message: 'the file is longer than 1000000 characters',
          hint: 'write one file a visit; cohorts go into a CSV file',
        },
      ],
    });
    expect(read(`${FRAME}#${'x'.repeat(1_000_000 - FRAME.length - 1)}`).session).not.toBeNull();
  });
  it.each(['', '\n', '# nothing\n', '---\n', '~\n'])('%j holds no session', (text) =>
    expect(read(text).problems).toStrictEqual([
      {
        code: 'empty_file',
        severity: 'error',
        file: 'visit.yaml',
        line: 1,
        column: 1,
        path: '',
        message: 'the file holds no session',
        hint: 'write format: 1 and what was recorded',
      },
    ]),
  );
  it('a mark at the beginning is no part of the text, and moves no column', () => {
    expect(read(`\uFEFF${FRAME}`).session).not.toBeNull();
    expect(places(`\uFEFF${FRAME.replace('format: 1', 'format: 2')}`)).toEqual([[1, 9, 10, 'format']]);
  });
});

describe('places', () => {
  it('from the first to behind the last character, in the order of the file', () =>
    expect(places(`${FRAME.replace('74', 'old')}tests:\n  walk: 12,8\n`)).toEqual([
      [2, 38, 41, 'client.age'],
      [5, 9, 13, 'tests.walk'],
    ]));
  it('what goes over several lines has no end on its line', () =>
    expect(places(`${FRAME}tests:\n  walk: {value: 12,\n    trials: [12]}\n`)).toEqual([[5, 9, undefined, 'tests.walk']]));
  it('what is missing stands at the beginning', () =>
    expect(places('format: 1\nassessed: 2026-05-11\n')).toEqual([[1, 1, undefined, 'client']]));
  it('faults of the YAML concern the whole file', () => {
    const { session, problems } = read(`${FRAME}assessed: 2026-05-11\n`);
    expect(session).toBeNull();
    expect(problems).toMatchObject([{ code: 'duplicate_key', line: 4, column: 1, endColumn: 9, path: '' }]);
    expect(read('a: [').problems.every(({ path }) => path === '')).toBe(true);
  });
  it('never more than two hundred', () => {
    const twice = Array.from({ length: 150 }, (_, index) => `k${index}: 1\nk${index}: 1\n`).join('');
    expect(read(`${FRAME}${twice}`).problems).toHaveLength(200);
  });
  it('nested without end is told as such', () =>
    expect(read('['.repeat(100_000)).problems[0]).toMatchObject({
      message: 'brackets or lines are nested too deeply',
      hint: 'write the session as `key: value` lines',
    }));
});
