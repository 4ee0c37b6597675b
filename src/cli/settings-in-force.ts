/**
 * Which settings are in force and from where: a flag comes before the environment, the environment before the file in the
 * working folder, that before the file in the person's own folder. A file is read by the YAML library only where it is there.
 */
import { posix, win32 } from 'node:path';
import type { Command } from 'commander';
import { countryCode } from './country.ts';
import { CannotStart, fileErrorInWords, type Io } from './io.ts';
import { LANGUAGE_TAG, SETTINGS, type SettingName, type SettingValues } from './setting-values.ts';
import { shownPath, userFolderOf } from './user-folder.ts';

/** In the working folder. Hidden, so that a folder of visits can hold it and still be read as visits only. */
const FOLDER_FILE = '.footing.yaml';
const USER_FILE = 'settings.yaml';

export interface SettingInForce<Value> {
  readonly value: Value;
  /** In words: `the environment variable FOOTING_PATHWAY`, `the settings file ~/.config/footing/settings.yaml`. */
  readonly from: string;
  /** File it was read from, as a path for `readFile`; undefined for the environment. */
  readonly file?: string;
}
export type SettingsInForce = { readonly [Name in SettingName]?: SettingInForce<NonNullable<SettingValues[Name]>> };

export interface SettingsFile {
  readonly path: string;
  readonly shown: string;
  readonly found: boolean;
}

/** The files that may hold settings, the person's own first. */
export function settingsFiles(io: Io): SettingsFile[] {
  const user = userFolderOf(io.env);
  const paths = [
    ...(user === null ? [] : [/^[A-Za-z]:|\\/.test(user) ? win32.join(user, USER_FILE) : posix.join(user, USER_FILE)]),
    FOLDER_FILE,
  ];
  return paths.map((path) => ({ path, shown: shownPath(path, io.env), found: textOf(path, io) !== null }));
}

const MISSING = new Set(['ENOENT', 'ENOTDIR']);

function textOf(path: string, io: Io): string | null {
  try {
    return io.readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && MISSING.has(String(error.code))) return null;
    throw new CannotStart(`cannot read the settings file ${shownPath(path, io.env)}: ${fileErrorInWords(error)}`);
  }
}

/** A relative norms folder starts where the settings file is, whatever the working folder. */
function besideFile(folder: string, file: string, env: Io['env']): string {
  const home = env.HOME ?? env.USERPROFILE;
  if (/^~[/\\]/.test(folder) && home !== undefined) return `${home}${folder.slice(1)}`;
  if (posix.isAbsolute(folder) || win32.isAbsolute(folder)) return folder;
  const path = file.includes('\\') ? win32 : posix;
  return path.join(path.dirname(file), folder);
}

function fromEnvironment(env: Io['env']): SettingsInForce {
  const found: Record<string, SettingInForce<unknown>> = {};
  for (const [name, definition] of Object.entries(SETTINGS)) {
    const variable = 'env' in definition ? definition.env : undefined;
    const text = variable === undefined ? undefined : env[variable]?.trim();
    if (variable === undefined || text === undefined || text === '') continue;
    if (definition.kind === 'language' && !LANGUAGE_TAG.test(text))
      throw new CannotStart(`${variable}: write the tag of a language, such as en`);
    // Folders are separated as in PATH, lines of a letterhead by a bar.
    const separator = name === 'norms' ? (/^[A-Za-z]:\\/.test(text) ? ';' : ':') : '|';
    const value = definition.kind === 'texts' ? text.split(separator).map((part) => part.trim()) : text;
    found[name] = { value, from: `the environment variable ${variable}` };
  }
  return found as SettingsInForce;
}

/** Everything but flags. @throws CannotStart with the place of the fault where a settings file cannot be used. */
export async function settingsInForce(io: Io): Promise<SettingsInForce> {
  let inForce: SettingsInForce = {};
  for (const { path, shown } of settingsFiles(io)) {
    const text = textOf(path, io);
    if (text === null) continue;
    const { settingsOf } = await import('./settings-file.ts');
    const values = settingsOf(text, shown);
    const placed = {
      ...values,
      ...(values.norms === undefined ? {} : { norms: values.norms.map((each) => besideFile(each, path, io.env)) }),
    };
    const from = `the settings file ${shown}`;
    inForce = {
      ...inForce,
      ...Object.fromEntries(Object.entries(placed).map(([name, value]) => [name, { value, from, file: path }])),
    };
  }
  const all = { ...inForce, ...fromEnvironment(io.env) };
  if (all.population === undefined) return all;
  return { ...all, population: { ...all.population, value: countryCode(all.population.value) ?? all.population.value } };
}

/** As options of commands know them: the name commander gives `--pathway`, `--letterhead`. */
const OPTION_SETTINGS = ['pathway', 'letterhead', 'language'] as const;

/**
 * Puts settings in the place of the defaults of the command's own options, and tells in words what they change in its result.
 * An option given on the command line stays as it is.
 */
export function applySettings(settings: SettingsInForce, command: Command, program: Command): string[] {
  for (const name of OPTION_SETTINGS) {
    const setting = settings[name];
    const known = command.options.some((option) => option.attributeName() === name);
    const source = command.getOptionValueSource(name);
    if (setting === undefined || !known || (source !== undefined && source !== 'default')) continue;
    command.setOptionValueWithSource(name, setting.value, 'config');
  }
  const notes: string[] = [];
  const note = (name: SettingName, what: string): void => {
    const from = settings[name]?.from;
    if (from !== undefined) notes.push(`Set by ${from}: ${what}`);
  };
  if (command.getOptionValueSource('pathway') === 'config') note('pathway', `the pathway ${settings.pathway?.value} decides`);
  if (program.getOptionValueSource('population') === undefined)
    note('population', `tables from ${settings.population?.value} are preferred`);
  note('norms', `norms of ${settings.norms?.value.map((folder) => baseName(folder)).join(', ')} are used`);
  note('limits', `own limits of typing for ${Object.keys(settings.limits?.value ?? {}).join(', ')}`);
  return notes;
}

/** The last part of a path: enough to know a folder by, and no one's home in it. */
const baseName = (path: string): string => path.split(/[/\\]/).findLast((part) => part !== '') ?? path;
