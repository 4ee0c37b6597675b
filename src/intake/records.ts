/** What is written about the visit itself: who, for what, what was cleared, and a level of risk set by hand. */
import { clearanceNames } from '../evidence/condition-fields.ts';
import type { Clearance, RiskOverride, Session } from '../session.ts';
import { CLEARANCE_KEYS, RISK_KEYS } from '../session-keys.ts';
import { answerOf, futureDay } from './answers.ts';
import { type Known, textsOf, unknownWord, wellFormed } from './entries.ts';
import { asText } from './forms.ts';
import { nearest } from './near.ts';
import { readPlanWishes } from './plan-wishes.ts';
import type { Finding, Path } from './problems.ts';
import { valueAt } from './shape.ts';

type Records = Pick<Session, 'clearances' | 'riskOverride' | 'planWishes' | 'goals' | 'consentToShare' | 'assessor'>;

function readClearance(value: unknown, path: Path, { redFlags }: Known, today: string, findings: Finding[]): Clearance[] {
  if (!wellFormed(CLEARANCE_KEYS, value, path, findings)) return [];
  const [by, date] = [asText(value.by), asText(value.date)];
  if (by === undefined || date === undefined) return [];
  if (date > today) findings.push(futureDay(date, today, [...path, 'date']));
  const names = redFlags?.flatMap(clearanceNames) ?? [];
  const wanted = textsOf(value.for);
  const strange = redFlags === undefined ? undefined : wanted.find((name) => !names.includes(name));
  if (strange !== undefined) {
    const { hint, ...finding } = unknownWord(strange, names, [...path, 'for']);
    const listed = nearest(strange, names) === undefined ? 'write the word that the report names with the red flag' : hint;
    findings.push({ ...finding, hint: listed });
  }
  return wanted.map((name) => ({ by, date, for: name }));
}

function readClearances(tree: unknown, known: Known, today: string, findings: Finding[]): Clearance[] {
  const value = valueAt(tree, ['clearance']);
  if (value === undefined || value === null) return [];
  if (!Array.isArray(value)) return readClearance(value, ['clearance'], known, today, findings);
  return value.flatMap((each, index) => readClearance(each, ['clearance', index], known, today, findings));
}

function readOverride(tree: unknown, { pathways }: Known, findings: Finding[]): RiskOverride | undefined {
  const value = valueAt(tree, ['risk']);
  if (value === undefined || value === null || !wellFormed(RISK_KEYS, value, ['risk'], findings)) return undefined;
  const [level, reason] = [asText(value.level), asText(value.reason)];
  if (level === undefined || reason === undefined) return undefined;
  const levels = [...new Set(pathways?.flatMap((pathway) => pathway.levels.map((each) => each.id)))];
  if (pathways !== undefined && !levels.includes(level)) findings.push(unknownWord(level, levels, ['risk', 'level']));
  return { level, reason };
}

/** Faults go into `findings`; what is absent stays absent. */
export function readRecords(tree: unknown, known: Known, today: string, findings: Finding[]): Records {
  const clearances = readClearances(tree, known, today, findings);
  const riskOverride = readOverride(tree, known, findings);
  const planWishes = readPlanWishes(tree, known, findings);
  const goals = textsOf(valueAt(tree, ['goals']));
  const consentToShare = answerOf(valueAt(tree, ['consent_to_share']));
  const assessor = asText(valueAt(tree, ['assessor']));
  return {
    ...(clearances.length === 0 ? {} : { clearances }),
    ...(riskOverride === undefined ? {} : { riskOverride }),
    ...(planWishes === undefined ? {} : { planWishes }),
    ...(goals.length === 0 ? {} : { goals }),
    ...(consentToShare === undefined ? {} : { consentToShare }),
    ...(assessor === undefined ? {} : { assessor }),
  };
}
