/** Files and pipes in pieces: the part of the real world that only large inputs need. */
import { createReadStream, existsSync, rmSync, statSync } from 'node:fs';
import { type FileHandle, open, rename } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { Sink, Streams } from './io.ts';
import { isDevice, modeFor, PRIVATE, temporaryFor } from './whole-file.ts';

/** Temporary files of this process, removed when it ends early or a person or the system ends it. */
const unfinished = new Set<string>();
let watching = false;

function removeOnSignal(): void {
  if (watching) return;
  watching = true;
  process.once('exit', () => {
    for (const path of unfinished) rmSync(path, { force: true });
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
    process.once(signal, () => {
      for (const path of unfinished) rmSync(path, { force: true });
      process.kill(process.pid, signal);
    });
}

async function writeAll(handle: FileHandle, piece: string | Uint8Array): Promise<void> {
  const bytes = typeof piece === 'string' ? Buffer.from(piece) : piece;
  for (let at = 0; at < bytes.length; ) at += (await handle.write(bytes, at)).bytesWritten;
}

/** What has gone to a pipe or a device cannot be taken back. */
function deviceSink(handle: FileHandle): Sink {
  return {
    write: (piece) => writeAll(handle, piece),
    commit: () => handle.close(),
    discard: () => handle.close().catch(() => undefined),
  };
}

async function fileSink(path: string): Promise<Sink> {
  if (isDevice(path)) return deviceSink(await open(path, 'w'));
  const temporary = temporaryFor(path);
  const handle: FileHandle = await open(temporary, 'wx', PRIVATE);
  unfinished.add(temporary);
  removeOnSignal();
  return {
    write: (piece) => writeAll(handle, piece),
    commit: async () => {
      await handle.chmod(modeFor(path));
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

/** Standard output with its reader's pace; a reader that has gone is an error here, so that the work stops. */
function stdoutSink(): Sink {
  let failed: Error | null = null;
  // Told by `write`, so that the files of the run are cleared away before it ends.
  process.stdout.removeAllListeners('error');
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

/** Bytes read at once: a block of a cohort. */
const READ = 64 * 1024;

export function nodeStreams(): Streams {
  const worker = new URL('./cohort-worker.js', import.meta.url);
  return {
    read: (path) => createReadStream(path, { highWaterMark: READ }),
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
