/** Summary parts: written by one run, added up by another. */
import { createHash } from 'node:crypto';
import { type Job, JobScorer } from '../cohort/job.ts';
import { type Part, PartSum } from '../cohort/summary/part.ts';
import type { Evidence } from '../evidence/data.ts';
import { toolVersion } from '../version.ts';
import { type CohortContext, visitReader } from './cohort-context.ts';
import { summarise, writeSummary } from './cohort-summary.ts';
import { CannotStart, EXIT, fileErrorInWords } from './io.ts';

interface PartFile {
  readonly format: 1;
  readonly kind: 'cohort_part';
  /** Of the program and of the norms: what another one counted need not add up. */
  readonly version: string;
  readonly digest: string;
  readonly job: Job;
  readonly part: Part;
  /** SHA-256 of the rest: a part that was cut off or edited would add up to wrong counts without a word. */
  readonly check: string;
}

const checkOf = (file: Omit<PartFile, 'check'>): string => createHash('sha256').update(JSON.stringify(file)).digest('hex');

export function partText(part: Part, job: Job, { digest }: Evidence): string {
  const file = { format: 1, kind: 'cohort_part', version: toolVersion, digest, job, part } as const;
  return `${JSON.stringify({ ...file, check: checkOf(file) })}\n`;
}

function readPart(path: string, { invocation, evidence }: CohortContext): PartFile {
  let file: PartFile;
  try {
    file = JSON.parse(invocation.io.readFile(path)) as PartFile;
  } catch (error) {
    if (error instanceof SyntaxError) throw new CannotStart(`${path} is not a part of a summary: it is not JSON`);
    throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
  }
  if (file?.kind !== 'cohort_part' || file.format !== 1)
    throw new CannotStart(`${path} is not a part of a summary; --summary-part writes one`);
  const { check, ...rest } = file;
  if (check !== checkOf(rest)) throw new CannotStart(`${path} is damaged: it is not as --summary-part wrote it; make it again`);
  if (file.version !== toolVersion)
    throw new CannotStart(`${path} was made by another version of the program; make it again with this one`);
  if (file.digest !== evidence.digest) throw new CannotStart(`${path} was made with other norms; make it again with these`);
  return file;
}

/** What must be the same for counts to add up. */
const sameness = ({ job: { headings, settings, by, options } }: PartFile): string =>
  JSON.stringify([headings, settings, by, options.pathway, options.pathwayOptions, options.population]);

export function mergeParts(paths: readonly string[], context: CohortContext): void {
  const { options, evidence, invocation } = context;
  if (options.summary === undefined) throw new CannotStart('--merge writes a summary: name it with --summary');
  const files = paths.map((path) => readPart(path, context));
  const [first] = files;
  if (first === undefined) throw new CannotStart('there is no part to merge');
  const other = files.findIndex((file) => sameness(file) !== sameness(first));
  if (other !== -1)
    throw new CannotStart(`${paths[other]} and ${paths[0]} do not add up: their columns, map, pathway or --by differ`);
  const { job } = first;
  if (options.by !== undefined && options.by !== job.by)
    throw new CannotStart(
      `the parts were counted ${job.by === null ? 'without --by' : `by "${job.by}"`}; make them again with --by "${options.by}"`,
    );
  const scorer = new JobScorer(job, evidence);
  const sum = new PartSum(scorer.layout.ref !== null && scorer.layout.assessed !== null);
  for (const { part } of files) sum.add(part);
  const request = {
    part: sum.part(),
    known: options.split === true ? [] : files.map(({ part }) => part),
    scorer: scorer.blocks.scorer,
    evidence,
    pathway: job.options.pathway ?? options.pathway,
    by: job.by,
    masked: options.unmasked !== true,
    readVisit: visitReader(scorer, job, evidence),
  };
  writeSummary(options.summary, summarise(request), invocation);
  invocation.finish(sum.part().refused > 0 ? EXIT.refused : EXIT.done);
}
