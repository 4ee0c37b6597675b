/** What several exercises have in common is said once: under a letter, or without one where it concerns all of them. */
import type { PlannedExercise } from '../../assessment.ts';
import { capitalised } from './sentences.ts';
import type { SharedLine } from './types.ts';
import { supervisionWords } from './words.ts';

/** A line repeated this often gets a letter. */
const LETTER_FROM = 3;
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

export interface Limit {
  /** "lowered", "held", "not beyond ..."; empty where the line states only a reason. */
  readonly effect: string;
  readonly reason: string;
}

/** The same reason has another effect on every ladder, so the two are told apart. */
export function limitOf(line: string): Limit {
  const parts = /^(held|lowered|seated variant|not beyond "[^"]*"): (.*)$/s.exec(line);
  return parts === null ? { effect: '', reason: line } : { effect: parts[1] ?? '', reason: parts[2] ?? '' };
}

export const limitWords = ({ effect, reason }: Limit): string => (effect === '' ? reason : `${effect}: ${reason}`);

/** Everything of one exercise that another may share; a held exercise shows only what holds it. */
function textsOf(exercise: PlannedExercise): string[] {
  const limits = exercise.limited_by.map((line) => limitOf(line).reason);
  return exercise.held ? limits : [...limits, ...exercise.cautions, exercise.move_up, exercise.move_down];
}

/** The one effect that a reason has on every exercise; null where effects differ or it is no limit. */
function commonEffect(plan: readonly PlannedExercise[], reason: string): string | null {
  const effects = new Set(
    plan
      .flatMap((exercise) => exercise.limited_by.map(limitOf))
      .flatMap((limit) => (limit.reason === reason ? [limit.effect] : [])),
  );
  return effects.size === 1 ? ([...effects][0] ?? null) : null;
}

export interface Shared {
  readonly lines: readonly SharedLine[];
  /** Said for all exercises, so not to be repeated. */
  readonly isForAll: (text: string) => boolean;
  readonly letterOf: (text: string) => string | null;
  /** Supervision is the same everywhere and said above. */
  readonly supervision: boolean;
}

function sameSupervision(plan: readonly PlannedExercise[]): string | null {
  const active = plan.filter((exercise) => !exercise.held && exercise.supervision !== '');
  const words = new Set(active.map((exercise) => supervisionWords(exercise.supervision)));
  return active.length > 1 && words.size === 1 ? ([...words][0] ?? null) : null;
}

export function sharedOf(plan: readonly PlannedExercise[]): Shared {
  const counts = new Map<string, number>();
  for (const exercise of plan)
    for (const text of new Set(textsOf(exercise))) if (text !== '') counts.set(text, (counts.get(text) ?? 0) + 1);
  const isLimit = (text: string): boolean =>
    plan.some((exercise) => exercise.limited_by.some((line) => limitOf(line).reason === text));
  const everywhere = [...counts].filter(([, count]) => count === plan.length && count > 1).map(([text]) => text);
  const forAll = new Map<string, string>();
  for (const text of everywhere) {
    if (!isLimit(text)) forAll.set(text, text);
    else {
      const effect = commonEffect(plan, text);
      if (effect !== null) forAll.set(text, limitWords({ effect, reason: text }));
    }
  }
  const often = [...counts].filter(([text, count]) => count >= LETTER_FROM && !forAll.has(text)).map(([text]) => text);
  const letters = new Map(
    [...LETTERS].flatMap((letter, index) => (often[index] === undefined ? [] : [[often[index], letter] as const])),
  );
  const company = sameSupervision(plan);
  return {
    lines: [
      ...(company === null ? [] : [{ letter: null, text: `${capitalised(company)}.` }]),
      ...[...forAll.values()].map((text) => ({ letter: null, text })),
      ...[...letters].map(([text, letter]) => ({ letter, text })),
    ],
    isForAll: (text) => forAll.has(text),
    letterOf: (text) => letters.get(text) ?? null,
    supervision: company !== null,
  };
}
