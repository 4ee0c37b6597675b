/** The real world: process streams, files, clock. The only module of the command line that touches `process`. */
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readBounded, readStream } from './bounded-read.ts';
import type { Io, OutputStream } from './io.ts';
import { writeWhole } from './whole-file.ts';

function outputStream(stream: NodeJS.WriteStream): OutputStream {
  return {
    write: (chunk) => {
      stream.write(chunk);
    },
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}

/** A link to a folder (which might lead back here) or to what is no file. One that leads nowhere is named when it is read. */
function leadsElsewhere(link: string): boolean {
  const stat = statSync(link, { throwIfNoEntry: false });
  return stat !== undefined && !stat.isFile();
}

/** Sorted by the code units of the name, so that the order is the same on every computer. */
export function listFolder(path: string): readonly string[] | null {
  if (!statSync(path).isDirectory()) return null;
  const entries = readdirSync(path, { withFileTypes: true }).filter((entry) => !entry.name.startsWith('.'));
  return entries
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const inside = join(path, entry.name);
      if (entry.isDirectory()) return listFolder(inside) ?? [];
      return entry.isFile() || (entry.isSymbolicLink() && !leadsElsewhere(inside)) ? [inside] : [];
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
      read: () => readStream(process.stdin),
      get isTerminal() {
        return process.stdin.isTTY === true;
      },
    },
    env: process.env,
    readFile: readBounded,
    listFolder,
    makeFolder: (path) => {
      mkdirSync(path, { recursive: true });
    },
    writeFile: writeWhole,
    removeFile: (path) => rmSync(path, { force: true }),
    onChange: async (paths, then) => (await import('./watch.ts')).watchPaths(paths, then),
    today: () => localDay(new Date()),
    streams: async () => (await import('./node-streams.ts')).nodeStreams(),
  };
}
