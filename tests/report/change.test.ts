/** The change report: what leads, what the chart draws, and that a request for review is never below the fold of the text. */
import { describe, expect, it } from 'vitest';
import { changeChart } from '../../src/report/change/chart.ts';
import { renderChangeHtml } from '../../src/report/change/html.ts';
import { renderChangeLetter } from '../../src/report/change/letter.ts';
import { renderChangeMarkdown } from '../../src/report/change/markdown.ts';
import { renderChangeText } from '../../src/report/change/text.ts';
import { change, FIRST, LATER, only, visit } from '../change/support.ts';
import { measured, recorded, unable } from '../support/client.ts';

const plain = { bold: (text: string) => text, dim: (text: string) => text, cyan: (text: string) => text };
const LEG = 'single_leg_stance_eyes_open';
const held = (value: number) => measured(value, { ceiling: 30 });

const fallen = change([
  visit(FIRST, [recorded(LEG, held(25), 'right'), recorded('timed_up_and_go', 10), recorded('berg_balance', 50)]),
  visit(LATER, [recorded(LEG, held(3), 'right'), recorded('timed_up_and_go', 13)]),
]);

describe('a drop past a mark', () => {
  it.each([
    ['text', renderChangeText(fallen, { width: 100, colour: plain }), 'FALL RISK'],
    ['markdown', renderChangeMarkdown(fallen), '## Fall risk'],
    ['html', renderChangeHtml(fallen), '<h2>Fall risk</h2>'],
  ])('%s asks for a second look before anything on risk', (_format, text, next) => {
    const at = text.indexOf('test again');
    expect(at).toBeGreaterThan(0);
    expect(at).toBeLessThan(text.indexOf(next));
    expect(text).toContain('under 5 s, unassisted');
  });

  it('the letter gives both values, the error, its source and the request', () => {
    const letter = renderChangeLetter(fallen);
    expect(letter).toContain('Worse: timed up and go from 10 to 13 s (smallest real change 2.1 s, Donoghue 2019)');
    expect(letter).toContain('from 25 to 3 s (smallest real change 24.1 s, Goldberg 2011)');
    expect(letter).toContain('Please note: ');
    expect(letter.trim()).not.toContain('\n');
  });

  it('a test of one visit stands apart and is not counted', () => {
    const text = renderChangeText(fallen, { width: 100, colour: plain });
    expect(text).toContain('Not at both visits');
    expect(text).toContain('Berg balance scale: not recorded at the last visit');
    expect(text).toContain('By more than measurement error: 1 worse, 0 better. Otherwise: 1 within error, 0 cannot be told.');
  });

  it('keeps to the width of the terminal', () => {
    for (const width of [60, 80, 100])
      for (const line of renderChangeText(fallen, { width, colour: plain }).split('\n'))
        expect(line.length).toBeLessThanOrEqual(width);
  });
});

describe('chart', () => {
  const days = ['2026-01-05', '2026-02-02', '2026-03-02', '2026-04-06'];
  const readings = [unable, held(5), held(12), held(30)];
  const leg = only(change(days.map((day, index) => visit(day, [recorded(LEG, readings[index] ?? unable, 'left')]))), LEG, 'left');
  const svg = changeChart(leg, 'c')?.markup ?? '';

  it('draws a cross for unable, a dot for a time, a triangle at the ceiling', () => {
    expect([...svg.matchAll(/class="unable"/g)]).toHaveLength(1);
    expect([...svg.matchAll(/<circle class="point"/g)]).toHaveLength(2);
    expect([...svg.matchAll(/<path class="point"/g)]).toHaveLength(1);
  });

  it('says in words what it shows', () => {
    expect(svg).toContain('role="img" aria-labelledby="c-title c-desc"');
    expect(svg).toMatch(/<desc[^>]*>5 January 2026 unable; 2 February 2026 5 s;.*at least 30 s.*Higher is better\.<\/desc>/);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('puts the error band around the first value', () => {
    const tug = only(
      change([visit(FIRST, [recorded('timed_up_and_go', 12)]), visit(LATER, [recorded('timed_up_and_go', 11)])]),
      'timed_up_and_go',
    );
    const markup = changeChart(tug, 'c')?.markup ?? '';
    const band = /class="error" x="[\d.]+" y="([\d.]+)" width="[\d.]+" height="([\d.]+)"/.exec(markup);
    const points = [...markup.matchAll(/<circle class="point" cx="[\d.]+" cy="([\d.]+)"/g)].map((match) => Number(match[1]));
    // 12 ± 2.08 s: the first value is its middle, and one second is 1 / 4.16 of its height.
    const [top, height] = [Number(band?.[1]), Number(band?.[2])];
    expect(points[0]).toBeCloseTo(top + height / 2, 0);
    expect((points[1] ?? 0) - (points[0] ?? 0)).toBeCloseTo(height / 4.16, 0);
  });

  it('nothing to draw where no visit has a number', () => {
    const none = only(
      change([visit(FIRST, [recorded('berg_balance', unable)]), visit(LATER, [recorded('berg_balance', unable)])]),
      'berg_balance',
    );
    expect(changeChart(none, 'c')).toBeNull();
  });

  it('ids of a page are unlike each other', () => {
    const ids = [...renderChangeHtml(fallen).matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
