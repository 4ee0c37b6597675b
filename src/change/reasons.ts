/** Why a change got its verdict, in one sentence with this client's numbers. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { roundTo } from '../scoring/performance.ts';
import { type DoneTest, kindOf } from './readings.ts';
import type { RawChange, Reason } from './verdict.ts';

export type Grounds =
  | { readonly kind: 'no_number'; readonly before: DoneTest; readonly after: DoneTest }
  | { readonly kind: 'conflict'; readonly conflicts: readonly string[] }
  | { readonly kind: 'decided'; readonly reason: Reason; readonly raw: RawChange; readonly mdc95: number | null };

/** Decimals of a change: one more than people read a result with, without trailing zeros. */
export const amount = (value: number, test: TestDefinition): string => {
  const number = String(roundTo(Math.abs(value), test.decimals + 1));
  return test.unit_text === '' ? number : `${number}${test.unit_text === '%' ? ' percentage points' : ` ${test.unit_text}`}`;
};

function missingWords(done: DoneTest, when: string): string {
  if (done.result === null) return `not recorded ${when}`;
  return done.result.outcome === 'declined' ? `declined ${when}` : `not tested ${when}`;
}

function withoutNumber(before: DoneTest, after: DoneTest): string {
  const [first, second] = [kindOf(before), kindOf(after)];
  const missing = [
    ...(first === 'missing' ? [missingWords(before, 'at the first visit')] : []),
    ...(second === 'missing' ? [missingWords(after, 'at the last visit')] : []),
  ];
  if (missing.length > 0) return `${missing.join(' and ')}, so nothing can be compared`;
  if (first === second) return 'unable at both visits';
  return first === 'unable'
    ? 'unable before and able now: a real change, though no number can be put to it'
    : 'able before and unable now: a real change, though no number can be put to it';
}

const BOUNDS = { exact: '', at_least: 'at least ', at_most: 'at least ', unknown: '' } as const;

function decidedWords(reason: Reason, raw: RawChange, mdc95: number | null, test: TestDefinition): string {
  const change = `${BOUNDS[raw.bound]}${amount(raw.change, test)}`;
  const error = mdc95 === null ? '' : amount(mdc95, test);
  switch (reason) {
    case 'beyond':
      return `a change of ${change} is larger than the measurement error of ${error}`;
    case 'within':
      return raw.change === 0
        ? 'the same result at both visits'
        : `a change of ${amount(raw.change, test)} is not larger than the measurement error of ${error}`;
    case 'no_error':
      return 'no measurement error in this unit is published for this test, so a change cannot be told from chance';
    case 'no_room':
      return `the measurement error of ${error} is larger than any change the scale leaves room for`;
    case 'both_stopped':
      return 'the watch was stopped at its ceiling at both visits: the test is too easy to show a change';
    case 'stopped':
      return `the watch was stopped at its ceiling at one visit: the true change may be larger or smaller than the ${amount(raw.change, test)} seen, and the error is ${error}`;
  }
}

/** One sentence in this client's numbers, for every verdict. */
export function reasonInWords(grounds: Grounds, test: TestDefinition): string {
  if (grounds.kind === 'no_number') return withoutNumber(grounds.before, grounds.after);
  if (grounds.kind === 'conflict') return `not comparable: ${grounds.conflicts.join('; ')}`;
  return decidedWords(grounds.reason, grounds.raw, grounds.mdc95, test);
}
