/** A test without a result: unable, declined or unsafe, each with its reason. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { own } from '../own.ts';
import type { NotMeasured } from '../session.ts';
import { OUTCOME_KEYS } from '../session-keys.ts';
import { explainLeaf } from './explain.ts';
import { asText, badForm, type Form, present, RESULTS } from './forms.ts';
import { normalised } from './near.ts';
import { type Finding, type Path, shown } from './problems.ts';
import { checkKeys } from './shape.ts';

export const OUTCOMES = ['unable', 'declined', 'unsafe'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** Words that stand for an outcome but lack the reason; the others mean that nothing was done. */
const OUTCOME_WORDS: Readonly<Record<string, Outcome>> = {
  unable: 'unable',
  cannot: 'unable',
  failed: 'unable',
  fail: 'unable',
  declined: 'declined',
  refused: 'declined',
  unsafe: 'unsafe',
};
const NOTHING_WORDS = ['no', 'none', 'na', 'nd', 'nil', 'notdone', 'nottested', 'notattempted', 'skipped', 'missing', ''];

/** What to say of a word that stands where a result is wanted. */
export function explainWord(text: string, test: TestDefinition, path: Path): Finding {
  const word = normalised(text);
  const outcome = own(OUTCOME_WORDS, word);
  if (outcome !== undefined) {
    const instead = outcome === 'unsafe' ? '{unsafe: the reason, why: balance}' : `{${outcome}: the reason}`;
    return {
      code: 'bare_outcome',
      path,
      at: 'value',
      message: `\`${shown(text)}\` lacks its reason`,
      hint: `write ${instead} instead`,
    };
  }
  if (NOTHING_WORDS.includes(word))
    return {
      code: 'bare_outcome',
      path,
      at: 'value',
      message: `\`${shown(text)}\` is no result`,
      hint: 'leave the line out, or write {declined: the reason} or {unable: the reason} instead',
    };
  return { ...explainLeaf({ kind: 'number' }, text, test.id), path, at: 'value' };
}

/** `outcomes` are those of the three keys that stand in `form`. */
export function readNotMeasured(form: Form, outcomes: readonly Outcome[], path: Path, findings: Finding[]): NotMeasured | null {
  const [outcome] = outcomes;
  const alsoMeasured = RESULTS.find((key) => present(form, key));
  if (outcome === undefined || outcomes.length > 1 || alsoMeasured !== undefined) {
    findings.push(
      badForm(
        path,
        `${[...outcomes, ...(alsoMeasured === undefined ? [] : [alsoMeasured])].join(' and ')} are given together`,
        'write either the result or one reason why there is none',
      ),
    );
    return null;
  }
  findings.push(...checkKeys(OUTCOME_KEYS, form, path));
  const reason = asText(form[outcome]);
  if (reason === undefined) {
    if (form[outcome] === null)
      findings.push({
        code: 'bare_outcome',
        path: [...path, outcome],
        at: 'key',
        message: `\`${outcome}\` lacks its reason`,
        hint: `write {${outcome}: the reason} instead`,
      });
    return null;
  }
  const why = form.why === 'balance' || form.why === 'medical' || form.why === 'other' ? form.why : undefined;
  if (outcome === 'unsafe' && !present(form, 'why'))
    findings.push(
      badForm(
        [...path, 'unsafe'],
        'unsafe without what the danger was',
        'add why: balance, why: medical or why: other, as in {unsafe: the reason, why: balance}',
        'key',
      ),
    );
  if (outcome !== 'unsafe' && why !== undefined)
    findings.push(badForm([...path, 'why'], `why does not belong to ${outcome}`, 'leave it out', 'key'));
  const note = asText(form.note);
  return {
    outcome,
    reason,
    ...(outcome === 'unsafe' && why !== undefined ? { why } : {}),
    ...(note === undefined ? {} : { note }),
  };
}
