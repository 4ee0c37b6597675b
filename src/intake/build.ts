/**
 * A plain tree (from YAML, or made of CSV cells) -> Session, or everything that is wrong with it. Pure, and without file
 * positions: each finding names the path of keys, and whoever made the tree knows where that is.
 */
import type { FieldLimits, TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Client, ClientSex, Fields, FieldValue, Session, Setting } from '../session.ts';
import { FIELD_GROUPS, type Keys, SEVERAL_FALLS, STEROID_KEYS } from '../session-keys.ts';
import { answerOf, futureDay } from './answers.ts';
import { completedYears, parseDate } from './dates.ts';
import type { Known } from './entries.ts';
import { RANGE } from './explain.ts';
import { asNumber } from './forms.ts';
import { type Finding, isRefusal, type Path } from './problems.ts';
import { readTests } from './readings.ts';
import { readRecords } from './records.ts';
import { checkSession, isMapping, valueAt } from './shape.ts';
import { checkContradictions, checkField } from './values.ts';

/** What of the evidence the intake needs. */
export interface Catalogue extends Known {
  readonly tests: readonly TestDefinition[];
  readonly fields: readonly FieldLimits[];
}

export interface BuildOptions {
  readonly catalogue: Catalogue;
  /** ISO date; a visit after it is refused. */
  readonly today: string;
}

export interface Built {
  /** null where anything is refused. */
  readonly session: Session | null;
  readonly findings: readonly Finding[];
}

interface Gathering {
  readonly today: string;
  readonly catalogue: Catalogue;
  readonly fields: Record<string, FieldValue>;
  readonly findings: Finding[];
}

function putNumber(field: string, value: unknown, path: Path, into: Gathering): void {
  const number = asNumber(value);
  if (number === undefined) return;
  into.fields[field] = number;
  into.findings.push(...checkField(field, number, path, into.catalogue.fields));
}

function putSteroid(field: string, value: unknown, path: Path, into: Gathering): void {
  if (!isMapping(value)) {
    putWord(field, answerOf(value), into);
    return;
  }
  into.fields[field] = 'yes';
  for (const part of Object.keys(STEROID_KEYS)) putNumber(`${field}.${part}`, value[part], [...path, part], into);
}

function putWord(field: string, word: string | undefined, into: Gathering): void {
  if (word !== undefined) into.fields[field] = word;
}

function putPressure(field: string, value: unknown, path: Path, into: Gathering): void {
  const match = typeof value === 'string' ? /^(\d+)\/(\d+)$/.exec(value) : null;
  if (match === null) return;
  putNumber(`${field}_systolic`, Number(match[1]), path, into);
  putNumber(`${field}_diastolic`, Number(match[2]), path, into);
}

function putFalls(field: string, value: unknown, path: Path, into: Gathering): void {
  if (value === 'several') {
    into.fields[field] = SEVERAL_FALLS;
    into.fields[`${field}_text`] = value;
  } else putNumber(field, value, path, into);
}

/** An answer, or the day of it: then yes. */
function putEvent(field: string, value: unknown, path: Path, into: Gathering): void {
  const day = typeof value === 'string' && parseDate(value) !== null ? value : undefined;
  putWord(field, day === undefined ? answerOf(value) : 'yes', into);
  if (day === undefined) return;
  into.fields[`${field}.date`] = day;
  if (day > into.today) into.findings.push(futureDay(day, into.today, path));
}

function putRange(field: string, value: unknown, path: Path, into: Gathering): void {
  const match = typeof value === 'string' ? RANGE.exec(value) : null;
  putNumber(`${field}_low`, match === null ? value : Number(match[1]), path, into);
  if (match !== null) putNumber(`${field}_high`, Number(match[2]), path, into);
}

function putKey(group: string, key: string, keys: Keys, value: unknown, into: Gathering): void {
  const leaf = keys[key]?.leaf;
  const field = `${group}.${key}`;
  const path = [group, key];
  if (leaf?.kind === 'answer') putWord(field, answerOf(value), into);
  else if (leaf?.kind === 'choice')
    putWord(
      field,
      leaf.options.find((option) => option === value),
      into,
    );
  else if (leaf?.kind === 'number') putNumber(field, value, path, into);
  else if (leaf?.kind === 'falls') putFalls(field, value, path, into);
  else if (leaf?.kind === 'pressure') putPressure(field, value, path, into);
  else if (leaf?.kind === 'event') putEvent(field, value, path, into);
  else if (leaf?.kind === 'range') putRange(field, value, path, into);
  else if (leaf?.kind === 'steroid') putSteroid(field, value, path, into);
}

function gatherFields(tree: unknown, into: Gathering): void {
  for (const [group, keys] of Object.entries(FIELD_GROUPS))
    for (const key of Object.keys(keys)) putKey(group, key, keys, valueAt(tree, [group, key]), into);
  into.findings.push(...checkContradictions(into.fields));
}

const textAt = (tree: unknown, ...path: string[]): string | undefined => {
  const value = valueAt(tree, path);
  return typeof value === 'string' ? value : undefined;
};

