/**
 * What a schema cannot see between files: references that lead nowhere, ids that stand twice, files that are missing. One
 * named function a rule; each gives problems in words with the line at fault. Rules on the rows of a table: `table-checks.ts`.
 */
import { type Check, problemAt } from './check.ts';
import type { Gathered, NormsProblem } from './parse.ts';
import { PATHWAY_CHECKS } from './pathway-checks.ts';
import { perhaps } from './perhaps.ts';
import { PLAN_CHECKS } from './plan-checks.ts';
import { PROTOCOL_CHECKS, protocolsAreThere } from './protocol-checks.ts';
import { TABLE_CHECKS } from './table-checks.ts';

/** `{ holder, id }` of every text under `key`; the holder itself is kept, because places are known by identity. */
function mentions(key: string, value: unknown, found: { holder: object; id: string }[] = []): { holder: object; id: string }[] {
  if (Array.isArray(value)) for (const item of value) mentions(key, item, found);
  else if (value !== null && typeof value === 'object')
    for (const [name, inner] of Object.entries(value))
      if (name === key && typeof inner === 'string') found.push({ holder: value, id: inner });
      else mentions(key, inner, found);
  return found;
}

const withoutPlaces = ({ places: _places, ...lists }: Gathered): Omit<Gathered, 'places'> => lists;

const sourcesExist: Check = (norms) => {
  const { sources, ...rest } = withoutPlaces(norms);
  return mentions('source', rest)
    .filter(({ id }) => sources[id] === undefined)
    .map(({ holder, id }) =>
      problemAt(
        norms,
        holder,
        'source',
        `source "${id}" has no citation: add it to sources.yaml${perhaps(id, Object.keys(sources))}`,
      ),
    );
};

const sourcesAreCited: Check = (norms) => {
  const { sources, ...rest } = withoutPlaces(norms);
  const cited = new Set(mentions('source', rest).map(({ id }) => id));
  return Object.entries(sources)
    .filter(([id]) => !cited.has(id))
    .map(([id, source]) =>
      problemAt(norms, source, undefined, `source "${id}" is cited nowhere; remove it or use it`, 'sources.yaml'),
    );
};

/** Every `test:` anywhere names a test of the catalogue; so do the keys of defaults.yaml. */
const testsExist: Check = (norms) => {
  const known = norms.tests.map((test) => test.id);
  const wrong = (id: string): string => `test "${id}" is not in the catalogue (tests.yaml)${perhaps(id, known)}`;
  const { tests: _tests, defaults, ...rest } = withoutPlaces(norms);
  return [
    ...mentions('test', { ...rest, defaults })
      .filter(({ id }) => !known.includes(id))
      .map(({ holder, id }) => problemAt(norms, holder, 'test', wrong(id))),
    ...Object.entries(defaults?.tests ?? {})
      .filter(([id]) => !known.includes(id))
      .map(([id, entry]) => problemAt(norms, entry, undefined, wrong(id))),
  ];
};

type Identified = { readonly id: string };

const idsAreUnique: Check = (norms) => {
  const lists: readonly [string, readonly Identified[]][] = [
    ['test', norms.tests],
    ['cut-point', norms.cutPoints],
    ['measurement error', norms.errors],
    ['likelihood ratio', norms.likelihoodRatios],
    ['fall rate', norms.fallRates],
    ['pathway', norms.pathways],
    ['exercise', norms.exercises],
    ['protocol', norms.protocols],
    ['cap', norms.caps],
    ['red flag', norms.redFlags],
    ['factor', norms.factors],
  ];
  const twice = lists.flatMap(([what, entries]) =>
    entries
      .filter((entry, index) => entries.findIndex((other) => other.id === entry.id) !== index)
      .map((entry) => problemAt(norms, entry, 'id', `${what} "${entry.id}" stands twice`)),
  );
  const tables = norms.tables
    .filter(
      (table, index) => norms.tables.findIndex((other) => other.test === table.test && other.source === table.source) !== index,
    )
    .map((table) => problemAt(norms, table, 'source', `table "${table.source}" of ${table.test} stands twice`));
  return [...twice, ...tables];
};

