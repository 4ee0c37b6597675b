/** Everything the command line needs from the outside world, so that tests can hand it strings and a fixed day. */

import type { Asker } from './asker.ts';

export interface OutputStream {
  readonly write: (text: string) => void;
  /** A person reads it: colour and carets make sense. */
  readonly isTerminal: boolean;
  readonly columns: number | undefined;
}

export interface Io {
  readonly stdout: OutputStream;
  readonly stderr: OutputStream;
  readonly stdin: { readonly read: () => Promise<string>; readonly isTerminal: boolean };
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Throws the file system's error; `path` is as the person wrote it. */
  readonly readFile: (path: string) => string;
  /**
   * Files in a folder and the folders in it, in order of name, as paths that `readFile` takes; null where `path` is a file.
   * Hidden ones are left out. Throws the file system's error.
   */
  readonly listFolder: (path: string) => readonly string[] | null;
  /** Makes the folder and those above it; one that is there is fine. */
  readonly makeFolder: (path: string) => void;
  /** Writes whole or not at all. */
  readonly writeFile: (path: string, content: string | Uint8Array) => void;
  /**
   * Calls `then` whenever a file at or below one of the paths has changed; resolves when the person interrupts the program.
   * Absent where nothing can be watched.
   */
  readonly onChange?: (paths: readonly string[], then: () => Promise<void>) => Promise<void>;
  /** Answers in the place of a person at the terminal; for tests. */
  readonly asker?: Asker;
  /** Removes a file of the program's own; one that is not there is fine. */
  readonly removeFile?: (path: string) => void;
  /** Today in the local calendar, as yyyy-mm-dd. */
  readonly today: () => string;
  /** For inputs too large to be held; loaded only where they are used. */
  readonly streams: () => Promise<Streams>;
}

/** An output that grows piece by piece. Every method throws the file system's error. */
export interface Sink {
  /** Resolves when there is room for more. */
  readonly write: (piece: string | Uint8Array) => Promise<void>;
  /** All is written and stands under its name. */
  readonly commit: () => Promise<void>;
  /** Nothing of it is left; never throws. */
  readonly discard: () => Promise<void>;
}

/** Files and pipes of any length, read and written in pieces. */
export interface Streams {
  readonly read: (path: string) => AsyncIterable<Uint8Array>;
  readonly stdin: () => AsyncIterable<Uint8Array>;
  /** In bytes; null where `path` is no plain file. */
  readonly size: (path: string) => number | null;
  /** A file that stands under its name only once it is whole; what a run that was killed left of it is removed. */
  readonly file: (path: string) => Promise<Sink>;
  readonly stdout: () => Sink;
  /** Milliseconds of a clock that only goes forward. */
  readonly now: () => number;
  /** Processors that may be used. */
  readonly cores: number;
  /** The program's worker; null where it is not built. */
  readonly worker: URL | null;
}

/** The command line, a file or a folder is such that the work cannot start: one line, exit code 2. */
export class CannotStart extends Error {
  override readonly name = 'CannotStart';
}

/** Exit codes of every command. */
export const EXIT = { done: 0, refused: 1, cannotStart: 2 } as const;

/** "ENOENT: ..." -> "there is no such file", for the errors a person can do something about. */
export function fileErrorInWords(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file or folder',
    EACCES: 'you have no permission for it',
    EPERM: 'you have no permission for it',
    EISDIR: 'it is a folder, a file is needed',
    ENOTDIR: 'part of its path is not a folder',
    ENOSPC: 'the disk is full',
    EROFS: 'the disk can only be read',
    EMFILE: 'too many files are open',
    EDQUOT: 'the disk space allowed to you is used up',
    EPIPE: 'its reader has closed it',
    EFBIG: 'it is too large',
    EIO: 'the disk could not be read or written',
  };
  return words[code] ?? (error instanceof Error ? error.message : String(error));
}
