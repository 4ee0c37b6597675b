/** What goes to a person's terminal on standard error may quote names and texts of any origin. */
import type { Io } from './io.ts';

/**
 * The styles of colour.ts (none of which can hide a text) and the return and wipe of the progress line are the program's own;
 * any other control character or sequence is not.
 */
const ALLOWED = /^(?:\u001b\[(?:1|2|22|36|39)m|\r\u001b\[K|[\n\t])$/;
const CONTROLS =
  /\u001b\[[0-?]*[ -/]*[@-~]?|\r\u001b\[K|\u001b[\]P^_X][^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)?|[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

export const harmless = (text: string): string => text.replace(CONTROLS, (found) => (ALLOWED.test(found) ? found : ''));

/** The same world with harmless messages. */
export const withHarmlessMessages = (io: Io): Io => ({
  ...io,
  stderr: { ...io.stderr, write: (text) => io.stderr.write(harmless(text)) },
});
