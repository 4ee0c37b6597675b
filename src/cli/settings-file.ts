/** The text of a settings file -> its values. Apart from the rest because it alone needs the YAML library. */
import { plainYaml } from '../evidence/plain-yaml.ts';
import { CannotStart } from './io.ts';
import { readSettings, type SettingValues } from './setting-values.ts';

/** `shown` is the file as people shall read it. @throws CannotStart with the place of the first fault. */
export function settingsOf(text: string, shown: string): SettingValues {
  const { document, lineCounter, faults: broken, value } = plainYaml(text);
  const refusal = (offset: number, message: string): CannotStart => {
    const { line, col } = lineCounter.linePos(offset);
    return new CannotStart(`${shown}:${Math.max(line, 1)}:${Math.max(col, 1)}: ${message}`);
  };
  const [syntax] = broken;
  if (syntax !== undefined) throw refusal(syntax.offset, syntax.message);
  const { values, faults } = readSettings(value);
  const [fault] = faults;
  if (fault === undefined) return values;
  const node = document.getIn(fault.path, true);
  const range = typeof node === 'object' && node !== null && 'range' in node && Array.isArray(node.range) ? node.range : [0];
  throw refusal(Number(range[0]), fault.message);
}
