/** The words and the number that a reader sees of one result never contradict each other. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { standingOf } from '../../src/scoring/standing.ts';
import { recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
// 5 / 25 / 75: the program's own words, in norms/defaults.yaml.
const bands = evidence.defaults.standing;

describe('a standing is judged on the percentile as it is shown, to 0.1', () => {
  it.each([
    [24.94, 'exact', 'below'],
    [24.96, 'exact', 'expected'],
    [4.94, 'exact', 'well_below'],
    [4.96, 'exact', 'below'],
    [75.04, 'exact', 'expected'],
    [75.06, 'exact', 'above'],
    [5.04, 'at_most', 'well_below'],
    [5.06, 'at_most', 'below'],
    [25.06, 'at_most', null],
    [74.96, 'at_least', 'above'],
    [74.94, 'at_least', 'expected'],
    [24.94, 'at_least', null],
  ] as const)('%d %s: %s', (percentile, bound, standing) => {
    expect(standingOf({ percentile, bound }, bands)).toBe(standing);
  });

  it('holds for every tenth of a per cent that a table can give', () => {
    const wanted = (percentile: number): string =>
      percentile < 5 ? 'well_below' : percentile < 25 ? 'below' : percentile <= 75 ? 'expected' : 'above';
    let seen = 0;
    for (let hundredths = 600; hundredths < 2000; hundredths += 1) {
      const found = assess(session([recorded('timed_up_and_go', hundredths / 100)]), evidence).tests[0];
      for (const { percentile, percentile_bound: bound, standing } of found?.comparisons ?? [])
        if (percentile !== null && bound === 'exact' && standing !== null) {
          seen += 1;
          expect(standing, `${hundredths / 100} s, percentile ${percentile}`).toBe(wanted(percentile));
        }
    }
    expect(seen).toBeGreaterThan(1000);
  });
});
