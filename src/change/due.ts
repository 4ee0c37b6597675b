/** Who is due: from the newest visit of each client and the follow-up interval of its level. */
import type { Assessment } from '../assessment.ts';
import { isOpen } from '../risk/clearance.ts';
import { levelInForce } from '../risk/override.ts';
import { dayLater, daysBetween } from './days.ts';

/** `overdue`: the day has passed; `due`: within the days asked about; `flagged`: not yet due, but something cannot wait. */
export type DueState = 'overdue' | 'due' | 'flagged' | 'later';

export interface DueClient {
  readonly ref: string;
  readonly file: string;
  readonly assessed: string;
  readonly level: string;
  readonly at_least: string;
  readonly at_most: string;
  /** ISO date by which the level asks for a review. */
  readonly due: string;
  /** Days from today to that date; negative when it has passed. */
  readonly days: number;
  readonly state: DueState;
  /** Findings of the newest visit that need a doctor and are not cleared. */
  readonly flags: readonly string[];
  readonly caveats: readonly string[];
  readonly follow_up: { readonly text: string; readonly source: string | null; readonly basis: string };
}

export interface NewestVisit {
  readonly file: string;
  readonly assessment: Assessment;
}

/** The newest visit of each client; of two on one day the later in the list. */
export function newestOf<Item extends { readonly ref: string; readonly assessed: string }>(items: readonly Item[]): Item[] {
  const newest = new Map<string, Item>();
  for (const item of items) {
    const held = newest.get(item.ref);
    if (held === undefined || item.assessed >= held.assessed) newest.set(item.ref, item);
  }
  return [...newest.values()];
}

/** Caveats that forbid comfort (frail, gait impaired) are the program's own; remarks on the pathway are not for a list. */
const caveatsOf = ({ risk }: Assessment): string[] =>
  risk.caveats.filter((caveat) => caveat.basis === 'own-rule').map((caveat) => caveat.text);

function stateOf(days: number, within: number, flagged: boolean): DueState {
  if (days < 0) return 'overdue';
  if (days <= within) return 'due';
  return flagged ? 'flagged' : 'later';
}

/** null where the pathway gives no interval for the level. */
function dueClient({ file, assessment }: NewestVisit, today: string, within: number): DueClient | null {
  const { risk } = assessment;
  const followUp = risk.override?.follow_up ?? risk.follow_up;
  if (followUp === null) return null;
  const due = dayLater(assessment.assessed, followUp.within_days);
  const days = daysBetween(today, due);
  const flags = risk.red_flags.filter(isOpen).map((flag) => flag.finding);
  return {
    ref: assessment.client.ref,
    file,
    assessed: assessment.assessed,
    ...levelInForce(risk),
    due,
    days,
    state: stateOf(days, within, flags.length > 0),
    flags,
    caveats: caveatsOf(assessment),
    follow_up: { text: followUp.text, source: followUp.source, basis: followUp.basis },
  };
}

const ORDER: readonly DueState[] = ['overdue', 'due', 'flagged', 'later'];

/** Most urgent first: by state, then by day, then by reference. `within`: days ahead that count as due. */
export function dueList(newest: readonly NewestVisit[], today: string, within: number): DueClient[] {
  return newest
    .flatMap((visit) => dueClient(visit, today, within) ?? [])
    .sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state) || a.days - b.days || (a.ref < b.ref ? -1 : 1));
}
