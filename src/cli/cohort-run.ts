/** The work of `footing cohort` on one CSV: header, rows, refused rows, summary. */

import { recognise } from '../cohort/headings.ts';
import { type Job, JobScorer } from '../cohort/job.ts';
import { compileLayout } from '../cohort/layout.ts';
import { onOneCore, onWorkers } from '../cohort/pool.ts';
import { quantity } from '../cohort/reasons.ts';
import { type Blocks, runBlocks, type Totals } from '../cohort/run.ts';
import { asUtf8, CohortStop, type Header, readHeader, takeHeader } from '../cohort/source.ts';
import { suggestMap } from '../cohort/suggest.ts';
import { PartSum } from '../cohort/summary/part.ts';
import { type Targets, targetsOf } from '../cohort/targets.ts';
import { bundledEvidence } from '../evidence/bundled.ts';
import { type CohortOptions, formatOf } from './cohort.ts';
import { checkBy, checkCollisions, checkMapWords, checkNames, checkOptions, personalColumns } from './cohort-checks.ts';
import { type CohortContext, visitReader } from './cohort-context.ts';
import { readSettings } from './cohort-map.ts';
import { type Outputs, openOutputs } from './cohort-outputs.ts';
import { partText } from './cohort-parts.ts';
import { progressLine } from './cohort-progress.ts';
import { checkSummaryName, summarise, writeSummary } from './cohort-summary.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart, EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';
import { assessOptions } from './risk-options.ts';

/** Bytes. A second core has to read the evidence and get into its stride first; smaller files are done sooner without it. */
const WORTH_WORKERS = 16_000_000;

/** Entry of the command. */
export async function cohort(files: readonly string[], options: CohortOptions, invocation: Invocation): Promise<void> {
  checkSummaryName(options.summary);
  const context = { invocation, options, evidence: await evidenceFor(invocation), streams: await invocation.io.streams() };
  assessOptions(context.evidence, options, invocation);
  for (const note of invocation.settingNotes) invocation.io.stderr.write(`footing: note: ${note}\n`);
  checkNames(files, options);
  checkOptions(options);
  if (options.merge === true) return (await import('./cohort-parts.ts')).mergeParts(files, context);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0)
    throw new CannotStart(
      'one file or folder at a time; several CSVs of one cohort go through cohort --summary-part and --merge',
    );
  if (file !== '-' && isFolder(file, invocation)) return (await import('./cohort-folder.ts')).scoreFolder(file, context);
  await scoreCsv(file, context);
}

function isFolder(path: string, { io }: Invocation): boolean {
  try {
    return io.listFolder(path) !== null;
  } catch (error) {
    throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
  }
}

interface Opened {
  readonly header: Header;
  /** What comes behind the header. */
  readonly rows: AsyncIterable<Buffer>;
  /** Number of the first record behind it; blank lines before the header count. */
  readonly first: number;
}

async function open(file: string, targets: Targets, { options, evidence, streams }: CohortContext): Promise<Opened> {
  const source = asUtf8(file === '-' ? streams.stdin() : streams.read(file), options.encoding);
  const known = (headings: readonly string[]): number =>
    headings.filter((heading) => options.columns !== undefined || recognise(heading, targets, evidence.testById).kind === 'known')
      .length;
  if (options.header !== undefined)
    return { header: readHeader(Buffer.from(options.header), options.delimiter, known), rows: source, first: 1 };
  const { line, rest, blank, delimiter } = await takeHeader(source, options.delimiter);
  const header = readHeader(line, delimiter, known);
  async function* rows(): AsyncGenerator<Buffer> {
    if (rest.length > 0) yield rest;
    yield* source;
  }
  return { header, rows: rows(), first: blank + 2 };
}

async function scoreCsv(file: string, context: CohortContext): Promise<void> {
  const { invocation, options, evidence } = context;
  const { io } = invocation;
  const shown = file === '-' ? 'standard input' : file;
  const targets = targetsOf(evidence);
  try {
    const opened = await open(file, targets, context);
    if (options.suggestColumns === true) return writeMap(suggestMap(opened.header.headings, targets, evidence), context);
    const job = makeJob(opened.header, shown, targets, context);
    const totals = await scoreRows(file, opened, job, context);
    io.stderr.write(
      `${shown}: ${quantity(totals.accepted + totals.refused, 'row')} read, ${totals.accepted} accepted, ${totals.refused} refused\n`,
    );
    invocation.finish(totals.refused > 0 ? EXIT.refused : EXIT.done);
  } catch (error) {
    if (error instanceof CohortStop) throw new CannotStart(`${shown}: ${error.message}`);
    if (error instanceof Error && 'code' in error && 'syscall' in error)
      throw new CannotStart(`cannot read ${shown}: ${fileErrorInWords(error)}; nothing of this run is left in any file`);
    throw error;
  }
}

