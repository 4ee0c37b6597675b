/** Why two pathways part company over one client, in one sentence that names the step that decided each. */
import type { PathwayResult } from '../assessment.ts';
import type { Pathway } from '../evidence/schema/pathway.ts';

/**
 * Pathways with two and with three levels are compared by what they share: whether a client may stand at the lowest level,
 * and whether above it. Null where they agree in that.
 */
export function whyDifferent(
  chosen: PathwayResult,
  chosenData: Pathway,
  other: PathwayResult,
  otherData: Pathway,
): string | null {
  const agreesIn = (end: 'at_least' | 'at_most'): boolean =>
    isLowest(chosen[end], chosenData) === isLowest(other[end], otherData);
  if (agreesIn('at_least') && agreesIn('at_most')) return null;
  return `${verdict(chosen)}, while ${verdict(other)}.`;
}

const isLowest = (level: string, { levels }: Pathway): boolean => level === levels[0]?.id;

function verdict(result: PathwayResult): string {
  // Something is missing exactly where the level is open.
  const [first] = result.missing;
  if (first !== undefined) return `${result.name} cannot tell yet (first to ask: ${bare(first.question)})`;
  const deciding = result.steps.filter((step) => step.reached === 'yes').at(-1);
  if (deciding === undefined) return `${result.name} gives ${inText(result.label)}`;
  return `${result.name} gives ${inText(result.label)}, decided by "${deciding.question}" (${deciding.answer}: ${deciding.because})`;
}

const bare = (question: string): string => question.replace(/[.?]$/, '');
const inText = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);
