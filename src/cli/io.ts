/** Everything the command line needs from the outside world, so that tests can hand it strings and a fixed day. */

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
  readonly writeFile: (path: string, text: string) => void;
  /** Today in the local calendar, as yyyy-mm-dd. */
  readonly today: () => string;
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
  };
  return words[code] ?? (error instanceof Error ? error.message : String(error));
}
