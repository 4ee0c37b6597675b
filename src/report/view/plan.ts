/** Starting levels in the order of a session. What several exercises share is said once. */
import type { Based, NextRung, PlannedExercise, PlannedRung, Week } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import { lowerFirst } from './sentences.ts';
import { limitOf, limitWords, type Shared, sharedOf } from './shared.ts';
import type { ExerciseView, PlanGroupView, PlanView } from './types.ts';
import { adaptedWords, setByHand, weekWords } from './week.ts';
import { PURPOSE_ORDER, plainId, purposeWords, supervisionWords, supportWords, surfaceWords } from './words.ts';

/** Letters first, as "see A, C", then what only this exercise has. */
function ownLines(texts: readonly string[], shared: Shared): string[] {
  const left = texts.filter((text) => !shared.isForAll(text));
  const letters = left.flatMap((text) => shared.letterOf(text) ?? []);
  return [
    ...left.filter((text) => shared.letterOf(text) === null),
    ...(letters.length === 0 ? [] : [`see ${letters.join(', ')}`]),
  ];
}

/** One line an effect: `not beyond "Hands free": see A, C`. */
function limitLines(lines: readonly string[], shared: Shared): string[] {
  const limits = lines.map(limitOf).filter((limit) => !shared.isForAll(limit.reason));
  return [...new Set(limits.map((limit) => limit.effect))].map((effect) => {
    const reasons = limits.filter((limit) => limit.effect === effect).map((limit) => limit.reason);
    return limitWords({ effect, reason: ownLines(reasons, shared).join('; ') });
  });
}

/** The text itself, its letter, or null where it is said for all exercises or not at all. */
function onceOrLetter(text: string, shared: Shared): string | null {
  if (text === '' || shared.isForAll(text)) return null;
  const letter = shared.letterOf(text);
  return letter === null ? text : `see ${letter}`;
}

function levelWords({ start, held }: PlannedExercise): string {
  if (held) return 'held, not today';
  return start.level === 0 ? 'seated variant' : `level ${start.level} of ${start.of}`;
}

/** Names of rungs usually say where the hands are; where one does not, the support is added. */
const NAMES_SUPPORT = /hand|touch|fingertip|hold/i;

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

function nextWords(next: NextRung | null): string | null {
  if (next === null) return null;
  const who = next.by === 'client' ? 'the client may move there alone' : `with the professional, ${next.because ?? ''}`;
  return `level ${next.level}, "${next.name}": ${who}`;
}

function exerciseView(exercise: PlannedExercise, shared: Shared): ExerciseView {
  const { held } = exercise;
  return {
    exercise: exercise.exercise,
    name: exercise.name,
    held,
    level: levelWords(exercise),
    rung: held ? 0 : exercise.start.level,
    rungs: exercise.start.of,
    start: held ? 'nothing is suggested until what holds it is cleared' : startWords(exercise.start),
    setByHand: setByHand(exercise),
    because: held ? [] : exercise.because,
    limitedBy: limitLines(exercise.limited_by, shared),
    dose: held ? '' : exercise.dose,
    supervision: held || shared.supervision || exercise.supervision === '' ? null : supervisionWords(exercise.supervision),
    moveUp: held ? null : onceOrLetter(exercise.move_up, shared),
    moveDown: held ? null : onceOrLetter(exercise.move_down, shared),
    next: nextWords(exercise.next),
    cautions: held ? [] : ownLines(exercise.cautions, shared),
  };
}

/** What stands under an exercise beside its start, label by label; labels without a text are left for the format to drop. */
export function exerciseParts(view: ExerciseView): (readonly [label: string, texts: readonly string[]])[] {
  const one = (text: string | null): string[] => (text === null || text === '' ? [] : [text]);
  return [
    ['With', one(view.supervision)],
    ['Dose', one(view.dose)],
    ['Set', view.setByHand],
    ['Because', view.because],
    ['Limits', view.limitedBy],
    ['Up', one(view.moveUp)],
    ['Next', one(view.next)],
    ['Down', one(view.moveDown)],
    ['Care', view.cautions],
  ];
}

const counted = (count: number, one: string, many: string): string => (count === 1 ? `1 ${one}` : `${count} ${many}`);

/** What rests on a source by its place; of the program's own rules and those of the trade only how many there are. */
function basisLines(plan: readonly PlannedExercise[], citations: Citations): string[] {
  const all = plan.flatMap((exercise) => exercise.basis);
  const cited = all
    .filter((based) => based.source !== null)
    .map((based) => withMark(based.location ?? '', citations.mark(based)));
  const notes = (basis: Based['basis']): number =>
    new Set(all.filter((based) => based.source === null && based.basis === basis).map((based) => based.location)).size;
  const own = notes('own-rule');
  const trade = notes('common-practice');
  if (own + trade === 0) return [...new Set(cited)];
  return [
    ...new Set(cited),
    `${counted(own, "rule is this program's own", "rules are this program's own")} and ${counted(trade, 'is', 'are')} common practice; the reason for each stands in the JSON record and in norms/.`,
  ];
}

/** Without the adaptations and the week: `planMore` adds them where they are printed, so that no source is named in vain. */
export function planView(plan: readonly PlannedExercise[], citations: Citations): PlanView {
  const shared = sharedOf(plan);
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
  return { shared: shared.lines, groups, adapted: [], week: [], basis: basisLines(plan, citations) };
}

export const planMore = (
  plan: readonly PlannedExercise[],
  week: Week | null,
  citations: Citations,
): Pick<PlanView, 'adapted' | 'week'> => ({
  adapted: adaptedWords(plan, citations),
  week: weekWords(week, plan, citations),
});
