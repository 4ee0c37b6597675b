/**
 * Runs one command line in a folder of its own: in this process through `main`, or, with FOOTING_BIN set, as a process of its
 * own, so that the same cases check the source, the built program and the packed one.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import type { Asker } from '../../src/cli/asker.ts';
import type { Io, OutputStream } from '../../src/cli/io.ts';
import { main } from '../../src/cli/main.ts';
import { listFolder } from '../../src/cli/node-io.ts';
import { nodeStreams } from '../../src/cli/node-streams.ts';

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
  /** Files in the folder afterwards, by relative path. */
  readonly files: Readonly<Record<string, string>>;
}

export interface RunOptions {
  readonly files?: Readonly<Record<string, string>>;
  readonly stdin?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** In process only; a spawned program sees the real day. */
  readonly today?: string;
  /** Answers in the place of a person; in process only. */
  readonly asker?: Asker;
}

export const spawned: string | undefined = process.env.FOOTING_BIN;
const root = new URL('../..', import.meta.url).pathname;
/** Every attempt to reach a network ends the spawned program; in process the same is set up for all tests (vitest.config.ts). */
const noNetwork = join(root, 'tests/support/no-network.cjs');

function capture(): OutputStream & { text(): string } {
  const chunks: string[] = [];
  return { write: (chunk) => void chunks.push(chunk), isTerminal: false, columns: undefined, text: () => chunks.join('') };
}

function listFiles(folder: string): Record<string, string> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    entries.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path.slice(folder.length + 1), readFileSync(path, 'utf8')];
    }),
  );
}

async function inProcess(argv: readonly string[], folder: string, options: RunOptions): Promise<Omit<Ran, 'files'>> {
  const [stdout, stderr] = [capture(), capture()];
  const at = (path: string): string => (isAbsolute(path) ? path : join(folder, path));
  const io: Io = {
    stdout,
    stderr,
    stdin: { read: async () => options.stdin ?? '', isTerminal: false },
    env: options.env ?? {},
    readFile: (path) => readFileSync(at(path), 'utf8'),
    listFolder: (path) => listFolder(at(path))?.map((file) => (isAbsolute(path) ? file : file.slice(folder.length + 1))) ?? null,
    makeFolder: (path) => void mkdirSync(at(path), { recursive: true }),
    writeFile: (path, text) => writeFileSync(at(path), text),
    removeFile: (path) => rmSync(at(path), { force: true }),
    ...(options.asker === undefined ? {} : { asker: options.asker }),
    today: () => options.today ?? '2026-05-20',
    streams: async () => {
      const real = nodeStreams();
      const written = { write: async (piece: string | Uint8Array) => stdout.write(Buffer.from(piece).toString('utf8')) };
      return {
        ...real,
        read: (path) => real.read(at(path)),
        stdin: async function* () {
          yield Buffer.from(options.stdin ?? '');
        },
        size: (path) => real.size(at(path)),
        file: (path) => real.file(at(path)),
        stdout: () => ({ ...written, commit: async () => undefined, discard: async () => undefined }),
        worker: null,
      };
    },
  };
  const code = await main(argv, io);
  return { code, stdout: stdout.text(), stderr: stderr.text() };
}

function asProcess(bin: string, argv: readonly string[], folder: string, options: RunOptions): Omit<Ran, 'files'> {
  const env = { PATH: process.env.PATH ?? '', HOME: folder, ...options.env };
  // A script is run by Node with the network forbidden; the single executable file brings its own Node.
  const script = bin.endsWith('.js');
  const [command, first] = script ? [process.execPath, ['--require', noNetwork, bin]] : [bin, []];
  const result = spawnSync(command, [...first, ...argv], {
    cwd: folder,
    input: options.stdin ?? '',
    encoding: 'utf8',
    env,
  });
  return { code: result.status ?? -1, stdout: result.stdout, stderr: result.stderr };
}

/** `files` are written into the empty folder first; `examples/` of the project are there unless other files are given. */
export async function footing(argv: readonly string[], options: RunOptions = {}): Promise<Ran> {
  const folder = mkdtempSync(join(tmpdir(), 'footing-test-'));
  try {
    for (const [name, text] of Object.entries(options.files ?? exampleFiles())) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), text);
    }
    const result = spawned === undefined ? await inProcess(argv, folder, options) : asProcess(spawned, argv, folder, options);
    return { ...result, files: listFiles(folder) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export function exampleFiles(): Record<string, string> {
  const folder = join(root, 'examples');
  return Object.fromEntries(Object.entries(listFiles(folder)).map(([name, text]) => [join('examples', name), text]));
}
