/** Reading with an end: a device or a pipe may never run dry, and a file may be larger than the memory. */
import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';

/** Far above any visit, map or norms file; the parts of a cohort's summary are the largest. Bytes. */
const LARGEST_FILE = 256 * 1024 * 1024;
/** Of a pipe, a device or standard input. Bytes. */
const LARGEST_STREAM = 32 * 1024 * 1024;
const PIECE = 64 * 1024;

const tooLarge = (): Error => Object.assign(new Error('too large'), { code: 'EFBIG' });

/** Throws the file system's error, or one with the code EFBIG. */
export function readBounded(path: string): string {
  const file = openSync(path, 'r');
  try {
    const stat = fstatSync(file);
    if (stat.isFile()) {
      if (stat.size > LARGEST_FILE) throw tooLarge();
      // A plain file of size 0 may be one of the system's own, which have no size until they are read.
      if (stat.size > 0) return readFileSync(file, 'utf8');
    } else if (stat.isDirectory()) return readFileSync(file, 'utf8');
    return readPieces(file);
  } finally {
    closeSync(file);
  }
}

function readPieces(file: number): string {
  const pieces: Buffer[] = [];
  let size = 0;
  for (;;) {
    const piece = Buffer.alloc(PIECE);
    const length = readSync(file, piece, 0, PIECE, null);
    if (length === 0) return Buffer.concat(pieces).toString('utf8');
    size += length;
    if (size > LARGEST_STREAM) throw tooLarge();
    pieces.push(piece.subarray(0, length));
  }
}

/** The whole of a stream as text. Rejects with the code EFBIG where it does not end. */
export async function readStream(stream: AsyncIterable<Uint8Array>): Promise<string> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of stream) {
    size += piece.length;
    if (size > LARGEST_STREAM) throw tooLarge();
    pieces.push(piece);
  }
  return Buffer.concat(pieces).toString('utf8');
}
