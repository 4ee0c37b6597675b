/** Why two pathways part company over one client, in one sentence that names the step that decided each. */
import type { PathwayResult } from '../assessment.ts';
import type { Pathway } from '../evidence/schema/pathway.ts';
import { UNDETERMINED } from './place.ts';

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
  if (reach(chosen, chosenData) === reach(other, otherData)) return null;
  return `${verdict(chosen)}, while ${verdict(other)}.`;
}

function reach(result: PathwayResult, pathway: Pathway): string {
  const lowest = pathway.levels[0]?.id;
  return `${result.at_least === lowest ? 'lowest' : 'above'} to ${result.at_most === lowest ? 'lowest' : 'above'}`;
}

function verdict(result: PathwayResult): string {
  const first = result.missing[0];
  if (result.level === UNDETERMINED && first !== undefined)
    return `${result.name} cannot tell yet (first to ask: ${bare(first.question)})`;
  const deciding = result.steps.filter((step) => step.reached === 'yes').at(-1);
  if (deciding === undefined) return `${result.name} gives ${inText(result.label)}`;
  return `${result.name} gives ${inText(result.label)}, decided by "${deciding.question}" (${deciding.answer}: ${deciding.because})`;
}

const bare = (question: string): string => question.replace(/[.?]$/, '');
const inText = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);
