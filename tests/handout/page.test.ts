/** What the page says and what it must not say. */
import { HtmlValidate } from 'html-validate';
import { describe, expect, test } from 'vitest';
import { renderHandoutDocx } from '../../src/report/handout/docx.ts';
import { renderHandoutText } from '../../src/report/handout/text.ts';
import { sessionOf } from '../plan/base-client.ts';
import { EXAMPLES, exampleSession, pageOf, viewOf } from './example-page.ts';

const text = (name: string, more = {}) => renderHandoutText(viewOf(exampleSession(name), more));
const copd = text('copd-74');

describe.each(EXAMPLES)('the page of %s', (name) => {
  test('is valid HTML', async () => {
    const report = await new HtmlValidate({
      extends: ['html-validate:recommended', 'html-validate:a11y'],
      rules: { 'no-inline-style': 'off', 'long-title': 'off' },
    }).validateString(pageOf(name));
    expect(
      report.results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => `${line}: ${ruleId}: ${message}`)),
    ).toEqual([]);
  });

  test('needs no network and runs no script', () => {
    const page = pageOf(name);
    expect(page).not.toMatch(/<script|https?:|url\(|@import|src=/);
  });

  test('shows no risk label, no probability, no source and no percentile', () => {
    expect(`${pageOf(name)}${text(name)}`.replace(/<style>.*<\/style>/s, '')).not.toMatch(
      /high risk|low risk|intermediate|at risk|risk of fall|probab|percentile|doi|et al|guideline|score/i,
    );
  });

  test('has a box to initial, steps, where to hold and how many for each exercise', () => {
    const view = viewOf(exampleSession(name));
    const exercises = view.groups.flatMap((group) => group.exercises);
    expect(exercises.length).toBeGreaterThan(0);
    expect(exercises.length).toBeLessThanOrEqual(9);
    expect(pageOf(name).split('class="box"').length - 1).toBe(exercises.length);
    for (const each of exercises) {
      const words = `${each.rung} ${each.steps.join(' ')}`;
      expect(words, each.name).toMatch(/hold|hands|hand|finger|touch|arms|let go|back of the chair/i);
      expect(each.howMany.join(' '), each.name).toMatch(/\d/);
    }
    expect(view.tick.rows.map(({ number }) => number)).toEqual(exercises.map(({ number }) => number));
    expect(view.tick.rows.every(({ days }) => days.some(Boolean))).toBe(true);
  });
});

describe('what the client needs to know', () => {
  test('when to stop and whom to call; a blank line where the number is unknown', () => {
    expect(copd).toContain('STOP AT ONCE AND CALL FOR HELP');
    expect(copd).toMatch(/CALL THE EMERGENCY NUMBER: _{4,}/);
    expect(text('copd-74', { emergencyNumber: '555' })).toMatch(/CALL 555\n/);
  });

  test('with a lung condition and oxygen: breathing, rests, the tube, a bad day, the reliever', () => {
    for (const wanted of [
      /pursed lips/,
      /Stay at 3 to 4/,
      /2 minutes or more/,
      /tube behind you/,
      /ON A BAD DAY FOR BREATHING/,
      /reliever within reach/,
    ])
      expect(copd).toMatch(wanted);
  });

  test('none of it for somebody without', () => {
    const steady = text('steady-66');
    expect(steady).not.toMatch(/oxygen|reliever|pursed|bad day/i);
    expect(steady).toContain('Do not hold your breath');
  });

  test('what to do after a fall', () => expect(copd).toMatch(/AFTER A FALL\n- Lie still/));

  test('who may not move up alone is told so, and nobody is named a rung without its words', () => {
    expect(text('chair-86')).toContain('Do not move up on your own');
    expect(text('chair-86')).not.toContain('Next level');
    expect(text('steady-66')).toMatch(/Next level: /);
  });

  test('a level below, by its name', () => expect(text('steady-66')).toMatch(/One level back: 1 = /));

  test('the number of times on the page is that of the dose, also where it was lowered', () => {
    const frail = renderHandoutText(viewOf(exampleSession('chair-86')));
    expect(frail).toContain('How many: 8 times');
    expect(frail).not.toMatch(/10 to 12/);
  });
});

test('an exercise that is held or left out is never printed, even when it is asked for', () => {
  const visit = sessionOf({ more: { planWishes: { exercises: { squat: { leaveOut: true } } } } });
  expect(renderHandoutText(viewOf(visit))).not.toContain('Squat');
  const held = sessionOf({ fields: { 'redflags.chest_pain': 'yes' } });
  expect(viewOf(held, { exercises: ['squat'] }).groups).toEqual([]);
});

test('the Word file opens with its parts: text, drawings, a table to tick', async () => {
  const bytes = await renderHandoutDocx(viewOf(exampleSession('copd-74')), { paper: 'a4' });
  expect([...bytes.slice(0, 2)]).toEqual([0x50, 0x4b]);
  const names = new TextDecoder('latin1').decode(bytes);
  expect(names).toContain('word/document.xml');
  expect(names).toMatch(/word\/media\/.*\.png/);
});

test('an exercise that a clinic adds without words of its own drawing gets a standing figure', () => {
  expect(pageOf('copd-74').split('<svg').length - 1).toBe(6);
});
