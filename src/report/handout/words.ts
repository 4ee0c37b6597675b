/** Words of one exercise in one language, its slots filled, and the dose in words. */
import type { PlannedExercise } from '../../assessment.ts';
import type { Exercise } from '../../evidence/schema/exercise.ts';
import type { Language } from '../../evidence/schema/handout.ts';

/** `Call {number}` with `{number: '112'}`; a slot without a value stays as it is. */
export const filled = (text: string, values: Readonly<Record<string, string | number>>): string =>
  text.replace(/\{([a-z_]+)\}/g, (slot, name: string) => String(values[name] ?? slot));

export interface WordsAtLevel {
  readonly name: string;
  readonly rung: string | null;
  readonly setUp: string | null;
  readonly steps: readonly string[];
  readonly avoid: readonly string[];
  /** Every caution of the exercise, in its order. */
  readonly cautions: readonly string[];
  readonly moveUp: string;
  readonly moveDown: string;
  readonly rungNames: readonly string[];
}

/** `{hold}` is what the support asks, `{how}` what the rung asks; a step that is only an empty slot falls away. */
function filledSteps(steps: readonly string[], hold: string, how: string | undefined): string[] {
  return steps
    .filter((step) => step !== '{how}' || how !== undefined)
    .map((step) => filled(step, { hold, how: how ?? '' }).trim());
}

/** In the words of the language file where it has the exercise, else in those of the exercise itself. Level 0 is the seated variant. */
export function wordsAtLevel(exercise: Exercise, level: number, language: Language): WordsAtLevel {
  const own = language.exercises[exercise.id];
  const words = own ?? {
    ...exercise,
    name: exercise.plain_name ?? exercise.name,
    rungs: exercise.ladder,
    cautions: exercise.cautions.map(({ text }) => text),
  };
  const rest = {
    avoid: words.avoid,
    cautions: words.cautions,
    moveUp: own === undefined ? exercise.move_up.text : own.move_up,
    moveDown: own === undefined ? exercise.move_down.text : own.move_down,
    rungNames: words.rungs.map(({ name }) => name),
  };
  const [rung, wordsOfRung] = [exercise.ladder[level - 1], words.rungs[level - 1]];
  if (rung === undefined || wordsOfRung === undefined)
    return { ...rest, name: words.seated_variant.name, rung: null, setUp: null, steps: words.seated_variant.steps };
  const hold = wordsOfRung.hold ?? language.holds[rung.support];
  return {
    ...rest,
    name: words.name,
    rung: wordsOfRung.name,
    setUp: wordsOfRung.set_up ?? words.set_up,
    steps: filledSteps(wordsOfRung.steps ?? words.steps, hold, wordsOfRung.how),
  };
}

/** Sentences of a text, each with its full stop. */
export const sentencesOf = (text: string): string[] => text.split(/(?<=[.!?])\s+/).filter((sentence) => sentence !== '');

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** How many: "10 to 12 times on each side, 2 times over". Which days and how much rest stands elsewhere on the page. */
export function doseWords(planned: PlannedExercise, { dose }: Language): string[] {
  const { dose_parts: parts, override } = planned;
  if (override !== null && override.dose !== null) return [capital(override.dose)];
  const [from, to] = parts.repetitions ?? [];
  const count =
    from !== undefined && to !== undefined
      ? from === to
        ? filled(dose.repetitions, { count: from })
        : filled(dose.repetitions_range, { from, to })
      : parts.hold_s === null
        ? null
        : filled(dose.hold, { seconds: parts.hold_s });
  const eachSide = parts.sides === 'each' ? ` ${dose.each_side}` : '';
  const sets = parts.sets === null || parts.sets < 2 ? [] : [filled(dose.sets, { count: parts.sets })];
  return [capital([...(count === null ? [] : [`${count}${eachSide}`]), ...sets].join(', '))];
}
