/** Small invented tests and tables to score against. Numbers here mean nothing clinical. */
import type { TestResult } from '../../src/assessment.ts';
import { type Evidence, type EvidenceData, indexEvidence } from '../../src/evidence/data.ts';
import { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import { CutPoint, MeasurementError } from '../../src/evidence/schema/numbers.ts';
import { TableFile } from '../../src/evidence/schema/table.ts';
import { scoreTest } from '../../src/scoring/score-test.ts';
import type { Client, RecordedTest } from '../../src/session.ts';
import { client } from '../support/client.ts';
import { noPlan } from '../support/no-plan.ts';

export const definition = (over: object): TestDefinition =>
  TestDefinition.parse({
    id: 'walk',
    name: 'Walk',
    short_name: 'Walk',
    unit: 's',
    unit_text: 's',
    kind: 'time',
    better: 'lower',
    decimals: 1,
    trials: 'best',
    impossible: { below: 0, why: 'x' },
    unusual: { why: 'x' },
    protocol: 'x',
    protocol_basis: { status: 'common-practice', note: 'x' },
    ...over,
  });
export const walk = definition({});
export const hold = definition({ id: 'hold', name: 'Hold', better: 'higher', sided: true });
export const tenSeconds = definition({ id: 'ten', name: 'Ten', better: 'higher', ceiling: 10 });

export const table = (over: object, rows: object[], protocol: object = {}): TableFile =>
  TableFile.parse({
    source: 'alpha-2020',
    test: 'walk',
    unit: 's',
    status: 'full-text',
    location: 'Table 1',
    n: 100,
    population: { description: 'people', kind: 'general' },
    protocol,
    parts: [{ id: 'main', location: 'Table 1', rows }],
    ...over,
  });

export const cut = (over: object): CutPoint =>
  CutPoint.parse({
    id: 'c',
    source: 'alpha-2020',
    location: 'x',
    status: 'abstract',
    test: 'walk',
    rule: '12 s or more',
    met_when: { at_least: 12 },
    outcome: 'falls',
    counts: true,
    counts_because: 'x',
    population: { description: 'x' },
    ...over,
  });

export function evidence(
  over: Partial<EvidenceData>,
  tables: Record<string, { source: string; part?: string }[]> = {},
): Evidence {
  return indexEvidence({
    version: 't',
    digest: 'd',
    folders: [],
    tests: [walk, hold, tenSeconds],
    fields: [],
    sources: {},
    tables: [],
    cutPoints: [],
    errors: [],
    likelihoodRatios: [],
    fallRates: [],
    accuracyCautions: [],
    derived: { point_totals: [], stage_ladders: [], relative_costs: [] },
    pathways: [],
    redFlags: [],
    factors: [],
    exercises: [],
    caps: [],
    general: { cautions: [], stop_signs: [] },
    ...noPlan,
    defaults: {
      standing: { well_below_under: 5, below_under: 25, above_over: 75, basis: { status: 'common-practice', note: 'x' } },
      tests: Object.fromEntries(Object.entries(tables).map(([test, entries]) => [test, { tables: entries, error: [] }])),
    },
    ...over,
  });
}

export function score(
  held: Evidence,
  test: RecordedTest,
  who: Partial<Client> = {},
  lungCondition: string | null = null,
): TestResult {
  const found = held.testById.get(test.test);
  if (found === undefined) throw new Error(test.test);
  return scoreTest(test, found, { evidence: held, subject: { client: client(who), lungCondition }, applies: () => false });
}

export const quartiles = { percentiles: { p25: 8, p50: 10, p75: 12 } };
export const women = { sex: 'female', age_min: 70, age_max: 79, ...quartiles };

export const error = (over: object): MeasurementError =>
  MeasurementError.parse({
    id: 'e',
    source: 'alpha-2020',
    location: 'Table 3',
    status: 'abstract',
    test: 'walk',
    population: { description: 'people' },
    ...over,
  });
