/** The sources of a comparison are those of its own numbers too, not only those of the visits. */
import { expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { compareVisits } from '../../src/change/compare-visits.ts';
import { recorded } from '../support/client.ts';
import { evidence, FIRST, LATER, only, visit } from './support.ts';

it('the error, the other errors and what matters are cited although no visit cites them', () => {
  const visits = [15, 13.3].map((seconds, index) => {
    const test = [recorded('five_times_sit_to_stand', seconds)];
    const session = visit([FIRST, LATER][index] ?? '', test, { 'health.lung_condition': 'copd' });
    return { session, assessment: { ...assess(session, evidence), sources: {} } };
  });
  const found = compareVisits(visits, evidence, { newFallsOnly: null });
  const { error, other_errors, important, other_important, crossed } = only(found, 'five_times_sit_to_stand');
  const cited = [error, important, ...other_errors, ...other_important, ...crossed].map((each) => each?.source);
  expect(error).not.toBeNull();
  expect(important).not.toBeNull();
  expect(new Set(Object.keys(found.sources))).toEqual(new Set(cited));
});
