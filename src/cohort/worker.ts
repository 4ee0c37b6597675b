/** What runs on another core: scores the blocks it is handed. Started by pool.ts. */
import { workerData } from 'node:worker_threads';
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
  readonly bytes: Uint8Array;
  readonly first: number;
  readonly records: number;
  readonly plain: boolean;
}

let scorer: JobScorer | undefined;

/** The pool hands its own data first and ours second. */
function startData(): WorkerStart {
  const given: unknown = workerData;
  return (Array.isArray(given) ? given[1] : given) as WorkerStart;
}

export function scoreBlock({ bytes, ...block }: WorkerTask): ScoredBlock {
  if (scorer === undefined) {
    const { job, evidence } = startData();
    scorer = new JobScorer(job, evidence === null ? bundledEvidence() : indexEvidence(evidence));
  }
  const result = scorer.score({ ...block, bytes: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength) });
  // The bytes are used again for the next block; what leaves this core is a copy.
  return { ...result, output: Uint8Array.from(result.output) };
}
