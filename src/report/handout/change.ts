/** When to do more and when to do less: what holds for every exercise of the page is printed once, the rest with their numbers. */
import type { Language } from '../../evidence/schema/handout.ts';
import type { HandoutSectionView } from './types.ts';
import type { Chosen } from './view.ts';
import { sentencesOf } from './words.ts';

interface Rule {
  readonly number: number;
  readonly text: string;
}

/** "More (1, 3): ..."; sentences that all of them share stand in one line of their own. */
function ruleLines(label: string, rules: readonly Rule[], ofAll: number): string[] {
  const split = rules.map(({ number, text }) => ({ number, sentences: sentencesOf(text) }));
  const shared = (split[0]?.sentences ?? []).filter((sentence) => split.every(({ sentences }) => sentences.includes(sentence)));
  const own = split.map(({ number, sentences }) => ({
    number,
    text: sentences.filter((each) => !shared.includes(each)).join(' '),
  }));
  const line = (numbers: readonly number[], text: string): string =>
    `${label}${numbers.length === ofAll ? '' : ` (${numbers.join(', ')})`}: ${text}`;
  const lines = [...new Set(own.map(({ text }) => text))]
    .filter((text) => text !== '')
    .map((text) =>
      line(
        own.filter((each) => each.text === text).map(({ number }) => number),
        text,
      ),
    );
  return shared.length === 0
    ? lines
    : [
        ...lines,
        line(
          rules.map(({ number }) => number),
          shared.join(' '),
        ),
      ];
}

/** "Next level: 2 = Light touch on the bench; ...": a number means nothing to somebody who sees one level only. */
function named(label: string, chosen: readonly Chosen[], rungOf: (each: Chosen) => number): string[] {
  const names = chosen.flatMap((each) => {
    const name = each.words.rungNames[rungOf(each)];
    return name === undefined ? [] : [`${each.number} = ${name}`];
  });
  return names.length === 0 ? [] : [`${label}: ${names.join('; ')}.`];
}

/** Nobody is told to move up alone where the plan says it is done together, or where there is no next rung open. */
export function changeSection(chosen: readonly Chosen[], { words }: Language): HandoutSectionView {
  const alone = chosen.filter(({ planned }) => planned.next?.by === 'client');
  const together = chosen.filter((each) => !alone.includes(each));
  // from the lowest rung, and from a seated variant, there is no level to go back to
  const lowest = chosen.filter(({ planned }) => planned.start.level < 2);
  const above = chosen.filter((each) => !lowest.includes(each));
  const lines = (label: string, of: readonly Chosen[], textOf: (each: Chosen) => string): string[] =>
    ruleLines(
      label,
      of.map((each) => ({ number: each.number, text: textOf(each) })),
      chosen.length,
    );
  return {
    title: words.change_title,
    lines: [
      ...lines(words.change_up, together, () => words.change_with_therapist),
      ...lines(words.change_up, alone, (each) => each.words.moveUp),
      ...named(words.change_next, alone, ({ planned }) => (planned.next?.level ?? 0) - 1),
      ...lines(words.change_down, above, (each) => each.words.moveDown),
      ...named(words.change_back, above, ({ planned }) => planned.start.level - 2),
      ...lines(words.change_down, lowest, () => words.change_lowest),
    ],
  };
}
