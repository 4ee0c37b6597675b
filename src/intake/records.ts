/** What is written about the visit itself: who, for what, what was cleared, and a level of risk set by hand. */
import { clearanceNames } from '../evidence/condition-fields.ts';
import type { Pathway, RedFlag } from '../evidence/schema/pathway.ts';
import type { Clearance, RiskOverride, Session } from '../session.ts';
import { CLEARANCE_KEYS, type Keys, RISK_KEYS } from '../session-keys.ts';
import { answerOf, futureDay } from './answers.ts';
import { nearest } from './near.ts';
import { type Finding, type Path, shown } from './problems.ts';
import { checkKeys, isMapping, valueAt } from './shape.ts';

/** Words that may stand at `clearance.for` and `risk.level`; without them any word is taken. */
export interface Known {
  readonly redFlags?: readonly Pick<RedFlag, 'id' | 'when'>[];
  readonly pathways?: readonly Pick<Pathway, 'levels'>[];
}

type Records = Pick<Session, 'clearances' | 'riskOverride' | 'goals' | 'consentToShare' | 'assessor'>;

const textOf = (value: unknown): string | undefined =>
  typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;

/** A text or a list of texts, as a list. */
const textsOf = (value: unknown): string[] => (Array.isArray(value) ? value : [value]).flatMap((each) => textOf(each) ?? []);

const unknownWord = (word: string, words: readonly string[], path: Path): Finding => {
  const near = nearest(word, words);
  return {
    code: 'not_a_choice',
    path,
    at: 'value',
    message: `\`${shown(word)}\` cannot stand here`,
    hint: `write ${near ?? words.join(' or ')} instead`,
  };
};

const wellFormed = (keys: Keys, value: unknown, path: Path, findings: Finding[]): value is Readonly<Record<string, unknown>> => {
  const faults = checkKeys(keys, value, path);
  findings.push(...faults);
  return faults.length === 0 && isMapping(value);
};

function readClearance(value: unknown, path: Path, { redFlags }: Known, today: string, findings: Finding[]): Clearance[] {
  if (!wellFormed(CLEARANCE_KEYS, value, path, findings)) return [];
  const [by, date] = [textOf(value.by), textOf(value.date)];
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
  const [level, reason] = [textOf(value.level), textOf(value.reason)];
  if (level === undefined || reason === undefined) return undefined;
  const levels = [...new Set(pathways?.flatMap((pathway) => pathway.levels.map((each) => each.id)))];
  if (pathways !== undefined && !levels.includes(level)) findings.push(unknownWord(level, levels, ['risk', 'level']));
  return { level, reason };
}

/** Faults go into `findings`; what is absent stays absent. */
export function readRecords(tree: unknown, known: Known, today: string, findings: Finding[]): Records {
  const clearances = readClearances(tree, known, today, findings);
  const riskOverride = readOverride(tree, known, findings);
  const goals = textsOf(valueAt(tree, ['goals']));
  const consentToShare = answerOf(valueAt(tree, ['consent_to_share']));
  const assessor = textOf(valueAt(tree, ['assessor']));
  return {
    ...(clearances.length === 0 ? {} : { clearances }),
    ...(riskOverride === undefined ? {} : { riskOverride }),
    ...(goals.length === 0 ? {} : { goals }),
    ...(consentToShare === undefined ? {} : { consentToShare }),
    ...(assessor === undefined ? {} : { assessor }),
  };
}
