/** What must hold between the exercises, the page for the client and its languages: no line without words, no exercise left untranslated. */
import { type Check, problemAt } from './check.ts';
import type { Exercise } from './schema/exercise.ts';
import type { ExerciseWords } from './schema/handout.ts';

/** The language that `norms/exercises/` is written in. */
const LANGUAGE_OF_EXERCISES = 'en';

/** Every line of handout.yaml has its words in every language. */
const linesHaveWords: Check = (norms) =>
  norms.languages.flatMap((language) =>
    (norms.handout?.sections ?? []).flatMap((section) => {
      const words = language.sections[section.id];
      if (words === undefined)
        return [problemAt(norms, language, 'sections', `language ${language.language}: section "${section.id}" has no words`)];
      return section.lines
        .filter((line) => words.lines[line.id] === undefined)
        .map((line) =>
          problemAt(norms, words, 'lines', `language ${language.language}: line "${section.id}.${line.id}" has no words`),
        );
    }),
  );

/** Lists of words that must run as long as those of the exercise they translate. */
function unevenLists(exercise: Exercise, words: ExerciseWords): string[] {
  const pairs: readonly [string, number, number][] = [
    ['rungs', words.rungs.length, exercise.ladder.length],
    ['cautions', words.cautions.length, exercise.cautions.length],
  ];
  return pairs.flatMap(([what, have, need]) => (have === need ? [] : [`${have} ${what}, ${need} are needed`]));
}

const exercisesAreTranslated: Check = (norms) =>
  norms.languages.flatMap((language) =>
    norms.exercises.flatMap((exercise) => {
      const words = language.exercises[exercise.id];
      const about = `language ${language.language}: exercise "${exercise.id}"`;
      if (words === undefined)
        return language.language === LANGUAGE_OF_EXERCISES
          ? []
          : [problemAt(norms, language, 'exercises', `${about} has no words`)];
      return unevenLists(exercise, words).map((fault) => problemAt(norms, words, undefined, `${about} has ${fault}`));
    }),
  );

export const PLAN_CHECKS: readonly Check[] = [linesHaveWords, exercisesAreTranslated];
