/** `norms/handout.yaml`: what the page for the client says besides the exercises; `norms/language/*.yaml`: in which words. */
import { z } from 'zod';
import { Basis, Prose, SnakeId } from './common.ts';
import { Condition } from './condition.ts';
import { PURPOSES, SUPERVISIONS, SUPPORTS } from './words.ts';

const HandoutLine = z.strictObject({
  id: SnakeId,
  when: Condition.optional().meta({ description: 'Absent = always printed' }),
  basis: Basis,
});
export const HandoutSection = z.strictObject({
  id: SnakeId,
  place: z.enum(['stop_box', 'before_exercises', 'after_exercises']),
  lines: z.array(HandoutLine).min(1),
});
export type HandoutSection = z.infer<typeof HandoutSection>;
export const HandoutFile = z.strictObject({ sections: z.array(HandoutSection).min(1) });
export type HandoutRules = z.infer<typeof HandoutFile>;

const each = <Word extends string>(words: readonly Word[]) =>
  z.strictObject(Object.fromEntries(words.map((word) => [word, Prose])) as Record<Word, typeof Prose>);

/** Words of one exercise in a language other than that of `norms/exercises/`; lists run in the same order and number. */
export const ExerciseWords = z.strictObject({
  name: Prose,
  what_for: Prose,
  set_up: Prose,
  steps: z.array(Prose).min(1),
  feel: Prose,
  avoid: z.array(Prose).min(1),
  seated_variant: z.strictObject({ name: Prose, steps: z.array(Prose).min(1) }),
  rungs: z.array(
    z.strictObject({
      name: Prose,
      hold: Prose.optional(),
      how: Prose.optional(),
      set_up: Prose.optional(),
      steps: z.array(Prose).min(1).optional(),
    }),
  ),
  cautions: z.array(Prose),
  move_up: Prose,
  move_down: Prose,
});
export type ExerciseWords = z.infer<typeof ExerciseWords>;

/** Words in braces are filled in: `{number}`, `{count}`, ... */
export const LanguageFile = z.strictObject({
  language: z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, 'a language tag such as en or nb'),
  name: Prose,
  direction: z.enum(['ltr', 'rtl']).default('ltr'),
  words: each([
    'title',
    'for_client',
    'date',
    'call',
    'number_unknown',
    'therapist_phone',
    'how_many',
    'take_care',
    'tried_with_me',
    'everyone',
    'week_days',
    'week_minutes',
    'tick_title',
    'tick_intro',
    'week_one',
    'week_two',
    'exercise',
    'exercises',
    'change_title',
    'change_up',
    'change_down',
    'change_with_therapist',
    'change_next',
    'change_back',
    'change_lowest',
    'written_by',
    'registration',
  ]),
  days: z.array(Prose).length(7).meta({ description: 'Short names of the days, Monday first' }),
  purposes: each(PURPOSES),
  holds: each(SUPPORTS),
  supervision: each(SUPERVISIONS),
  dose: each(['repetitions', 'repetitions_range', 'hold', 'sets', 'each_side']),
  sections: z.record(SnakeId, z.strictObject({ title: Prose, lines: z.record(SnakeId, Prose) })),
  exercises: z
    .record(SnakeId, ExerciseWords)
    .default({})
    .meta({ description: 'Every exercise, where the language is not that of norms/exercises/ (English)' }),
});
export type Language = z.infer<typeof LanguageFile>;
