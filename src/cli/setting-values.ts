/**
 * What can be set, as data: the key in a settings file, the environment variable and the flag that says the same. Adding a
 * setting is one entry here; `footing settings`, the reader of the files and the documentation's test follow from it.
 */
import { nearest } from '../intake/near.ts';
import { shown } from '../intake/problems.ts';

export type SettingKind = 'text' | 'texts' | 'country' | 'language' | 'limits';

export interface SettingDefinition {
  readonly kind: SettingKind;
  readonly about: string;
  /** Lines of a settings file that set it. */
  readonly example: string;
  /** Environment variable; absent where the value is too long for one. */
  readonly env?: string;
  /** Option on the command line that comes before every setting. */
  readonly flag?: string;
}

export const SETTINGS = {
  pathway: {
    kind: 'text',
    example: 'pathway: cdc_2019',
    env: 'FOOTING_PATHWAY',
    flag: '--pathway',
    about: 'The fall-risk pathway that decides, by its id',
  },
  population: {
    kind: 'country',
    example: 'population: "NO"',
    env: 'FOOTING_POPULATION',
    flag: '--population',
    about: 'Country whose tables are preferred, two letters such as NO',
  },
  norms: {
    kind: 'texts',
    example: 'norms: [clinic-norms]',
    env: 'FOOTING_NORMS',
    flag: '--norms',
    about: "A clinic's own norms folder, or a list of them; a relative path starts at the settings file",
  },
  letterhead: {
    kind: 'texts',
    example: 'letterhead: [Falls clinic, 1 Example Street]',
    env: 'FOOTING_LETTERHEAD',
    flag: '--letterhead',
    about: 'Lines that stand at the head of letters and handouts: a list, the first line is the clinic',
  },
  emergency_number: {
    kind: 'text',
    example: 'emergency_number: "112"',
    env: 'FOOTING_EMERGENCY_NUMBER',
    flag: '--emergency-number',
    about: 'Local emergency number, printed in the stop-and-call box of the handout',
  },
  limits: {
    kind: 'limits',
    example: 'limits:\n  timed_up_and_go: {unusual: {above: 45}}\n  vitals.spo2_rest: {unusual: {below: 88}}',
    about: 'Own limits of what can be typed: a test or field with impossible and unusual marks',
  },
  language: {
    kind: 'language',
    example: 'language: en',
    env: 'FOOTING_LANGUAGE',
    flag: '--language',
    about: 'Language of the page for the client, such as en; a clinic adds one in its norms folder',
  },
} as const satisfies Readonly<Record<string, SettingDefinition>>;

export type SettingName = keyof typeof SETTINGS;
export const SETTING_NAMES = Object.keys(SETTINGS) as readonly SettingName[];
/** A language as tags name it: en, nb, pt-BR. */
export const LANGUAGE_TAG = /^[a-z]{2,3}(-[A-Za-z0-9]+)*$/;

/** Ends of what can be typed for one test or field, in its own unit; a missing end keeps the built-in one. */
export interface OwnLimit {
  readonly below?: number;
  readonly above?: number;
}
export interface OwnLimits {
  readonly impossible?: OwnLimit;
  readonly unusual?: OwnLimit;
}

export interface SettingValues {
  readonly pathway?: string;
  readonly population?: string;
  readonly norms?: readonly string[];
  readonly letterhead?: readonly string[];
  readonly emergency_number?: string;
  readonly limits?: Readonly<Record<string, OwnLimits>>;
  readonly language?: string;
}

/** A value that cannot stand, with the keys that lead to it. */
export interface SettingFault {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

type Tree = Readonly<Record<string, unknown>>;
const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);
const isLine = (value: unknown): value is string => typeof value === 'string' && /^[^\u0000-\u001f\u007f]+$/.test(value);

function unknownKeys(tree: Tree, known: readonly string[], at: SettingFault['path']): SettingFault[] {
  return Object.keys(tree)
    .filter((key) => !known.includes(key))
    .map((key) => ({
      path: [...at, key],
      message: `there is no setting "${shown(key)}" here; write ${nearest(key, known) ?? `one of ${known.join(', ')}`} instead`,
    }));
}

function limitFaults(value: unknown, at: SettingFault['path']): SettingFault[] {
  if (!isTree(value)) return [{ path: at, message: 'write {below: NUMBER, above: NUMBER}, or one of them' }];
  return [
    ...unknownKeys(value, ['below', 'above'], at),
    ...['below', 'above']
      .filter((end) => value[end] !== undefined && !(typeof value[end] === 'number' && Number.isFinite(value[end])))
      .map((end) => ({ path: [...at, end], message: 'write a number' })),
  ];
}

function limitsFaults(value: unknown): SettingFault[] {
  if (!isTree(value)) return [{ path: ['limits'], message: 'write lines such as vitals.spo2_rest: {unusual: {below: 88}}' }];
  return Object.entries(value).flatMap(([id, entry]) => {
    if (!isTree(entry)) return [{ path: ['limits', id], message: 'write {unusual: {below: NUMBER}} or {impossible: ...}' }];
    return [
      ...unknownKeys(entry, ['impossible', 'unusual'], ['limits', id]),
      ...['impossible', 'unusual']
        .filter((key) => entry[key] !== undefined)
        .flatMap((key) => limitFaults(entry[key], ['limits', id, key])),
    ];
  });
}

function valueFaults(name: SettingName, value: unknown): SettingFault[] {
  const path = [name];
  switch (SETTINGS[name].kind) {
    case 'text':
      return isLine(value) ? [] : [{ path, message: 'write a word' }];
    case 'country':
      return typeof value === 'string' && /^[A-Za-z]{2}$/.test(value.trim())
        ? []
        : [{ path, message: 'write two letters such as GB, in quotes where they are NO' }];
    case 'language':
      return typeof value === 'string' && LANGUAGE_TAG.test(value)
        ? []
        : [{ path, message: 'write the tag of a language, such as en' }];
    case 'texts':
      return isLine(value) || (Array.isArray(value) && value.length > 0 && value.every(isLine))
        ? []
        : [{ path, message: 'write a text, or a list of texts' }];
    case 'limits':
      return limitsFaults(value);
  }
}

const list = (value: unknown): readonly string[] => (Array.isArray(value) ? value.map(String) : [String(value)]);

/** The content of one settings file -> its values, or every fault. An empty key counts as absent. */
export function readSettings(content: unknown): { readonly values: SettingValues; readonly faults: readonly SettingFault[] } {
  if (content === null || content === undefined) return { values: {}, faults: [] };
  if (!isTree(content)) return { values: {}, faults: [{ path: [], message: 'write lines of "key: value"' }] };
  const present = SETTING_NAMES.filter((name) => content[name] !== undefined && content[name] !== null);
  const faults = [...unknownKeys(content, SETTING_NAMES, []), ...present.flatMap((name) => valueFaults(name, content[name]))];
  if (faults.length > 0) return { values: {}, faults };
  const entries = present.map((name) => [name, SETTINGS[name].kind === 'texts' ? list(content[name]) : content[name]]);
  return { values: Object.fromEntries(entries) as SettingValues, faults };
}
