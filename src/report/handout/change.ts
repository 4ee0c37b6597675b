/** When to do more and when to do less: the same rule for several exercises is printed once, with their numbers. */
import type { Language } from '../../evidence/schema/handout.ts';
import type { HandoutSectionView } from './types.ts';
import type { Chosen } from './view.ts';
import { filled } from './words.ts';

/** "1, 2 and all": numbers where a rule is not for every exercise of the page. */
function byText(chosen: readonly Chosen[], all: number, textOf: (each: Chosen) => string): string[] {
  const texts = [...new Set(chosen.map(textOf))];
  return texts.map((text) => {
    const numbers = chosen.filter((each) => textOf(each) === text).map(({ number }) => number);
    return numbers.length === all ? text : `${numbers.join(', ')}: ${text}`;
  });
}

/** Nobody is told to move up alone where the plan says it is done together, or where there is no next rung open. */
export function changeSection(chosen: readonly Chosen[], { words }: Language): HandoutSectionView {
  const alone = chosen.filter(({ planned }) => planned.next?.by === 'client');
  const together = chosen.filter((each) => !alone.includes(each));
  const nextName = ({ planned, words: { rungNames } }: Chosen): string => rungNames[(planned.next?.level ?? 0) - 1] ?? '';
  const up = [
    ...byText(together, chosen.length, () => words.change_with_therapist),
    ...byText(alone, chosen.length, ({ words: { moveUp } }) => moveUp),
    ...alone.map((each) => `${each.number}: ${filled(words.change_next, { name: nextName(each) })}`),
  ];
  const down = byText(chosen, chosen.length, ({ words: { moveDown } }) => moveDown);
  return {
    title: words.change_title,
    lines: [...up.map((line) => `${words.change_up} - ${line}`), ...down.map((line) => `${words.change_down} - ${line}`)],
  };
}
