/** Every exercise before and after: up, stay or down, with the reason. A step up is always to be earned by its own rule. */
import type { PlannedExercise } from '../assessment.ts';
import type { DoseRules } from '../evidence/schema/dose.ts';
import type { Exercise } from '../evidence/schema/exercise.ts';
import { NOTHING_RECORDED, progressBetween, type Since } from '../plan/progress.ts';
import type { Session } from '../session.ts';
import { sinceLastOf } from './since-last.ts';
import type { Move, PlanChange } from './types.ts';

function moveOf(before: PlannedExercise, after: PlannedExercise): Move {
  if (after.held) return 'hold';
  if (before.held) return 'resume';
  const [from, to] = [before.start.level, after.start.level];
  return to > from ? 'up' : to < from ? 'down' : 'stay';
}

const added = (now: readonly string[], earlier: readonly string[]): string[] => now.filter((line) => !earlier.includes(line));

/** What is new in the later plan; for an unchanged level why it stays. */
function reasons(before: PlannedExercise, after: PlannedExercise, move: Move): string[] {
  const fresh = [...added(after.limited_by, before.limited_by), ...added(after.because, before.because)];
  return [...new Set(move === 'stay' ? [...after.because.slice(0, 1), ...fresh] : fresh)];
}

/** The rule to meet before going on; nothing is to be met before going down. */
const ruleOf = (after: PlannedExercise, move: Move): string | null => (move === 'down' || move === 'hold' ? null : after.move_up);

/** No fall in the past year is no fall since the last visit; a number of falls in the year says nothing of when they were. */
function happenedSince(session: Session): Since {
  const found = sinceLastOf(session);
  const noneInYear = session.fields['history.falls_past_year'] === 0 ? 0 : null;
  return { ...NOTHING_RECORDED, ...found, falls: found?.falls ?? noneInYear };
}

export interface PlanChangeInput {
  readonly first: readonly PlannedExercise[];
  /** The visit before the last: `since_last` counts from it. */
  readonly previous: readonly PlannedExercise[];
  readonly last: { readonly plan: readonly PlannedExercise[]; readonly session: Session };
  readonly ladders: readonly Exercise[];
  readonly rules: DoseRules['between_visits'];
}

/** The rung by its name; the seated variant, or nothing while held, at level 0. */
function nameAt(exercise: PlannedExercise, level: number, ladders: readonly Exercise[]): string {
  if (exercise.held) return 'held';
  const found = ladders.find(({ id }) => id === exercise.exercise);
  return found?.ladder[level - 1]?.name ?? found?.seated_variant.name ?? exercise.start.name;
}

/** In the order of the later plan; an exercise that the first plan did not have is left out. */
export function planChange({ first: before, previous, last, ladders, rules }: PlanChangeInput): PlanChange[] {
  const after = last.plan;
  const progress = progressBetween({ before: previous, after, since: happenedSince(last.session), rules });
  return after.flatMap((exercise) => {
    const advice = progress.find((each) => each.exercise === exercise.exercise);
    const earlier = before.find((each) => each.exercise === exercise.exercise);
    if (earlier === undefined) return [];
    const move = moveOf(earlier, exercise);
    return [
      {
        exercise: exercise.exercise,
        name: exercise.name,
        before: earlier.start.level,
        after: exercise.start.level,
        of: exercise.start.of,
        before_name: earlier.held ? 'held' : earlier.start.name,
        after_name: exercise.held ? 'held' : exercise.start.name,
        move,
        because: reasons(earlier, exercise, move),
        no_longer: added(earlier.limited_by, exercise.limited_by),
        rule: ruleOf(exercise, move),
        advised:
          advice === undefined
            ? null
            : { move: advice.move, level: advice.to, name: nameAt(exercise, advice.to, ladders), because: advice.because },
        basis: exercise.basis,
      },
    ];
  });
}
