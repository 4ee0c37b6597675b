/** When to do more and when to do less: what holds for every exercise of the page is printed once, the rest with their numbers. */
import type { Language } from '../../evidence/schema/handout.ts';
import type { HandoutSectionView } from './types.ts';
import type { Chosen } from './view.ts';
import { filled, sentencesOf } from './words.ts';

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

/** What "one level back" is, by name: a number means nothing to somebody who sees one level only. */
function backLines(chosen: readonly Chosen[], words: Language['words']): string[] {
  const lowest = chosen.filter(({ planned }) => planned.start.level < 2).map(({ number }) => number);
  const names = chosen.flatMap(({ number, planned, words: { rungNames } }) => {
    const name = rungNames[planned.start.level - 2];
    return name === undefined ? [] : [`${number} = ${name}`];
  });
  return [
    ...(names.length === 0 ? [] : [`${words.change_back}: ${names.join('; ')}.`]),
    ...(lowest.length === 0
      ? []
      : [`${words.change_down}${lowest.length === chosen.length ? '' : ` (${lowest.join(', ')})`}: ${words.change_lowest}`]),
  ];
}

/** Nobody is told to move up alone where the plan says it is done together, or where there is no next rung open. */
export function changeSection(chosen: readonly Chosen[], { words }: Language): HandoutSectionView {
  const alone = chosen.filter(({ planned }) => planned.next?.by === 'client');
  const together = chosen.filter((each) => !alone.includes(each));
  const nextName = ({ planned, words: { rungNames } }: Chosen): string => rungNames[(planned.next?.level ?? 0) - 1] ?? '';
  const rules = (of: readonly Chosen[], textOf: (each: Chosen) => string): Rule[] =>
    of.map((each) => ({ number: each.number, text: textOf(each) }));
  return {
    title: words.change_title,
    lines: [
      ...ruleLines(
        words.change_up,
        rules(together, () => words.change_with_therapist),
        chosen.length,
      ),
      ...ruleLines(
        words.change_up,
        rules(alone, (each) => `${each.words.moveUp} ${filled(words.change_next, { name: nextName(each) })}`),
        chosen.length,
      ),
      ...ruleLines(
        words.change_down,
        rules(chosen, ({ words: { moveDown } }) => moveDown),
        chosen.length,
      ),
      ...backLines(chosen, words),
    ],
  };
}
