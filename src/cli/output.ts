/** Where the result of a command goes, and how it may be styled there. */
import type { Colour } from '../report/text/layout.ts';
import { colourFor } from './colour.ts';
import { CannotStart, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';

/** Writes a file whole or not at all, and says so. @throws CannotStart where it cannot be written. */
export function writeOutput(path: string, text: string | Uint8Array, { io }: Pick<Invocation, 'io'>): void {
  try {
    io.writeFile(path, text);
  } catch (error) {
    throw new CannotStart(`cannot write ${path}: ${fileErrorInWords(error)}`);
  }
  io.stderr.write(`wrote ${path}\n`);
}

/** To the file of `-o`, else to standard output. */
export function writeResult(text: string, output: string | undefined, { io }: Pick<Invocation, 'io'>): void {
  if (output === undefined) io.stdout.write(text);
  else writeOutput(output, text, { io });
}

/** Columns and styles of a text: those of the terminal, and no colour in a file. */
export function pageOf(
  output: string | undefined,
  { io, noColour }: Pick<Invocation, 'io' | 'noColour'>,
): { readonly width: number; readonly colour: Colour } {
  const toFile = output !== undefined;
  const stream = toFile ? { ...io.stdout, isTerminal: false } : io.stdout;
  return { width: io.stdout.columns ?? 80, colour: colourFor(stream, io.env, noColour || toFile) };
}
