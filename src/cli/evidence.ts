/** The evidence of this run: the built-in norms, then the user's own folder, then every `--norms` folder in order. */
import { posix, relative, sep, win32 } from 'node:path';
import { bundledEvidence } from '../evidence/bundled.ts';
import type { Evidence } from '../evidence/data.ts';
import type { ClinicFolder } from '../evidence/merge.ts';
import type { NormsFile } from '../evidence/parse.ts';
import { CannotStart, fileErrorInWords, type Io } from './io.ts';
import type { Invocation } from './main.ts';
import { shownPath, userFolderOf } from './user-folder.ts';

/** `norms` in the person's own folder; null where no such folder is known. */
function userNormsFolder(env: Io['env']): string | null {
  const folder = userFolderOf(env);
  return folder === null ? null : (folder.includes('\\') ? win32 : posix).join(folder, 'norms');
}

/** @throws CannotStart that names the file of the folder. */
function textOf(io: Pick<Io, 'readFile'>, path: string): string {
  try {
    return io.readFile(path);
  } catch (error) {
    throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
  }
}

/** Every norms file (YAML) below a folder. Throws the file system's error where the folder cannot be read. */
export function readClinicFiles(io: Pick<Io, 'listFolder' | 'readFile'>, folder: string): NormsFile[] {
  const found = io.listFolder(folder);
  if (found === null) throw new CannotStart(`${folder} is a file; a folder with norms files is needed`);
  return found
    .filter((path) => /\.ya?ml$/.test(path))
    .map((path) => ({ path: relative(folder, path).split(sep).join('/'), text: textOf(io, path) }));
}

function namedFolder(io: Io, folder: string): ClinicFolder {
  let files: NormsFile[];
  try {
    files = readClinicFiles(io, folder);
  } catch (error) {
    if (error instanceof CannotStart) throw error;
    throw new CannotStart(`cannot read the norms folder ${folder}: ${fileErrorInWords(error)}`);
  }
  if (files.length === 0) throw new CannotStart(`the norms folder ${folder} holds no norms file (.yaml)`);
  return { name: folder.replace(/[/\\]+$/, ''), files };
}

const isMissing = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR');

/** The user's own folder counts only where it is there; its name in reports does not show whose home it is in. */
function userFolder(io: Io): ClinicFolder[] {
  const folder = userNormsFolder(io.env);
  if (folder === null) return [];
  try {
    const files = readClinicFiles(io, folder);
    return files.length === 0 ? [] : [{ name: shownPath(folder, io.env), files }];
  } catch (error) {
    if (isMissing(error)) return [];
    throw new CannotStart(
      `cannot read the norms folder ${folder}: ${error instanceof CannotStart ? error.message : fileErrorInWords(error)}`,
    );
  }
}

/**
 * The evidence to score with. A folder with any fault stops the run: half of a clinic's tables would be worse than none.
 * @throws CannotStart when a folder is not there or not valid; its problems are on standard error with their positions.
 */
export async function evidenceFor({ io, norms, settings }: Pick<Invocation, 'io' | 'norms' | 'settings'>): Promise<Evidence> {
  const named = [...userFolder(io), ...norms.map((folder) => namedFolder(io, folder))];
  if (named.length === 0 && settings.limits === undefined) return bundledEvidence();
  const { ownLimitsFolder } = await import('./own-limits.ts');
  const limits = settings.limits === undefined ? [] : [ownLimitsFolder(bundledEvidence(), settings.limits)];
  const folders = [...named, ...limits];
  // Only here are the schemas and the checks needed; a run on the built-in norms alone never loads them.
  const { withNorms } = await import('../evidence/clinic-norms.ts');
  const { evidence, problems } = await withNorms(bundledEvidence(), folders);
  if (evidence !== null) return evidence;
  for (const { file, line, column, message } of problems) io.stderr.write(`${file}:${line}:${column}: ${message}\n`);
  const count = problems.length;
  throw new CannotStart(
    `the clinic's norms are not valid (${count} ${count === 1 ? 'problem' : 'problems'}); nothing was done. "footing norms check FOLDER" checks them`,
  );
}
