/**
 * Norms files (path and text) -> validated evidence, or every problem found with file, line and column.
 * Pure: reading the folder is `read-folder.ts`. Used by the build and by `--norms`; a normal run uses the compiled result.
 */
import { LineCounter, parseDocument } from 'yaml';
import type { z } from 'zod';
import { crossCheck } from './cross-checks.ts';
import type { EvidenceData } from './data.ts';
import { locateIssue } from './positions.ts';
import { FieldsFile, SourcesFile, TestsFile } from './schema/catalogue.ts';
import { DerivedFile } from './schema/derived.ts';
import { CapsFile, ExerciseFile, GeneralFile } from './schema/exercise.ts';
import { AccuracyFile, CutPointsFile, Defaults, ErrorFile } from './schema/numbers.ts';
import { FactorsFile, PathwayFile, RedFlagsFile } from './schema/pathway.ts';
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
  Omit<EvidenceData, 'version' | 'digest' | 'folders' | 'defaults' | 'derived' | 'general' | 'sources'>
> & {
  defaults?: Defaults;
  derived?: DerivedFile;
  general?: EvidenceData['general'];
  sources: Record<string, EvidenceData['sources'][string]>;
  /** Which file each entry came from, for the messages of the cross-checks: key such as `table:source:test`. */
  origin: Map<string, string>;
};

interface Kind<Schema extends z.ZodType = z.ZodType> {
  readonly name: string;
  readonly pattern: RegExp;
  readonly schema: Schema;
  readonly gather: (value: z.infer<Schema>, into: Gathered, path: string) => void;
}

function kind<Schema extends z.ZodType>(name: string, pattern: RegExp, schema: Schema, gather: Kind<Schema>['gather']): Kind {
  return { name, pattern, schema, gather: (value, into, path) => gather(schema.parse(value), into, path) };
}

/** Every kind of file there is; the path decides. */
export const KINDS: readonly Kind[] = [
  kind('tests', /^tests\.yaml$/, TestsFile, (file, into) => into.tests.push(...file.tests)),
  kind('fields', /^fields\.yaml$/, FieldsFile, (file, into) => into.fields.push(...file.fields)),
  kind('sources', /^sources\.yaml$/, SourcesFile, (file, into) => Object.assign(into.sources, file.sources)),
  kind('defaults', /^defaults\.yaml$/, Defaults, (file, into) => {
    into.defaults = file;
  }),
  kind('derived', /^derived\.yaml$/, DerivedFile, (file, into) => {
    into.derived = file;
  }),
  kind('table', /^tables\/[a-z0-9_]+\/[a-z0-9-]+\.yaml$/, TableFile, (file, into, path) => {
    into.tables.push(file);
    into.origin.set(`table:${file.source}:${file.test}`, path);
  }),
  kind('cutpoints', /^cutpoints\/[a-z0-9_-]+\.yaml$/, CutPointsFile, (file, into, path) => {
    into.cutPoints.push(...file.cut_points);
    for (const cut of file.cut_points) into.origin.set(`cut:${cut.id}`, path);
  }),
  kind('error', /^error\/[a-z0-9_-]+\.yaml$/, ErrorFile, (file, into, path) => {
    into.errors.push(...file.errors);
    for (const error of file.errors) into.origin.set(`error:${error.id}`, path);
  }),
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
  kind('exercise', /^exercises\/[a-z0-9_-]+\.yaml$/, ExerciseFile, (file, into) => into.exercises.push(file)),
];

function parseOne(file: NormsFile, into: Gathered): NormsProblem[] {
  const kindOfFile = KINDS.find((candidate) => candidate.pattern.test(file.path));
  if (kindOfFile === undefined)
    return [
      { file: file.path, line: 1, column: 1, message: 'no kind of norms file has this path; see the folders in norms/README.md' },
    ];
  const lineCounter = new LineCounter();
  const document = parseDocument(file.text, { lineCounter, uniqueKeys: true });
  if (document.errors.length > 0)
    return document.errors.map((error) => {
      const position = lineCounter.linePos(error.pos[0]);
      return {
        file: file.path,
        line: position.line,
        column: position.col,
        message: error.message.split('\n')[0] ?? error.message,
      };
    });
  const result = kindOfFile.schema.safeParse(document.toJS());
  if (!result.success)
    return result.error.issues.map((issue) => ({ file: file.path, ...locateIssue(document, lineCounter, issue) }));
  kindOfFile.gather(result.data, into, file.path);
  return [];
}

export interface ParsedNorms {
  readonly gathered: Gathered;
  readonly problems: readonly NormsProblem[];
}

/** All files of one folder. `partial` folders (a clinic's own) need not hold the single files. */
export function parseNorms(files: readonly NormsFile[], options: { readonly partial: boolean }): ParsedNorms {
  const gathered: Gathered = {
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
    origin: new Map(),
  };
  const problems = [...files].sort((a, b) => (a.path < b.path ? -1 : 1)).flatMap((file) => parseOne(file, gathered));
  if (problems.length === 0 && !options.partial) problems.push(...crossCheck(gathered));
  return { gathered, problems };
}
