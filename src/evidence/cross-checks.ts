/**
 * What a schema cannot see: references between files, bands that overlap or leave holes, percentiles that run backwards.
 * One named function a rule; each gives problems in words, with the file that holds the fault.
 */

import type { Gathered, NormsProblem } from './parse.ts';
import { percentOf } from './percent.ts';
import type { Row, TableFile } from './schema/table.ts';

export type Check = (norms: Gathered) => NormsProblem[];

const problem = (file: string, message: string): NormsProblem => ({ file, line: 1, column: 1, message });

/** Every `source` key anywhere inside a value. */
function citedSources(value: unknown, into = new Set<string>()): Set<string> {
  if (Array.isArray(value)) for (const item of value) citedSources(item, into);
  else if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value))
      if (key === 'source' && typeof inner === 'string') into.add(inner);
      else citedSources(inner, into);
  return into;
}

export const sourcesExist: Check = (norms) => {
  const { sources, origin: _origin, ...rest } = norms;
  return [...citedSources(rest)]
    .filter((id) => sources[id] === undefined)
    .map((id) => problem('sources.yaml', `source "${id}" is cited but has no entry; add its citation`));
};

export const sourcesAreCited: Check = (norms) => {
  const { sources, origin: _origin, ...rest } = norms;
  const cited = citedSources(rest);
  return Object.keys(sources)
    .filter((id) => !cited.has(id))
    .map((id) => problem('sources.yaml', `source "${id}" is cited nowhere; remove it or use it`));
};

export const testsExist: Check = (norms) => {
  const known = new Set(norms.tests.map((test) => test.id));
  const used: [string, string][] = [
    ...norms.tables.map((table): [string, string] => [table.test, tablePath(norms, table)]),
    ...norms.cutPoints.map((cut): [string, string] => [cut.test, norms.origin.get(`cut:${cut.id}`) ?? 'cutpoints']),
    ...norms.errors.map((error): [string, string] => [error.test, norms.origin.get(`error:${error.id}`) ?? 'error']),
    ...Object.keys(norms.defaults?.tests ?? {}).map((test): [string, string] => [test, 'defaults.yaml']),
    ...norms.exercises.flatMap((exercise) =>
      exercise.start.by_test.map((rule): [string, string] => [rule.test, `exercises/${exercise.id}`]),
    ),
  ];
  return used.filter(([test]) => !known.has(test)).map(([test, file]) => problem(file, `test "${test}" is not in tests.yaml`));
};

function tablePath(norms: Gathered, table: TableFile): string {
  return norms.origin.get(`table:${table.source}:${table.test}`) ?? `tables/${table.test}/${table.source}.yaml`;
}

export const unitsAgree: Check = (norms) => {
  const units = new Map(norms.tests.map((test) => [test.id, test.unit]));
  return norms.tables
    .filter((table) => units.has(table.test) && units.get(table.test) !== table.unit)
    .map((table) =>
      problem(tablePath(norms, table), `unit is "${table.unit}" but the catalogue says "${units.get(table.test)}"`),
    );
};

export const idsAreUnique: Check = (norms) => {
  const lists: [string, string, readonly string[]][] = [
    ['tests.yaml', 'test', norms.tests.map((test) => test.id)],
    ['cutpoints', 'cut-point', norms.cutPoints.map((cut) => cut.id)],
    ['error', 'measurement error', norms.errors.map((error) => error.id)],
    ['accuracy', 'likelihood ratio', norms.likelihoodRatios.map((ratio) => ratio.id)],
    ['accuracy', 'fall rate', norms.fallRates.map((rate) => rate.id)],
    ['pathways', 'pathway', norms.pathways.map((pathway) => pathway.id)],
    ['exercises', 'exercise', norms.exercises.map((exercise) => exercise.id)],
    ['cautions/caps.yaml', 'cap', norms.caps.map((cap) => cap.id)],
    ['cautions/red-flags.yaml', 'red flag', norms.redFlags.map((flag) => flag.id)],
    ['cautions/factors.yaml', 'factor', norms.factors.map((factor) => factor.id)],
    ['tables', 'table', norms.tables.map((table) => `${table.test}/${table.source}`)],
  ];
  return lists.flatMap(([file, what, ids]) =>
    ids.filter((id, index) => ids.indexOf(id) !== index).map((id) => problem(file, `${what} "${id}" stands twice`)),
  );
};

/** Rows that answer the same question: all strata but age alike. */
function stratumOf(row: Row): string {
  return JSON.stringify([
    row.sex,
    row.setting,
    row.side,
    row.stance,
    row.language,
    row.height_min_cm,
    row.height_max_cm,
    row.group,
  ]);
}

