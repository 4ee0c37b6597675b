/**
 * A clinic's own folders on top of the built-in norms. An entry with the same id (a table: the same source and test) takes
 * the place of the built-in one, anything else is added; what `defaults.yaml` says of a test is put before the built-in
 * order of that test. Nothing else changes. The whole is checked again, and problems point into the clinic's files.
 */
import { createHash } from 'node:crypto';
import { BUILT_IN, problemAt } from './check.ts';
import { CHECKS_OF_MERGED } from './cross-checks.ts';
import type { EvidenceData } from './data.ts';
import { type Gathered, type NormsFile, type NormsProblem, parseNorms } from './parse.ts';
import { digestOf } from './read-folder.ts';

export interface ClinicFolder {
  /** As the reports name it. */
  readonly name: string;
  readonly files: readonly NormsFile[];
}

export type Merged = { readonly data: EvidenceData } | { readonly problems: readonly NormsProblem[] };

/** The additions replace what has the same key, in its place; the rest is appended. */
function byKey<Entry>(base: readonly Entry[], additions: readonly Entry[], keyOf: (entry: Entry) => string): Entry[] {
  const replacements = new Map(additions.map((entry) => [keyOf(entry), entry]));
  const known = new Set(base.map(keyOf));
  return [
    ...base.map((entry) => replacements.get(keyOf(entry)) ?? entry),
    ...additions.filter((entry) => !known.has(keyOf(entry))),
  ];
}

const byId = <Entry extends { readonly id: string }>(base: readonly Entry[], additions: readonly Entry[]): Entry[] =>
  byKey(base, additions, ({ id }) => id);
const byTest = <Entry extends { readonly test: string }>(base: readonly Entry[], additions: readonly Entry[]): Entry[] =>
  byKey(base, additions, ({ test }) => test);

type Defaults = EvidenceData['defaults'];

/** The clinic's tables and errors of a test first, then the built-in ones it does not name again. */
function mergeDefaults(base: Defaults, own: Gathered['defaults']): Defaults {
  if (own === undefined) return base;
  const tests: Defaults['tests'] = { ...base.tests };
  for (const [test, mine] of Object.entries(own.tests)) {
    const built = base.tests[test];
    const tables = (built?.tables ?? []).filter(
      (entry) => !mine.tables.some((other) => other.source === entry.source && other.part === entry.part),
    );
    const error = (built?.error ?? []).filter((entry) => !mine.error.some((other) => other.id === entry.id));
    tests[test] = { ...built, ...mine, tables: [...mine.tables, ...tables], error: [...mine.error, ...error] };
  }
  return { standing: own.standing ?? base.standing, tests };
}

function mergeSingleFiles(
  base: EvidenceData,
  own: Gathered,
): Pick<EvidenceData, 'defaults' | 'derived' | 'general' | 'dose' | 'handout'> {
  const { derived, general } = base;
  return {
    defaults: mergeDefaults(base.defaults, own.defaults),
    derived: {
      point_totals: byTest(derived.point_totals, own.derived?.point_totals ?? []),
      stage_ladders: byTest(derived.stage_ladders, own.derived?.stage_ladders ?? []),
      relative_costs: byTest(derived.relative_costs, own.derived?.relative_costs ?? []),
    },
    general: {
      cautions: byId(general.cautions, own.general?.cautions ?? []),
      stop_signs: byKey(general.stop_signs, own.general?.stop_signs ?? [], ({ text }) => text),
    },
    // what a week comes to and what a page says is one whole: a clinic's own file takes its place
    dose: own.dose ?? base.dose,
    handout: own.handout ?? base.handout,
  };
}

function mergeOne(base: EvidenceData, own: Gathered): EvidenceData {
  return {
    ...base,
    ...mergeSingleFiles(base, own),
    tests: byId(base.tests, own.tests),
    fields: byKey(base.fields, own.fields, ({ field }) => field),
    sources: { ...base.sources, ...own.sources },
    tables: byKey(base.tables, own.tables, ({ source, test }) => `${test}/${source}`),
    cutPoints: byId(base.cutPoints, own.cutPoints),
    errors: byId(base.errors, own.errors),
    likelihoodRatios: byId(base.likelihoodRatios, own.likelihoodRatios),
    fallRates: byId(base.fallRates, own.fallRates),
    accuracyCautions: byKey(base.accuracyCautions, own.accuracyCautions, ({ text }) => text),
    pathways: byId(base.pathways, own.pathways),
    redFlags: byId(base.redFlags, own.redFlags),
    factors: byId(base.factors, own.factors),
    exercises: byId(base.exercises, own.exercises),
    caps: byId(base.caps, own.caps),
    languages: byKey(base.languages, own.languages, ({ language }) => language),
  };
}

/** One id for two papers would put a wrong citation under every number of the other. */
function sourcesStayThemselves(base: EvidenceData, own: Gathered): NormsProblem[] {
  return Object.entries(own.sources).flatMap(([id, source]) => {
    const built = base.sources[id];
    if (built === undefined || (built.doi === null ? built.citation === source.citation : built.doi === source.doi)) return [];
    return [
      problemAt(own, source, undefined, `"${id}" is already the id of another paper (${built.citation}); choose another id`),
    ];
  });
}

const inFolder = (folder: ClinicFolder, problem: NormsProblem): NormsProblem =>
  problem.file === BUILT_IN
    ? problem
    : {
        ...problem,
        file: `${folder.name}/${problem.file}`,
      };

/** What holds only of everything together; what the build has already checked of the built-in norms holds still. */
function problemsOfMerged(data: EvidenceData, folder: ClinicFolder, own: Gathered): NormsProblem[] {
  const { tests, fields, tables, cutPoints, errors, likelihoodRatios, fallRates, accuracyCautions } = data;
  const { sources, defaults, derived, general, dose, handout, languages, pathways, redFlags, factors, exercises, caps } = data;
  const gathered: Gathered = {
    tests: [...tests],
    fields: [...fields],
    sources: { ...sources },
    tables: [...tables],
    cutPoints: [...cutPoints],
    errors: [...errors],
    likelihoodRatios: [...likelihoodRatios],
    fallRates: [...fallRates],
    accuracyCautions: [...accuracyCautions],
    pathways: [...pathways],
    redFlags: [...redFlags],
    factors: [...factors],
    exercises: [...exercises],
    caps: [...caps],
    defaults,
    derived,
    general,
    dose,
    handout,
    languages: [...languages],
    protocols: own.protocols,
    places: own.places,
  };
  return CHECKS_OF_MERGED.flatMap((check) => check(gathered)).map((each) => inFolder(folder, each));
}

/** The folders in order: a later one wins. The digest covers the built-in norms and every file of every folder. */
export function withFolders(base: EvidenceData, folders: readonly ClinicFolder[]): Merged {
  const hash = createHash('sha256').update(`${base.digest}\n`);
  let data = base;
  for (const folder of folders) {
    const { gathered, problems } = parseNorms(folder.files, { partial: true });
    const all = [...problems, ...(problems.length === 0 ? sourcesStayThemselves(data, gathered) : [])];
    if (all.length > 0) return { problems: all.map((each) => inFolder(folder, each)) };
    data = mergeOne(data, gathered);
    const merged = problemsOfMerged(data, folder, gathered);
    if (merged.length > 0) return { problems: merged };
    hash.update(`${digestOf(folder.files)}\n`);
  }
  if (folders.length === 0) return { data };
  return { data: { ...data, digest: hash.digest('hex'), folders: folders.map(({ name }) => name) } };
}
