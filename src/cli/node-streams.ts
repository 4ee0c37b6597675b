/** Files and pipes in pieces: the part of the real world that only large inputs need. */
import { createReadStream, existsSync, readdirSync, rmSync, statSync } from 'node:fs';
import { type FileHandle, open, rename } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { basename, dirname, join } from 'node:path';
import type { Sink, Streams } from './io.ts';

const temporaryName = (path: string, pid: number): string => join(dirname(path), `.footing-${pid}-${basename(path)}`);

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** What runs that were killed left beside `path`; a run that is still at work keeps its own. */
function removeRemnants(path: string): void {
  const name = basename(path);
  for (const entry of readdirSync(dirname(path))) {
    const pid = /^\.footing-(\d+)-(.*)$/.exec(entry);
    if (pid === null || pid[2] !== name || isRunning(Number(pid[1]))) continue;
    rmSync(join(dirname(path), entry), { force: true });
  }
}

/** Temporary files of this process, removed when a person or the system ends it. */
const unfinished = new Set<string>();
let watching = false;

function removeOnSignal(): void {
  if (watching) return;
  watching = true;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
    process.once(signal, () => {
      for (const path of unfinished) rmSync(path, { force: true });
      process.kill(process.pid, signal);
    });
}

async function fileSink(path: string): Promise<Sink> {
  const mode = existingMode(path) ?? 0o600;
  removeRemnants(path);
  const temporary = temporaryName(path, process.pid);
  const handle: FileHandle = await open(temporary, 'wx', mode);
  unfinished.add(temporary);
  removeOnSignal();
  return {
    write: async (piece) => {
      const bytes = typeof piece === 'string' ? Buffer.from(piece) : piece;
      for (let at = 0; at < bytes.length; ) at += (await handle.write(bytes, at)).bytesWritten;
    },
    commit: async () => {
      await handle.sync();
      await handle.close();
      await rename(temporary, path);
      unfinished.delete(temporary);
    },
    discard: async () => {
      await handle.close().catch(() => undefined);
      rmSync(temporary, { force: true });
      unfinished.delete(temporary);
    },
  };
}

function existingMode(path: string): number | undefined {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat === undefined ? undefined : stat.mode & 0o777;
}

/** Standard output with its reader's pace; a reader that has gone is an error here, so that the work stops. */
function stdoutSink(): Sink {
  let failed: Error | null = null;
  process.stdout.on('error', (error) => {
    failed = error;
  });
  const write = (piece: string | Uint8Array): Promise<void> =>
    new Promise((resolve, reject) => {
      if (failed !== null) reject(failed);
      else process.stdout.write(piece, (error) => (error === null || error === undefined ? resolve() : reject(error)));
    });
  return { write, commit: async () => undefined, discard: async () => undefined };
}

export function nodeStreams(): Streams {
  const worker = new URL('./cohort-worker.js', import.meta.url);
  return {
    read: (path) => createReadStream(path, { highWaterMark: 256 * 1024 }),
    stdin: () => process.stdin,
    size: (path) => {
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat?.isFile() === true ? stat.size : null;
    },
    file: fileSink,
    stdout: stdoutSink,
    now: () => performance.now(),
    cores: availableParallelism(),
    worker: existsSync(worker) ? worker : null,
  };
}
