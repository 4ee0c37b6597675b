/**
 * The tables beside the one that places the client: those that would place the client otherwise are shown, the others
 * counted. All of them stand in the JSON record.
 */
import type { Comparison } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import { percentileWords, valueWithUnit } from './numbers.ts';
import { centreWords } from './tests.ts';
import { bandWords, STANDING_WORDS } from './words.ts';

/** What a table says of this client in two words; null where it says nothing. */
function verdictOf({ standing, against_mean: against }: Comparison): string | null {
  if (standing !== null) return STANDING_WORDS[standing];
  if (against === null) return null;
  return against === 'worse' ? 'worse than the average' : 'not worse than the average';
}

/** On which side of usual, so that a table with an average only can be held against one with a standing. */
function isOnWorseSide({ standing, against_mean: against }: Comparison): boolean | null {
  if (standing !== null) return standing === 'below' || standing === 'well_below';
  return against === null ? null : against === 'worse';
}

function agrees(other: Comparison, primary: Comparison): boolean {
  if (other.standing !== null && primary.standing !== null) return other.standing === primary.standing;
  return isOnWorseSide(other) === isOnWorseSide(primary);
}

function tableWords(comparison: Comparison, unit: string, citations: Citations): string {
  const average =
    comparison.expected === null ? null : `${centreWords(comparison.method)} ${valueWithUnit(comparison.expected, unit)}`;
  const said = [
    percentileWords(comparison) ?? average,
    comparison.standing === null && verdictOf(comparison) === null ? comparison.no_standing_because : null,
  ];
  const words = [bandWords(comparison.band), ...said.filter((part) => part !== null)].join(', ');
  return withMark(words, citations.mark({ source: comparison.source, basis: comparison.status }));
}

const counted = (count: number, words: string): string[] =>
  count === 0 ? [] : [`${count === 1 ? '1 other table' : `${count} other tables`} ${words}`];

/** One line a verdict that differs, then how many agree or only give orientation. */
export function besideLines(
  beside: readonly Comparison[],
  primary: Comparison | null,
  unit: string,
  citations: Citations,
): string[] {
  // Where no table may place the client, all that is known is orientation.
  if (primary === null) return beside.map((comparison) => tableWords(comparison, unit, citations));
  const speaking = beside.filter((comparison) => verdictOf(comparison) !== null);
  const differing = speaking.filter((comparison) => !agrees(comparison, primary));
  const verdicts = [...new Set(differing.map(verdictOf))];
  return [
    ...verdicts.map((verdict) => {
      const tables = differing.filter((comparison) => verdictOf(comparison) === verdict);
      return `${verdict} by: ${tables.map((comparison) => tableWords(comparison, unit, citations)).join('; ')}`;
    }),
    ...counted(speaking.length - differing.length, speaking.length - differing.length === 1 ? 'agrees' : 'agree'),
    ...counted(beside.length - speaking.length, 'for orientation only'),
  ];
}
