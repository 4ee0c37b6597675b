/** A map file (YAML) -> settings, or every mistake in it with its line. */
import { isMap, isScalar } from 'yaml';
import { plainYaml } from '../evidence/plain-yaml.ts';
import { nearest } from '../intake/near.ts';
import { shown } from '../intake/problems.ts';
import { type ColumnRule, type ColumnSettings, DEFAULT_SETTINGS, OUTCOME_WORDS } from './settings.ts';
import type { Targets } from './targets.ts';

export interface MapProblem {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}
export interface GoodMap {
  readonly settings: ColumnSettings;
  /** Where the map speaks of something, by the keys that lead to it. */
  readonly placeOf: (path: readonly string[]) => Omit<MapProblem, 'message'>;
}
export type ReadMap = GoodMap | { readonly problems: readonly MapProblem[] };

type Say = (path: readonly string[], message: string) => unknown;
type Tree = Readonly<Record<string, unknown>>;

const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);
const TOP = ['format', 'decimal', 'dates', 'words', 'columns'] as const;
const RULE = ['to', 'values', 'whole', 'multiply', 'ceiling', 'distance', 'start', 'as', 'chair_cm'] as const;
/** A column with this word is passed on without being read. */
const PASS = 'pass';

const suggestion = (word: string, known: readonly string[]): string => {
  const near = nearest(word, known);
  return near === undefined ? (known.length < 12 ? `; write one of ${known.join(', ')}` : '') : `; did you mean ${near}?`;
};

function oneOf<Word extends string>(value: unknown, words: readonly Word[], path: string[], say: Say): Word | undefined {
  if (value === undefined) return undefined;
  const found = words.find((word) => word === value);
  if (found === undefined) say(path, `\`${shown(value)}\` cannot stand here; write ${words.join(' or ')}`);
  return found;
}

function unknownKeys(tree: Tree, known: readonly string[], path: string[], say: Say): void {
  for (const key of Object.keys(tree))
    if (!known.includes(key)) say([...path, key], `unknown key \`${shown(key)}\`${suggestion(key, known)}`);
}

function numberAt(tree: Tree, key: string, path: string[], say: Say): number | undefined {
  const value = tree[key];
  if (value === undefined) return undefined;
  if (typeof value === 'number' && Number.isFinite(value) && value > 0) return value;
  say([...path, key], `${key} is a number above 0`);
  return undefined;
}

function readWords(value: unknown, say: Say): ColumnSettings['words'] {
  const words = { ...DEFAULT_SETTINGS.words };
  if (value === undefined) return words;
  if (!isTree(value)) say(['words'], 'words holds lists, such as unable: [unable, could not stand]');
  else {
    unknownKeys(value, OUTCOME_WORDS, ['words'], say);
    for (const outcome of OUTCOME_WORDS) {
      const list = value[outcome];
      if (list === undefined) continue;
      if (!Array.isArray(list)) say(['words', outcome], `${outcome} is a list, such as [unable, could not stand]`);
      else
        words[outcome] = list.map((word) =>
          String(word ?? '')
            .trim()
            .toLowerCase(),
        );
    }
    // Whatever else stands for it: an empty cell is nothing else.
    if (!words.not_recorded.includes('')) words.not_recorded = ['', ...words.not_recorded];
    twice(words, say);
  }
  return words;
}

/** One word cannot stand for two outcomes; a stated list takes its words from the other, default ones. */
function twice(words: Record<string, readonly string[]>, say: Say): void {
  const seen = new Map<string, string>();
  for (const [outcome, list] of Object.entries(words))
    for (const word of list) {
      const before = seen.get(word);
      if (before !== undefined && before !== outcome)
        say(['words', outcome], `"${shown(word)}" stands for ${before} as well; state both lists`);
      seen.set(word, outcome);
    }
}

