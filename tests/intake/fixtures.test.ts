/** Every file in tests/fixtures/bad says at the end of each faulty line what is wrong there: neither less nor more may be reported. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { formatProblem, PROBLEM_CODES, parseSession } from '../../src/intake/index.ts';
import { catalogue, TODAY } from './catalogue.ts';

const folder = fileURLToPath(new URL('../fixtures/bad/', import.meta.url));
const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
const textOf = (file: string): string => readFileSync(`${folder}${file}`, 'utf8');

function expectedIn(text: string): string[] {
  return text.split(/\r?\n/).flatMap((line, index) => {
    const codes = /# expect: (.+)$/.exec(line)?.[1]?.split(', ') ?? [];
    return codes.map((code) => `${index + 1}: ${code}`);
  });
}

describe('annotated session files', () => {
  test.each(files)('%s', (file) => {
    const text = textOf(file);
    const { session, problems } = parseSession(text, { file, catalogue, today: TODAY });
    const found = problems.map((problem) => `${problem.line}: ${problem.code}`);
    expect(found.sort(), problems.map(formatProblem).join('\n')).toEqual(expectedIn(text).sort());
    expect(session).toBeNull();
  });

  test('every code is produced by some fixture', () => {
    // A file of a megabyte is not kept; parse-session.test.ts makes one.
    const produced = new Set([
      'too_large',
      ...files.flatMap((file) => expectedIn(textOf(file)).map((line) => line.split(': ')[1])),
    ]);
    expect([...produced].sort()).toEqual(Object.keys(PROBLEM_CODES).sort());
  });
});
