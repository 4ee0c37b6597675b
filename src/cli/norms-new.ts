/** `footing norms new SOURCE --test ID`: commented skeletons for one more published table. */
import { join } from 'node:path';
import { Command } from 'commander';
import { bundledEvidence } from '../evidence/bundled.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { CannotStart, fileErrorInWords, type Io } from './io.ts';
import type { Invocation } from './main.ts';
import { checkTest } from './norms-list.ts';

interface NewOptions {
  readonly test: string;
  readonly to: string;
}

const HELP = `
Writes FOLDER/tables/TEST/SOURCE.yaml with every key a table can have and a word on each, an empty citation in
FOLDER/sources.yaml, the line in FOLDER/defaults.yaml that puts the table first, and the schemas that an editor completes
keys from. Files that are there are kept: a citation is added at the end of sources.yaml, a default is not touched.

Examples:
  footing norms new our-clinic-2026 --test timed_up_and_go --to my-norms
  footing norms check my-norms
`;

export function newTableCommand(invocation: () => Invocation): Command {
  return new Command('new')
    .description('start one more table: a commented skeleton to fill in')
    .argument('<source>', 'id of the source: author-year and what tells it apart, such as smith-2021-tug')
    .requiredOption('--test <id>', 'id of the test')
    .option('--to <folder>', 'norms folder to write into', 'norms')
    .addHelpText('after', HELP)
    .action((source: string, options: NewOptions) => startTable(source, options, invocation()));
}

function textOf(io: Io, path: string): string | null {
  try {
    return io.readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR')) return null;
    throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
  }
}

function put(io: Io, path: string, text: string, what: string): void {
  try {
    io.makeFolder(join(path, '..'));
    io.writeFile(path, text);
  } catch (error) {
    throw new CannotStart(`cannot write ${path}: ${fileErrorInWords(error)}`);
  }
  io.stderr.write(`${what} ${path}\n`);
}

/** The entry goes behind the last one: nothing that stands in the file is touched. */
function sourcesText(before: string | null, source: string, skeleton: { entry: string; file: string }): string | null {
  if (before === null) return skeleton.file;
  if (new RegExp(`^ +(["']?)${source}\\1:`, 'm').test(before)) return null;
  return `${before.replace(/\n*$/, '\n')}${skeleton.entry}`;
}

async function writeAll(source: string, test: TestDefinition, folder: string, io: Io): Promise<string> {
  const { newDefaultsFile, newSourcesFile, sourceSkeleton, tableSkeleton } = await import('../evidence/skeleton.ts');
  const { jsonSchemaOf, schemaFile } = await import('../evidence/json-schemas.ts');
  const { KINDS } = await import('../evidence/parse.ts');
  const at = (path: string): string => join(folder, path);
  const table = at(`tables/${test.id}/${source}.yaml`);
  if (textOf(io, table) !== null) throw new CannotStart(`${table} is there already; nothing was written`);
  put(io, table, tableSkeleton(source, test), 'wrote');
  const before = textOf(io, at('sources.yaml'));
  const sources = sourcesText(before, source, { entry: sourceSkeleton(source), file: newSourcesFile(source) });
  if (sources !== null) put(io, at('sources.yaml'), sources, before === null ? 'wrote' : 'added the source to');
  if (textOf(io, at('defaults.yaml')) === null) put(io, at('defaults.yaml'), newDefaultsFile(source, test.id), 'wrote');
  else io.stderr.write(`kept ${at('defaults.yaml')}: name the table there if it is to be a default\n`);
  for (const kind of KINDS.filter(({ name }) => ['table', 'sources', 'defaults'].includes(name)))
    if (textOf(io, at(schemaFile(kind.name))) === null) put(io, at(schemaFile(kind.name)), jsonSchemaOf(kind), 'wrote');
  return table;
}

async function startTable(source: string, options: NewOptions, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  // The built-in catalogue: a folder that is only being filled in would stop the run.
  const evidence = bundledEvidence();
  checkTest(evidence, options.test);
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(source))
    throw new CannotStart(`"${source}" cannot be an id: lower-case words and digits joined by hyphens, such as smith-2021-tug`);
  const test = evidence.testById.get(options.test);
  if (test === undefined) return;
  const table = await writeAll(source, test, options.to, io);
  io.stdout.write(
    `${[
      `Next: fill in ${table} and the citation,`,
      `  footing norms check ${options.to}                       says what is missing`,
      `  footing norms show ${source} --norms ${options.to}      prints it back for comparison with the paper`,
    ].join('\n')}\n`,
  );
}
