/**
 * The shape of a session: which keys may stand where and what kind of value they hold, by the tables in session-keys.ts. Every
 * fault says what to write instead. The same tables make the JSON Schema (session-schema.ts); no schema library is loaded here.
 */

import { CLIENT_KEYS, FIELD_GROUPS, type Key, type Keys, type Leaf, ROOT_KEYS, STEROID_KEYS } from '../session-keys.ts';
import { explainLeaf, fits } from './explain.ts';
import { nearest } from './near.ts';
import { type Finding, MOST_PROBLEMS, type Path, shown } from './problems.ts';

/** The keys of a session file, group by group. */
const TOP_KEYS: readonly string[] = [
  ...Object.keys(ROOT_KEYS),
  'client',
  ...Object.keys(FIELD_GROUPS),
  'clearance',
  'risk',
  'plan',
  'tests',
];

export function isMapping(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What is at `path` in a plain tree; undefined where there is nothing. */
export function valueAt(tree: unknown, path: Path): unknown {
  let value = tree;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[key];
  }
  return value;
}

const UNKNOWN_KEYS_LISTED = 16;

/** An unknown key, with the nearest known one or all that could stand there. */
export function unknownKey(key: string, parent: Path, known: readonly string[], value: unknown): Finding {
  const path = [...parent, key];
  if (/^\d+$/.test(key) && (value === null || value === undefined))
    return {
      code: 'decimal_comma',
      path,
      at: 'key',
      message: `\`${shown(key)}\` looks like the part behind a decimal comma`,
      hint: 'write the number with a point instead, such as 4.2',
    };
  const suggestion = nearest(key, known);
  const all =
    known.length <= UNKNOWN_KEYS_LISTED ? `write one of ${known.join(', ')} instead` : 'write one of the known keys instead';
  const where = parent.length === 0 ? '' : ` in ${parent.join('.')}`;
  return {
    code: 'unknown_key',
    path,
    at: 'key',
    message: `unknown key \`${shown(key)}\`${where}`,
    hint: suggestion === undefined ? all : `write ${suggestion} instead`,
  };
}

/** Every entry of a list of trials that is no number. */
export function explainList(list: readonly unknown[], path: Path): Finding[] {
  if (list.length === 0)
    return [
      {
        code: 'bad_test_form',
        path,
        at: 'value',
        message: 'the list is empty',
        hint: 'write the results, such as [4.2, 6.0, 5.1], or leave the line out',
      },
    ];
  return list.flatMap((entry, index) =>
    Number.isFinite(entry) ? [] : [{ ...explainLeaf({ kind: 'number' }, entry, 'a trial'), path: [...path, index], at: 'value' }],
  );
}

export function notAMapping(path: Path): Finding {
  const name = path.length === 0 ? 'a session' : `\`${path.join('.')}\``;
  return {
    code: 'not_a_mapping',
    path,
    at: 'value',
    message: `${name} is not made of lines of \`key: value\``,
    hint: 'write one `key: value` a line, set in by two blanks',
  };
}

const MISSING_HINTS: Readonly<Record<string, string>> = {
  format: 'write format: 1 in the first line',
  assessed: 'write assessed: and the day of the visit as year-month-day',
  client: 'write client: {ref: M-207, sex: female, age: 74} with your own values',
  ref: 'write ref: and your own reference for the client',
  sex: 'write sex: female, sex: male or sex: not recorded',
};

function missingHint(name: string, leaf: Leaf | undefined): string {
  return MISSING_HINTS[name] ?? (leaf?.kind === 'text' ? `write ${name}: and a reason` : `write ${name}: and its value`);
}

function missing(name: string, path: Path, leaf?: Leaf): Finding {
  return { code: 'missing_key', path, at: 'key', message: `\`${path.join('.')}\` is missing`, hint: missingHint(name, leaf) };
}

function checkKey(name: string, key: Key, value: unknown, at: Path): Finding[] {
  const path = [...at, name];
  const { leaf } = key;
  if (value === undefined || value === null) return key.required === true ? [missing(name, path, leaf)] : [];
  if (leaf.kind === 'steroid' && isMapping(value)) return checkKeys(STEROID_KEYS, value, path);
  if (leaf.kind === 'numbers' && Array.isArray(value)) return explainList(value, path);
  if (leaf.kind === 'texts' && Array.isArray(value) && value.length > 0)
    return value.flatMap((entry, index) =>
      fits(leaf, entry) ? [] : [{ ...explainLeaf(leaf, entry, name), path: [...path, index], at: 'value' as const }],
    );
  return fits(leaf, value) ? [] : [{ ...explainLeaf(leaf, value, name), path, at: 'value' }];
}

/** A mapping of `keys` against its own table: unknown and missing keys, and values of another kind. An empty value counts as absent. */
export function checkKeys(keys: Keys, value: unknown, at: Path): Finding[] {
  if (!isMapping(value)) return [notAMapping(at)];
  const known = Object.keys(keys);
  return [
    ...unknownKeys(value, at, known),
    ...Object.entries(keys).flatMap(([name, key]) => checkKey(name, key, valueAt(value, [name]), at)),
  ];
}

function unknownKeys(value: Readonly<Record<string, unknown>>, at: Path, known: readonly string[]): Finding[] {
  const strange = Object.keys(value).filter((key) => !known.includes(key));
  return strange.slice(0, MOST_PROBLEMS).map((key) => unknownKey(key, at, known, value[key]));
}

function checkGroup(tree: unknown, group: string, keys: Keys): Finding[] {
  const value = valueAt(tree, [group]);
  return value === undefined || value === null ? [] : checkKeys(keys, value, [group]);
}

/** The shape of the whole session; the forms of test results are read in readings.ts. */
export function checkSession(tree: unknown): Finding[] {
  if (!isMapping(tree)) return [notAMapping([])];
  const client = valueAt(tree, ['client']);
  const tests = valueAt(tree, ['tests']);
  return [
    ...unknownKeys(tree, [], TOP_KEYS),
    ...Object.entries(ROOT_KEYS).flatMap(([name, key]) => checkKey(name, key, valueAt(tree, [name]), [])),
    ...(client === undefined || client === null ? [missing('client', ['client'])] : checkKeys(CLIENT_KEYS, client, ['client'])),
    ...Object.entries(FIELD_GROUPS).flatMap(([group, keys]) => checkGroup(tree, group, keys)),
    ...(tests === undefined || tests === null || isMapping(tests) ? [] : [notAMapping(['tests'])]),
  ];
}
