/** What was asked and measured beside the tests: one Observation an answer. */
import type { Assessment } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { FieldValue } from '../../session.ts';
import { plainId } from '../view/words.ts';
import { absentBecause, categoryOf, codeOf, ucumOf } from './codes.ts';
import { type About, quantity } from './observations.ts';
import type { Observation } from './r4.ts';

/** Units that a code brings with it. */
const OWN_UNITS: Readonly<Record<string, string>> = { 'history.falls_past_year': '{falls}/a' };
const VITAL = 'vitals.spo2_rest';

function answerOf(path: string, value: FieldValue, unitText: string): Partial<Observation> {
  if (value === 'unknown') return { dataAbsentReason: absentBecause('asked-unknown') };
  if (value === 'yes' || value === 'no') return { valueBoolean: value === 'yes' };
  if (typeof value === 'number')
    return { valueQuantity: quantity(value, OWN_UNITS[path] ?? ucumOf(unitText), unitText || undefined) };
  return { valueCodeableConcept: { text: plainId(value) } };
}

/** "Several" is kept as two, so two may stand for more. */
const noteOf = (path: string, value: FieldValue): Partial<Observation> =>
  path === 'history.falls_past_year' && value === 2
    ? { note: [{ text: 'Two, or several without a number: read it as two or more.' }] }
    : {};

/** In the order of the file. */
export function answerObservations(
  recorded: Assessment['recorded'],
  evidence: Evidence,
  { subject, date }: About,
): Observation[] {
  const known = new Map(evidence.fields.map((field) => [field.field, field]));
  return Object.entries(recorded ?? {}).map(([path, value]) => {
    const field = known.get(path);
    const text = field?.name ?? plainId(path.split('.').slice(1).join(' '));
    return {
      resourceType: 'Observation',
      status: 'final',
      category: [categoryOf(path === VITAL ? 'vital-signs' : path.startsWith('vitals.') ? 'exam' : 'survey')],
      code: codeOf(path, text),
      subject,
      effectiveDateTime: date,
      ...answerOf(path, value, field?.unit_text ?? ''),
      ...noteOf(path, value),
    };
  });
}
