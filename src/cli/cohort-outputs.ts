/** Where the rows of a cohort go: all outputs of a run become visible together at the end, or none of them does. */
import { CannotStart, fileErrorInWords, type Sink, type Streams } from './io.ts';

export interface Outputs {
  readonly rows: (piece: string | Uint8Array) => Promise<void>;
  readonly rejects: (piece: string | Uint8Array) => Promise<void>;
  readonly commit: () => Promise<void>;
  readonly discard: () => Promise<void>;
}

interface Opened {
  readonly name: string;
  readonly sink: Sink;
}

/** `whole`: files of this run that already stand under their names. */
async function inWords<Result>(name: string, work: () => Promise<Result>, whole: readonly string[] = []): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    const left = whole.length === 0 ? 'nothing of this run is left in any file' : `${whole.join(', ')} of this run is whole`;
    throw new CannotStart(`cannot write ${name}: ${fileErrorInWords(error)}; ${left}`);
  }
}

async function openFile(path: string, streams: Streams): Promise<Opened> {
  return { name: path, sink: await inWords(path, () => streams.file(path)) };
}

/** Without `output` the rows go to standard output as they come. */
export async function openOutputs(
  { output, rejects }: { readonly output?: string | undefined; readonly rejects?: string | undefined },
  streams: Streams,
): Promise<Outputs> {
  const rows = output === undefined ? { name: 'standard output', sink: streams.stdout() } : await openFile(output, streams);
  let refused: Opened | null = null;
  try {
    refused = rejects === undefined ? null : await openFile(rejects, streams);
  } catch (error) {
    await rows.sink.discard();
    throw error;
  }
  const opened = refused === null ? [rows] : [rows, refused];
  return {
    rows: (piece) => inWords(rows.name, () => rows.sink.write(piece)),
    rejects: async (piece) => {
      if (refused === null) return;
      const { name, sink } = refused;
      await inWords(name, () => sink.write(piece));
    },
    commit: async () => {
      const whole: string[] = [];
      for (const { name, sink } of opened) {
        await inWords(name, () => sink.commit(), whole);
        whole.push(name);
      }
    },
    discard: async () => {
      for (const { sink } of opened) await sink.discard();
    },
  };
}
