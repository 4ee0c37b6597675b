/** Remarks of scoring in the words of the report: standings as they are spoken, and one line for all tables that disagree. */

const BY_SOURCE = /^by (\S+) the standing would be "([a-z ]+)"$/;
const AT_THE_EDGE = /standing would be "([a-z ]+)"/;

const SPOKEN: Readonly<Record<string, string>> = { expected: 'usual', above: 'better than usual' };
const spoken = (standing: string): string => SPOKEN[standing] ?? `${standing} usual`;

/** "other tables disagree: usual by a, b; below usual by c (see the basis)". */
function disagreement(notes: readonly string[]): string[] {
  const sources = new Map<string, Set<string>>();
  for (const note of notes) {
    const [, source, standing] = BY_SOURCE.exec(note) ?? [];
    if (source === undefined || standing === undefined) continue;
    sources.set(standing, (sources.get(standing) ?? new Set()).add(source));
  }
  const parts = [...sources].map(([standing, ids]) => `${spoken(standing)} by ${[...ids].join(', ')}`);
  return parts.length === 0 ? [] : [`other tables disagree: ${parts.join('; ')} (see the basis)`];
}

export const foldedNotes = (notes: readonly string[]): string[] => [
  ...notes
    .filter((note) => !BY_SOURCE.test(note))
    .map((note) => note.replace(AT_THE_EDGE, (_, standing: string) => `result would be ${spoken(standing)}`)),
  ...disagreement(notes),
];
