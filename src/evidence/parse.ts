/**
 * Norms files (path and text) -> validated evidence, or every problem found with file, line and column.
 * Pure: reading the folder is `read-folder.ts`. Used by the build and by `--norms`; a normal run uses the compiled result.
 */
import type { z } from 'zod';
import { CHECKS_OF_ADDITIONS, CHECKS_OF_WHOLE } from './cross-checks.ts';
import type { EvidenceData } from './data.ts';
import { newPlaces, type Places } from './places.ts';
import { plainYaml } from './plain-yaml.ts';
import { locateIssue } from './positions.ts';
import { FieldsFile, SourcesFile, TestsFile } from './schema/catalogue.ts';
import { DerivedFile } from './schema/derived.ts';
import { DoseFile, type DoseRules } from './schema/dose.ts';
import { CapsFile, ExerciseFile, GeneralFile } from './schema/exercise.ts';
import { HandoutFile, type HandoutRules, LanguageFile } from './schema/handout.ts';
import { AccuracyFile, CutPointsFile, DefaultsFile, ErrorFile } from './schema/numbers.ts';
import { FactorsFile, PathwayFile, RedFlagsFile } from './schema/pathway.ts';
import { ProtocolFile } from './schema/protocol.ts';
import { TableFile } from './schema/table.ts';

