/** A file is written beside its place first and then renamed: an old one stays whole until the new one is. */
import {
  closeSync,
  fchmodSync,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** For the owner alone: what is written is about clients. */
export const PRIVATE = 0o600;

const temporaryOf = (path: string): string => join(dirname(path), `.footing-${process.pid}-${basename(path)}`);

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** What runs that were killed left beside `path`; a run that is still at work keeps its own. A folder that cannot be listed is left alone. */
function removeRemnants(path: string): void {
  const name = basename(path);
  let entries: readonly string[];
  try {
    entries = readdirSync(dirname(path));
  } catch {
    return;
  }
  for (const entry of entries) {
    const pid = /^\.footing-(\d+)-(.*)$/s.exec(entry);
    if (pid === null || pid[2] !== name) continue;
    if (Number(pid[1]) === process.pid || !isRunning(Number(pid[1]))) rmSync(join(dirname(path), entry), { force: true });
  }
}

/** Where the new text goes until it is whole; nobody but the owner can read it there. */
export function temporaryFor(path: string): string {
  removeRemnants(path);
  return temporaryOf(path);
}

/** An old file keeps its permissions. A link is replaced and not followed, so its target's permissions do not count. */
export function modeFor(path: string): number {
  const stat = lstatSync(path, { throwIfNoEntry: false });
  return stat?.isFile() === true ? stat.mode & 0o777 : PRIVATE;
}

/** A pipe, a terminal or another device: written to as it is, never replaced. */
export function isDevice(path: string): boolean {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat !== undefined && !stat.isFile() && !stat.isDirectory();
}

export function writeWhole(path: string, content: string | Uint8Array): void {
  if (isDevice(path)) {
    writeFileSync(path, content);
    return;
  }
  const temporary = temporaryFor(path);
  try {
    const file = openSync(temporary, 'wx', PRIVATE);
    try {
      writeFileSync(file, content);
      fchmodSync(file, modeFor(path));
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(temporary, path);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
}
