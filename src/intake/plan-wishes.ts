/** The professional's own plan in a visit file: what the client can fit in, what goes home, levels and doses set by hand. */
import type { ExerciseOverride, PlanWishes } from '../session.ts';
import { PLAN_EXERCISE_KEYS, PLAN_KEYS } from '../session-plan-keys.ts';
import { answerOf } from './answers.ts';
import { type Known, textsOf, unknownWord, wellFormed } from './entries.ts';
import { asNumber, asText } from './forms.ts';
import type { Finding, Path } from './problems.ts';
import { isMapping, notAMapping, valueAt } from './shape.ts';
import { checkField } from './values.ts';

type Tree = Readonly<Record<string, unknown>>;

/** A number within the limits of its field; undefined where there is none. */
function numberAt(
  tree: Tree,
  key: string,
  field: string,
  path: Path,
  { fields }: Known,
  findings: Finding[],
): number | undefined {
  const value = asNumber(tree[key]);
  if (value === undefined) return undefined;
  findings.push(...checkField(field, value, [...path, key], fields ?? []));
  return value;
}

const defined = <Value extends object>(value: Value): Value =>
  Object.fromEntries(Object.entries(value).filter(([, each]) => each !== undefined)) as Value;

function readExercise(id: string, value: unknown, known: Known, findings: Finding[]): ExerciseOverride | undefined {
  const path = ['plan', 'exercises', id];
  if (!wellFormed(PLAN_EXERCISE_KEYS, value, path, findings)) return undefined;
  const level = numberAt(value, 'level', 'plan.level', path, known, findings);
  const top = known.exercises?.find((exercise) => exercise.id === id)?.ladder.length;
  if (level !== undefined && top !== undefined && level > top)
    findings.push({
      code: 'not_a_choice',
      path: [...path, 'level'],
      at: 'value',
      message: `level ${level}, but the ladder of ${id} ends at ${top}`,
      hint: `write a level from 0 (seated) to ${top}`,
    });
  const leaveOut = answerOf(value.leave_out);
  return defined({
    level,
    dose: asText(value.dose),
    days: numberAt(value, 'days', 'plan.days', path, known, findings),
    leaveOut: leaveOut === undefined ? undefined : leaveOut === 'yes',
    reason: asText(value.reason),
  });
}

function checkId(id: string, path: Path, { exercises }: Known, findings: Finding[]): void {
  const ids = exercises?.map((exercise) => exercise.id);
  if (ids !== undefined && !ids.includes(id)) findings.push(unknownWord(id, ids, path));
}

function readExercises(value: unknown, known: Known, findings: Finding[]): PlanWishes['exercises'] {
  if (value === undefined || value === null) return undefined;
  if (!isMapping(value)) {
    findings.push(notAMapping(['plan', 'exercises']));
    return undefined;
  }
  const entries = Object.entries(value).flatMap(([id, each]) => {
    checkId(id, ['plan', 'exercises', id], known, findings);
    const read = readExercise(id, each, known, findings);
    return read === undefined ? [] : [[id, read] as const];
  });
  return Object.fromEntries(entries);
}

/** undefined where the file has no plan of its own; faults go into `findings`. */
export function readPlanWishes(tree: unknown, known: Known, findings: Finding[]): PlanWishes | undefined {
  const value = valueAt(tree, ['plan']);
  if (value === undefined || value === null) return undefined;
  const { exercises: set, ...rest } = isMapping(value) ? value : { exercises: undefined };
  if (!wellFormed(PLAN_KEYS, isMapping(value) ? rest : value, ['plan'], findings)) return undefined;
  const plan: Tree = rest;
  const choose = textsOf(plan.choose);
  choose.forEach((id, index) => {
    checkId(id, Array.isArray(plan.choose) ? ['plan', 'choose', index] : ['plan', 'choose'], known, findings);
  });
  return defined({
    days: numberAt(plan, 'days', 'plan.days', ['plan'], known, findings),
    minutesADay: numberAt(plan, 'minutes_a_day', 'plan.minutes_a_day', ['plan'], known, findings),
    choose: choose.length === 0 ? undefined : choose,
    exercises: readExercises(set, known, findings),
  });
}
