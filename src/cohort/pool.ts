/** Blocks scored here, or by workers on other cores; the results are the same bytes in the same order. */
import type { Evidence, EvidenceData } from '../evidence/data.ts';
import { type Job, JobScorer } from './job.ts';
import type { Blocks, ScoredBlock } from './run.ts';
import type { WorkerStart, WorkerTask } from './worker.ts';

export function onOneCore(job: Job, evidence: Evidence): Blocks {
  const scorer = new JobScorer(job, evidence);
  return { score: (block) => scorer.score(block), ahead: 1, close: async () => undefined };
}

const AHEAD_PER_WORKER = 2;

/** Without the indexes, which are functions of the rest. */
function dataOf(evidence: Evidence): EvidenceData {
  const { testById, tablesByTest, cutPointsByTest, errorsByTest, ...data } = evidence;
  return data;
}

/** `worker`: the built worker; `bundled`: the evidence is the one that ships with the program. */
export async function onWorkers(
  job: Job,
  evidence: Evidence,
  { worker, workers, bundled }: { readonly worker: URL; readonly workers: number; readonly bundled: boolean },
): Promise<Blocks> {
  const { Tinypool } = await import('tinypool');
  const start: WorkerStart = { job, evidence: bundled ? null : dataOf(evidence) };
  const pool = new Tinypool({
    filename: worker.href,
    name: 'scoreBlock',
    minThreads: workers,
    maxThreads: workers,
    workerData: start,
  });
  return {
    score: (block) => {
      const bytes = Uint8Array.from(block.bytes);
      const task: WorkerTask = { bytes, first: block.first, records: block.records, plain: block.plain };
      return pool.run(task, { transferList: [bytes.buffer] }) as Promise<ScoredBlock>;
    },
    ahead: workers * AHEAD_PER_WORKER,
    close: () => pool.destroy(),
  };
}
