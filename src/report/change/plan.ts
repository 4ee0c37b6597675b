/** The plan before and after, by move. What several exercises have in common is said once. */
import type { Move, PlanChange } from '../../change/types.ts';
import { limitOf, limitWords } from '../view/shared.ts';
import type { ChangePlanView } from './types.ts';

const MOVES: readonly (readonly [Move, string])[] = [
  ['hold', 'Held, not now'],
  ['down', 'Move down'],
  ['resume', 'May be taken up again'],
  ['up', 'May move up, once the rule is met'],
  ['stay', 'Stay'],
];

const levelWords = (change: PlanChange): string =>
  change.before === change.after
    ? `level ${change.after} of ${change.of}`
    : `level ${change.before} to ${change.after} of ${change.of}`;

/** A limit that has fallen away needs neither its effect nor what would lift it. */
const goneWords = (line: string): string => `No longer: ${limitOf(line).reason.replace(/; lifts when .*$/s, '')}`;

const ADVICE: Readonly<Record<Move, string>> = {
  up: 'one level up',
  stay: 'stay',
  down: 'down',
  hold: 'held',
  resume: 'begin again',
};

/** What to do now, where it is more than the later plan says by itself: one level up at a time, down after a setback. */
function adviceOf({ advised, after, move }: PlanChange): string[] {
  if (advised === null || advised.move === 'hold' || (advised.move === move && advised.level === after && move !== 'up'))
    return [];
  const to = advised.move === 'stay' ? '' : `, to "${advised.name}"`;
  const reasons = advised.because.filter((line) => /since the last visit|one change at a time|sessions done|set by/.test(line));
  return [`Now ${ADVICE[advised.move]}${to}${reasons.length === 0 ? '' : `: ${reasons.join('; ')}`}`];
}

/** The reason apart from the effect it has on one ladder, so that exercises can share it. */
function linesOf(change: PlanChange): string[] {
  const rule = change.rule === null ? [] : [`Rule: ${change.rule}`];
  return [
    ...new Set([
      ...adviceOf(change),
      ...change.because.map((line) => limitWords(limitOf(line))),
      ...change.no_longer.map(goneWords),
      ...rule,
    ]),
  ];
}

const SHARED_FROM = 2;

/** Which exercises a shared line is about, in the shorter way; nothing where it is all of them. */
function whichWords(names: readonly string[], plan: readonly PlanChange[]): string {
  const others = plan.map((change) => change.name).filter((name) => !names.includes(name));
  if (others.length === 0) return '';
  return others.length < names.length ? ` (all but ${others.join(', ')})` : ` (${names.join(', ')})`;
}

/** "2 may move up, 1 move down, 11 stay". */
export function movesInWords(plan: readonly PlanChange[]): string {
  const words: Readonly<Record<Move, string>> = {
    hold: 'held',
    down: 'move down',
    resume: 'may be taken up again',
    up: 'may move up',
    stay: 'stay',
  };
  const parts = MOVES.map(([move]) => ({ move, count: plan.filter((each) => each.move === move).length }));
  const present = parts.filter(({ count }) => count > 0);
  return present.length === 0 ? 'no exercise is planned' : present.map(({ move, count }) => `${count} ${words[move]}`).join(', ');
}

function groupOf(move: Move, heading: string, plan: readonly PlanChange[]): ChangePlanView {
  const exercises = plan.map((change) => ({ change, lines: move === 'stay' ? adviceOf(change) : linesOf(change) }));
  const counts = new Map<string, string[]>();
  for (const { change, lines } of exercises)
    for (const line of lines) counts.set(line, [...(counts.get(line) ?? []), change.name]);
  const shared = [...counts].filter(([, names]) => names.length >= SHARED_FROM);
  const isShared = new Set(shared.map(([line]) => line));
  return {
    move,
    heading,
    shared: shared.map(([line, names]) => `${line}${whichWords(names, plan)}`),
    exercises: exercises.map(({ change, lines }) => ({
      name: change.name,
      levels: levelWords(change),
      from: change.before_name,
      to: change.after_name,
      lines: lines.filter((line) => !isShared.has(line)),
    })),
  };
}

/** What asks for caution first. */
export const planViews = (plan: readonly PlanChange[]): ChangePlanView[] =>
  MOVES.map(([move, heading]) =>
    groupOf(
      move,
      heading,
      plan.filter((each) => each.move === move),
    ),
  ).filter((group) => group.exercises.length > 0);
