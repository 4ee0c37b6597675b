/** What must hold of the rows of a normative table beyond their shape: bands that fit together, percentiles that run one way, values that can be. */
import { type Check, problemAt } from './check.ts';
import type { Gathered } from './parse.ts';
import { percentOf } from './percent.ts';
import type { TestDefinition } from './schema/catalogue.ts';
import type { Row, TableFile, TablePart } from './schema/table.ts';

interface RowAt {
  readonly table: TableFile;
  readonly part: TablePart;
  readonly row: Row;
}

const rowsOf = (norms: Gathered): RowAt[] =>
  norms.tables.flatMap((table) => table.parts.flatMap((part) => part.rows.map((row) => ({ table, part, row }))));

const ages = (row: Row): string => `${row.age_min ?? 'open'}-${row.age_max ?? 'open'}`;
const WHO = { female: 'women', male: 'men', all: 'both sexes' } as const;
const named = ({ part, row }: RowAt): string => `${part.id}, ${WHO[row.sex]} ${ages(row)}`;

/** `tables/<test>/<source>.yaml` says what the file holds. */
const pathsMatch: Check = (norms) =>
  norms.tables.flatMap((table) => {
    const file = norms.places.at(table)?.file;
    if (file === undefined || file.endsWith(`tables/${table.test}/${table.source}.yaml`)) return [];
    const key = file.includes(`tables/${table.test}/`) ? 'source' : 'test';
    return [
      problemAt(norms, table, key, `this table belongs into tables/${table.test}/${table.source}.yaml, or its ${key} is wrong`),
    ];
  });

const unitsAgree: Check = (norms) => {
  const units = new Map(norms.tests.map((test) => [test.id, test.unit]));
  return norms.tables
    .filter((table) => units.has(table.test) && units.get(table.test) !== table.unit)
    .map((table) => problemAt(norms, table, 'unit', `unit is "${table.unit}" but the catalogue says "${units.get(table.test)}"`));
};

/** Rows that answer the same question: all strata but age alike. */
const stratumOf = (row: Row): string =>
  JSON.stringify([row.sex, row.setting, row.side, row.stance, row.language, row.height_min_cm, row.height_max_cm, row.group]);

export interface BandProblem {
  readonly row: Row;
  readonly message: string;
}

/** Bands of one stratum that overlap, leave a hole that is not declared under `gaps`, or are upside down. */
function bandProblems(rows: readonly Row[], gaps: readonly string[], name: string): BandProblem[] {
  const strata = new Set(rows.map(stratumOf));
  return [...strata].flatMap((stratum) => {
    const group = rows.filter((row) => stratumOf(row) === stratum);
    const sorted = group.sort((a, b) => (a.age_min ?? -1) - (b.age_min ?? -1));
    return sorted.flatMap((row, index) => {
      const next = sorted[index + 1];
      if (row.age_min !== null && row.age_max !== null && row.age_min > row.age_max)
        return [{ row, message: `${name}: band ${ages(row)} is upside down` }];
      if (next === undefined) return [];
      const end = row.age_max ?? Number.POSITIVE_INFINITY;
      const start = next.age_min ?? 0;
      if (start <= end)
        return [
          {
            row: next,
            message: `${name}: ${WHO[row.sex]}, bands ${ages(row)} and ${ages(next)} overlap; put one in a part of its own`,
          },
        ];
      if (start > end + 1 && gaps.length === 0)
        return [
          {
            row: next,
            message: `${name}: ${WHO[row.sex]}, no row for ages ${end + 1}-${start - 1}; declare the hole under gaps with its reason`,
          },
        ];
      return [];
    });
  });
}

const bandsFit: Check = (norms) =>
  norms.tables.flatMap((table) =>
    table.parts.flatMap((part) =>
      bandProblems(part.rows, part.gaps, part.id).map(({ row, message }) => problemAt(norms, row, 'age_min', message)),
    ),
  );

