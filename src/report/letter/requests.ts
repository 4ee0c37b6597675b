/** What is asked of the receiver, most urgent first: each with its trigger and by when. */
import type { Assessment, RedFlagResult } from '../../assessment.ts';
import { TIERS } from '../../evidence/schema/words.ts';
import { isOpen } from '../../risk/clearance.ts';
import { dayAfter } from '../view/numbers.ts';
import type { LetterRequest } from './types.ts';
import { sentence, withoutLongDecimals } from './words.ts';

/** More are not followed: a falls clinic's own experience, and five fit a page. */
const MOST_REQUESTS = 5;

const WHEN: Readonly<Record<RedFlagResult['tier'], string>> = {
  emergency: 'Now: by telephone, this letter confirms it',
  same_day: 'Today: by telephone, this letter confirms it',
  clear_first: 'Before the next exercise',
};

/** A factor asks for no day of its own. */
const NEXT_VISIT = "At the client's next visit to you";

export const openFlags = ({ risk }: Assessment): RedFlagResult[] =>
  risk.red_flags.filter(isOpen).sort((a, b) => TIERS.indexOf(a.tier) - TIERS.indexOf(b.tier));

/** The latest day of the review. */
export function reviewDay({ risk, assessed }: Assessment): string | null {
  const followUp = risk.override?.follow_up ?? risk.follow_up;
  return followUp === null ? null : dayAfter(assessed, followUp.within_days);
}

/** Requests with the same words are made once, with all their triggers. */
function merged(requests: readonly LetterRequest[]): LetterRequest[] {
  return [...new Set(requests.map((request) => request.what))].map((what) => {
    const same = requests.filter((request) => request.what === what);
    return { what, why: same.map((request) => request.why).join('; '), when: same[0]?.when ?? '' };
  });
}

/** The finding, with the factor's name where the finding does not say it. */
function triggerOf({ name, found }: Assessment['risk']['factors'][number]): string {
  const shown = withoutLongDecimals(found);
  return shown.toLowerCase().includes(name.toLowerCase()) ? shown : `${name}: ${shown}`;
}

export interface Requests {
  readonly shown: readonly LetterRequest[];
  /** How many stand only in the report. */
  readonly left: number;
}

/** `reason`: why the client is at this level, for what the level itself asks. */
export function requestsOf(assessment: Assessment, reason: string): Requests {
  const { risk } = assessment;
  const day = reviewDay(assessment);
  const routine = day === null ? 'In your own time' : `By ${day}`;
  const flags = openFlags(assessment).map((flag) => ({
    what: sentence(`Please see the client about this: ${flag.finding.toLowerCase()}, and tell us when exercise may start`),
    why: sentence(withoutLongDecimals(flag.because)),
    when: WHEN[flag.tier],
  }));
  const level = (risk.override?.actions ?? risk.actions).flatMap((action) =>
    typeof action.request === 'string' ? [{ what: action.request, why: sentence(reason), when: routine }] : [],
  );
  const factors = risk.factors.flatMap((factor) =>
    typeof factor.request === 'string' ? [{ what: factor.request, why: sentence(triggerOf(factor)), when: NEXT_VISIT }] : [],
  );
  const all = merged([...flags, ...level, ...factors]);
  return { shown: all.slice(0, MOST_REQUESTS), left: Math.max(0, all.length - MOST_REQUESTS) };
}

export function urgencyOf(requests: readonly LetterRequest[]): string {
  const first = requests[0]?.when ?? '';
  if (requests.length === 0) return 'For information';
  return first.startsWith('Now') || first.startsWith('Today')
    ? 'URGENT'
    : first.startsWith('Before')
      ? 'Soon'
      : 'Routine: nothing recorded needs you today';
}
