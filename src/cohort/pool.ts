/** Blocks scored here, or by workers on other cores; the results are the same bytes in the same order. */
import type { Evidence, EvidenceData } from '../evidence/data.ts';
import { type Job, JobScorer } from './job.ts';
import type { Blocks, ScoredBlock } from './run.ts';
import type { Block } from './splitter.ts';
import type { WorkerStart, WorkerTask } from './worker.ts';

export function onOneCore(job: Job, evidence: Evidence): Blocks {
  const scorer = new JobScorer(job, evidence);
  return { score: (block) => scorer.score(block), ahead: 1, close: async () => undefined };
}

/** Megabytes for short-lived objects in a worker. */
const YOUNG_MB = 12;
/** Blocks that wait at each worker, so that it never waits for the next one. */
const QUEUED = 2;

/** Without the indexes, which are functions of the rest. */
function dataOf(evidence: Evidence): EvidenceData {
  const { testById, tablesByTest, cutPointsByTest, errorsByTest, ...data } = evidence;
  return data;
}

export interface Workers {
  /** The built worker. */
  readonly worker: URL;
  /** Cores to use: this one, and a worker on each of the others. */
  readonly cores: number;
  /** The evidence is the one that ships with the program. */
  readonly bundled: boolean;
}

/** This core scores too whenever the workers have enough to do. */
export async function onWorkers(job: Job, evidence: Evidence, { worker, cores, bundled }: Workers): Promise<Blocks> {
  const { Tinypool } = await import('tinypool');
  const start: WorkerStart = { job, evidence: bundled ? null : dataOf(evidence) };
  const others = cores - 1;
  const pool = new Tinypool({
    filename: worker.href,
    name: 'scoreBlock',
    minThreads: others,
    maxThreads: others,
    workerData: start,
    // What a block leaves behind is small and dies at once; without a limit each worker would grow to three times that.
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
  });
  const here = new JobScorer(job, evidence);
  let waiting = 0;
  const elsewhere = async (block: Block): Promise<ScoredBlock> => {
    waiting += 1;
    const bytes = Uint8Array.from(block.bytes);
    const task: WorkerTask = { bytes, first: block.first, records: block.records, plain: block.plain };
    try {
      return (await pool.run(task, { transferList: [bytes.buffer] })) as ScoredBlock;
    } finally {
      waiting -= 1;
    }
  };
  const onThisCore = (block: Block): ScoredBlock => {
    const result = here.score(block);
    // The bytes are used again for the next block, and this result may have to wait for earlier ones.
    return { ...result, output: Uint8Array.from(result.output) };
  };
  return {
    score: (block) => (waiting < others * QUEUED ? elsewhere(block) : onThisCore(block)),
    ahead: others * QUEUED + 2,
    close: () => pool.destroy(),
  };
}
