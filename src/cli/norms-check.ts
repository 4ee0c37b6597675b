/** `footing norms check FOLDER`: a clinic's own norms folder, or the whole collection, with every fault and its place. */
import { Command } from 'commander';
import { bundledEvidence } from '../evidence/bundled.ts';
import type { NormsFile, NormsProblem } from '../evidence/parse.ts';
import { readClinicFiles } from './evidence.ts';
import { CannotStart, EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';

const HELP = `
A clinic's folder holds tables/TEST/SOURCE.yaml, sources.yaml and, to make a table the default, defaults.yaml; "footing norms
new" starts one. It is checked together with the built-in norms, as a run with --norms FOLDER would use it.

Examples:
  footing norms new our-clinic-2026 --test timed_up_and_go --to my-norms
  footing norms check my-norms

Exit code: 0 nothing wrong, 1 something is, 2 the folder cannot be read.
`;

export function checkNormsCommand(invocation: () => Invocation): Command {
  return new Command('check')
    .description("check a clinic's own norms folder")
    .argument('<folder>', 'the folder')
    .addHelpText('after', HELP)
    .action((folder: string) => check(folder, invocation()));
}

function filesOf(folder: string, { io }: Invocation): NormsFile[] {
  try {
    return readClinicFiles(io, folder);
  } catch (error) {
    if (error instanceof CannotStart) throw error;
    throw new CannotStart(`cannot read ${folder}: ${fileErrorInWords(error)}`);
  }
}

/** The whole collection has the catalogue and the derived results; a clinic's folder only adds. */
const isWhole = (files: readonly NormsFile[]): boolean =>
  ['tests.yaml', 'derived.yaml', 'fields.yaml'].every((name) => files.some((file) => file.path === name));

async function problemsOf(files: readonly NormsFile[], name: string): Promise<readonly NormsProblem[]> {
  if (isWhole(files)) {
    const { parseNorms } = await import('../evidence/parse.ts');
    return parseNorms(files, { partial: false }).problems.map((each) => ({ ...each, file: `${name}/${each.file}` }));
  }
  const { withFolders } = await import('../evidence/merge.ts');
  const merged = withFolders(bundledEvidence(), [{ name, files }]);
  return 'problems' in merged ? merged.problems : [];
}

/** What the folder would change: the first default of every test it names. */
async function effects(files: readonly NormsFile[], name: string): Promise<string[]> {
  const { withFolders } = await import('../evidence/merge.ts');
  const base = bundledEvidence();
  const merged = withFolders(base, [{ name, files }]);
  if (!('data' in merged)) return [];
  return Object.entries(merged.data.defaults.tests).flatMap(([test, { tables }]) => {
    const order = tables.map((entry) => entry.source).join(', ');
    const before = base.defaults.tests[test]?.tables.map((entry) => entry.source).join(', ') ?? '';
    return order === before ? [] : [`${test}: tables are tried in this order: ${order}`];
  });
}

async function check(folder: string, invocation: Invocation): Promise<void> {
  const { io } = invocation;
  const files = filesOf(folder, invocation);
  const name = folder.replace(/[/\\]+$/, '');
  if (files.length === 0) throw new CannotStart(`${folder} holds no norms file (.yaml)`);
  const problems = await problemsOf(files, name);
  for (const { file, line, column, message } of problems) io.stderr.write(`${file}:${line}:${column}: ${message}\n`);
  const counted = files.length === 1 ? '1 file' : `${files.length} files`;
  if (problems.length > 0) {
    io.stderr.write(`${counted} checked, ${problems.length === 1 ? '1 problem' : `${problems.length} problems`}\n`);
    invocation.finish(EXIT.refused);
    return;
  }
  io.stdout.write(`${counted} checked, nothing wrong\n`);
  if (!isWhole(files)) for (const line of await effects(files, name)) io.stdout.write(`${line}\n`);
}