export function bandProblems(rows: readonly Row[], gaps: readonly string[], name: string): string[] {
  const strata = new Map<string, Row[]>();
  for (const row of rows) strata.set(stratumOf(row), [...(strata.get(stratumOf(row)) ?? []), row]);
  const found: string[] = [];
  for (const group of strata.values()) {
    const sorted = [...group].sort((a, b) => (a.age_min ?? -1) - (b.age_min ?? -1));
    sorted.forEach((row, index) => {
      const next = sorted[index + 1];
      if (row.age_min !== null && row.age_max !== null && row.age_min > row.age_max)
        found.push(`${name}: band ${row.age_min}-${row.age_max} is upside down`);
      if (next === undefined) return;
      const end = row.age_max ?? Number.POSITIVE_INFINITY;
      const start = next.age_min ?? 0;
      if (start <= end)
        found.push(
          `${name}: ${row.sex} bands ${row.age_min}-${row.age_max} and ${next.age_min}-${next.age_max} overlap; put one in a part of its own`,
        );
      else if (start > end + 1 && gaps.length === 0)
        found.push(`${name}: ${row.sex} no row for ages ${end + 1}-${start - 1}; declare the hole under gaps with its reason`);
    });
  }
  return found;
}

export const bandsFit: Check = (norms) =>
  norms.tables.flatMap((table) =>
    table.parts.flatMap((part) =>
      bandProblems(part.rows, part.gaps, part.id).map((message) => problem(tablePath(norms, table), message)),
    ),
  );

export function pointsRunOneWay(points: Readonly<Record<string, number>>, rising: boolean): boolean {
  const ordered = Object.entries(points).sort(([a], [b]) => percentOf(a) - percentOf(b));
  return ordered.every(([, value], index) => {
    const before = ordered[index - 1]?.[1];
    return before === undefined || (rising ? value >= before : value <= before);
  });
}

export const percentilesAreMonotone: Check = (norms) => {
  const better = new Map(norms.tests.map((test) => [test.id, test.better]));
  return norms.tables.flatMap((table) =>
    table.parts.flatMap((part) =>
      part.rows.flatMap((row) => {
        const raw = row.percentiles === undefined || pointsRunOneWay(row.percentiles, true);
        const performance =
          row.performance_percentiles === undefined ||
          pointsRunOneWay(row.performance_percentiles, better.get(table.test) === 'higher');
        return raw && performance
          ? []
          : [
              problem(
                tablePath(norms, table),
                `${part.id}: ${row.sex} ${row.age_min}-${row.age_max}: percentile points run backwards`,
              ),
            ];
      }),
    ),
  );
};

export const rowsSaySomething: Check = (norms) =>
  norms.tables.flatMap((table) =>
    table.parts.flatMap((part) =>
      part.rows
        .filter(
          (row) =>
            ![
              row.percentiles,
              row.performance_percentiles,
              row.shares,
              row.mean,
              row.median,
              row.worse_than_average,
              row.equation,
            ].some((each) => each !== undefined),
        )
        .map((row) =>
          problem(
            tablePath(norms, table),
            `${part.id}: ${row.sex} ${row.age_min}-${row.age_max} holds no number to compare with`,
          ),
        ),
    ),
  );

export const defaultsPointSomewhere: Check = (norms) => {
  const tables = new Set(norms.tables.map((table) => `${table.test}/${table.source}`));
  const errors = new Map(norms.errors.map((error) => [error.id, error.test]));
  return Object.entries(norms.defaults?.tests ?? {}).flatMap(([test, defaults]) => [
    ...defaults.tables
      .filter((entry) => !tables.has(`${test}/${entry.source}`))
      .map((entry) => problem('defaults.yaml', `${test}: there is no table "${entry.source}"`)),
    ...defaults.error
      .filter((entry) => errors.get(entry.id) !== test)
      .map((entry) => problem('defaults.yaml', `${test}: there is no measurement error "${entry.id}" for it`)),
  ]);
};

export const rungsExist: Check = (norms) =>
  norms.exercises.flatMap((exercise) => {
    const rungs = [
      ...exercise.start.by_test.flatMap((rule) => [rule.unable, rule.below_all, ...rule.steps.map((step) => step.rung)]),
      ...exercise.start.also.map((rule) => rule.rung),
    ];
    return rungs
      .filter((rung) => rung > exercise.ladder.length)
      .map((rung) => problem(`exercises/${exercise.id}`, `rung ${rung} is named but the ladder has ${exercise.ladder.length}`));
  });

export const singleFilesThere: Check = (norms) => [
  ...(norms.defaults === undefined ? [problem('defaults.yaml', 'the file is missing')] : []),
  ...(norms.derived === undefined ? [problem('derived.yaml', 'the file is missing')] : []),
  ...(norms.general === undefined ? [problem('cautions/general.yaml', 'the file is missing')] : []),
];

export const CHECKS: readonly Check[] = [
  singleFilesThere,
  sourcesExist,
  sourcesAreCited,
  testsExist,
  unitsAgree,
  idsAreUnique,
  bandsFit,
  percentilesAreMonotone,
  rowsSaySomething,
  defaultsPointSomewhere,
  rungsExist,
];

export const crossCheck: Check = (norms) => CHECKS.flatMap((check) => check(norms));
