/** What is said where no table has a row for the client reads as a sentence, however many tables there are. */
import { describe, expect, it } from 'vitest';
import type { Evidence } from '../../src/evidence/data.ts';
import { whyNoComparison } from '../../src/scoring/why.ts';
import { client } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const subject = { client: client(), lungCondition: null };
const [table] = evidence.tables;

function said(count: number): string {
  if (table === undefined) throw new Error('the evidence holds no table');
  const tables = Array.from({ length: count }, () => table);
  const held: Evidence = { ...evidence, tablesByTest: new Map([['some_test', tables]]) };
  return whyNoComparison('some_test', held, subject, [{ source: 'alpha-2020', part: null, because: 'of other people' }]);
}

describe('why there is no comparison', () => {
  it.each([
    [1, 'the one table held has no row for a female client of 74'],
    [2, 'neither of the two tables held has a row for a female client of 74'],
    [3, 'none of the 3 tables held has a row for a female client of 74'],
  ])('%i table(s)', (count, words) => {
    expect(said(count)).toBe(`no published norm for this: ${words} (alpha-2020: of other people)`);
  });

  it('no table at all: the declared reason, where there is one', () => {
    expect(said(0)).toBe('no published norm for this');
    expect(whyNoComparison('step_test', { ...evidence, tablesByTest: new Map() }, subject, [])).toBe(
      `no published norm for this: ${evidence.defaults.tests.step_test?.no_table_because}`,
    );
  });
});
