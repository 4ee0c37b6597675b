/** The short report: short enough to be read in the room, and yet nothing that guards the client is left out. */
import { describe, expect, test } from 'vitest';
import { assess } from '../../src/assess.ts';
import { bundledEvidence } from '../../src/evidence/bundled.ts';
import { parseSession } from '../../src/intake/index.ts';
import { shortSource } from '../../src/report/view/brief.ts';
import { exampleFiles } from '../support/run.ts';
import { copd74, unable86, undetermined } from './fixture.ts';
import { assessment, exercise } from './parts.ts';
import { briefTextOf, joined, textOf } from './support.ts';

const evidence = bundledEvidence();
const example = (name: string) => {
  const text = exampleFiles()[`examples/${name}.yaml`] ?? '';
  const { session } = parseSession(text, { file: name, catalogue: evidence, today: '2026-05-20' });
  if (session === null) throw new Error(`${name} is refused`);
  return assess(session, evidence);
};

describe('the short report', () => {
  test.each([
    ['copd-74', 270],
    ['chair-86', 250],
    ['steady-66', 210],
  ])('%s has at most %d lines, a quarter of the full one', (name, most) => {
    const given = example(name);
    const lines = briefTextOf(given).split('\n').length;
    expect(lines).toBeLessThanOrEqual(most);
    expect(lines * 3).toBeLessThan(textOf(given).split('\n').length);
  });

  test('keeps the warning beside a usual result in the range linked with falls', () => {
    expect(joined(briefTextOf(copd74))).toContain('usual for age, yet in the range linked with falls');
    expect(joined(briefTextOf(unable86))).toContain('Low risk. But: low by the questions only');
  });

  test('keeps the row used, how it was read, the formula, the error and who disagrees', () => {
    const text = joined(briefTextOf(copd74));
    expect(text).toContain('invented-table-b [2, abstract]; z = -(12.8 - 11.9) / 3.1 = -0.29');
    expect(text).toContain('true value probably 11.3 to 14.3 s');
    expect(text).toContain('recalled: not compared with the paper yet');
  });

  test('keeps every caution made for this client, what stops the exercise and what was not asked', () => {
    const given = example('copd-74');
    const text = joined(briefTextOf(given));
    for (const caution of given.cautions.filter((each) => each.specific === true)) expect(text).toContain(caution.text);
    for (const sign of given.stop_signs) expect(text).toContain(sign.text.split(': ')[0]);
    for (const point of given.risk.not_asked) expect(text.toLowerCase()).toContain(point.toLowerCase());
    for (const each of given.plan.flatMap((one) => one.cautions)) expect(text).toContain(each);
  });

  test('every source that a line names is listed, no other', () => {
    const text = joined(briefTextOf(example('copd-74')));
    const [body = '', list = ''] = text.split('SOURCES NAMED ABOVE');
    const numbers = (part: string) => new Set([...part.matchAll(/\[(\d+)(?:, [a-z -]+)?\]/g)].map((match) => match[1]));
    expect([...numbers(list)].filter((number) => !numbers(body).has(number))).toEqual([]);
    expect([...numbers(body)].filter((number) => !numbers(list).has(number))).toEqual([]);
  });

  test('a cap that set the start is shown, one for later steps is not', () => {
    const start = { ...exercise({}).start, name: 'Firm hold' };
    const caps = ['not beyond "Firm hold": walks with a frame', 'not beyond "Foam": bones may be weak'];
    const text = joined(briefTextOf(assessment({ plan: [exercise({ start, limited_by: caps })] })));
    expect(text).toContain('Not beyond "Firm hold": walks with a frame.');
    expect(text).not.toContain('bones may be weak');
  });

  test('says where the rest is', () => {
    const text = briefTextOf(undetermined);
    for (const words of ['--full', '--format json', 'footing explain']) expect(text).toContain(words);
    expect(text).toContain('[-] ');
    expect(text).toContain('EMERGENCY');
  });

  test('short names of sources', () => {
    const named = (citation: string) => shortSource({ number: 1, id: 'x', doi: null, location: null, status: null, citation });
    expect(named('van de Loo B, Someone C. A title. J Nowhere. 2024;1:2.')).toBe('van de Loo B 2024');
    expect(named('Gilbert AL, et al. J Nowhere. 2021;73:559.')).toBe('Gilbert AL 2021');
    expect(named('A leaflet on oxygen.')).toBe('A leaflet on oxygen');
  });
});
