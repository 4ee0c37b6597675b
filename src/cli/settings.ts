/** `footing settings`: which settings are in force and from where, and where they can be written. */
import { Command, Option } from 'commander';
import { escapedJson } from '../report/json.ts';
import type { Invocation } from './main.ts';
import { SETTING_NAMES, SETTINGS, type SettingDefinition, type SettingName } from './setting-values.ts';
import { type SettingsFile, settingsFiles } from './settings-in-force.ts';

const HELP = `
A flag on the command line comes first, then the environment, then .footing.yaml in the working folder, then settings.yaml in
your own folder. What a setting changes is printed in the result. A file holds lines such as:
  population: "NO"
  letterhead: [Falls clinic, 1 Example Street]
"footing help SETTING" explains one.

Examples:
  footing settings
  footing settings --format json

Exit code: 0 done, 2 a settings file cannot be used (the line at fault is named).
`;

export function settingsCommand(invocation: () => Invocation): Command {
  return new Command('settings')
    .description('show which settings are in force and where they come from')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--json', 'the same as --format json')
    .addHelpText('after', HELP)
    .action((options: { readonly format: 'text' | 'json'; readonly json?: boolean }) => {
      const asJson = options.json === true || options.format === 'json';
      const current = invocation();
      current.io.stdout.write(asJson ? asRecord(current) : asText(current));
    });
}

/** What a flag of this very command line sets. */
function flagged({ norms, population, settings }: Invocation, name: SettingName): unknown {
  if (name === 'population' && population !== settings.population?.value) return population;
  const before = settings.norms?.value.length ?? 0;
  return name === 'norms' && norms.length > before ? norms : undefined;
}

interface Row {
  readonly name: SettingName;
  readonly value: unknown;
  readonly from: string;
}

function rowsOf(invocation: Invocation): Row[] {
  return SETTING_NAMES.map((name) => {
    const definition: SettingDefinition = SETTINGS[name];
    const flag = flagged(invocation, name);
    if (flag !== undefined) return { name, value: flag, from: `the flag ${definition.flag}` };
    const setting = invocation.settings[name];
    return setting === undefined ? { name, value: null, from: 'not set' } : { name, value: setting.value, from: setting.from };
  });
}

const fileState = ({ shown, found }: SettingsFile): string => `${shown} (${found ? 'found' : 'not there'})`;

function asText(invocation: Invocation): string {
  const rows = rowsOf(invocation).map(({ name, value, from }) => {
    const shown = value === null ? 'not set' : `${typeof value === 'string' ? value : JSON.stringify(value)}  (${from})`;
    return `  ${name.padEnd(11)} ${shown}\n  ${''.padEnd(11)} ${SETTINGS[name].about}`;
  });
  const files = settingsFiles(invocation.io).map((file) => `  ${fileState(file)}`);
  return `Settings in force\n${rows.join('\n')}\n\nFiles, a later one comes before an earlier one\n${files.join('\n')}\n`;
}

function asRecord(invocation: Invocation): string {
  return escapedJson({
    settings: Object.fromEntries(rowsOf(invocation).map(({ name, value, from }) => [name, { value, from }])),
    files: settingsFiles(invocation.io).map(({ shown, found }) => ({ file: shown, found })),
  });
}
