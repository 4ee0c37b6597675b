/** Blocks scored here, or by workers on other cores; the results are the same bytes in the same order. */
import type { Evidence, EvidenceData } from '../evidence/data.ts';
import { type Job, JobScorer } from './job.ts';
import type { Blocks, ScoredBlock } from './run.ts';
import type { Block } from './splitter.ts';
import type { WorkerResult, WorkerStart, WorkerTask } from './worker.ts';

export function onOneCore(job: Job, evidence: Evidence): Blocks {
  const scorer = new JobScorer(job, evidence);
  return { score: (block) => scorer.score(block), done: () => undefined, ahead: 1, close: async () => undefined };
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

/** One that was used before and is large enough, or a new one with room for blocks a little larger. */
function bufferFor(length: number, used: ArrayBuffer[]): ArrayBuffer {
  const known = used.pop();
  return known !== undefined && known.byteLength >= length ? known : new ArrayBuffer(length * 2);
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
  /** Buffers that have done their work and may do it again. */
  const inputs: ArrayBuffer[] = [];
  const outputs: ArrayBuffer[] = [];
  const elsewhere = async (block: Block): Promise<ScoredBlock> => {
    waiting += 1;
    const { length } = block.bytes;
    const spare = outputs.pop() ?? null;
    const bytes = bufferFor(length, inputs);
    Buffer.from(bytes).set(block.bytes);
    const task: WorkerTask = { bytes, length, spare, first: block.first, records: block.records, plain: block.plain };
    try {
      const result = (await pool.run(task, { transferList: spare === null ? [bytes] : [bytes, spare] })) as WorkerResult;
      inputs.push(result.bytes);
      return result.scored;
    } finally {
      waiting -= 1;
    }
  };
  const onThisCore = (block: Block): ScoredBlock => {
    const spare = outputs.pop();
    if (spare !== undefined) here.blocks.output.adopt(spare);
    const result = here.score(block);
    // This result may have to wait for earlier ones, so its bytes are not those of the next block.
    return { ...result, output: here.blocks.output.release() };
  };
  return {
    done: ({ output }) => {
      if (output.buffer instanceof ArrayBuffer && output.buffer.byteLength > 0) outputs.push(output.buffer);
    },
    score: (block) => (waiting < others * QUEUED ? elsewhere(block) : onThisCore(block)),
    ahead: others * QUEUED + 2,
    close: () => pool.destroy(),
  };
}
