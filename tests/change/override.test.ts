/** A level that the professional set stands beside the pathway's own before and after, in every format. */
import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/change/types.ts';
import { renderChangeHtml } from '../../src/report/change/html.ts';
import { renderChangeJson } from '../../src/report/change/json.ts';
import { renderChangeLetter } from '../../src/report/change/letter.ts';
import { renderChangeMarkdown } from '../../src/report/change/markdown.ts';
import { renderChangeText } from '../../src/report/change/text.ts';
import type { Fields, RiskOverride } from '../../src/session.ts';
import { recorded } from '../support/client.ts';
import { change, FIRST, LATER, visit } from './support.ts';

const LOW: Fields = {
  'history.falls_past_year': 0,
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
  'history.loss_of_consciousness': 'no',
  'health.clinical_frailty_scale': 2,
};
const HIGH: RiskOverride = { level: 'high', reason: 'two near falls seen' };

function found(before: RiskOverride | undefined, after: RiskOverride | undefined): Change {
  const at = (assessed: string, riskOverride: RiskOverride | undefined) => ({
    ...visit(assessed, [recorded('timed_up_and_go', 10), recorded('gait_speed_usual', 1.2)], LOW),
    assessor: 'A. Tester',
    ...(riskOverride === undefined ? {} : { riskOverride }),
  });
  return change([at(FIRST, before), at(LATER, after)]);
}

const plain = (text: string): string => text;
const FORMATS: Readonly<Record<string, (of: Change) => string>> = {
  text: (of) => renderChangeText(of, { width: 110, colour: { bold: plain, dim: plain, cyan: plain } }),
  markdown: renderChangeMarkdown,
  html: renderChangeHtml,
  letter: renderChangeLetter,
};

describe('a level set by hand', () => {
  it('stands beside the level of the pathway, which stays what it was', () => {
    const { risk } = found(undefined, HIGH);
    expect(risk).toMatchObject({ before: 'low', after: 'low', direction: 'same', before_override: null });
    expect(risk.after_override).toEqual({ level: 'high', label: 'High risk', reason: HIGH.reason, by: 'A. Tester' });
    expect(JSON.parse(renderChangeJson(found(HIGH, undefined))).risk).toMatchObject({
      before: 'low',
      before_override: { level: 'high', reason: HIGH.reason },
      after_override: null,
    });
  });

  it.each(Object.entries(FORMATS))('both are read in %s', (_, render) => {
    const text = render(found(undefined, HIGH)).replace(/\s+/g, ' ');
    expect(text).toMatch(/high risk, set by A\\?\. Tester\b/i);
    expect(text).toContain('two near falls seen');
    expect(text).toMatch(/pathway itself/);
    expect(text).toMatch(/low risk/i);
  });

  it.each(Object.entries(FORMATS))('nothing of it is said in %s where none was set', (_, render) => {
    expect(render(found(undefined, undefined))).not.toMatch(/set by|pathway itself/);
  });
});
