/** What can be wrong with a call of `footing cohort` before a row is read. */

import type { JobScorer } from '../cohort/job.ts';
import type { Layout } from '../cohort/layout.ts';
import type { GoodMap } from '../cohort/map-file.ts';
import { wrongWords } from '../cohort/map-words.ts';
import { outputHeadings } from '../cohort/output.ts';
import type { Header } from '../cohort/source.ts';
import type { CohortOptions } from './cohort.ts';
import type { CohortContext } from './cohort-context.ts';
import { CannotStart } from './io.ts';

/** Every output has its own name, and none is the input. */
export function checkNames(files: readonly string[], { output, rejects, summary, summaryPart }: CohortOptions): void {
  const names = [...files, output, rejects, summary, summaryPart].filter((name) => name !== undefined && name !== '-');
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice !== undefined) throw new CannotStart(`"${twice}" is named twice: it would be written over`);
}

type Given = Exclude<keyof CohortOptions, 'pathway' | 'pathwayOption'>;

const FLAGS: Readonly<Partial<Record<Given, string>>> = {
  output: '--output',
  rejects: '--rejects',
  summary: '--summary',
  summaryPart: '--summary-part',
  split: '--split',
  by: '--by',
  unmasked: '--unmasked',
  columns: '--columns',
  suggestColumns: '--suggest-columns',
  format: '--format',
  delimiter: '--delimiter',
  encoding: '--encoding',
  header: '--header',
  workers: '--workers',
};

/** Throws where one of `names` was given: it would do nothing, and whoever wrote it expects something. */
function refuse(options: CohortOptions, names: readonly Given[], why: string): void {
  const given = names.filter((name) => options[name] !== undefined).map((name) => FLAGS[name] ?? name);
  if (given.length > 0) throw new CannotStart(`${given.join(' and ')} ${why}`);
}

const OF_THE_INPUT = ['columns', 'suggestColumns', 'delimiter', 'encoding', 'header', 'workers'] as const;

export function checkOptions(options: CohortOptions): void {
  if (options.merge === true)
    refuse(
      options,
      ['output', 'rejects', 'summaryPart', 'format', ...OF_THE_INPUT],
      'cannot stand beside --merge, which adds up parts that were counted before and writes --summary alone',
    );
  else refuse(options, ['split'], 'goes with --merge');
  if (options.suggestColumns === true)
    refuse(
      options,
      ['rejects', 'summary', 'summaryPart', 'by', 'unmasked', 'format'],
      'cannot stand beside --suggest-columns, which prints a map and scores nothing',
    );
  if (options.summary === undefined && options.summaryPart === undefined)
    refuse(options, ['by'], 'parts the group summary: name that too, as in --summary group.html');
  if (options.summary === undefined)
    refuse(options, ['unmasked'], 'is about the group summary: name that too, as in --summary group.html');
}

/** A folder of visit files has no columns to be read. */
export function checkFolderOptions(options: CohortOptions): void {
  refuse(options, ['summaryPart', ...OF_THE_INPUT], 'cannot be used with a folder of visit files, only with a CSV');
}

/** The output has no heading twice. */
export function checkCollisions({ headings }: Header, { blocks }: JobScorer): void {
  const taken = outputHeadings(blocks.scorer.slots).find((heading) => headings.includes(heading));
  if (taken !== undefined)
    throw new CannotStart(
      `the input has a column "${taken}", which the output would have a second time; rename it (is the input a scored file already?)`,
    );
}

/** The column that parts the cohort is there, and on a page for outside the clinic it is none of `personal`, which name a client. */
export function checkBy(headings: readonly string[], personal: readonly string[], { by, unmasked }: CohortOptions): void {
  if (by === undefined) return;
  if (!headings.includes(by))
    throw new CannotStart(`there is no column "${by}" to part the cohort by; there are: ${headings.join(', ')}`);
  if (personal.includes(by) && unmasked !== true)
    throw new CannotStart(
      `"${by}" tells single clients, whom a page for outside the clinic must not name; part the cohort by another column`,
    );
}

/** Headings of columns that tell one client from all others. */
export const personalColumns = ({ ref, client }: Layout): string[] =>
  [ref, client.born].flatMap((column) => (column === null || column === undefined ? [] : [column.heading]));

/** Throws where the map turns a cell into what its column cannot hold; each stands on standard error with its place. */
export function checkMapWords(
  layout: Layout,
  placeOf: GoodMap['placeOf'],
  { invocation, options, evidence }: CohortContext,
): void {
  const { io } = invocation;
  const wrong = wrongWords(layout, evidence, io.today());
  for (const { heading, cell, reason } of wrong) {
    const { line, column } = placeOf(['columns', heading, 'values', cell]);
    io.stderr.write(`${options.columns}:${line}:${column}: what "${cell}" stands for cannot be there: ${reason}\n`);
  }
  if (wrong.length > 0) throw new CannotStart(`the map ${options.columns} cannot be used; nothing was done`);
}
