/** The real world: process streams, files, clock. The only module of the command line that touches `process`. */
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readBounded, readStream } from './bounded-read.ts';
import { EXIT, fileErrorInWords, type Io, type OutputStream } from './io.ts';
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

/** A reader that closes early (`| head`) is not a fault; a full disk behind `>` is said, where that can still be said. */
function endOnError(stream: NodeJS.WriteStream, name: string): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    if (stream !== process.stderr) process.stderr.write(`footing: cannot write ${name}: ${fileErrorInWords(error)}\n`);
    process.exit(EXIT.cannotStart);
  });
}

export function nodeIo(): Io {
  endOnError(process.stdout, 'standard output');
  endOnError(process.stderr, 'standard error');
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
