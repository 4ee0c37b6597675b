/** The group page as a reader gets it: complete, valid, with its cautions, and what a browser shows nothing hides. */
import { readFileSync } from 'node:fs';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import type { Summary } from '../../src/cohort/summary/types.ts';
import { exampleFiles, footing } from '../support/run.ts';

const open = readFileSync(new URL('../fixtures/open-cohort/human-balance-evaluation.csv', import.meta.url), 'utf8');
const validator = new HtmlValidate({ extends: ['html-validate:recommended'] });

/** Clients with one or two visits, some unable, some with tables and some without, of two clinics. */
function programme(): string {
  const rows = Array.from({ length: 60 }, (_, client) =>
    [0, 1].flatMap((visit) => {
      if (visit === 1 && client % 4 === 0) return [];
      const cells = [
        `c${client}`,
        visit === 0 ? '2026-01-05' : '2026-04-06',
        client % 3 === 0 ? 'hill & dale' : 'lake',
        client % 5 < 3 ? 'female' : 'male',
        66 + (client % 22),
        (9 + (client % 13) - visit).toFixed(1),
        client % 9 === 0 ? 'unable' : (9 + (client % 11)).toFixed(1),
        client % 30,
        client % 10 === 0 ? '' : 12 + (client % 20),
      ];
      return [cells.join(',')];
    }),
  );
  const heading =
    'ref,assessed,clinic,sex,age,timed_up_and_go,five_times_sit_to_stand,single_leg_stance_eyes_open_right,grip_strength_right';
  return [heading, ...rows.flat()].join('\n');
}

async function page(options: readonly string[]): Promise<{ html: string; text: string }> {
  const run = ['cohort', 'in.csv', '-o', 'o.csv', '--summary', 's.html', ...options];
  const { files } = await footing(run, { files: { 'in.csv': programme() } });
  const html = files['s.html'] ?? '';
  return {
    html,
    text: html
      .replace(/<style>.*?<\/style>/s, '')
      .replace(/<[^>]*>/g, ' ')
      .replace(/\s+/g, ' '),
  };
}

describe('the group page', () => {
  it.each([[[]], [['--by', 'clinic']], [['--unmasked']]])('is valid HTML and loads nothing: %j', async (options) => {
    const { html } = await page(options);
    const report = await validator.validateString(html);
    expect(
      report.results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`)),
    ).toEqual([]);
    expect(html).not.toMatch(/<script|<link|src=|@import|url\(/);
    expect(html).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  it('has every section and every caution', async () => {
    const { text } = await page(['--by', 'clinic']);
    for (const words of [
      'Visits scored',
      'No result',
      'Below the 25th percentile for age and sex',
      'Level of risk',
      'Red flags',
      'Contributing factors',
      'Starting levels',
      'Change between first and last visit',
      'Those who came again beside those who did not',
      'There is no control group',
      'being referred for poor scores favours improvement',
      'They say nothing of a single client',
      'Every count is a band (5 or fewer, 6 to 10, 11 to 15 and so on) or the sum of several',
      'Here each count is the sum of 2 bands',
      'It supports a professional&#39;s judgement and does not replace it',
      'clinic: hill &amp; dale',
      'more were tested but cannot be judged, whatever their result',
      'so the true number can only be higher',
    ])
      expect(text.replaceAll("professional's", 'professional&#39;s')).toContain(words);
    expect(text.indexOf('All groups together')).toBeLessThan(text.indexOf('clinic: hill'));
    expect(text.indexOf('clinic: hill')).toBeLessThan(text.indexOf('clinic: lake'));
  });

  it('reads no exact count but where it stays in the clinic', async () => {
    const { text } = await page(['--by', 'clinic']);
    const section = text.slice(text.indexOf('Who'), text.indexOf('Change between'));
    expect(section).toMatch(/Visits scored (\d+) to (\d+) of/);
    expect(section).toMatch(/of them unable: \d+ to \d+/);
    expect(section).not.toMatch(/unable: \d+\b(?! (?:to|or))/);
    // Clients 0, 9, 18, ... 54 in `programme`, two of them with one visit: 12.
    expect((await page([])).text).toContain('of them unable: 11 to 15');
    expect((await page(['--unmasked'])).text).toMatch(/Visits scored 105 of 105 rows read; 0 refused/);
  });

  // Santos DA, Duarte M. PeerJ. 2016;4:e2648. doi:10.7717/peerj.2648: 163 people, 116 of them women; 14 with two or more falls.
  it('counts the open cohort as its paper does, and gives no share where no table has a spread', async () => {
    const files = { ...exampleFiles(), 'open.csv': open };
    const run = [
      'cohort',
      'open.csv',
      '--columns',
      'examples/open-cohort.map',
      '-o',
      'o.csv',
      '--summary',
      's.json',
      '--unmasked',
    ];
    const made = await footing(run, { files });
    const all = (JSON.parse(made.files['s.json'] ?? '') as Summary).groups[0];
    expect(all).toMatchObject({ n: 163, sex: { female: 116, male: 47, 'not recorded': 0 } });
    expect(all?.levels.find(({ id }) => id === 'high')?.n).toBe(14);
    expect(all?.tests.map(({ below_25: share, not_judged: notJudged }) => [share, notJudged])).toEqual([
      [null, 163],
      [null, 163],
    ]);
  });
});
