/** The whole stream: bytes in, blocks scored (here or by workers), rows out in the order of the input. Constant memory. */
import type { BlockResult, RefusedRow } from './block-scorer.ts';
import { type Block, Splitter } from './splitter.ts';
import type { Part } from './summary/part.ts';

/** A block's result with what it adds to the summary. */
export interface ScoredBlock extends BlockResult {
  readonly part: Part | null;
}

export interface Blocks {
  readonly score: (block: Block) => ScoredBlock | Promise<ScoredBlock>;
  /** The block is written: its bytes may be used again. */
  readonly done: (block: ScoredBlock) => void;
  /** Blocks that may be under way at once; 1 scores each before the next is read. */
  readonly ahead: number;
  readonly close: () => Promise<void>;
}

export interface Progress {
  readonly bytes: number;
  readonly accepted: number;
  readonly refused: number;
}

export interface Outlets {
  readonly rows: (piece: string | Uint8Array) => Promise<void>;
  readonly rejects: (piece: string | Uint8Array) => Promise<void>;
  readonly refused: (row: RefusedRow) => void;
  readonly part: (part: Part) => void;
  readonly progress: (progress: Progress) => void;
}

export interface Totals {
  readonly accepted: number;
  readonly refused: number;
}

interface Underway {
  readonly size: number;
  readonly result: ScoredBlock | Promise<ScoredBlock>;
}

/** `first` is the number of the record that comes first, the header being record 1. */
export async function runBlocks(
  source: AsyncIterable<Buffer>,
  { delimiter, first }: { readonly delimiter: string; readonly first: number },
  blocks: Blocks,
  outlets: Outlets,
): Promise<Totals> {
  const splitter = new Splitter(delimiter, first);
  const underway: Underway[] = [];
  let [bytes, accepted, refused] = [0, 0, 0];
  const finishOldest = async (): Promise<void> => {
    const oldest = underway.shift();
    if (oldest === undefined) return;
    const result = await oldest.result;
    await outlets.rows(result.output);
    if (result.rejects.length > 0) await outlets.rejects(result.rejects);
    for (const row of result.refused) outlets.refused(row);
    if (result.part !== null) outlets.part(result.part);
    blocks.done(result);
    bytes += oldest.size;
    accepted += result.accepted;
    refused += result.refused.length;
    outlets.progress({ bytes, accepted, refused });
  };
  const start = async (block: Block): Promise<void> => {
    const result = blocks.score(block);
    // What fails is told when its turn comes; until then it must not count as forgotten.
    if (result instanceof Promise) result.catch(() => undefined);
    underway.push({ size: block.bytes.length, result });
    while (underway.length >= blocks.ahead) await finishOldest();
  };
  for await (const chunk of source) for (const block of splitter.push(chunk)) await start(block);
  for (const block of splitter.end()) await start(block);
  while (underway.length > 0) await finishOldest();
  return { accepted, refused };
}
