/** A share of a group below the 25th percentile comes only from tables that place every possible result; nobody drops out unseen. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowest } from '../../src/cohort/summary/bands.ts';
import { placeOf } from '../../src/cohort/summary/places.ts';
import type { Summary, SummaryTest } from '../../src/cohort/summary/types.ts';
import type { BriefResult } from '../../src/scoring/brief.ts';
import { footing } from '../support/run.ts';

type Row = readonly (string | number)[];

async function summaryOf(heading: string, rows: readonly Row[], more: { map?: string; options?: readonly string[] } = {}) {
  const csv = [heading, ...rows.map((row) => row.join(','))].join('\n');
  const map = more.map === undefined ? [] : ['--columns', 'columns.map'];
  const files = { 'in.csv': `${csv}\n`, ...(more.map === undefined ? {} : { 'columns.map': more.map }) };
  const options = [...map, ...(more.options ?? ['--unmasked'])];
  const json = await footing(['cohort', 'in.csv', '-o', 'out.csv', '--summary', 's.json', ...options], { files });
  const html = await footing(['cohort', 'in.csv', '-o', 'out.csv', '--summary', 's.html', ...options], { files });
  const summary = JSON.parse(json.files['s.json'] ?? '') as Summary;
  const of = (test: string): SummaryTest => {
    const found = summary.groups.at(-1)?.tests.find((each) => each.test === test);
    if (found === undefined) throw new Error(`no ${test}`);
    return found;
  };
  return { summary, of, page: (html.files['s.html'] ?? '').replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ') };
}

describe('the share below the 25th percentile', () => {
  // NHANES 1999-2002, usual walk, women 70-74: 25th percentile 0.754 m/s (norms/tables/gait_speed_usual/nhanes-1999-2002-walk.yaml).
  it('counts both sides of a printed 25th percentile, and the unable as the worst', async () => {
    const slow = Array.from({ length: 5 }, () => ['female', 72, 0.753]);
    const quick = Array.from({ length: 14 }, () => ['female', 72, 0.755]);
    const { of } = await summaryOf('sex,age,gait_speed_usual', [...slow, ...quick, ['female', 72, 'unable']]);
    const test = of('gait_speed_usual');
    expect(test).toMatchObject({ tested: 20, judged: 20, not_judged: 0, no_share_because: null });
    expect(test.quarter).toEqual({ below: 6, not_below: 14, open: 0 });
    // Wilson 1927 for 6 of 20: 0.1455 to 0.5190.
    expect(test.below_25).toEqual({ n: 6, of: 20, open: 0, share: 0.3, lowest: 0.3, highest: 0.3, low: 0.1455, high: 0.519 });
    expect(test.off_scale).toEqual({ worst: 1, best: 0 });
    expect(test.tens).toEqual([0, 0, 19, 0, 0, 0, 0, 0, 0, 0]);
  });

  // Araujo 2022, single-leg stance for 10 s, 71-75: 53.6 % could not (norms/tables/single_leg_stance_eyes_open/araujo-2022.yaml).
  // Whoever holds 10 s is "not among the lowest 53.6 %", whoever does not gets no standing: a share would be 0 of 3.
  it('is not given where one mark places those who pass and is silent on those who fail', async () => {
    const rows = [...Array.from({ length: 5 }, () => ['female', 72, 3]), ...Array.from({ length: 3 }, () => ['female', 72, 15])];
    const { of, page } = await summaryOf('sex,age,single_leg_stance_eyes_open_right', rows);
    const test = of('single_leg_stance_eyes_open');
    expect(test).toMatchObject({ tested: 8, judged: 0, not_judged: 8, below_25: null });
    expect(test.quarter).toEqual({ below: 0, not_below: 0, open: 0 });
    expect(test.no_share_because).toContain('no table with a spread');
    expect(page).toContain('No share: no table with a spread');
    expect(page).not.toMatch(/0 % \(/);
  });

  // The same table, 61-65: 17.8 % could not. Whoever fails is below, whoever passes gets no standing: a share would be 5 of 5.
  it('is not given where one mark places only those who fail', async () => {
    const rows = [...Array.from({ length: 5 }, () => ['male', 63, 3]), ...Array.from({ length: 9 }, () => ['male', 63, 40])];
    const { of } = await summaryOf('sex,age,single_leg_stance_eyes_open_right', rows);
    expect(of('single_leg_stance_eyes_open')).toMatchObject({ judged: 0, not_judged: 14, below_25: null });
  });

  // Bergland 2019, chair stands, men 60-69, counts 7 unable, 17, 41, 160, 1235: at the best mark (11.2 s) 225 of 1460 = 15.4 %
  // are slower, so the table places the slow and not the quick. Women 75-79, counts 15, 22, 48, 105, 164: 24.0 % at 13.7 s
  // and 53.7 % at 11.2 s, so it places everybody (norms/tables/five_times_sit_to_stand/bergland-2019-sppb-subtests.yaml).
  it('leaves out whole ages and sexes whose table is silent on one side, whatever their result, and says how many', async () => {
    const men = [...Array.from({ length: 2 }, () => ['male', 66, 15]), ...Array.from({ length: 4 }, () => ['male', 66, 9])];
    const women = [
      ...Array.from({ length: 3 }, () => ['female', 77, 14]),
      ...Array.from({ length: 9 }, () => ['female', 77, 10]),
      ['female', 77, 'unable'],
    ];
    const { of, page } = await summaryOf('sex,age,five_times_sit_to_stand', [...men, ...women]);
    const test = of('five_times_sit_to_stand');
    expect(test).toMatchObject({ tested: 19, judged: 13, not_judged: 6 });
    expect(test.below_25).toMatchObject({ n: 4, of: 13, open: 0 });
    expect(test.off_scale).toEqual({ worst: 1, best: 9 });
    expect(page).toContain('6 more were tested but cannot be judged, whatever their result');
    expect(page).toContain('9 at the best end, not below it');
  });

  it('is not given from a minority of those tested', async () => {
    const men = Array.from({ length: 9 }, () => ['male', 66, 9]);
    const women = Array.from({ length: 8 }, () => ['female', 77, 14]);
    const { of } = await summaryOf('sex,age,five_times_sit_to_stand', [...men, ...women]);
    expect(of('five_times_sit_to_stand')).toMatchObject({ judged: 8, not_judged: 9, below_25: null });
    expect(of('five_times_sit_to_stand').no_share_because).toContain('only 8 of 17 tested');
  });

  // Bergland 2019, tandem, marks at 3 and 10 s (norms/tables/tandem_stance/bergland-2019-sppb-subtests.yaml): all who reach the
  // 10 s are not below; a watch stopped at 5 s says only "at least 5 s".
  it('is given as two bounds where a watch was stopped too early to tell', async () => {
    const map = 'format: 1\ncolumns:\n  sex: sex\n  age: age\n  hold: {to: tandem_stance, ceiling: 5}\n';
    const rows = [...Array.from({ length: 6 }, () => ['male', 66, 1]), ...Array.from({ length: 4 }, () => ['male', 66, 5])];
    const { of, page } = await summaryOf('sex,age,hold', rows, { map });
    expect(of('tandem_stance').below_25).toMatchObject({ n: 6, of: 10, open: 4, share: null, lowest: 0.6, highest: 1 });
    expect(page).toContain('Between 60 % and 100 %');
    expect(page).toContain('4 whose result does not settle it');
  });

  it('everybody tested is below, not below, open or not judged, and every judged one is in a tenth or at an end', async () => {
    const cell = fc.constantFrom('', 'unable', 'declined', '4', '9', '12', '16', '22');
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.tuple(fc.constantFrom('female', 'male', ''), fc.integer({ min: 58, max: 92 }).map(String), cell, cell, cell),
          {
            minLength: 1,
            maxLength: 60,
          },
        ),
        async (rows) => {
          const { summary } = await summaryOf('sex,age,timed_up_and_go,five_times_sit_to_stand,thirty_second_chair_stand', rows);
          for (const test of summary.groups.at(-1)?.tests ?? []) {
            const [below, notBelow, open] = [test.quarter.below, test.quarter.not_below, test.quarter.open].map(lowest);
            const judged = (below ?? 0) + (notBelow ?? 0) + (open ?? 0);
            expect(test.judged).toBe(judged);
            expect(judged + lowest(test.not_judged)).toBe(test.tested);
            const placed = [...test.tens, test.off_scale.worst, test.off_scale.best].reduce<number>(
              (sum, n) => sum + lowest(n),
              0,
            );
            expect(placed).toBe((below ?? 0) + (notBelow ?? 0));
            expect(lowest(test.tested) + lowest(test.no_result)).toBe(rows.length);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('nobody is said to meet no mark where no mark decides', async () => {
    const { page } = await summaryOf(
      'sex,age,single_leg_stance_eyes_closed_right',
      Array.from({ length: 6 }, () => ['female', 70, 8]),
    );
    expect(page).toContain('no mark decides here');
  });
});

describe('the median of a group', () => {
  it('has the unable at its worst end', async () => {
    const rows = [
      ...Array.from({ length: 6 }, () => ['female', 72, 10]),
      ...Array.from({ length: 7 }, () => ['female', 72, 'unable']),
    ];
    const { of, page } = await summaryOf('sex,age,timed_up_and_go', rows);
    expect(of('timed_up_and_go').value?.median).toBe('unable');
    expect(page).toContain('median unable');
  });
});

describe('the place of one result', () => {
  const brief = (more: Partial<BriefResult>): BriefResult => ({
    outcome: 'measured',
    value: 1,
    at_least: false,
    why: null,
    percentile: null,
    bound: null,
    standing: null,
    flagged: null,
    source: null,
    judged: true,
    ...more,
  });

  it('a table that is silent on one side judges nobody, not even those whom it gives a standing', () => {
    expect(placeOf(brief({ judged: false, percentile: 53.6, bound: 'at_least', standing: 'expected' }))).toBe('not_judged');
  });
  it('the third tenth is parted at the 25th percentile by the standing', () => {
    expect(placeOf(brief({ percentile: 25, bound: 'exact', standing: 'below' }))).toBe('2_below');
    expect(placeOf(brief({ percentile: 25, bound: 'exact', standing: 'expected' }))).toBe('2_not_below');
  });
  it('a bound is in a tenth only where it lies whole in the outermost', () => {
    expect(placeOf(brief({ percentile: 10, bound: 'at_most', standing: 'below' }))).toBe('0');
    expect(placeOf(brief({ percentile: 11, bound: 'at_most', standing: 'below' }))).toBe('worst_end');
    expect(placeOf(brief({ percentile: 90, bound: 'at_least', standing: 'above' }))).toBe('9');
    expect(placeOf(brief({ percentile: 80, bound: 'at_least', standing: 'above' }))).toBe('best_end');
  });
});
