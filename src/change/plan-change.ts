/** Every exercise before and after: up, stay or down, with the reason. A step up is always to be earned by its own rule. */
import type { PlannedExercise } from '../assessment.ts';
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

export function planChange(before: readonly PlannedExercise[], after: readonly PlannedExercise[]): PlanChange[] {
  return after.flatMap((exercise) => {
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
        basis: exercise.basis,
      },
    ];
  });
}
