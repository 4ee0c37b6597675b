/** Tables that differ in one thing only, and what is chosen among them. Invented. */
import type { TableFile } from '../../src/evidence/schema/table.ts';
import { scoreTest } from '../../src/scoring/score-test.ts';
import type { Subject } from '../../src/scoring/select.ts';
import type { Client, Reading } from '../../src/session.ts';
import { client, measured, recorded } from '../support/client.ts';
import { evidence, quartiles, table, walk } from './invented.ts';

export const ROW = { sex: 'female', age_min: 70, age_max: 79, ...quartiles };
export const [A, Z] = ['alpha-2020', 'zeta-2020'];

export interface Given {
  readonly who?: Partial<Client>;
  readonly reading?: Reading;
  readonly country?: string;
  readonly lungCondition?: string;
  readonly defaults?: readonly string[];
}

export function choice(tables: readonly TableFile[], given: Given = {}) {
  const held = evidence(
    { tables },
    { walk: (given.defaults ?? tables.map(({ source }) => source)).map((source) => ({ source })) },
  );
  const subject: Subject = {
    client: client(given.who),
    lungCondition: given.lungCondition ?? null,
    ...(given.country === undefined ? {} : { preferredCountry: given.country }),
  };
  const result = scoreTest(recorded('walk', given.reading ?? measured(9)), walk, {
    evidence: held,
    subject,
    applies: () => false,
  });
  return { ...result, order: result.comparisons.map(({ source }) => source) };
}

/** The worse fitting table has the id that comes first, and both are outside the defaults, so that only one thing differs. */
export const outside: Given = { defaults: [] };
export const pair = (
  worse: object,
  better: object,
  rows: { worse?: object; better?: object } = {},
  protocol: { worse?: object; better?: object } = {},
) => [
  table({ source: A, ...worse }, [{ ...ROW, ...rows.worse }], protocol.worse),
  table({ source: Z, ...better }, [{ ...ROW, ...rows.better }], protocol.better),
];
export const people = (kind: string, more: object = {}) => ({ population: { description: 'people', kind, ...more } });
