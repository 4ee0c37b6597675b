/** The week of the exercises that go home, how the dose is adapted, and what the professional set by hand, in words. */
import type { Caution, PlannedExercise, Week } from '../../assessment.ts';
import { type Citations, withMark } from './citations.ts';
import { plainNumber } from './numbers.ts';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** One line a day, then the total against the target and what does not fit. */
export function weekWords(week: Week | null, plan: readonly PlannedExercise[], citations: Citations): string[] {
  if (week === null) return [];
  const nameOf = (id: string): string => plan.find(({ exercise }) => exercise === id)?.name ?? id;
  const target = week.basis[0];
  const short = week.target_minutes - week.challenging_minutes;
  return [
    ...week.days.map(
      ({ day, minutes, exercises }) =>
        `${DAYS[day - 1] ?? `day ${day}`}, ${plainNumber(minutes)} min: ${exercises.map(({ exercise }) => nameOf(exercise)).join(', ')}`,
    ),
    `Together ${plainNumber(week.minutes)} min a week, of it ${plainNumber(week.challenging_minutes)} min of challenging balance work`,
    withMark(
      `${week.target}: ${week.target_met ? 'reached' : `${plainNumber(short)} min short; more comes from less support, more days, more rounds or a group`}`,
      target === undefined ? '' : citations.mark(target),
    ),
    ...week.notes,
  ];
}

/** Each adaptation once, with the exercises it is for where it is not for all that go home. */
export function adaptedWords(plan: readonly PlannedExercise[], citations: Citations): string[] {
  const texts = new Map<string, Caution>();
  for (const { adaptations } of plan) for (const each of adaptations) if (!texts.has(each.text)) texts.set(each.text, each);
  return [...texts.values()].map((each) => withMark(each.text, citations.mark(each)));
}

/** What was set by hand, with what the program suggests and what speaks against it. */
export function setByHand({ override, dose }: PlannedExercise): string[] {
  if (override === null) return [];
  const by = override.by === null ? 'set by hand' : `set by ${override.by}`;
  const parts = [
    ...(override.left_out ? ['left out'] : []),
    ...(override.level === null || override.refused !== null ? [] : [`level ${override.level}`]),
    ...(override.dose === null ? [] : [`dose "${dose}"`]),
    ...(override.days === null ? [] : [`${override.days} days a week`]),
  ];
  const reason = override.reason === null ? '' : ` (${override.reason})`;
  return [
    ...(parts.length === 0 ? [] : [`${by}: ${parts.join(', ')}${reason}`]),
    ...(override.refused === null ? [] : [`level ${override.level} ${override.refused}`]),
    ...(override.level === null ? [] : [`suggested was level ${override.suggested.level}: ${override.suggested.name}`]),
    ...override.warnings.map((warning) => `against it: ${warning}`),
  ];
}
