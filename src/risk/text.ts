/** Turns texts and sources of the data into those of the result. */
import type { Based } from '../assessment.ts';
import type { Facts } from '../evidence/condition.ts';
import { isRecorded } from '../evidence/condition.ts';
import { type Labels, testLabel, withUnit } from '../evidence/describe.ts';

/**
 * Fills `{vitals.spo2_rest}` (a field; the text holds the unit) and `{timed_up_and_go}` (a test; the unit is added).
 * What is not there becomes "not recorded", so that no text ever shows a gap.
 */
export function fill(text: string, facts: Facts, labels: Labels = {}): string {
  return text.replace(/\{([a-z0-9_.]+)\}/g, (_, name: string) =>
    name.includes('.') ? fieldText(name, facts) : testText(name, facts, labels),
  );
}

function fieldText(path: string, facts: Facts): string {
  const value = facts.field(path);
  return isRecorded(value) ? String(value) : 'not recorded';
}

function testText(id: string, facts: Facts, labels: Labels): string {
  const fact = facts.test(id);
  if (fact === undefined || fact.outcome === 'not_tested' || fact.outcome === 'unsafe_medical') return 'not tested';
  if (fact.outcome === 'unable' || fact.worst === null) return 'could not be done';
  return `${fact.atLeast ? 'at least ' : ''}${withUnit(fact.worst, testLabel(id, labels).unit)}`;
}

/** For statements that the program adds by itself. */
export const OWN_RULE: Based = { source: null, basis: 'own-rule', location: null };
