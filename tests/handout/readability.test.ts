/**
 * Reading grade of every text for clients: 6 or lower (health bodies ask for grade 6 to 8 and family physicians for 5 to 6), by
 * the grade formula of Kincaid 1975 (0.39 words a sentence + 11.8 syllables a word - 15.59) as a maintained library has it.
 */
import { fleschKincaid } from 'flesch-kincaid';
import { syllable } from 'syllable';
import { describe, expect, test } from 'vitest';
import { testEvidence } from '../support/evidence.ts';
import { textsOfExercise, textsOfLanguage } from './words-for-clients.ts';

const evidence = testEvidence();
const MOST = 6;

const sentencesIn = (text: string): string[] => text.split(/(?<=[.!?:])\s+/).filter((each) => /[a-z]/i.test(each));
const wordsIn = (text: string): string[] => text.match(/[A-Za-z0-9']+/g) ?? [];

function gradeOf(texts: readonly string[]): number {
  const words = texts.flatMap(wordsIn);
  return fleschKincaid({
    sentence: texts.flatMap(sentencesIn).length,
    word: words.length,
    syllable: words.reduce((sum, word) => sum + Math.max(1, syllable(word)), 0),
  });
}

const english = evidence.languages.find(({ language }) => language === 'en');
if (english === undefined) throw new Error('English is missing');

describe('grade 6 or lower', () => {
  test.each(evidence.exercises.map((exercise) => [exercise.id, exercise] as const))('%s', (_id, exercise) => {
    expect(gradeOf(textsOfExercise(exercise, english))).toBeLessThanOrEqual(MOST);
  });

  test('the rest of the page', () => expect(gradeOf(textsOfLanguage(english))).toBeLessThanOrEqual(MOST));

  test('no single text is far above it', () => {
    const texts = [...evidence.exercises.flatMap((exercise) => textsOfExercise(exercise, english)), ...textsOfLanguage(english)];
    const hard = [...new Set(texts)].filter((text) => wordsIn(text).length > 7 && gradeOf([text]) > 10);
    expect(hard).toEqual([]);
  });

  test('the measure itself: a hard sentence is not grade 6', () => {
    expect(
      gradeOf(['Proprioceptive neuromuscular facilitation necessitates considerable postural stabilisation capability.']),
    ).toBeGreaterThan(12);
  });
});

test('words that no client should have to look up', () => {
  const all = [...evidence.exercises.flatMap((exercise) => textsOfExercise(exercise, english)), ...textsOfLanguage(english)].join(
    '\n',
  );
  expect(all).not.toMatch(
    /\b(tandem|quadriceps|stance|unilateral|bilateral|proprio\w*|dorsiflex\w*|saturation|exacerbation|repetitions?)\b/i,
  );
});
