/** The text of a settings file -> its values. Apart from the rest because it alone needs the YAML library. */
import { LineCounter, parseDocument } from 'yaml';
import { CannotStart } from './io.ts';
import { readSettings, type SettingValues } from './setting-values.ts';

/** `shown` is the file as people shall read it. @throws CannotStart with the place of the first fault. */
export function settingsOf(text: string, shown: string): SettingValues {
  const lineCounter = new LineCounter();
  const document = parseDocument(text.replace(/^\uFEFF/, ''), { lineCounter });
  const refusal = (offset: number, message: string): CannotStart => {
    const { line, col } = lineCounter.linePos(offset);
    return new CannotStart(`${shown}:${line}:${col}: ${message}`);
  };
  const [syntax] = document.errors;
  if (syntax !== undefined) throw refusal(syntax.pos[0], syntax.message.split('\n')[0] ?? 'cannot be read as YAML');
  const { values, faults } = readSettings(document.toJS());
  const [fault] = faults;
  if (fault === undefined) return values;
  const node = document.getIn(fault.path, true);
  const range = typeof node === 'object' && node !== null && 'range' in node && Array.isArray(node.range) ? node.range : [0];
  throw refusal(Number(range[0]), fault.message);
}
