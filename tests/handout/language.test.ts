/** A clinic's own language: complete, or refused with what is missing; English needs no second copy of the exercises. */
import { expect, test } from 'vitest';
import { stringify } from 'yaml';
import { indexEvidence } from '../../src/evidence/data.ts';
import { withFolders } from '../../src/evidence/merge.ts';
import type { ExerciseWords, Language } from '../../src/evidence/schema/handout.ts';
import { renderHandoutText } from '../../src/report/handout/text.ts';
import { testEvidence } from '../support/evidence.ts';
import { exampleSession, viewOf } from './example-page.ts';

const evidence = testEvidence();
const english = evidence.languages.find(({ language }) => language === 'en');
if (english === undefined) throw new Error('English is missing');

/** Every word turned to capitals stands for a translation; the slots stay. */
const shout = (text: string): string =>
  text.replace(/\{[a-z_]+\}|[^{]+/g, (part) => (part.startsWith('{') ? part : part.toUpperCase()));
const shouted = <Value>(value: Value): Value =>
  JSON.parse(JSON.stringify(value), (_key, each: unknown) => (typeof each === 'string' ? shout(each) : each)) as Value;

const exercises = Object.fromEntries(
  evidence.exercises.map((exercise): [string, ExerciseWords] => [
    exercise.id,
    shouted({
      name: exercise.name,
      what_for: exercise.what_for,
      set_up: exercise.set_up,
      steps: exercise.steps,
      feel: exercise.feel,
      avoid: exercise.avoid,
      seated_variant: { name: exercise.seated_variant.name, steps: exercise.seated_variant.steps },
      rungs: exercise.ladder.map(({ name, how, hold, set_up, steps }) => ({ name, how, hold, set_up, steps })),
      cautions: exercise.cautions.map(({ text }) => text),
      move_up: exercise.move_up.text,
      move_down: exercise.move_down.text,
    }),
  ]),
);

const merged = (own: Language) =>
  withFolders(evidence, [{ name: 'clinic', files: [{ path: 'language/nn.yaml', text: stringify(own) }] }]);

test('a whole language makes the whole page in it', () => {
  const result = merged({ ...shouted(english), language: 'nn', direction: 'ltr', exercises });
  if ('problems' in result) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  const held = indexEvidence(result.data);
  const language = held.languages.find((each) => each.language === 'nn');
  if (language === undefined) throw new Error('nn is missing');
  const page = renderHandoutText(viewOf(exampleSession('copd-74'), { evidence: held, language }));
  // the date is put into words by the language itself, and list letters are no words
  const rest = page.replace(/^.*M-207.*$/m, '').replace(/^ {3}[a-z]\)/gm, '');
  expect(rest).not.toMatch(/[a-z]{3,}/);
});

test('a language without the words of an exercise, or of a line, is refused with both named', () => {
  const { squat: _left, ...others } = exercises;
  const { chest: _line, ...lines } = english.sections.stop_and_call?.lines ?? {};
  const sections = { ...english.sections, stop_and_call: { title: 'X', lines } };
  const result = merged({ ...english, language: 'nn', sections, exercises: others });
  if (!('problems' in result)) throw new Error('accepted');
  const messages = result.problems.map(({ message }) => message).join('\n');
  expect(messages).toContain('exercise "squat" has no words');
  expect(messages).toContain('line "stop_and_call.chest" has no words');
});
