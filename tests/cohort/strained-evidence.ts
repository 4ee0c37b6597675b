/**
 * Invented norms for tests only: tables and marks that depend on everything a table may depend on (age by equation, height,
 * weight, stronger side, ceiling, lung condition), so that nothing of one client can be taken for another unnoticed.
 */
import { type Evidence, indexEvidence } from '../../src/evidence/data.ts';
import type { CutPoint } from '../../src/evidence/schema/numbers.ts';
import type { Row, TableFile } from '../../src/evidence/schema/table.ts';
import { testEvidence } from '../support/evidence.ts';

function table(test: string, source: string, rows: readonly Row[], protocol: Partial<TableFile['protocol']> = {}): TableFile {
  const like = testEvidence().tables.find((each) => each.population.kind === 'general');
  if (like === undefined) throw new Error('there is no table of the general population');
  const part = like.parts[0];
  if (part === undefined) throw new Error('the table has no part');
  return {
    ...like,
    test,
    source,
    protocol: { trials_rule: 'best', ...protocol },
    notes: [],
    parts: [{ ...part, id: 'all', gaps: [], rows: [...rows] }],
  };
}

const adults = { age_min: 18, age_max: null };
const points = (p10: number, p90: number): Pick<Row, 'percentiles'> => ({ percentiles: { p10, p50: (p10 + p90) / 2, p90 } });

const TABLES: readonly TableFile[] = [
  table('thirty_second_chair_stand', 'by-equation', [
    {
      ...adults,
      sex: 'all',
      equation: {
        intercept: 10,
        terms: [
          { term: 'age_years', coefficient: -0.2 },
          { term: 'height_cm', coefficient: 0.1 },
          { term: 'weight_kg', coefficient: -0.05 },
          { term: 'male', coefficient: 2 },
        ],
        residual_sd: 3,
        lower_limit: null,
      },
    },
  ]),
  table('grip_strength', 'by-side', [
    { ...adults, sex: 'all', side: 'stronger', ...points(20, 40) },
    { ...adults, sex: 'all', side: 'right', ...points(10, 50) },
  ]),
  table('heel_raise', 'by-height', [
    { ...adults, sex: 'all', height_min_cm: 0, height_max_cm: 160, ...points(5, 20) },
    { ...adults, sex: 'all', height_min_cm: 161, height_max_cm: 260, ...points(8, 28) },
  ]),
  table('single_leg_stance_eyes_open', 'to-45', [{ ...adults, sex: 'all', ...points(4, 40) }], { ceiling: 45 }),
  table('single_leg_stance_eyes_open', 'to-30', [{ ...adults, sex: 'all', ...points(6, 28) }], { ceiling: 30 }),
  table('gait_speed_usual', 'over-4', [{ ...adults, sex: 'all', ...points(0.6, 1.2) }], { distance_m: 4, start: 'standing' }),
  table('gait_speed_usual', 'over-10', [{ ...adults, sex: 'all', ...points(0.8, 1.5) }], { distance_m: 10, start: 'moving' }),
];

function mark(evidence: Evidence, over: Partial<CutPoint>): CutPoint {
  const [like] = evidence.cutPoints;
  if (like === undefined) throw new Error('there is no cut-point');
  return { ...like, counts: true, sex: 'all', age_min: null, age_max: null, applies_to: 'everyone', ...over };
}

export function strainedEvidence(): Evidence {
  const evidence = testEvidence();
  const tests = [...new Set(TABLES.map((each) => each.test))];
  const defaults = tests.map((test) => {
    const before = evidence.defaults.tests[test];
    const entries = TABLES.filter((each) => each.test === test).map(({ source }) => ({ source, why: 'for the test' }));
    return [test, { ...before, error: before?.error ?? [], tables: entries }] as const;
  });
  return indexEvidence({
    ...evidence,
    tables: [...evidence.tables.filter((each) => !tests.includes(each.test)), ...TABLES],
    cutPoints: [
      mark(evidence, { id: 'in-copd', test: 'timed_up_and_go', met_when: { above: 9 }, applies_to: 'copd' }),
      mark(evidence, { id: 'women', test: 'grip_strength', met_when: { below: 20 }, sex: 'female' }),
      mark(evidence, { id: 'old', test: 'heel_raise', met_when: { below: 12 }, age_min: 75, age_max: null }),
    ],
    defaults: { ...evidence.defaults, tests: { ...evidence.defaults.tests, ...Object.fromEntries(defaults) } },
  });
}