const numberAt = (tree: unknown, ...path: string[]): number | undefined => asNumber(valueAt(tree, path));

function checkVisitDay(assessed: string | undefined, today: string, findings: Finding[]): void {
  if (assessed === undefined || parseDate(assessed) === null || assessed <= today) return;
  findings.push({
    code: 'future_date',
    path: ['assessed'],
    at: 'value',
    message: `the visit of ${assessed} lies in the future (today is ${today})`,
    hint: 'write the day of the visit',
  });
}

/** Age in completed years on the day of the visit: as given, or from the date of birth. */
function ageOf(tree: unknown, into: Gathering): number | undefined {
  const { findings, catalogue } = into;
  const given = numberAt(tree, 'client', 'age');
  if (given !== undefined) findings.push(...checkField('client.age', given, ['client', 'age'], catalogue.fields));
  const bornText = textAt(tree, 'client', 'born');
  const born = parseDate(bornText ?? '');
  const assessed = parseDate(textAt(tree, 'assessed') ?? '');
  const path = ['client', 'born'];
  if (born === null || assessed === null) {
    const client = valueAt(tree, ['client']);
    const neither = [valueAt(client, ['age']), valueAt(client, ['born'])].every((value) => value === undefined || value === null);
    if (isMapping(client) && neither)
      findings.push({
        code: 'missing_key',
        path: ['client', 'age'],
        at: 'key',
        message: 'the client has neither age nor date of birth',
        hint: 'write age: 74, or born: 1952-03-08, with your own value',
      });
    return given;
  }
  const years = completedYears(born, assessed);
  if (years < 0)
    findings.push({
      code: 'born_after_visit',
      path,
      at: 'value',
      message: `born on ${bornText}, after the visit`,
      hint: 'write the date of birth',
    });
  else findings.push(...checkField('client.age', years, path, catalogue.fields));
  if (given !== undefined && given !== years && years >= 0)
    findings.push({
      code: 'contradiction',
      path: ['client', 'age'],
      at: 'value',
      message: `age ${given}, but ${years} by the date of birth`,
      hint: `write only born, or age: ${years}`,
    });
  return years;
}

function bodySize(tree: unknown, key: 'height_cm' | 'weight_kg', into: Gathering): number | undefined {
  const value = numberAt(tree, 'client', key);
  if (value !== undefined) into.findings.push(...checkField(`client.${key}`, value, ['client', key], into.catalogue.fields));
  return value;
}

const isSex = (value: unknown): value is ClientSex => value === 'female' || value === 'male' || value === 'not recorded';
const isSetting = (value: unknown): value is Setting =>
  value === 'community' || value === 'residential_care' || value === 'hospital';

function clientOf(tree: unknown, into: Gathering): Client | null {
  const age = ageOf(tree, into);
  const heightCm = bodySize(tree, 'height_cm', into);
  const weightKg = bodySize(tree, 'weight_kg', into);
  const ref = valueAt(tree, ['client', 'ref']);
  const sex = valueAt(tree, ['client', 'sex']);
  const setting = valueAt(tree, ['client', 'setting']);
  const born = textAt(tree, 'client', 'born');
  const country = textAt(tree, 'client', 'country');
  if (age === undefined || !isSex(sex) || (typeof ref !== 'string' && typeof ref !== 'number')) return null;
  return {
    ref: String(ref).trim(),
    sex,
    age,
    ...(born === undefined ? {} : { born }),
    setting: isSetting(setting) ? setting : 'community',
    settingAssumed: setting === undefined || setting === null,
    ...(heightCm === undefined ? {} : { heightCm }),
    ...(weightKg === undefined ? {} : { weightKg }),
    ...(country === undefined ? {} : { country }),
  };
}

/** One finding a place: what is wrong first explains the rest. Warnings beside each other all stay. */
function oncePerPlace(findings: readonly Finding[]): Finding[] {
  const refused = new Set<string>();
  return findings.filter((finding) => {
    const place = JSON.stringify(finding.path);
    if (refused.has(place)) return false;
    if (isRefusal(finding)) refused.add(place);
    return true;
  });
}

/** `earlier` are findings of whoever made the tree; a refusal at a place silences later ones there. */
export function buildSession(tree: unknown, { catalogue, today }: BuildOptions, earlier: readonly Finding[] = []): Built {
  const into: Gathering = { catalogue, today, fields: {}, findings: [...earlier, ...checkSession(tree)] };
  const assessed = textAt(tree, 'assessed');
  checkVisitDay(assessed, today, into.findings);
  const client = clientOf(tree, into);
  gatherFields(tree, into);
  const tests = readTests(valueAt(tree, ['tests']), catalogue.tests, into.findings);
  const records = readRecords(tree, catalogue, today, into.findings);
  const findings = oncePerPlace(into.findings);
  if (client === null || assessed === undefined || findings.some(isRefusal)) return { session: null, findings };
  const fields: Fields = into.fields;
  const notes = findings.map(noteOf);
  return { session: { format: 1, client, assessed, fields, tests, notes, ...records }, findings };
}

function noteOf({ message, hint }: Finding): string {
  return hint === '' ? message : `${message}; ${hint}`;
}
