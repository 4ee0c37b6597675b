/** Whole results on small invented tables: selection, primary, ceilings, unable, edges, disagreement. Numbers here mean nothing clinical. */
import { describe, expect, it } from 'vitest';
import { indexEvidence } from '../../src/evidence/data.ts';
import { MeasurementError } from '../../src/evidence/schema/numbers.ts';
import { measured, recorded, unable } from '../support/client.ts';
import { cut, evidence, quartiles, score, table, women } from './invented.ts';

describe('which table', () => {
  it('only a table named as default is primary; others are shown', () => {
    const held = evidence(
      { tables: [table({}, [women]), table({ source: 'beta-2021' }, [women])] },
      { walk: [{ source: 'beta-2021' }] },
    );
    const { comparisons } = score(held, recorded('walk', 9));
    expect(comparisons.map(({ source, primary }) => [source, primary])).toEqual([
      ['beta-2021', true],
      ['alpha-2020', false],
    ]);
  });

  it('the primary is the first that yields a standing, else the first that fits', () => {
    const mean = table({}, [{ sex: 'all', age_min: 60, age_max: 90, mean: 9 }]);
    const held = evidence(
      { tables: [mean, table({ source: 'beta-2021' }, [women])] },
      { walk: [{ source: 'alpha-2020' }, { source: 'beta-2021' }] },
    );
    expect(score(held, recorded('walk', 9)).comparisons.find((each) => each.primary)?.source).toBe('beta-2021');
    const alone = evidence({ tables: [mean] }, { walk: [{ source: 'alpha-2020' }] });
    const [only] = score(alone, recorded('walk', 9.1)).comparisons;
    expect(only).toMatchObject({ primary: true, standing: null, percentile: null, against_mean: 'worse', method: 'mean_only' });
    expect(only?.no_standing_because).toContain('without the spread');
  });

  it('there is no nearest band: outside every band there is a reason and no number', () => {
    const held = evidence({ tables: [table({}, [women])] }, { walk: [{ source: 'alpha-2020' }] });
    for (const age of [69, 80]) {
      const result = score(held, recorded('walk', 9), { age });
      expect(result.comparisons).toEqual([]);
      expect(result.no_comparison_because).toContain('no published norm for this');
    }
    for (const age of [70, 79]) expect(score(held, recorded('walk', 9), { age }).comparisons).toHaveLength(1);
  });

  it('takes the narrowest band that holds the client, then the own sex', () => {
    const rows = [{ sex: 'all', age_min: 60, age_max: 99, ...quartiles }, { ...women, sex: 'all' }, women];
    const held = evidence({ tables: [table({}, rows)] }, { walk: [{ source: 'alpha-2020' }] });
    expect(score(held, recorded('walk', 9)).comparisons[0]?.band).toEqual({ sex: 'female', age_min: 70, age_max: 79 });
    expect(score(held, recorded('walk', 9), { sex: 'male' }).comparisons[0]?.band.sex).toBe('all');
  });

  it('with sex not recorded a row of one sex is shown but never primary', () => {
    const held = evidence({ tables: [table({}, [women, { ...women, sex: 'male' }])] }, { walk: [{ source: 'alpha-2020' }] });
    const { comparisons } = score(held, recorded('walk', 9), { sex: 'not recorded' });
    expect(comparisons).toHaveLength(2);
    expect(comparisons.some((each) => each.primary)).toBe(false);
    expect(comparisons[0]?.mismatches.join()).toContain('sex not recorded');
  });

  it('clinical samples are for those clients only, and give no standing', () => {
    const copd = table({ population: { description: 'COPD clinic', kind: 'clinical', condition: 'copd' } }, [women]);
    const held = evidence({ tables: [copd] }, { walk: [{ source: 'alpha-2020' }] });
    expect(score(held, recorded('walk', 9)).comparisons).toEqual([]);
    const [shown] = score(held, recorded('walk', 9), {}, 'copd').comparisons;
    expect(shown).toMatchObject({ primary: false, standing: null });
    expect(shown?.no_standing_because).toContain('orientation');
  });

  it('says when lung disease is not in the sample, and when the walk was another', () => {
    const held = evidence(
      { tables: [table({}, [women], { distance_m: 4, start: 'standing' })] },
      { walk: [{ source: 'alpha-2020' }] },
    );
    const walked = recorded('walk', measured(9, { course: { distanceM: 6, timeS: 9, start: 'moving' } }));
    const { mismatches } = score(held, walked, {}, 'copd').comparisons[0] ?? { mismatches: [] };
    expect(mismatches.join('; ')).toMatch(/4 m.*6 m.*standing start.*moving.*lung disease/);
  });
});

