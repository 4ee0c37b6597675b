/** Which exercises go home: those the professional chose, else a short list of every purpose. */
import type { PlannedExercise } from '../assessment.ts';
import type { DoseAdaptation, DoseRules } from '../evidence/schema/dose.ts';
import type { Exercise } from '../evidence/schema/exercise.ts';
import { PURPOSES } from '../evidence/schema/words.ts';

type Candidate = Pick<PlannedExercise, 'exercise' | 'purpose' | 'held' | 'start' | 'override'>;

const goesNowhere = ({ held, override }: Candidate): boolean => held || override?.left_out === true;

/** An exercise of the usual list that could only be done seated gives its place to a standing one of the same purpose. */
function usualList(plan: readonly Candidate[], core: ReadonlySet<string>): Candidate[] {
  const left = plan.filter((each) => !core.has(each.exercise) && each.start.level > 0);
  const places = plan
    .filter((each) => core.has(each.exercise))
    .map((each) => {
      if (each.start.level > 0) return each;
      const index = left.findIndex((other) => other.purpose === each.purpose);
      return index < 0 ? each : (left.splice(index, 1)[0] ?? each);
    });
  return plan.filter((each) => places.includes(each));
}

/** The last one of the purpose that has most of them goes first, so that every purpose stays as long as it can. */
function shortened(list: readonly Candidate[], most: number): Candidate[] {
  const kept = [...list];
  while (kept.length > most) {
    const counts = PURPOSES.map((purpose) => kept.filter((each) => each.purpose === purpose).length);
    const largest = PURPOSES[counts.indexOf(Math.max(...counts))];
    const last = kept.findLastIndex((each) => each.purpose === largest);
    kept.splice(last, 1);
  }
  return kept;
}

export interface ChooseInput {
  readonly plan: readonly Candidate[];
  readonly exercises: readonly Exercise[];
  readonly rules: DoseRules;
  readonly adaptations: readonly DoseAdaptation[];
  /** Ids the professional named; they are all taken, except those held or left out. */
  readonly chosen: readonly string[] | undefined;
}

/** Ids in the order of a session. */
export function exercisesForHome({ plan, exercises, rules, adaptations, chosen }: ChooseInput): string[] {
  const open = plan.filter((each) => !goesNowhere(each));
  if (chosen !== undefined) return open.filter((each) => chosen.includes(each.exercise)).map(({ exercise }) => exercise);
  const core = new Set(exercises.filter((exercise) => exercise.core).map(({ id }) => id));
  const limits = adaptations.flatMap(({ effect }) => effect.most_exercises ?? []);
  return shortened(usualList(open, core), Math.min(rules.week.most_exercises, ...limits)).map(({ exercise }) => exercise);
}
