/** Parts of a cohort add up to exactly the summary of the whole, however it is cut. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Job, JobScorer } from '../../src/cohort/job.ts';
import { DEFAULT_SETTINGS } from '../../src/cohort/settings.ts';
import { Splitter } from '../../src/cohort/splitter.ts';
import { type Part, PartSum } from '../../src/cohort/summary/part.ts';
import type { Summary } from '../../src/cohort/summary/types.ts';
import { testEvidence } from '../support/evidence.ts';
import { footing } from '../support/run.ts';
import { TODAY } from './rows.ts';

const HEADINGS = [
  'ref',
  'assessed',
  'site',
  'sex',
  'age',
  'falls_past_year',
  'loss_of_consciousness',
  'timed_up_and_go',
  'five_times_sit_to_stand',
  'single_leg_stance_eyes_open_right',
  'tandem_stance',
];

/** Few clients, so that many have visits in several pieces, some twice on one day; some rows are refused. */
const row = fc.tuple(
  fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g', ''),
  fc.constantFrom('2026-01-05', '2026-02-10', '2026-03-20', ''),
  fc.constantFrom('north', 'south', '', '__proto__', '7'),
  fc.constantFrom('female', 'female', 'male', ''),
  fc.constantFrom('64', '68', '72', '77', '83', '91', 'x'),
  fc.constantFrom('', '0', '1', '2'),
  fc.constantFrom('', 'no', 'yes'),
  fc.constantFrom('', '8.1', '11.9', '14', '31', 'unable', 'declined'),
  fc.constantFrom('', '9.5', '12', '15.2', 'unable'),
  fc.constantFrom('', '3', '10', '30', 'unable'),
  fc.constantFrom('', '2', '10', 'unable'),
);
const rows = fc.array(row, { minLength: 1, maxLength: 60 });
/** Places to cut at, as shares of the rows; equal ones make a piece without rows. */
const cuts = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 4 });

type Rows = readonly (readonly string[])[];

function pieces(all: Rows, at: readonly number[]): Rows[] {
  const places = [0, ...at.map((share) => Math.round(share * all.length)).sort((a, b) => a - b), all.length];
  return places.slice(1).map((end, index) => all.slice(places[index], end));
}

const csv = (all: Rows): string => `${[HEADINGS, ...all].map((cells) => cells.join(',')).join('\n')}\n`;

async function summaries(
  all: Rows,
  at: readonly number[],
  options: readonly string[],
): Promise<{ whole: string; merged: string }> {
  const by = options.includes('site') ? ['--by', 'site'] : [];
  const unmasked = options.includes('unmasked') ? ['--unmasked'] : [];
  const one = await footing(
    ['cohort', 'in.csv', '-o', 'o.csv', '--rejects', 'r.csv', '--summary', 's.json', ...by, ...unmasked],
    {
      files: { 'in.csv': csv(all) },
    },
  );
  const files: Record<string, string> = {};
  for (const [index, piece] of pieces(all, at).entries()) {
    const run = ['cohort', 'in.csv', '-o', 'o.csv', '--rejects', 'r.csv', '--summary-part', 'p.json', ...by];
    const { files: made } = await footing(run, { files: { 'in.csv': csv(piece) } });
    files[`p${index}.json`] = made['p.json'] ?? '';
  }
  const merge = ['cohort', '--merge', ...Object.keys(files), '--split', '--summary', 's.json', ...unmasked];
  const merged = await footing(merge, { files });
  expect(merged.stderr).not.toContain('error');
  return { whole: one.files['s.json'] ?? 'none', merged: merged.files['s.json'] ?? 'nothing' };
}

const job: Job = {
  headings: HEADINGS,
  settings: DEFAULT_SETTINGS,
  by: 'site',
  withSummary: true,
  withRejects: false,
  options: {
    delimiter: ',',
    format: 'csv',
    pathway: undefined,
    pathwayOptions: undefined,
    population: undefined,
    today: TODAY,
    withPlan: true,
  },
};
const scorer = new JobScorer(job, testEvidence());

function partOf(all: Rows): Part {
  const splitter = new Splitter(',', 2);
  const body = all.map((cells) => `${cells.join(',')}\n`).join('');
  const sum = new PartSum();
  for (const block of [...splitter.push(Buffer.from(body)), ...splitter.end()]) {
    const { part } = scorer.score(block);
    if (part !== null) sum.add(part);
  }
  return sum.part();
}

function added(...parts: readonly Part[]): Part {
  const sum = new PartSum();
  for (const part of parts) sum.add(part);
  // A copy, so that adding up again cannot reach into what was added before.
  return JSON.parse(JSON.stringify(sum.part())) as Part;
}

describe('parts of a summary', () => {
  it.each([['masked'], ['unmasked'], ['masked', 'site'], ['unmasked', 'site']])(
    'merged with --split give byte for byte the summary of the whole: %s %s',
    async (...options) => {
      await fc.assert(
        fc.asyncProperty(rows, cuts, async (all, at) => {
          const { whole, merged } = await summaries(all, at, options);
          expect(merged).toBe(whole);
        }),
        { numRuns: 12 },
      );
    },
  );

  it('may be added up in any brackets, in the order of the file', () => {
    fc.assert(
      fc.property(rows, rows, rows, (a, b, c) => {
        const [one, two, three] = [partOf(a), partOf(b), partOf(c)];
        const whole = added(partOf([...a, ...b, ...c]));
        expect(added(added(one, two), three)).toEqual(whole);
        expect(added(one, added(two, three))).toEqual(whole);
        expect(added(one, two, three)).toEqual(whole);
      }),
      { numRuns: 60 },
    );
  });

  it('a client whose two visits lie in different parts has a change, and of one day the first in the file counts', async () => {
    const visit = (ref: string, day: string, seconds: string): string[] => [
      ref,
      day,
      'north',
      'female',
      '72',
      '0',
      'no',
      seconds,
      '',
      '',
      '',
    ];
    const first = [visit('a', '2026-01-05', '14'), visit('a', '2026-01-05', '99')];
    const later = [visit('a', '2026-03-20', '9'), visit('a', '2026-03-20', '50')];
    const { whole, merged } = await summaries([...first, ...later], [0.5], ['unmasked']);
    expect(merged).toBe(whole);
    const { change } = JSON.parse(merged) as Summary;
    expect(change?.completers.n).toBe(1);
    expect(change?.tests[0]).toMatchObject({ pairs: 1, mean_before: 14, mean_after: 9 });
  });

  it('rows without a reference are nobody’s second visit, though rows of two parts have the same number', async () => {
    const visit = (day: string): string[] => ['', day, 'north', 'female', '72', '0', 'no', '12', '', '', ''];
    const { whole, merged } = await summaries([visit('2026-01-05'), visit('2026-03-20')], [0.5], ['unmasked']);
    expect(merged).toBe(whole);
    expect((JSON.parse(merged) as Summary).change).toBeNull();
  });
});
