/** Clients whom a pathway fits badly: each gets a sentence that a colleague would sign, on the first screen. */
import { describe, expect, test } from 'vitest';
import type { AssessOptions } from '../../src/assess.ts';
import { assess } from '../../src/assess.ts';
import { renderText } from '../../src/report/text.ts';
import type { Client, Fields, RecordedTest, Session } from '../../src/session.ts';
import { recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { joined, plain } from './support.ts';

const THREE_NO: Fields = {
  'history.falls_past_year': 0,
  'history.feels_unsteady': 'no',
  'history.worries_about_falling': 'no',
};
const FIT: Fields = { ...THREE_NO, 'health.clinical_frailty_scale': 2 };
const WALKS = [recorded('gait_speed_usual', 1.2), recorded('timed_up_and_go', 9)];

interface Visit {
  readonly fields?: Fields;
  readonly who?: Partial<Client>;
  readonly tests?: readonly RecordedTest[];
  readonly more?: Partial<Session>;
  readonly options?: AssessOptions;
}
const top = ({ fields = FIT, who = {}, tests = WALKS, more = {}, options = {} }: Visit): string => {
  const assessment = assess({ ...session(tests, fields, who), ...more }, testEvidence(), options);
  const text = renderText([assessment], { width: 80, colour: plain });
  return joined(text.slice(0, text.indexOf('\nTESTS\n')));
};

describe('sentences on the first screen', () => {
  test.each(['residential_care', 'hospital'] as const)('%s: high, and why', (setting) => {
    const text = top({ who: { setting } });
    expect(text).toContain('>> High risk');
    expect(text).toContain('Everyone in residential care or hospital counts as high risk in this guideline');
  });
  test('under 65: outside the age range', () => {
    expect(top({ who: { age: 62 } })).toContain('The client is under 65, outside the age range the guideline was written for.');
  });
  test('frail with three times no: low never stands alone', () => {
    const text = top({ fields: { ...THREE_NO, 'health.clinical_frailty_scale': 6 } });
    expect(text).toMatch(/>> Low risk\. But: low by the questions only; .*frail.*: assess as if not low/);
  });
  test('slow with three times no', () => {
    const text = top({ tests: [recorded('gait_speed_usual', 0.6)] });
    expect(text).toMatch(/>> Low risk\. But: low by the questions only; gait impaired.*: assess as if not low/);
  });
  test('blackout without a fall: a red flag of its own, and the level does not reflect it', () => {
    const text = top({ fields: { ...FIT, 'history.loss_of_consciousness': 'yes' } });
    expect(text).toContain('DOCTOR TODAY: Loss of consciousness, or a suspected faint');
    expect(text).toContain('Loss of consciousness is recorded without a fall.');
    expect(text).toContain('so the level does not reflect it; it needs a doctor in its own right.');
  });
  test('an injury without a recorded fall is read as a fall', () => {
    const text = top({ fields: { 'history.fall_injury': 'yes', 'health.clinical_frailty_scale': 2 } });
    expect(text).toContain('>> High risk');
    expect(text).toContain('No number of falls is recorded, but an injury from a fall');
    expect(text).toContain('it is read as at least one fall. Ask how many.');
  });
});

describe('what was set or asked for is visible', () => {
  test('a cleared flag by whom and when, and what is still open', () => {
    const cleared = { clearances: [{ by: 'Dr Example', date: '2026-04-02', for: 'blackout' }] };
    const text = top({ fields: { ...FIT, 'history.loss_of_consciousness': 'yes' }, more: cleared });
    expect(text).toContain('Nothing open in what was recorded.');
    expect(text).toContain('Loss of consciousness, or a suspected faint: cleared by Dr Example on 2 April 2026');
    expect(text).not.toContain('!!');
  });
  test('how to clear an open one, and why a clearance does not count', () => {
    const early = { clearances: [{ by: 'Dr Example', date: '2026-04-02', for: 'chest_pain' }] };
    const text = top({ fields: { ...FIT, 'redflags.chest_pain': 'yes' }, more: early });
    expect(text).toContain('EMERGENCY, ACT NOW: Chest pain');
    expect(text).toContain('clearance: {by: name, date: day, for: chest_pain}');
    expect(text).toContain('does not count');
  });
  test("the professional's level and the pathway's, with the reason", () => {
    const text = top({ more: { riskOverride: { level: 'high', reason: 'saw her stumble' }, assessor: 'A. Physio' } });
    expect(text).toContain('>> High risk, set by A. Physio: saw her stumble. The pathway itself gives: Low risk');
    expect(text).toContain('Follow up in 30 to 90 days.');
    expect(text).toContain('Assessed by A. Physio.');
  });
  test('an option of the pathway', () => {
    const text = top({ tests: [recorded('timed_up_and_go', 11)], options: { pathwayOptions: ['modified_2024'] } });
    expect(text).toContain('>> Intermediate risk');
    expect(text).toContain('World Falls Guidelines 2022; option in use: Modification of 2024');
    expect(text).toContain('349 (50.3 %) at low');
  });
  test('a probability only where asked for, with its interval and the warning', () => {
    const fields = { ...FIT, 'history.falls_past_year': 1 };
    const text = (options: AssessOptions): string =>
      joined(renderText([assess(session(WALKS, fields), testEvidence(), options)], { width: 80, colour: plain }));
    expect(text({})).not.toContain('PROBABILITY');
    const asked = text({ probability: true });
    expect(asked).toContain('PROBABILITY OF A FALL IN 12 MONTHS');
    expect(asked).toContain('95 % interval round');
    expect(asked).toContain('advises against using prediction tools');
  });
  test('a mark that flags most people with COPD says so, to clients with COPD only', () => {
    const text = (fields: Fields): string =>
      joined(
        renderText([assess(session([recorded('timed_up_and_go', 14.2)], fields), testEvidence())], { width: 80, colour: plain }),
      );
    expect(text({ ...FIT, 'health.lung_condition': 'copd' })).toContain('about half of people with COPD meet this mark');
    expect(text({ ...FIT, 'health.lung_condition': 'none' })).not.toContain('half of people with COPD meet this mark');
  });
});