function writeMap(text: string, { invocation, options }: CohortContext): void {
  if (options.output === undefined) invocation.io.stdout.write(text);
  else writeOutput(options.output, text, invocation);
}

function makeJob({ headings, delimiter }: Header, shown: string, targets: Targets, context: CohortContext): Job {
  const { invocation, options, evidence } = context;
  const { io, population } = invocation;
  const { settings, placeOf } = readSettings(options.columns, targets, invocation);
  const { layout, problems, notes } = compileLayout(headings, settings, targets, evidence, options.by);
  for (const note of notes) io.stderr.write(`${shown}: note: ${note}\n`);
  for (const problem of problems) io.stderr.write(`${shown}:1:1: ${problem}\n`);
  if (problems.length > 0) throw new CannotStart(`${shown}: the header cannot be used; nothing was done`);
  if (layout !== null) {
    checkBy(headings, personalColumns(layout), options);
    checkMapWords(layout, placeOf, context);
  }
  const withSummary = options.summary !== undefined || options.summaryPart !== undefined;
  return {
    headings,
    settings,
    by: options.by ?? null,
    withSummary,
    withRejects: options.rejects !== undefined,
    options: {
      delimiter,
      format: formatOf(options),
      pathway: options.pathway,
      pathwayOptions: options.pathwayOption,
      population,
      today: io.today(),
      withPlan: withSummary,
    },
  };
}

async function blocksFor(file: string, job: Job, { options, evidence, streams }: CohortContext): Promise<Blocks> {
  const size = file === '-' ? null : streams.size(file);
  const wanted = options.workers ?? (size !== null && size >= WORTH_WORKERS ? streams.cores : 1);
  if (wanted < 2 || streams.worker === null) return onOneCore(job, evidence);
  return onWorkers(job, evidence, { worker: streams.worker, cores: wanted, bundled: evidence === bundledEvidence() });
}

async function scoreRows(file: string, { rows, header, first }: Opened, job: Job, context: CohortContext): Promise<Totals> {
  const { invocation, options, evidence, streams } = context;
  const { io } = invocation;
  const scorer = new JobScorer(job, evidence);
  checkCollisions(header, scorer);
  const outputs = await openOutputs(options, streams);
  const blocks = await blocksFor(file, job, context);
  const sum = new PartSum(scorer.layout.ref !== null && scorer.layout.assessed !== null);
  const line = progressLine(io.stderr, streams.now, file === '-' ? null : streams.size(file));
  const shown = file === '-' ? 'standard input' : file;
  try {
    if (options.header === undefined) await outputs.rows(scorer.blocks.writer.heading);
    if (job.withRejects) await outputs.rejects(scorer.blocks.rejectsHeading);
    const totals = await runBlocks(rows, { delimiter: header.delimiter, first }, blocks, {
      rows: outputs.rows,
      rejects: outputs.rejects,
      refused: ({ row, reasons }) => {
        if (job.withRejects) return;
        line.clear();
        for (const reason of reasons) io.stderr.write(`${shown}:row ${row}: ${reason}\n`);
      },
      part: (part) => sum.add(part),
      progress: line.show,
    });
    line.clear();
    await finish(outputs, sum, job, scorer, context);
    return totals;
  } catch (error) {
    line.clear();
    await outputs.discard();
    throw error;
  } finally {
    await blocks.close();
  }
}

async function finish(outputs: Outputs, sum: PartSum, job: Job, scorer: JobScorer, context: CohortContext): Promise<void> {
  const { options } = context;
  await outputs.commit();
  try {
    finishSummary(sum, job, scorer, context);
  } catch (error) {
    const whole = [options.output, options.rejects].filter((name) => name !== undefined && name !== '-');
    if (!(error instanceof CannotStart) || whole.length === 0) throw error;
    throw new CannotStart(`${error.message}; of this run ${whole.join(' and ')} ${whole.length === 1 ? 'is' : 'are'} whole`);
  }
}

function finishSummary(sum: PartSum, job: Job, scorer: JobScorer, context: CohortContext): void {
  const { options, evidence, invocation } = context;
  if (options.summaryPart !== undefined) writeOutput(options.summaryPart, partText(sum.part(), job, evidence), invocation);
  if (options.summary === undefined) return;
  const request = {
    part: sum.part(),
    known: [],
    scorer: scorer.blocks.scorer,
    evidence,
    pathway: options.pathway,
    by: job.by,
    masked: options.unmasked !== true,
    readVisit: visitReader(scorer, job, evidence),
  };
  writeSummary(options.summary, summarise(request), invocation);
}
