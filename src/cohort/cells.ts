/**
 * One cell -> what a session file would hold at its place. What cannot be read stays as it was typed, so that the intake
 * refuses it with the same words as in a session file. `undefined` is "not recorded".
 */
import { isPlainNumber } from '../intake/numbers.ts';
import { own } from '../own.ts';
import { ANSWERS, type Leaf } from '../session-keys.ts';
import type { ColumnRule, ColumnSettings, OutcomeWord } from './settings.ts';
import type { Target } from './targets.ts';

export type ReadCell = (text: string) => unknown;

const SEX_WORDS: Readonly<Record<string, string>> = {
  female: 'female',
  f: 'female',
  woman: 'female',
  male: 'male',
  m: 'male',
  man: 'male',
  'not recorded': 'not recorded',
  unknown: 'not recorded',
};
const ANSWER_WORDS: Readonly<Record<string, boolean | string>> = { y: 'yes', n: 'no', true: 'yes', false: 'no' };
const DECIMAL_COMMA = /^-?\d+,\d+$/;
/** A day with or without a time of day behind it, as spreadsheets export it. */
const ISO_DAY = /^(\d{4}-\d{2}-\d{2})(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?$/;
const OTHER_DAY = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/;

/** Products of printed decimals without their binary dust: 112 x 0.01 is 1.12. */
const cleaned = (value: number): number => Number(value.toPrecision(12));

function asNumber(text: string, rule: ColumnRule, { decimal }: ColumnSettings): number | string {
  const point = decimal === 'comma' && DECIMAL_COMMA.test(text) ? text.replace(',', '.') : text;
  if (!isPlainNumber(point)) return text;
  const value = Number(point) * (rule.multiply ?? 1);
  if (rule.whole === 'down') return Math.floor(value);
  return rule.multiply === undefined ? value : cleaned(value);
}

function asDay(text: string, { dates }: ColumnSettings): string {
  const iso = ISO_DAY.exec(text)?.[1];
  if (iso !== undefined) return iso;
  const match = OTHER_DAY.exec(text);
  if (match === null || dates === 'ymd') return text;
  const [first, second] = [match[1] ?? '', match[2] ?? ''];
  const [day, month] = dates === 'dmy' ? [first, second] : [second, first];
  return `${match[3]}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}

function asAnswer(text: string): string {
  const word = text.toLowerCase();
  const known = ANSWERS.find((answer) => answer === word) ?? own(ANSWER_WORDS, word);
  return known === undefined ? text : String(known);
}

const asChoice = (text: string, options: readonly string[]): string => {
  const word = text.toLowerCase().replace(/[\s-]+/g, '_');
  return options.find((option) => option === word) ?? text;
};

function readLeaf(leaf: Leaf, rule: ColumnRule, settings: ColumnSettings): ReadCell {
  switch (leaf.kind) {
    case 'answer':
    case 'steroid':
      return asAnswer;
    case 'event':
      return (text) => {
        const day = asDay(text, settings);
        return day === text && !ISO_DAY.test(text) ? asAnswer(text) : day;
      };
    case 'choice':
      return (text) => asChoice(text, leaf.options);
    case 'number':
    case 'numbers':
      return (text) => asNumber(text, rule, settings);
    case 'falls':
      return (text) => (text.toLowerCase() === 'several' ? 'several' : asNumber(text, rule, settings));
    case 'range':
      return (text) => (text.includes('-') || text.includes('–') ? text : asNumber(text, rule, settings));
    case 'date':
      return (text) => asDay(text, settings);
    case 'country':
      return (text) => text.toUpperCase();
    default:
      return (text) => text;
  }
}

const outcomeReason = (text: string): string => `recorded as "${text}"`;

/** What stands in a session file for a test that was not measured. */
function outcomeForm(word: Exclude<OutcomeWord, 'not_recorded'>, text: string): unknown {
  switch (word) {
    case 'unable':
      return { unable: outcomeReason(text) };
    case 'declined':
      return { declined: outcomeReason(text) };
    case 'unsafe_balance':
      return { unsafe: outcomeReason(text), why: 'balance' };
    case 'unsafe_medical':
      return { unsafe: outcomeReason(text), why: 'medical' };
  }
}

function readTest(rule: ColumnRule, settings: ColumnSettings): ReadCell {
  const words = new Map(
    (['unable', 'declined', 'unsafe_balance', 'unsafe_medical'] as const).flatMap((outcome) =>
      settings.words[outcome].map((word) => [word, outcome] as const),
    ),
  );
  return (text) => {
    const outcome = words.get(text.toLowerCase());
    return outcome === undefined ? asNumber(text, rule, settings) : outcomeForm(outcome, text);
  };
}

function readerOf(target: Target, rule: ColumnRule, settings: ColumnSettings): ReadCell {
  if (target.kind === 'test') return readTest(rule, settings);
  if (target.kind === 'ref') return (text) => text;
  if (target.kind === 'assessed') return readLeaf({ kind: 'date' }, rule, settings);
  if (target.kind === 'client' && target.key === 'sex') return (text) => own(SEX_WORDS, text.toLowerCase()) ?? text;
  return readLeaf(target.leaf, rule, settings);
}

/** How the cells of one column are read: the map's own values first, then "not recorded", then what the target wants. */
export function cellReader(target: Target, rule: ColumnRule, settings: ColumnSettings): ReadCell {
  if (target.kind === 'ref' && rule.values === undefined) return (cell) => cell.trim() || undefined;
  const read = readerOf(target, rule, settings);
  const values = new Map(Object.entries(rule.values ?? {}));
  const empty = new Set(target.kind === 'ref' ? [''] : settings.words.not_recorded);
  const alsoEmpty = target.kind === 'client' || (target.kind === 'field' && hasNoUnknown(target.leaf)) ? 'unknown' : null;
  return (cell) => {
    const typed = cell.trim();
    const text = values.get(typed.toLowerCase()) ?? typed;
    const word = text.toLowerCase();
    const choice = 'leaf' in target && isChoiceWord(target.leaf, word);
    if (!choice && (empty.has(word) || word === alsoEmpty)) return undefined;
    return read(text);
  };
}

/** A session file has no "unknown" for these: the key is left out. */
const hasNoUnknown = (leaf: Leaf): boolean => ['number', 'falls', 'pressure', 'range', 'choice'].includes(leaf.kind);
const isChoiceWord = (leaf: Leaf, word: string): boolean => leaf.kind === 'choice' && leaf.options.includes(word);