function readRule(value: unknown, path: string[], targets: Targets, say: Say): ColumnRule | null {
  if (value === PASS || value === null) return { to: null };
  const tree: Tree = isTree(value) ? value : { to: value };
  unknownKeys(tree, RULE, path, say);
  const { to } = tree;
  const names = [...targets.byName.keys()];
  if (to === PASS) return { to: null };
  if (typeof to !== 'string' || !targets.byName.has(to)) {
    say(path, to === undefined ? 'the rule lacks `to`' : `unknown column \`${shown(to)}\`${suggestion(String(to), names)}`);
    return null;
  }
  const { values } = tree;
  if (values !== undefined && !isTree(values)) say([...path, 'values'], 'values holds pairs such as {1: female, 2: male}');
  const numbers = (['multiply', 'ceiling', 'distance', 'chair_cm'] as const).map((key) => [key, numberAt(tree, key, path, say)]);
  const rule: ColumnRule = {
    to,
    ...Object.fromEntries(numbers.filter(([, number]) => number !== undefined)),
    ...(isTree(values) ? { values: readValues(values, path, say) } : {}),
    ...present('whole', oneOf(tree.whole, ['down'] as const, [...path, 'whole'], say)),
    ...present('start', oneOf(tree.start, ['standing', 'moving'] as const, [...path, 'start'], say)),
    ...present('as', oneOf(tree.as, ['time'] as const, [...path, 'as'], say)),
  };
  if (rule.as === 'time' && rule.distance === undefined) say(path, 'as: time needs the distance of the walk in metres');
  return rule;
}

function readValues(values: Record<string, unknown>, path: readonly string[], say: Say): Record<string, string> {
  const words = Object.entries(values).flatMap(([cell, word]): [string, string][] => {
    if (typeof word !== 'object' || word === null) return [[cell.trim().toLowerCase(), asWord(word)]];
    say([...path, 'values', cell], 'a cell stands for one word, as in {1: female, 2: male}');
    return [];
  });
  return Object.fromEntries(words);
}

/** `yes` and `no` are words in a map, whatever YAML makes of them. */
const asWord = (value: unknown): string => (typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value ?? ''));

const present = <Key extends string, Value>(key: Key, value: Value | undefined): Partial<Record<Key, Value>> =>
  (value === undefined ? {} : { [key]: value }) as Partial<Record<Key, Value>>;

function readColumns(value: unknown, targets: Targets, say: Say): Record<string, ColumnRule> {
  if (value === undefined) return {};
  if (!isTree(value)) {
    say(['columns'], 'columns holds one `heading: name` a line');
    return {};
  }
  const rules: Record<string, ColumnRule> = {};
  for (const [heading, entry] of Object.entries(value)) {
    const rule = readRule(entry, ['columns', heading], targets, say);
    if (rule !== null) rules[heading.trim()] = rule;
  }
  return rules;
}

/** Missing is never "no" and never zero, not by a map either. */
function missingStaysMissing({ columns, words: { not_recorded: missing } }: ColumnSettings, say: Say): void {
  for (const [heading, { values = {} }] of Object.entries(columns))
    for (const [cell, word] of Object.entries(values))
      if (missing.includes(cell) && !missing.includes(word.toLowerCase()))
        say(
          ['columns', heading, 'values'],
          `\`${shown(cell)}\` means "not recorded" and cannot stand for \`${shown(word)}\`; where it does mean that in your table, write words: {not_recorded: [...]} without it, which an empty cell always is`,
        );
}

/** Reads a map file. Pure; every problem at once. */
export function readMapFile(text: string, targets: Targets): ReadMap {
  const { document, lineCounter: lines, faults, value: tree } = plainYaml(text);
  const problems: MapProblem[] = faults.map(({ offset, message }) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(line, 1), column: Math.max(col, 1), message };
  });
  if (problems.length > 0) return { problems };
  const placeOf: GoodMap['placeOf'] = (path) => {
    const { line, col } = lines.linePos(offsetOf(document.contents, path));
    return { line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const say: Say = (path, message) => problems.push({ ...placeOf(path), message });
  if (!isTree(tree)) return { problems: [{ line: 1, column: 1, message: 'a map file holds `columns:` and what belongs to it' }] };
  unknownKeys(tree, TOP, [], say);
  if (tree.format !== undefined && tree.format !== 1) say(['format'], 'write format: 1');
  const settings: ColumnSettings = {
    decimal: oneOf(tree.decimal, ['point', 'comma'] as const, ['decimal'], say) ?? DEFAULT_SETTINGS.decimal,
    dates: oneOf(tree.dates, ['ymd', 'dmy', 'mdy'] as const, ['dates'], say) ?? DEFAULT_SETTINGS.dates,
    words: readWords(tree.words, say),
    columns: readColumns(tree.columns, targets, say),
  };
  missingStaysMissing(settings, say);
  return problems.length > 0 ? { problems } : { settings, placeOf };
}

/** Offset of the deepest key of `path` that is there. */
function offsetOf(contents: unknown, path: readonly string[]): number {
  let node = contents;
  let offset = 0;
  for (const key of path) {
    if (!isMap(node)) break;
    const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === key);
    if (pair === undefined) break;
    if (isScalar(pair.key)) offset = pair.key.range?.[0] ?? offset;
    node = pair.value;
  }
  return offset;
}