export interface NormsFile {
  /** Relative to the norms folder, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

export interface NormsProblem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

type Mutable<Type> = { -readonly [Key in keyof Type]: Type[Key] extends readonly (infer Item)[] ? Item[] : Type[Key] };
/** Evidence while it is being gathered; single files stay undefined until they are met. */
export type Gathered = Mutable<
  Omit<EvidenceData, 'version' | 'digest' | 'folders' | 'defaults' | 'derived' | 'general' | 'dose' | 'handout' | 'sources'>
> & {
  defaults?: DefaultsFile;
  derived?: DerivedFile;
  general?: EvidenceData['general'];
  dose?: DoseRules;
  handout?: HandoutRules;
  sources: Record<string, EvidenceData['sources'][string]>;
  /** How tests are carried out; compiled into a module of its own, which `score` never loads. */
  protocols: ProtocolFile[];
  /** Where each entry stands, for the messages of the checks. */
  places: Places;
};

/** One kind of norms file: which paths it has, its schema, and where its content goes. */
export interface Kind {
  readonly name: string;
  readonly pattern: RegExp;
  readonly schema: z.ZodType;
  /** The validated content, already put into `into`; or what is wrong with it. */
  readonly read: (content: unknown, into: Gathered) => { readonly value: unknown } | { readonly error: z.ZodError };
}

function kind<Schema extends z.ZodType>(
  name: string,
  pattern: RegExp,
  schema: Schema,
  gather: (value: z.infer<Schema>, into: Gathered) => void,
): Kind {
  const read: Kind['read'] = (content, into) => {
    const result = schema.safeParse(content);
    if (!result.success) return { error: result.error };
    gather(result.data, into);
    return { value: result.data };
  };
  return { name, pattern, schema, read };
}

/** Every kind of file there is; the path decides. */
export const KINDS: readonly Kind[] = [
  kind('tests', /^tests\.yaml$/, TestsFile, (file, into) => into.tests.push(...file.tests)),
  kind('fields', /^fields\.yaml$/, FieldsFile, (file, into) => into.fields.push(...file.fields)),
  kind('sources', /^sources\.yaml$/, SourcesFile, (file, into) => Object.assign(into.sources, file.sources)),
  kind('defaults', /^defaults\.yaml$/, DefaultsFile, (file, into) => {
    into.defaults = file;
  }),
  kind('derived', /^derived\.yaml$/, DerivedFile, (file, into) => {
    into.derived = file;
  }),
  kind('table', /^tables\/[a-z0-9_]+\/[a-z0-9-]+\.yaml$/, TableFile, (file, into) => into.tables.push(file)),
  kind('cutpoints', /^cutpoints\/[a-z0-9_-]+\.yaml$/, CutPointsFile, (file, into) => into.cutPoints.push(...file.cut_points)),
  kind('error', /^error\/[a-z0-9_-]+\.yaml$/, ErrorFile, (file, into) => into.errors.push(...file.errors)),
  kind('accuracy', /^accuracy\/[a-z0-9_-]+\.yaml$/, AccuracyFile, (file, into) => {
    into.likelihoodRatios.push(...file.likelihood_ratios);
    into.fallRates.push(...file.fall_rates);
    into.accuracyCautions.push(...file.cautions);
  }),
  kind('pathway', /^pathways\/[a-z0-9-]+\.yaml$/, PathwayFile, (file, into) => into.pathways.push(file)),
  kind('red_flags', /^cautions\/red-flags\.yaml$/, RedFlagsFile, (file, into) => into.redFlags.push(...file.red_flags)),
  kind('factors', /^cautions\/factors\.yaml$/, FactorsFile, (file, into) => into.factors.push(...file.factors)),
  kind('caps', /^cautions\/caps\.yaml$/, CapsFile, (file, into) => into.caps.push(...file.caps)),
  kind('general', /^cautions\/general\.yaml$/, GeneralFile, (file, into) => {
    into.general = file;
  }),
  kind('dose', /^dose\.yaml$/, DoseFile, (file, into) => {
    into.dose = file;
  }),
  kind('handout', /^handout\.yaml$/, HandoutFile, (file, into) => {
    into.handout = file;
  }),
  kind('language', /^language\/[a-z]{2,3}(-[A-Za-z0-9]+)*\.yaml$/, LanguageFile, (file, into) => into.languages.push(file)),
  kind('protocol', /^protocols\/[a-z0-9_]+\.yaml$/, ProtocolFile, (file, into) => into.protocols.push(file)),
  kind('exercise', /^exercises\/[a-z0-9_-]+\.yaml$/, ExerciseFile, (file, into) => into.exercises.push(file)),
];

function parseOne(file: NormsFile, into: Gathered): NormsProblem[] {
  const kindOfFile = KINDS.find((candidate) => candidate.pattern.test(file.path));
  if (kindOfFile === undefined)
    return [
      { file: file.path, line: 1, column: 1, message: 'no kind of norms file has this path; see the folders in norms/README.md' },
    ];
  const { document, lineCounter, faults, value } = plainYaml(file.text);
  const [syntax] = faults;
  if (syntax !== undefined) {
    // What follows a first fault of syntax is mostly its echo.
    const { line, col } = lineCounter.linePos(syntax.offset);
    return [
      {
        file: file.path,
        line: Math.max(line, 1),
        column: Math.max(col, 1),
        message: `cannot be read as YAML: ${syntax.message}`,
      },
    ];
  }
  const result = kindOfFile.read(value, into);
  if ('error' in result)
    return firstOfEachPlace(result.error.issues).map((issue) => ({
      file: file.path,
      ...locateIssue(document, lineCounter, issue),
    }));
  into.places.register(result.value, { file: file.path, document, lineCounter });
  return [];
}

/** An empty text breaks two rules of the schema; the first says it all. */
const firstOfEachPlace = (issues: readonly z.core.$ZodIssue[]): z.core.$ZodIssue[] =>
  issues.filter((one, index) => issues.findIndex((other) => other.path.join('.') === one.path.join('.')) === index);

export interface ParsedNorms {
  readonly gathered: Gathered;
  readonly problems: readonly NormsProblem[];
}

export const nothingGathered = (): Gathered => ({
  tests: [],
  fields: [],
  sources: {},
  tables: [],
  cutPoints: [],
  errors: [],
  likelihoodRatios: [],
  fallRates: [],
  accuracyCautions: [],
  pathways: [],
  redFlags: [],
  factors: [],
  exercises: [],
  caps: [],
  languages: [],
  protocols: [],
  places: newPlaces(),
});

/** All files of one folder. `partial` folders (a clinic's own) need not hold the single files; they are checked once merged. */
export function parseNorms(files: readonly NormsFile[], options: { readonly partial: boolean }): ParsedNorms {
  const gathered = nothingGathered();
  const problems = [...files].sort((a, b) => (a.path < b.path ? -1 : 1)).flatMap((file) => parseOne(file, gathered));
  if (problems.length > 0) return { gathered, problems };
  const checks = options.partial ? CHECKS_OF_ADDITIONS : CHECKS_OF_WHOLE;
  return { gathered, problems: checks.flatMap((check) => check(gathered)) };
}
