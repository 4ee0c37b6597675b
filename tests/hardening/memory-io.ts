/**
 * The outside world in memory: files, standard streams, a fixed day. Every call at the seam is numbered, and any of them can
 * be made to fail once with an error of the file system.
 */
import type { Asker } from '../../src/cli/asker.ts';
import type { Io, Sink } from '../../src/cli/io.ts';
import { main } from '../../src/cli/main.ts';

export interface MemoryIo extends Io {
  readonly files: Map<string, Buffer>;
  /** What was called, in order, such as `readFile visit.yaml`. */
  readonly calls: readonly string[];
  readonly out: () => string;
  readonly err: () => string;
}

export interface MemoryOptions {
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly stdin?: string | Uint8Array;
  readonly env?: Io['env'];
  readonly columns?: number;
  readonly asker?: Asker;
  /** Number of the call that fails, from 0, and with which code. */
  readonly fail?: { readonly call: number; readonly code: string };
}

const fileError = (code: string, syscall: string, path: string): Error =>
  Object.assign(new Error(`${code}: ${syscall} '${path}'`), { code, syscall, path });

async function* inPieces(bytes: Buffer, step: (piece: number) => void): AsyncGenerator<Uint8Array> {
  const size = 64 * 1024;
  for (let at = 0; at < Math.max(bytes.length, 1); at += size) {
    step(at / size);
    yield bytes.subarray(at, at + size);
  }
}

export function memoryIo(options: MemoryOptions = {}): MemoryIo {
  const files = new Map(Object.entries(options.files ?? {}).map(([path, content]) => [path, Buffer.from(content)]));
  const calls: string[] = [];
  const [out, err]: [string[], string[]] = [[], []];
  const step = (syscall: string, path: string): void => {
    calls.push(`${syscall} ${path}`);
    if (options.fail?.call === calls.length - 1) throw fileError(options.fail.code, syscall, path);
  };
  const existing = (syscall: string, path: string): Buffer => {
    const content = files.get(path);
    if (content === undefined) throw fileError('ENOENT', syscall, path);
    return content;
  };
  const isThere = (folder: string): boolean => [...files.keys()].some((path) => path.startsWith(`${folder}/`));
  const stdout = { write: (text: string) => void out.push(text), isTerminal: false, columns: options.columns };
  const sink = (path: string): Sink => {
    const pieces: Buffer[] = [];
    return {
      write: async (piece) => {
        step('write', path);
        pieces.push(Buffer.from(piece));
      },
      commit: async () => {
        step('commit', path);
        files.set(path, Buffer.concat(pieces));
      },
      discard: async () => undefined,
    };
  };
  return {
    files,
    calls,
    out: () => out.join(''),
    err: () => err.join(''),
    stdout,
    stderr: { write: (text) => void err.push(text), isTerminal: false, columns: options.columns },
    stdin: {
      read: async () => {
        step('read', 'standard input');
        return Buffer.from(options.stdin ?? '').toString('utf8');
      },
      isTerminal: false,
    },
    env: options.env ?? {},
    readFile: (path) => {
      step('readFile', path);
      return existing('open', path).toString('utf8');
    },
    listFolder: (path) => {
      step('listFolder', path);
      if (files.has(path)) return null;
      if (!isThere(path) && path !== '.') throw fileError('ENOENT', 'scandir', path);
      const hidden = /(^|\/)\./;
      return [...files.keys()]
        .filter((file) => path === '.' || file.startsWith(`${path}/`))
        .filter((file) => !hidden.test(file))
        .sort();
    },
    makeFolder: (path) => step('makeFolder', path),
    writeFile: (path, content) => {
      step('writeFile', path);
      files.set(path, Buffer.from(content));
    },
    removeFile: (path) => {
      step('removeFile', path);
      files.delete(path);
    },
    ...(options.asker === undefined ? {} : { asker: options.asker }),
    today: () => '2026-05-20',
    streams: async () => ({
      read: (path) => {
        const bytes = existing('open', path);
        return inPieces(bytes, () => step('read', path));
      },
      stdin: () => inPieces(Buffer.from(options.stdin ?? ''), () => step('read', 'standard input')),
      size: (path) => files.get(path)?.length ?? null,
      file: async (path) => {
        step('open', path);
        return sink(path);
      },
      stdout: () => ({
        write: async (piece) => {
          step('write', 'standard output');
          out.push(Buffer.from(piece).toString('utf8'));
        },
        commit: async () => undefined,
        discard: async () => undefined,
      }),
      now: () => 0,
      cores: 1,
      worker: null,
    }),
  };
}

/** One command line in memory, with its time in milliseconds. */
export async function runInMemory(
  argv: readonly string[],
  options: MemoryOptions,
): Promise<{ readonly code: number; readonly io: MemoryIo; readonly ms: number }> {
  const io = memoryIo(options);
  const start = performance.now();
  const code = await main(argv, io);
  return { code, io, ms: performance.now() - start };
}
