/** The real world: process streams, files, clock. The only module of the command line that touches `process`. */
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { text } from 'node:stream/consumers';
import type { Io, OutputStream } from './io.ts';

function outputStream(stream: NodeJS.WriteStream): OutputStream {
  return {
    write: (chunk) => {
      stream.write(chunk);
    },
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}

/** Into a file beside the target first, then renamed over it: an old file stays whole until the new one is. */
function writeWhole(path: string, content: string | Uint8Array): void {
  const temporary = join(dirname(path), `.footing-${process.pid}-${basename(path)}`);
  const mode = existingMode(path) ?? 0o600;
  try {
    const file = openSync(temporary, 'wx', mode);
    try {
      writeFileSync(file, content);
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

function existingMode(path: string): number | undefined {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat === undefined ? undefined : stat.mode & 0o777;
}

/** Sorted by the code units of the name, so that the order is the same on every computer. */
export function listFolder(path: string): readonly string[] | null {
  if (!statSync(path).isDirectory()) return null;
  const entries = readdirSync(path, { withFileTypes: true }).filter((entry) => !entry.name.startsWith('.'));
  return entries
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const inside = join(path, entry.name);
      return entry.isDirectory() ? (listFolder(inside) ?? []) : [inside];
    });
}

/** Local calendar day; no time zone arithmetic, so it never shifts. */
function localDay(now: Date): string {
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function nodeIo(): Io {
  // A reader that closes early (`| head`) is not a fault.
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  return {
    stdout: outputStream(process.stdout),
    stderr: outputStream(process.stderr),
    // Opened only where it is read: opening it takes a tenth of the time of a short run.
    stdin: {
      read: () => text(process.stdin),
      get isTerminal() {
        return process.stdin.isTTY === true;
      },
    },
    env: process.env,
    readFile: (path) => readFileSync(path, 'utf8'),
    listFolder,
    makeFolder: (path) => {
      mkdirSync(path, { recursive: true });
    },
    writeFile: writeWhole,
    onChange: async (paths, then) => (await import('./watch.ts')).watchPaths(paths, then),
    today: () => localDay(new Date()),
    streams: async () => (await import('./node-streams.ts')).nodeStreams(),
  };
}