describe('ceilings and unable', () => {
  const rows = [{ sex: 'female', age_min: 70, age_max: 79, percentiles: { p10: 5, p50: 20, p90: 40 } }];
  const held = evidence(
    { tables: [table({ test: 'hold' }, rows, { ceiling: 45, trials_rule: 'best' })] },
    { hold: [{ source: 'alpha-2020' }] },
  );

  it('a watch stopped before the table’s ceiling gives "at least"', () => {
    const result = score(held, recorded('hold', measured(30, { ceiling: 30 }), 'right'));
    expect(result.at_least).toBe(true);
    expect(result.comparisons[0]).toMatchObject({ percentile_bound: 'at_least', value: 30, standing: 'expected' });
  });

  it('a result stopped at a ceiling is never below', () => {
    const result = score(held, recorded('hold', measured(6, { ceiling: 6 }), 'right'));
    expect(result.comparisons[0]?.standing).toBeNull();
    const under = score(held, recorded('hold', measured(4, { ceiling: 4 }), 'right'));
    expect(under.comparisons[0]).toMatchObject({ percentile: null, standing: null });
  });

  it('a time beyond the table’s ceiling is cut to it', () => {
    expect(score(held, recorded('hold', measured(60, { ceiling: 60 }), 'right')).comparisons[0]?.value).toBe(45);
  });

  it('unable is well below wherever a table with a spread covers the client, and has no number', () => {
    const result = score(held, recorded('hold', unable, 'right'));
    expect(result).toMatchObject({ outcome: 'unable', value: null });
    expect(result.comparisons[0]).toMatchObject({
      standing: 'well_below',
      percentile: 10,
      percentile_bound: 'at_most',
      value: null,
    });
  });

  it('at the test’s own ceiling the standing is expected, with the share that reaches it', () => {
    const shares = { marks: [3, 10], counts: [10, 20, 170] };
    const tandem = evidence(
      { tables: [table({ test: 'ten' }, [{ sex: 'all', age_min: 70, age_max: 79, shares }])] },
      { ten: [{ source: 'alpha-2020' }] },
    );
    const [full] = score(tandem, recorded('ten', 10)).comparisons;
    expect(full).toMatchObject({ standing: 'expected', percentile: 15, percentile_bound: 'at_least' });
    expect(full?.notes.join()).toContain('85 % of the group');
    expect(score(tandem, recorded('ten', 9.9)).comparisons[0]).toMatchObject({ standing: 'below', percentile_bound: 'exact' });
    expect(score(tandem, recorded('ten', 2)).comparisons[0]).toMatchObject({
      standing: 'well_below',
      percentile: 5,
      percentile_bound: 'at_most',
    });
  });

  it('a single mark passed says only "not among the lowest"', () => {
    const single = evidence(
      {
        tables: [
          table({ test: 'hold' }, [{ sex: 'all', age_min: 70, age_max: 79, shares: { marks: [10], percents: [15, 85] } }]),
        ],
      },
      { hold: [{ source: 'alpha-2020' }] },
    );
    const [passed] = score(single, recorded('hold', 40, 'left')).comparisons;
    expect(passed).toMatchObject({ percentile: 15, percentile_bound: 'at_least', standing: null });
    expect(passed?.no_standing_because).toContain('not among the lowest 15 %');
  });
});

