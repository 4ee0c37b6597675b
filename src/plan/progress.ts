/**
 * Between two visits: move up, stay or move down, exercise by exercise. Pure: the earlier plan, the new plan and what happened
 * since. One rung at a time, never beyond what the new plan allows, and nothing moves up on an answer that is missing.
 */
import type { PlannedExercise, PlanOverride } from '../assessment.ts';
import type { DoseRules } from '../evidence/schema/dose.ts';

/** What happened since the earlier visit; null = not recorded. */
export interface Since {
  readonly falls: number | null;
  /** yes | no | unknown */
  readonly exacerbation: string | null;
  readonly adverse_events: number | null;
  readonly sessions_done: number | null;
}

export const NOTHING_RECORDED: Since = { falls: null, exacerbation: null, adverse_events: null, sessions_done: null };

export type ProgressMove = 'up' | 'stay' | 'down' | 'hold' | 'resume';

export interface Progress {
  readonly exercise: string;
  readonly name: string;
  readonly move: ProgressMove;
  /** Level in use at the earlier visit and the one to use now; 0 = held or the seated variant. */
  readonly from: number;
  readonly to: number;
  readonly because: readonly string[];
  /** What must be seen before a step up, where one is named. */
  readonly rule: string | null;
}

export interface ProgressInput {
  readonly before: readonly PlannedExercise[];
  readonly after: readonly PlannedExercise[];
  readonly since: Since;
  readonly rules: DoseRules['between_visits'];
}

/** Each takes a level away. */
export function setbacks(since: Since): string[] {
  return [
    ...((since.falls ?? 0) > 0 ? ['a fall since the last visit'] : []),
    ...(since.exacerbation === 'yes' ? ['a flare-up since the last visit'] : []),
    ...((since.adverse_events ?? 0) > 0 ? ['an unwanted event in exercise since the last visit'] : []),
  ];
}

/** Why nothing moves up yet although the new results allow it. */
function notYet(since: Since, { sessions_before_up }: ProgressInput['rules']): string[] {
  const unknown = (what: string): string => `${what} since the last visit not recorded, so nothing moves up`;
  if (since.falls === null) return [unknown('falls')];
  if (since.exacerbation === 'unknown') return [unknown('flare-ups')];
  if (since.sessions_done === null) return [unknown('sessions done')];
  return since.sessions_done < sessions_before_up
    ? [`${since.sessions_done} sessions done; a step up comes after ${sessions_before_up}`]
    : [];
}

type Moved = Pick<Progress, 'move' | 'to' | 'because' | 'rule'>;

function move(before: PlannedExercise, after: PlannedExercise, { since, rules }: ProgressInput): Moved {
  const [from, allowed] = [before.start.level, after.start.level];
  if (after.held) return { move: 'hold', to: 0, because: after.limited_by, rule: null };
  const against = setbacks(since);
  // after a hold the new results alone say where to begin, a level lower where something happened
  if (before.held) {
    const to = Math.max(0, allowed - (against.length > 0 ? 1 : 0));
    return { move: 'resume', to, because: ['no longer held', ...against], rule: after.move_up };
  }
  const afterSetback = against.length > 0 ? Math.max(0, from - 1) : from;
  if (allowed < from || afterSetback < from) {
    const reasons = allowed < from ? [...after.limited_by.filter((line) => line.startsWith('lowered')), ...after.because] : [];
    return { move: 'down', to: Math.min(allowed, afterSetback), because: [...against, ...reasons], rule: null };
  }
  if (allowed === from)
    return { move: 'stay', to: from, because: after.because, rule: after.next === null ? null : after.move_up };
  const waiting = against.length > 0 ? against : notYet(since, rules);
  if (waiting.length > 0) return { move: 'stay', to: from, because: waiting, rule: after.move_up };
  return { move: 'up', to: from + 1, because: [...after.because, ...oneStep(allowed - from)], rule: after.move_up };
}

const oneStep = (rungs: number): string[] => (rungs > 1 ? ['the results would allow more; one change at a time'] : []);

/** For every exercise that both plans have, in the order of the later one. A level set by the professional is taken as it is. */
export function progressBetween(input: ProgressInput): Progress[] {
  return input.after.flatMap((after) => {
    const before = input.before.find((each) => each.exercise === after.exercise);
    if (before === undefined) return [];
    const from = before.held ? 0 : before.start.level;
    const set = setByProfessional(after);
    const moved = set === null ? move(before, after, input) : asSet(from, after.start.level, set);
    return [{ exercise: after.exercise, name: after.name, from, ...moved }];
  });
}

/** null where no level was set, or the one that was is not applied. */
const setByProfessional = ({ override }: PlannedExercise): PlanOverride | null =>
  override !== null && override.level !== null && override.refused === null ? override : null;

function asSet(from: number, to: number, { by, warnings }: PlanOverride): Moved {
  const moved = to > from ? 'up' : to < from ? 'down' : 'stay';
  return { move: moved, to, because: [`set by ${by ?? 'the professional'}`, ...warnings], rule: null };
}