/** The first pair of neighbouring points that runs the wrong way, as words; null where all is well. */
export function backwards(points: Readonly<Record<string, number>>, rising: boolean): string | null {
  const ordered = Object.entries(points).sort(([a], [b]) => percentOf(a) - percentOf(b));
  for (const [index, [key, value]] of ordered.entries()) {
    const before = ordered[index - 1];
    if (before !== undefined && (rising ? value < before[1] : value > before[1]))
      return `${before[0]} is ${before[1]} but ${key} is ${value}`;
  }
  return null;
}

const percentilesAreMonotone: Check = (norms) => {
  const better = new Map(norms.tests.map((test) => [test.id, test.better]));
  return rowsOf(norms).flatMap((at) => {
    const { row, table } = at;
    const raw = row.percentiles === undefined ? null : backwards(row.percentiles, true);
    const performance =
      row.performance_percentiles === undefined
        ? null
        : backwards(row.performance_percentiles, better.get(table.test) === 'higher');
    return [
      ...(raw === null ? [] : [problemAt(norms, row, 'percentiles', `${named(at)}: percentiles run backwards: ${raw}`)]),
      ...(performance === null
        ? []
        : [
            problemAt(
              norms,
              row,
              'performance_percentiles',
              `${named(at)}: percentiles of performance run backwards: ${performance}`,
            ),
          ]),
    ];
  });
};

const COMPARABLE = [
  'percentiles',
  'performance_percentiles',
  'shares',
  'mean',
  'median',
  'worse_than_average',
  'equation',
] as const;

const rowsSaySomething: Check = (norms) =>
  rowsOf(norms)
    .filter(({ row }) => COMPARABLE.every((key) => row[key] === undefined))
    .map((at) => problemAt(norms, at.row, undefined, `${named(at)}: holds no number to compare with (${COMPARABLE.join(', ')})`));

/** Values of the test's own unit that a row prints, with the key they stand under. */
const valuesOf = (row: Row): readonly (readonly [keyof Row, number])[] => [
  ...(row.mean === undefined ? [] : [['mean', row.mean] as const]),
  ...(row.median === undefined ? [] : [['median', row.median] as const]),
  ...Object.values(row.percentiles ?? {}).map((value) => ['percentiles', value] as const),
  ...Object.values(row.performance_percentiles ?? {}).map((value) => ['performance_percentiles', value] as const),
  ...(row.shares?.marks ?? []).map((value) => ['shares', value] as const),
];

/** A slip of the decimal point makes most values impossible for the test. */
const valuesArePossible: Check = (norms) => {
  const tests = new Map<string, TestDefinition>(norms.tests.map((test) => [test.id, test]));
  return rowsOf(norms).flatMap((at) => {
    const limit = tests.get(at.table.test)?.impossible;
    if (limit === undefined) return [];
    const outside = valuesOf(at.row).find(
      ([, value]) => value < (limit.below ?? Number.NEGATIVE_INFINITY) || value > (limit.above ?? Number.POSITIVE_INFINITY),
    );
    if (outside === undefined) return [];
    return [
      problemAt(
        norms,
        at.row,
        outside[0],
        `${named(at)}: ${outside[1]} ${at.table.unit} cannot be a result of this test; check the decimal point and the unit`,
      ),
    ];
  });
};

/** The mean lies inside its own interval and the range of the sample. */
const meansLieInside: Check = (norms) =>
  rowsOf(norms).flatMap((at) => {
    const { mean, mean_ci95, range } = at.row;
    if (mean === undefined) return [];
    const outside = ([low, high]: readonly [number, number]): boolean => mean < low || mean > high;
    if (mean_ci95 !== undefined && outside(mean_ci95))
      return [
        problemAt(
          norms,
          at.row,
          'mean_ci95',
          `${named(at)}: the mean ${mean} lies outside its own interval ${mean_ci95.join(' to ')}`,
        ),
      ];
    if (range !== undefined && outside(range))
      return [
        problemAt(
          norms,
          at.row,
          'range',
          `${named(at)}: the mean ${mean} lies outside the range of the sample ${range.join(' to ')}`,
        ),
      ];
    return [];
  });

export const TABLE_CHECKS: readonly Check[] = [
  pathsMatch,
  unitsAgree,
  bandsFit,
  percentilesAreMonotone,
  rowsSaySomething,
  valuesArePossible,
  meansLieInside,
];
