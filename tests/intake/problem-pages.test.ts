/** Every problem code has a page whose wrong example gives the code and whose right one does not. */
import { describe, expect, it } from 'vitest';
import { parseSession } from '../../src/intake/index.ts';
import { FRAME, PROBLEM_PAGES, WHOLE_FILE_PAGES } from '../../src/intake/problem-pages.ts';
import { PROBLEM_CODES } from '../../src/intake/problems.ts';
import { footing } from '../support/run.ts';
import { catalogue, TODAY } from './catalogue.ts';

const codesOf = (text: string): string[] =>
  parseSession(text, { file: 'visit.yaml', catalogue, today: TODAY }).problems.map(({ code }) => code);

/** The example as a whole file. */
const asFile = (example: string): string => (/^(%|format|whole|---)/.test(example) ? example : FRAME + example);

describe('problem pages', () => {
  it('exist for every code', () => {
    expect([...Object.keys(PROBLEM_PAGES), ...Object.keys(WHOLE_FILE_PAGES)].sort()).toEqual(Object.keys(PROBLEM_CODES).sort());
  });

  it.each(Object.entries(PROBLEM_PAGES))('%s: the examples are what they say', (code, { why, wrong, right }) => {
    expect(why).toMatch(/^[A-Z].{20}.*[.)]$/);
    expect(codesOf(asFile(wrong))).toContain(code);
    expect(codesOf(asFile(right))).toEqual([]);
  });

  it.each(Object.keys(PROBLEM_CODES))('footing help %s', async (code) => {
    const { code: exit, stdout } = await footing(['help', code]);
    expect(exit).toBe(0);
    expect(stdout.split('\n')[0]).toBe(code);
  });
});
