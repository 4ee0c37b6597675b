/** The one place that reads a norms folder from disk: the build, `--norms DIR` and `norms check` come through here. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { NormsFile } from './parse.ts';

/** Every `.yaml` file below `folder`, sorted by path. Throws the file system's own error where a file cannot be read. */
export function readNormsFolder(folder: string): NormsFile[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.ya?ml$/.test(entry.name))
    .map((entry) => {
      const file = join(entry.parentPath, entry.name);
      return { path: relative(folder, file).split(sep).join('/'), text: readFileSync(file, 'utf8') };
    })
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** SHA-256 over paths and texts; line ends are made equal first so that a checkout on another system has the same digest. */
export function digestOf(files: readonly NormsFile[]): string {
  const hash = createHash('sha256');
  for (const file of files) hash.update(`${file.path}\n${file.text.replaceAll('\r\n', '\n')}\n`);
  return hash.digest('hex');
}
