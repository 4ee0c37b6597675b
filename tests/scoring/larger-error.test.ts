/** Where two measurement errors are meant for the same client the default is used, and a larger one stands beside it. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { renderText } from '../../src/report/text.ts';
import type { Fields } from '../../src/session.ts';
import { recorded, session, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

const evidence = testEvidence();
const COPD: Fields = { 'health.lung_condition': 'copd' };
const visit = (fields: Fields, speed: number) =>
  assess(session([recorded('timed_up_and_go', 13), recorded('gait_speed_usual', speed)], fields), evidence);
const upAndGo = (found: ReturnType<typeof visit>) => found.tests.find(({ test }) => test === 'timed_up_and_go');

describe('two published errors for one client', () => {
  // Marques 2016, COPD, single trial: MDC95 2.68 s. Mangione 2010, frail: SEM 1.7 s, so MDC95 1.96 x root 2 x 1.7 = 4.7 s.
  it('lung disease and slow walking: the lung figure is used, the larger one is shown', () => {
    const found = upAndGo(visit(COPD, 0.7));
    expect(found?.measurement_error).toMatchObject({ id: 'timed_up_and_go_marques_copd_single', mdc95: 2.68 });
    expect(found?.measurement_error?.larger).toMatchObject({
      id: 'timed_up_and_go_mangione',
      source: 'mangione-2010-change',
      status: 'abstract',
      mdc95: 4.7,
      // 13 s +/- 1.96 x 1.7 s
      low: 9.67,
      high: 16.33,
    });
    expect(found?.notes.join('\n')).toMatch(/larger measurement error .*4\.7 s.*mangione-2010-change.*9\.67 and 16\.33 s/);
  });

  it('is cited and stands in the short and in the full report', () => {
    const found = visit(COPD, 0.7);
    expect(Object.keys(found.sources)).toContain('mangione-2010-change');
    const page = {
      width: 110,
      colour: { bold: (text: string) => text, dim: (text: string) => text, cyan: (text: string) => text },
    };
    for (const full of [false, true])
      expect(renderText([found], { ...page, full }).replace(/\s+/g, ' ')).toContain('larger measurement error');
  });

  it('is not put around a result without a number', () => {
    const found = assess(session([recorded('timed_up_and_go', unable)], COPD), evidence).tests[0];
    expect(found?.measurement_error?.larger?.id).toBe('timed_up_and_go_mangione');
    expect(found?.notes.join()).not.toContain('larger measurement error');
  });

  it('nothing is said where only one of the two is meant for the client, or the larger one is used already', () => {
    for (const found of [visit(COPD, 1.1), visit({}, 0.7), visit({}, 1.1)]) {
      expect(upAndGo(found)?.measurement_error?.larger).toBeUndefined();
      expect(upAndGo(found)?.notes.join()).not.toContain('larger measurement error');
    }
  });
});
