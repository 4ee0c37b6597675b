/** Ways to break a file: at the level of bytes, of lines, and of the tree that it holds. */
import { stringify } from 'yaml';
import type { Chance } from './random.ts';

/** Values that break readers: numbers at the edges, words of the language and of YAML, escapes, formulas, markup, other scripts. */
export const NASTY: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -0,
  -1,
  1.5,
  1e308,
  -1e308,
  1e-320,
  Number.MAX_SAFE_INTEGER + 2,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  '',
  ' ',
  'yes',
  'no',
  'null',
  '~',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '1e999',
  '0x1f',
  '0o17',
  '12,8',
  '1:30',
  '<5',
  '=1+1',
  '@SUM(A1)',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '$'.concat('{process.exit(9)}'),
  '<%= 1 %>',
  '{{1}}',
  '\u001b[2J',
  '\u001b]0;title\u0007',
  '\u202eabc',
  '\u0000',
  '\ud800',
  '\ufeff',
  '\u2028',
  'é'.repeat(500),
  '../../etc/passwd',
  'a\nb: c',
  '2026-02-30',
  '2026-13-01',
  '9999-12-31',
  '0000-00-00',
  [],
  {},
  [[[]]],
  { __proto__x: 1 },
  [1, null, 'x'],
  { value: {} },
  { unable: null },
  { right: [1], left: 'x' },
  { time: 5, distance: 0 },
  { value: Number.POSITIVE_INFINITY },
];
/** As somebody would type it. */
export const typed = (value: unknown): string => (typeof value === 'object' ? JSON.stringify(value) : String(value));

const KEYS = [
  '__proto__',
  'constructor',
  'prototype',
  '<<',
  'toString',
  '',
  ' ',
  '0',
  'value',
  'right',
  'unable',
  'é',
  'a.b',
  '\u001b[8m',
];

type Tree = Record<string, unknown>;
const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);

interface Place {
  readonly holder: Tree | unknown[];
  readonly key: string | number;
}

/** Every place in the tree that holds something: its holder and its key. */
function placesOf(value: unknown): Place[] {
  if (Array.isArray(value)) return value.flatMap((inner, key) => [{ holder: value, key }, ...placesOf(inner)]);
  if (!isTree(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) => [{ holder: value, key }, ...placesOf(inner)]);
}

const ownValue = (holder: Tree | unknown[], key: string | number): unknown => Object.getOwnPropertyDescriptor(holder, key)?.value;

function setOwn(holder: Tree | unknown[], key: string | number, value: unknown): void {
  Object.defineProperty(holder, key, { value, writable: true, enumerable: true, configurable: true });
}

type Change = (place: Place, random: Chance, elsewhere: () => Place) => void;

const CHANGES: readonly Change[] = [
  ({ holder, key }, { pick }) => setOwn(holder, key, structuredClone(pick(NASTY))),
  ({ holder, key }) => void Reflect.deleteProperty(holder, key),
  ({ holder, key }, { pick }) => setOwn(holder, isTree(holder) ? pick(KEYS) : key, ownValue(holder, key)),
  ({ holder, key }, { pick, maybe }) =>
    setOwn(holder, key, maybe(0.5) ? [ownValue(holder, key)] : { [pick(KEYS)]: ownValue(holder, key) }),
  ({ holder, key }, _random, elsewhere) => setOwn(holder, key, structuredClone(ownValue(elsewhere().holder, key) ?? null)),
  ({ holder, key }, { pick }) => {
    const value = ownValue(holder, key);
    if (typeof value === 'number') setOwn(holder, key, value * pick([-1, 10, 0.001, 1e6, 1e300]));
    if (typeof value === 'string') setOwn(holder, key, value + pick(['', ' ', 's', '+', '\n', ':', '#', '\t']));
  },
];

/** One to four changes of a copy of the tree: values replaced, keys renamed, entries removed, moved, nested, repeated. */
export function mutateTree(root: unknown, random: Chance): unknown {
  const tree: unknown = structuredClone(root);
  for (let left = random.maybe(0.6) ? 1 : 2 + random.whole(3); left > 0; left -= 1) {
    const places = placesOf(tree);
    if (places.length === 0) return random.pick(NASTY);
    random.pick(CHANGES)(random.pick(places), random, () => random.pick(places));
  }
  return tree;
}

/** As YAML in one of its forms; numbers that YAML cannot tell from words stay as they come. */
export function asYaml(tree: unknown, { maybe, pick }: Chance): string {
  if (maybe(0.2)) return JSON.stringify(tree);
  return stringify(tree, {
    indent: pick([1, 2, 4]),
    defaultStringType: pick(['PLAIN', 'QUOTE_DOUBLE']),
    collectionStyle: pick(['any', 'flow', 'block']),
    aliasDuplicateObjects: false,
  });
}

const FRAGMENTS = [
  '"',
  "'",
  ',',
  ':',
  ': ',
  '\n',
  '\r\n',
  '\r',
  '\t',
  '{',
  '}',
  '[',
  ']',
  '&a ',
  '*a',
  '!!js ',
  '!x ',
  '<<: *a\n',
  '---\n',
  '...\n',
  '%YAML 1.2\n',
  '# ',
  '|\n',
  '>-\n',
  '? ',
  '- ',
  '\u0000',
  '\ufeff',
  '""',
  ';',
  '\\',
  '[[[[[[[[',
  '{a: ',
] as const;

/** One to eight cuts, copies and insertions in the text. */
export function mutateText(text: string, { whole, pick, maybe }: Chance): string {
  let result = text;
  for (let left = maybe(0.6) ? 1 : 2 + whole(7); left > 0; left -= 1) {
    const at = whole(result.length + 1);
    const length = whole(pick([2, 8, 60]));
    const kind = whole(5);
    if (kind === 0) result = result.slice(0, at) + result.slice(at + length);
    else if (kind === 1) result = result.slice(0, at) + pick(FRAGMENTS) + result.slice(at);
    else if (kind === 2) result = result.slice(0, at) + result.slice(at, at + length).repeat(2) + result.slice(at + length);
    else if (kind === 3) result = result.slice(0, at) + typed(pick(NASTY)) + result.slice(at + length);
    else result = result.slice(0, at) + result.slice(whole(result.length + 1)).slice(0, length) + result.slice(at);
  }
  return result;
}

/** One to sixteen bytes flipped, set, put in or taken out. */
export function mutateBytes(bytes: Uint8Array, { whole, pick, maybe }: Chance): Buffer {
  let result = Buffer.from(bytes);
  for (let left = maybe(0.6) ? 1 : 2 + whole(15); left > 0; left -= 1) {
    const at = whole(result.length + 1);
    const kind = whole(4);
    if (kind === 0 && at < result.length) result[at] = (result[at] ?? 0) ^ (1 << whole(8));
    else if (kind === 1 && at < result.length) result[at] = pick([0, 10, 13, 34, 44, 127, 128, 192, 237, 255]);
    else if (kind === 2) result = Buffer.concat([result.subarray(0, at), Buffer.from([whole(256)]), result.subarray(at)]);
    else result = Buffer.concat([result.subarray(0, at), result.subarray(at + 1 + whole(4))]);
  }
  return result;
}
