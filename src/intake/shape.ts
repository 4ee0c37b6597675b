/**
 * The shape of a session as zod schemas built from the tables in keys.ts, and the translation of every zod issue into a
 * finding that says what to write instead. Values are judged elsewhere (build.ts, readings.ts).
 */
import { z } from 'zod';
import { COUNTRY, explainLeaf, PRESSURE, TEXT } from './explain.ts';
import { ANSWERS, CLIENT_KEYS, FIELD_GROUPS, type Key, type Keys, type Leaf, ROOT_KEYS, STEROID_KEYS } from './keys.ts';
import { nearest } from './near.ts';
import { type Finding, MOST_PROBLEMS, type Path, shown } from './problems.ts';

/** `Yes` and `YES` are what a telephone or a tired hand types. */
const ANSWER_WORDS = ANSWERS.flatMap((word) => [word, `${word.charAt(0).toUpperCase()}${word.slice(1)}`, word.toUpperCase()]);

function leafSchema(leaf: Leaf): z.ZodType {
  switch (leaf.kind) {
    case 'answer':
      return z.union([z.enum(ANSWER_WORDS), z.boolean()]);
    case 'choice':
      return z.enum(leaf.options);
    case 'number':
      return z.number();
    case 'numbers':
      return z.union([z.number(), z.array(z.number()).min(1)]);
    case 'falls':
      return z.union([z.number(), z.literal('several')]);
    case 'steroid':
      return z.union([leafSchema({ kind: 'answer' }), mapping(STEROID_KEYS)]);
    case 'pressure':
      return z.string().regex(PRESSURE);
    case 'date':
      return z.iso.date();
    case 'text':
      return z.string().regex(TEXT.pattern).max(TEXT.longest);
    case 'reference':
      return z.union([z.string().regex(TEXT.pattern).max(TEXT.longestReference), z.number()]);
    case 'country':
      return z.string().regex(COUNTRY);
    case 'format':
      return z.literal(1);
  }
}

function keySchema(key: Key): z.ZodType {
  const schema = leafSchema(key.leaf).describe(key.about);
  return key.required === true ? schema : schema.nullish();
}

/** A strict object of these keys; an empty value is as good as an absent key. */
export function mapping(keys: Keys): z.ZodObject {
  return z.strictObject(Object.fromEntries(Object.entries(keys).map(([name, key]) => [name, keySchema(key)])));
}

/** The whole file, with the tests left open: their forms depend on the catalogue. */
export const SESSION_SHAPE: z.ZodObject = z.strictObject({
  ...mapping(ROOT_KEYS).shape,
  client: mapping(CLIENT_KEYS),
  ...Object.fromEntries(Object.entries(FIELD_GROUPS).map(([group, keys]) => [group, mapping(keys).nullish()])),
  tests: z.record(z.string(), z.unknown()).nullish(),
});

export const TOP_KEYS: readonly string[] = Object.keys(SESSION_SHAPE.shape);

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

function withoutSymbols(path: readonly PropertyKey[]): (string | number)[] {
  return path.map((key) => (typeof key === 'symbol' ? String(key) : key));
}

/** Looks up what may stand at a path below the mapping that was checked. */
export type LeafLookup = (path: Path) => Leaf | undefined;

/** Holds `value` against `schema` and reports every issue as a finding below `at`; `tree` is what paths are looked up in. */
export function checkShape(
  schema: z.ZodType,
  value: unknown,
  at: Path,
  keysAt: (path: Path) => readonly string[],
  leafAt: LeafLookup,
): Finding[] {
  const result = schema.safeParse(value);
  if (result.success) return [];
  return result.error.issues.flatMap((issue) => {
    const inner = withoutSymbols(issue.path);
    const path = [...at, ...inner];
    if (issue.code === 'unrecognized_keys')
      return issue.keys
        .slice(0, MOST_PROBLEMS)
        .map((key) => unknownKey(key, path, keysAt(inner), valueAt(value, [...inner, key])));
    const found = valueAt(value, inner);
    const leaf = leafAt(inner);
    if (leaf?.kind === 'steroid' && isMapping(found)) return checkKeys(STEROID_KEYS, found, path);
    if (found === undefined || found === null) {
      const name = path.at(-1) ?? 'session';
      return [
        {
          code: 'missing_key',
          path,
          at: 'key',
          message: `\`${path.join('.')}\` is missing`,
          hint: missingHint(String(name), leaf),
        },
      ];
    }
    if (leaf === undefined) return [notAMapping(path)];
    if (leaf.kind === 'numbers' && Array.isArray(found)) return explainList(found, path);
    return [{ ...explainLeaf(leaf, found, String(path.at(-1))), path, at: 'value' }];
  });
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
    typeof entry === 'number' && Number.isFinite(entry)
      ? []
      : [{ ...explainLeaf({ kind: 'number' }, entry, 'a trial'), path: [...path, index], at: 'value' }],
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

/** A flat mapping of `keys` against its own table. */
export function checkKeys(keys: Keys, value: unknown, at: Path): Finding[] {
  return checkShape(
    mapping(keys),
    value,
    at,
    () => Object.keys(keys),
    (path) => (path.length === 1 ? keys[String(path[0])]?.leaf : undefined),
  );
}

const GROUPS: Readonly<Record<string, Keys>> = { client: CLIENT_KEYS, ...FIELD_GROUPS };

/** The shape of the whole session. */
export function checkSession(tree: unknown): Finding[] {
  if (!isMapping(tree)) return [notAMapping([])];
  const keysAt = (path: Path): readonly string[] => (path.length === 0 ? TOP_KEYS : Object.keys(GROUPS[String(path[0])] ?? {}));
  const leafAt = (path: Path): Leaf | undefined => {
    const [first, second] = path;
    if (path.length === 1) return ROOT_KEYS[String(first)]?.leaf;
    return path.length === 2 ? GROUPS[String(first)]?.[String(second)]?.leaf : undefined;
  };
  return checkShape(SESSION_SHAPE, tree, [], keysAt, leafAt);
}