/** The defaults name tables and errors that exist, and parts that the table has. */
const defaultsPointSomewhere: Check = (norms) => {
  const tables = new Map(norms.tables.map((table) => [`${table.test}/${table.source}`, table]));
  const errors = new Map(norms.errors.map((error) => [error.id, error.test]));
  return Object.entries(norms.defaults?.tests ?? {}).flatMap(([test, defaults]) => [
    ...defaults.tables.flatMap((entry) => {
      const table = tables.get(`${test}/${entry.source}`);
      if (table === undefined)
        return [
          problemAt(norms, entry, 'source', `${test}: there is no table "${entry.source}" (tables/${test}/${entry.source}.yaml)`),
        ];
      if (entry.part === undefined || table.parts.some((part) => part.id === entry.part)) return [];
      const parts = table.parts.map((part) => part.id);
      return [
        problemAt(
          norms,
          entry,
          'part',
          `${test}: table "${entry.source}" has no part "${entry.part}"; its parts: ${parts.join(', ')}`,
        ),
      ];
    }),
    ...defaults.error
      .filter((entry) => errors.get(entry.id) !== test)
      .map((entry) =>
        problemAt(
          norms,
          entry,
          'id',
          `${test}: there is no measurement error "${entry.id}" for it${perhaps(entry.id, [...errors.keys()])}`,
        ),
      ),
  ]);
};

const rungsExist: Check = (norms) =>
  norms.exercises.flatMap((exercise) => {
    const { by_test, also } = exercise.start;
    const named: readonly [object, PropertyKey, number][] = [
      ...by_test.flatMap((rule): [object, PropertyKey, number][] => [
        [rule, 'unable', rule.unable],
        [rule, 'below_all', rule.below_all],
        ...rule.steps.map((step): [object, PropertyKey, number] => [step, 'rung', step.rung]),
      ]),
      ...also.map((rule): [object, PropertyKey, number] => [rule, 'rung', rule.rung]),
    ];
    return named
      .filter(([, , rung]) => rung > exercise.ladder.length)
      .map(([holder, key, rung]) =>
        problemAt(norms, holder, key, `rung ${rung} is named but the ladder of ${exercise.id} has ${exercise.ladder.length}`),
      );
  });

const missing = (file: string): NormsProblem => ({ file, line: 1, column: 1, message: 'the file is missing' });

const singleFilesThere: Check = (norms) => [
  ...(norms.defaults === undefined ? [missing('defaults.yaml')] : []),
  ...(norms.defaults !== undefined && norms.defaults.standing === undefined
    ? [problemAt(norms, norms.defaults, undefined, 'standing is missing: where the words for a standing change')]
    : []),
  ...(norms.derived === undefined ? [missing('derived.yaml')] : []),
  ...(norms.general === undefined ? [missing('cautions/general.yaml')] : []),
  ...(norms.dose === undefined ? [missing('dose.yaml')] : []),
  ...(norms.handout === undefined ? [missing('handout.yaml')] : []),
];

/** What must hold of a clinic's folder by itself, before it is merged: there a second entry of one id would be taken for a replacement. */
export const CHECKS_OF_ADDITIONS: readonly Check[] = [idsAreUnique];

/** What must hold of the built-in norms and a clinic's folders together. */
export const CHECKS_OF_MERGED: readonly Check[] = [
  sourcesExist,
  testsExist,
  ...TABLE_CHECKS,
  defaultsPointSomewhere,
  rungsExist,
  ...PATHWAY_CHECKS,
  ...PLAN_CHECKS,
  ...PROTOCOL_CHECKS,
];

export const CHECKS_OF_WHOLE: readonly Check[] = [
  singleFilesThere,
  protocolsAreThere,
  sourcesAreCited,
  idsAreUnique,
  ...CHECKS_OF_MERGED,
];
