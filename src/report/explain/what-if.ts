/** What would change a statement: the same visit scored again with one answer turned round. */
import { type AssessOptions, assess } from '../../assess.ts';
import type { Assessment } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { FieldValue, Session } from '../../session.ts';
import { plainId } from '../view/words.ts';

export interface Explained {
  readonly session: Session;
  readonly assessment: Assessment;
  readonly evidence: Evidence;
  readonly options: AssessOptions;
}

/** Answers that can be turned round; numbers are left to the marks of the tests. */
function othersOf(path: string, value: FieldValue): FieldValue[] {
  if (value === 'yes') return ['no'];
  if (value === 'no') return ['yes'];
  if (value === 'unknown') return ['yes', 'no'];
  if (path === 'history.falls_past_year') return [0, 1, 2].filter((falls) => falls !== value);
  return [];
}

/** "if fall injury were yes: High risk": one line for each answer that changes what `statement` gives. */
export function whatIf(explained: Explained, statement: (assessment: Assessment) => string): string[] {
  const { session, assessment, evidence, options } = explained;
  const now = statement(assessment);
  return Object.entries(session.fields).flatMap(([path, value]) =>
    othersOf(path, value).flatMap((other) => {
      const changed = assess({ ...session, fields: { ...session.fields, [path]: other } }, evidence, options);
      const then = statement(changed);
      const name = plainId(path.split('.').slice(1).join(' '));
      const shown = path === 'history.falls_past_year' && other === 2 ? '2 or more' : String(other);
      return then === now ? [] : [`if ${name} were ${shown} (now ${value}): ${then}`];
    }),
  );
}
