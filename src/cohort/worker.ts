/** What runs on another core: scores the blocks it is handed. Started by pool.ts. */
import { workerData } from 'node:worker_threads';
import Tinypool from 'tinypool';
import { bundledEvidence } from '../evidence/bundled.ts';
import { type EvidenceData, indexEvidence } from '../evidence/data.ts';
import { type Job, JobScorer } from './job.ts';
import type { ScoredBlock } from './run.ts';

export interface WorkerStart {
  readonly job: Job;
  /** null for the evidence that ships with the program. */
  readonly evidence: EvidenceData | null;
}

export interface WorkerTask {
  /** The block fills the first `length` bytes. */
  readonly bytes: ArrayBuffer;
  readonly length: number;
  /** A buffer for the output that was used before; null where there is none. */
  readonly spare: ArrayBuffer | null;
  readonly first: number;
  readonly records: number;
  readonly plain: boolean;
}

export interface WorkerResult {
  readonly scored: ScoredBlock;
  /** The task's buffer, to be used again. */
  readonly bytes: ArrayBuffer;
}

let scorer: JobScorer | undefined;

/** The pool hands its own data first and ours second. */
function startData(): WorkerStart {
  const given: unknown = workerData;
  return (Array.isArray(given) ? given[1] : given) as WorkerStart;
}

/** Moved and not copied: buffers go to and fro, so that a long run makes no new ones. */
class Moved {
  readonly #result: WorkerResult;

  constructor(result: WorkerResult) {
    this.#result = result;
  }

  get [Tinypool.transferableSymbol](): ArrayBufferLike[] {
    return [this.#result.bytes, this.#result.scored.output.buffer];
  }

  get [Tinypool.valueSymbol](): WorkerResult {
    return this.#result;
  }
}

export function scoreBlock({ bytes, length, spare, ...block }: WorkerTask): unknown {
  if (scorer === undefined) {
    const { job, evidence } = startData();
    scorer = new JobScorer(job, evidence === null ? bundledEvidence() : indexEvidence(evidence));
  }
  if (spare !== null) scorer.blocks.output.adopt(spare);
  const scored = scorer.score({ ...block, bytes: Buffer.from(bytes, 0, length) });
  const moved = new Moved({ scored: { ...scored, output: scorer.blocks.output.release() }, bytes });
  // The pool's types name its two symbols only at run time.
  return Tinypool.move(moved as unknown as Parameters<typeof Tinypool.move>[0]);
}
