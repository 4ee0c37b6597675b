/** What the tests of the risk room share: the data parsed straight from its files, and facts made from plain values. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Facts, TestFact } from '../../src/evidence/condition.ts';
import { FactorsFile, type Pathway, PathwayFile, RedFlagsFile } from '../../src/evidence/schema/pathway.ts';
import type { FieldValue } from '../../src/session.ts';

const read = (path: string): unknown => parse(readFileSync(new URL(`../../norms/${path}`, import.meta.url), 'utf8'));

export const worldGuidelines: Pathway = PathwayFile.parse(read('pathways/world-falls-guidelines-2022.yaml'));
export const cdc: Pathway = PathwayFile.parse(read('pathways/cdc-2019.yaml'));
export const { red_flags: redFlags } = RedFlagsFile.parse(read('cautions/red-flags.yaml'));
export const { factors } = FactorsFile.parse(read('cautions/factors.yaml'));

const LOWER_IS_BETTER = new Set(['timed_up_and_go', 'five_times_sit_to_stand', 'falls_efficacy_short']);

export type TestInput = number | 'unable' | 'unsafe_medical' | 'not_tested' | Partial<TestFact>;

function testFact(id: string, input: TestInput): TestFact {
  const blank: TestFact = {
    outcome: 'measured',
    worst: null,
    better: LOWER_IS_BETTER.has(id) ? 'lower' : 'higher',
    atLeast: false,
    standing: null,
    flagged: null,
  };
  if (typeof input === 'number') return { ...blank, worst: input };
  if (typeof input === 'string') return { ...blank, outcome: input };
  return { ...blank, ...input };
}

export type FieldInputs = Readonly<Record<string, FieldValue>>;
export type TestInputs = Readonly<Record<string, TestInput>>;

export function facts(fields: FieldInputs, tests: TestInputs = {}): Facts {
  return {
    field: (path) => fields[path],
    test: (id) => {
      const input = tests[id];
      return input === undefined ? undefined : testFact(id, input);
    },
  };
}

/** Every combination of the values given for each key. */
export function combinations<Shape>(choices: { readonly [Key in keyof Shape]: readonly Shape[Key][] }): Shape[] {
  let rows: Partial<Shape>[] = [{}];
  for (const key of Object.keys(choices) as (keyof Shape)[])
    rows = rows.flatMap((row) => choices[key].map((value) => ({ ...row, [key]: value })));
  return rows as Shape[];
}