describe('mean and SD', () => {
  const held = evidence(
    { tables: [table({}, [{ sex: 'all', age_min: 70, age_max: 79, mean: 10, sd: 2 }])] },
    { walk: [{ source: 'alpha-2020' }] },
  );

  it('is always approximate, log-normal for times, with the normal figure beside it', () => {
    const [result] = score(held, recorded('walk', 12)).comparisons;
    expect(result).toMatchObject({ approximate: true, z: -1, method: 'mean_sd', standing: 'below' });
    expect(result?.notes.join()).toContain('15.9');
  });

  it('gives nothing where the shape is impossible', () => {
    const skewed = evidence(
      { tables: [table({}, [{ sex: 'all', age_min: 70, age_max: 79, mean: 10, sd: 6 }])] },
      { walk: [{ source: 'alpha-2020' }] },
    );
    const [result] = score(skewed, recorded('walk', 12)).comparisons;
    expect(result).toMatchObject({ z: null, percentile: null, standing: null, against_mean: 'worse' });
    expect(score(skewed, recorded('walk', unable)).comparisons[0]?.standing).toBeNull();
  });

  it('never takes the interval of a mean for the spread of people', () => {
    const ci = evidence(
      {
        tables: [
          table({}, [
            { sex: 'all', age_min: 70, age_max: 79, mean: 9.2, mean_ci95: [8.2, 10.2], worse_than_average: { above: 10.2 } },
          ]),
        ],
      },
      { walk: [{ source: 'alpha-2020' }] },
    );
    expect(score(ci, recorded('walk', 10.2)).comparisons[0]).toMatchObject({
      method: 'mean_ci',
      percentile: null,
      z: null,
      standing: null,
      against_mean: 'not_worse',
    });
    expect(score(ci, recorded('walk', 10.3)).comparisons[0]?.against_mean).toBe('worse');
  });
});

describe('notes that keep a reader from false comfort', () => {
  it('says when the next age band would change the standing', () => {
    const rows = [women, { ...women, age_min: 80, age_max: 89, percentiles: { p25: 12, p50: 14, p75: 16 } }];
    const held = evidence({ tables: [table({}, rows)] }, { walk: [{ source: 'alpha-2020' }] });
    expect(score(held, recorded('walk', 12.5), { age: 79 }).notes.join()).toContain(
      'women 80-89 the standing would be "expected"',
    );
    expect(score(held, recorded('walk', 12.5), { age: 75 }).notes.join()).not.toContain('edge');
  });

  it('says when another fitting source would', () => {
    const other = table({ source: 'beta-2021' }, [{ ...women, percentiles: { p25: 12, p50: 14, p75: 16 } }]);
    const held = evidence({ tables: [table({}, [women]), other] }, { walk: [{ source: 'alpha-2020' }] });
    expect(score(held, recorded('walk', 12.5)).notes.join()).toContain('by beta-2021 the standing would be "expected"');
  });

  it('near: the mark lies inside the measurement error; null where none is published', () => {
    const error = MeasurementError.parse({
      id: 'e',
      source: 'alpha-2020',
      location: 'x',
      status: 'abstract',
      test: 'walk',
      population: { description: 'x' },
      sem: 1,
    });
    const held = evidence({ cutPoints: [cut({})], errors: [error] });
    const without = score(held, recorded('walk', 11));
    expect(without.cut_points[0]).toMatchObject({ met: false, near: null });
    const withError = indexEvidence({
      ...held,
      defaults: { ...held.defaults, tests: { walk: { tables: [], error: [{ id: 'e' }] } } },
    });
    expect(score(withError, recorded('walk', 11)).cut_points[0]).toMatchObject({ met: false, near: true });
    expect(score(withError, recorded('walk', 9)).cut_points[0]).toMatchObject({ met: false, near: false });
  });

  it('a cut made for one condition counts only for clients with it', () => {
    const held = evidence({ cutPoints: [cut({ applies_to: 'copd' })] });
    expect(score(held, recorded('walk', 13)).cut_points[0]).toMatchObject({ met: true, counts: false });
    expect(score(held, recorded('walk', 13), {}, 'copd').cut_points[0]).toMatchObject({ met: true, counts: true });
  });
});
