/** Starting levels in the order of a session. What several exercises share is said once. */
import type { Based, PlannedExercise, PlannedRung } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import type { ExerciseView, PlanGroupView, PlanView, SharedLine } from './types.ts';
import { PURPOSE_ORDER, plainId, purposeWords, supervisionWords, supportWords, surfaceWords } from './words.ts';

/** A line repeated this often is said once, under a letter. */
const SHARED_FROM = 3;

type Kind = 'limited_by' | 'cautions';
const KINDS: readonly Kind[] = ['limited_by', 'cautions'];

const letterOf = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);

/** Lines of `limited_by` and `cautions` that many exercises share, in order of first appearance. */
function sharedLines(plan: readonly PlannedExercise[]): ReadonlyMap<string, SharedLine> {
  const counts = new Map<string, number>();
  for (const kind of KINDS)
    for (const exercise of plan) for (const line of new Set(exercise[kind])) counts.set(line, (counts.get(line) ?? 0) + 1);
  const often = [...counts].filter(([, count]) => count >= SHARED_FROM || (count > 1 && count === plan.length));
  const some = often.filter(([, count]) => count < plan.length).map(([line]) => line);
  const letters = new Map(some.slice(0, 26).map((line, index) => [line, letterOf(index)]));
  return new Map(
    often
      .filter(([line, count]) => count === plan.length || letters.has(line))
      .map(([line]) => [line, { letter: letters.get(line) ?? null, text: line }]),
  );
}

/** The lines of one exercise that are not said above; letters stand for the shared ones. */
function ownLines(lines: readonly string[], shared: ReadonlyMap<string, SharedLine>): string[] {
  const letters = lines.flatMap((line) => shared.get(line)?.letter ?? []);
  const own = lines.filter((line) => !shared.has(line));
  return letters.length === 0 ? own : [...own, `as under ${letters.join(', ')} above`];
}

function levelWords({ start, held }: PlannedExercise): string {
  if (held) return 'held, not today';
  return start.level === 0 ? 'seated variant' : `level ${start.level} of ${start.of}`;
}

/** Names of rungs usually say where the hands are; where one does not, the support is added. */
const NAMES_SUPPORT = /hand|touch|fingertip|hold/i;
const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** "Light touch on the bench: feet hip-wide, firm floor, eyes open". */
function startWords(start: PlannedRung): string {
  const vision = start.vision === 'eyes_open' ? 'eyes open' : plainId(start.vision);
  const task = start.task === null ? [] : [start.task];
  // A seated rung says "seated" once, not as support, base and surface.
  const setUp =
    start.support === 'seated'
      ? ['seated']
      : [
          ...(NAMES_SUPPORT.test(start.name) ? [] : [supportWords(start.support)]),
          lowerFirst(start.base),
          surfaceWords(start.surface),
        ];
  return `${start.name}: ${[...setUp, vision, ...task].join(', ')}`;
}

function exerciseView(exercise: PlannedExercise, shared: ReadonlyMap<string, SharedLine>): ExerciseView {
  return {
    exercise: exercise.exercise,
    name: exercise.name,
    held: exercise.held,
    level: levelWords(exercise),
    start: exercise.held ? 'nothing is suggested until what holds it is cleared' : startWords(exercise.start),
    because: exercise.held ? [] : exercise.because,
    limitedBy: ownLines(exercise.limited_by, shared),
    dose: exercise.held ? '' : exercise.dose,
    supervision: exercise.held || exercise.supervision === '' ? null : supervisionWords(exercise.supervision),
    moveUp: exercise.held || exercise.move_up === '' ? null : exercise.move_up,
    moveDown: exercise.held || exercise.move_down === '' ? null : exercise.move_down,
    cautions: ownLines(exercise.cautions, shared),
  };
}

const basisWords = (based: Based, citations: Citations): string =>
  withMark(based.location ?? (based.source === null ? 'no source' : based.source), citations.mark(based));

/** Of a held exercise only what holds it is shown. */
const shown = (exercise: PlannedExercise): PlannedExercise => (exercise.held ? { ...exercise, cautions: [] } : exercise);

export function planView(given: readonly PlannedExercise[], citations: Citations): PlanView {
  const plan = given.map(shown);
  const shared = sharedLines(plan);
  const purposes = [
    ...PURPOSE_ORDER,
    ...new Set(plan.map((exercise) => exercise.purpose).filter((purpose) => !PURPOSE_ORDER.includes(purpose))),
  ];
  const groups: PlanGroupView[] = purposes
    .map((purpose) => ({
      purpose: purposeWords(purpose),
      exercises: plan.filter((exercise) => exercise.purpose === purpose).map((exercise) => exerciseView(exercise, shared)),
    }))
    .filter((group) => group.exercises.length > 0);
  return {
    // Lines for every exercise first, then by letter.
    shared: [...shared.values()]
      .filter((line) => line.letter === null)
      .concat([...shared.values()].filter((line) => line.letter !== null)),
    groups,
    basis: [...new Set(plan.flatMap((exercise) => exercise.basis.map((based) => basisWords(based, citations))))],
  };
}
