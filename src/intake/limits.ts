/**
 * The one place that holds a number against its limits, whoever typed it: a session file, a CSV cell or a program.
 * The limits themselves are data (norms/tests.yaml and norms/fields.yaml); they judge typing, not health.
 */
import { withUnit } from '../evidence/describe.ts';
import type { Limit } from '../evidence/schema/catalogue.ts';

/** What of a test or field definition is needed to judge a value. */
export interface Limited {
  readonly name: string;
  /** What people read after the number, e.g. `s`; empty for a bare score. */
  readonly unit_text: string;
  readonly whole: boolean;
  readonly impossible: Limit;
  readonly unusual?: Limit | undefined;
}

export type LimitVerdict =
  | { readonly verdict: 'ok' }
  | { readonly verdict: 'impossible' | 'unusual' | 'not_whole'; readonly message: string };

function outside(value: number, limit: Limit): boolean {
  return (limit.below !== undefined && value < limit.below) || (limit.above !== undefined && value > limit.above);
}

/** The reason inside brackets, without its full stop. */
const because = (limit: Limit): string => limit.why.replace(/\.$/, '');

/**
 * Holds `value` (in the unit of the definition) against its limits. A value on a limit is inside it.
 * Anything that is not a finite number is impossible.
 */
export function checkLimits(value: number, limited: Limited): LimitVerdict {
  const { name, unit_text, impossible, unusual, whole } = limited;
  if (!Number.isFinite(value) || outside(value, impossible))
    return { verdict: 'impossible', message: `${name} cannot be ${withUnit(value, unit_text)} (${because(impossible)})` };
  if (whole && !Number.isInteger(value))
    return { verdict: 'not_whole', message: `${name} is a whole number, not ${withUnit(value, unit_text)}` };
  if (unusual !== undefined && outside(value, unusual))
    return { verdict: 'unusual', message: `${name} of ${withUnit(value, unit_text)} is unusual (${because(unusual)})` };
  return { verdict: 'ok' };
}
