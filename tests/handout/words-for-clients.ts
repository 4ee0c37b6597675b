/** Every text that a client may read: what the grade of reading is measured on. */
import type { Exercise } from '../../src/evidence/schema/exercise.ts';
import type { Language } from '../../src/evidence/schema/handout.ts';
import { wordsAtLevel } from '../../src/report/handout/words.ts';

/** All that the page can say of an exercise, at every rung and seated. */
export function textsOfExercise(exercise: Exercise, language: Language): string[] {
  const levels = [...exercise.ladder.keys(), exercise.ladder.length].map((level) => wordsAtLevel(exercise, level, language));
  const texts = levels.flatMap((words) => [
    words.name,
    words.rung ?? '',
    words.setUp ?? '',
    ...words.steps,
    ...words.avoid,
    ...words.cautions,
    words.moveUp,
    words.moveDown,
  ]);
  return [...new Set([...texts, exercise.what_for, exercise.feel])].filter((text) => text !== '');
}

export const textsOfLanguage = (language: Language): string[] => [
  ...Object.values(language.sections).flatMap(({ title, lines }) => [title, ...Object.values(lines)]),
  ...Object.values(language.holds),
  ...Object.values(language.supervision),
];
