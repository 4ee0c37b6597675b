/**
 * A week of the exercises that go home: which on which days, how long a session takes, and what it comes to against the cited
 * weekly target of challenging balance work. Warm-up first, stretches last. Days are numbered from 1, Monday.
 */
import type { PlannedExercise, Week, WeekDay } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import type { Basis } from '../evidence/schema/common.ts';
import type { WeekRules } from '../evidence/schema/dose.ts';
import { PURPOSES } from '../evidence/schema/words.ts';
import type { PlanWishes } from '../session.ts';

const DAYS_OF_A_WEEK = 7;

/** `count` days spread over the week as evenly as whole days allow: 3 gives days 1, 3 and 5. */
export function spreadDays(count: number): number[] {
  const days = Math.min(Math.max(1, Math.round(count)), DAYS_OF_A_WEEK);
  return Array.from({ length: days }, (_, index) => 1 + Math.floor((index * DAYS_OF_A_WEEK) / days));
}

/** Of the days of sessions those an exercise comes on: as many as its dose allows, with a rest day between where it needs one. */
function daysOf(exercise: PlannedExercise, sessions: readonly number[], rules: WeekRules): number[] {
  const most = exercise.override?.days ?? exercise.dose_parts.days_per_week?.[1] ?? sessions.length;
  const restBetween = rules.rest_day_between.some((purpose) => purpose === exercise.purpose);
  const taken: number[] = [];
  for (const day of sessions) {
    const tooNear = restBetween && taken.some((other) => day - other < 2 || other + DAYS_OF_A_WEEK - day < 2);
    if (taken.length < most && !tooNear) taken.push(day);
  }
  return taken;
}

const purposePlace = (purpose: string): number => (PURPOSES as readonly string[]).indexOf(purpose);
/** Who is left out first where time is short: further warm-ups and stretches before strength, strength before balance. */
const KEEP_FIRST: readonly string[] = ['standing_balance', 'moving_balance', 'strength', 'stretch', 'warm_up'];

const minutesOf = (exercise: PlannedExercise): number => exercise.dose_parts.minutes ?? 0;

/**
 * What fits into `budget` minutes: a warm-up first, then whatever has come least often so far, balance before the rest.
 */
function fitting(wanted: readonly PlannedExercise[], budget: number, placed: ReadonlyMap<string, number>): PlannedExercise[] {
  const rank = (exercise: PlannedExercise): number =>
    (placed.get(exercise.exercise) ?? 0) * KEEP_FIRST.length + KEEP_FIRST.indexOf(exercise.purpose);
  const warmUp = wanted.find((exercise) => exercise.purpose === 'warm_up');
  const rest = wanted.filter((exercise) => exercise !== warmUp).sort((a, b) => rank(a) - rank(b));
  const kept: PlannedExercise[] = [];
  let minutes = 0;
  for (const exercise of warmUp === undefined ? rest : [warmUp, ...rest]) {
    if (minutes + minutesOf(exercise) > budget) continue;
    kept.push(exercise);
    minutes += minutesOf(exercise);
  }
  return kept;
}

function dayOf(day: number, exercises: readonly PlannedExercise[]): WeekDay {
  const ordered = [...exercises].sort((a, b) => purposePlace(a.purpose) - purposePlace(b.purpose));
  const entries = ordered.map((exercise) => ({
    exercise: exercise.exercise,
    minutes: minutesOf(exercise),
    challenging_minutes: exercise.counts_as_challenge ? (exercise.dose_parts.working_minutes ?? 0) : 0,
  }));
  return { day, exercises: entries, minutes: sum(entries.map(({ minutes }) => minutes)) };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

function notesOf(days: readonly WeekDay[], home: readonly PlannedExercise[], rules: WeekRules, wishes: PlanWishes): string[] {
  const strength = new Set(home.filter(({ purpose }) => purpose === 'strength').map(({ exercise }) => exercise));
  const strengthDays = days.filter((day) => day.exercises.some(({ exercise }) => strength.has(exercise))).length;
  const never = home.filter((each) => days.every((day) => day.exercises.every(({ exercise }) => exercise !== each.exercise)));
  const supervised = home.filter(({ supervision }) => supervision === 'professional');
  return [
    ...(days.length < rules.least_days.days ? [`${rules.least_days.text}: here ${days.length}`] : []),
    ...(strengthDays < rules.least_strength_days.days ? [`${rules.least_strength_days.text}: here ${strengthDays}`] : []),
    ...never.map(({ name }) => `${name} does not fit into ${wishes.minutesADay} minutes a day`),
    ...(supervised.length > 0
      ? [
          `${supervised.length === home.length ? 'All of these are' : `${supervised.length} of these are`} supervised one to one first: days at home count from when a professional says so`,
        ]
      : []),
  ];
}

/** What the figures of a week rest on. */
export const weekBases = ({ target, least_days, least_strength_days, challenge }: WeekRules): Basis[] => [
  target.basis,
  least_days.basis,
  least_strength_days.basis,
  challenge.basis,
];

/** null where nothing goes home. Minutes of a day are the sum of its exercises, minutes of the week the sum of its days. */
export function planWeek(home: readonly PlannedExercise[], rules: WeekRules, wishes: PlanWishes = {}): Week | null {
  if (home.length === 0) return null;
  const sessions = spreadDays(wishes.days ?? rules.days);
  const wanted = home.map((exercise) => ({ exercise, on: daysOf(exercise, sessions, rules) }));
  const placed = new Map<string, number>();
  const days = sessions.map((day) => {
    const due = wanted.filter(({ on }) => on.includes(day)).map(({ exercise }) => exercise);
    const kept = fitting(due, wishes.minutesADay ?? Number.POSITIVE_INFINITY, placed);
    for (const { exercise } of kept) placed.set(exercise, (placed.get(exercise) ?? 0) + 1);
    return dayOf(day, kept);
  });
  const challenging = sum(days.flatMap((day) => day.exercises.map((each) => each.challenging_minutes)));
  return {
    days: days.filter((day) => day.exercises.length > 0),
    minutes: sum(days.map((day) => day.minutes)),
    challenging_minutes: challenging,
    target_minutes: rules.target.minutes,
    target: rules.target.text,
    target_met: challenging >= rules.target.minutes,
    notes: notesOf(days, home, rules, wishes),
    basis: weekBases(rules).map(basedOn),
  };
}
