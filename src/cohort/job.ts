/** Everything that scoring a block needs, as plain data that a worker can be handed, and the scoring itself. */
import type { Evidence } from '../evidence/data.ts';
import { type BlockOptions, BlockScorer } from './block-scorer.ts';
import { compileLayout, type Layout } from './layout.ts';
import type { ScoredBlock } from './run.ts';
import type { ColumnSettings } from './settings.ts';
import type { Block } from './splitter.ts';
import { PartBuilder } from './summary/part-builder.ts';
import { targetsOf } from './targets.ts';

export interface Job {
  readonly headings: readonly string[];
  readonly settings: ColumnSettings;
  readonly options: BlockOptions;
  /** Heading of the column that parts the cohort in the summary. */
  readonly by: string | null;
  readonly withSummary: boolean;
  /** Also write the refused rows. */
  readonly withRejects: boolean;
}

/** Places of the columns that mean something, in order. */
export function readColumns(layout: Layout): number[] {
  const columns = [
    layout.ref,
    layout.assessed,
    ...Object.values(layout.client),
    ...layout.fields.flatMap((part) => [part.whole, ...part.pieces.map((piece) => piece.column)]),
    ...layout.tests.flatMap((part) => part.sides.flatMap((side) => side.columns)),
  ];
  return [...new Set(columns.flatMap((column) => (column === null ? [] : [column.index])))].sort((a, b) => a - b);
}

export class JobScorer {
  readonly blocks: BlockScorer;
  readonly layout: Layout;
  readonly #job: Job;
  #builder: PartBuilder | null = null;

  /** Throws RangeError where the header cannot be read; whoever makes the job has looked before. */
  constructor(job: Job, evidence: Evidence) {
    const { layout, problems } = compileLayout(job.headings, job.settings, targetsOf(evidence), evidence);
    if (layout === null) throw new RangeError(problems.join('; '));
    this.layout = layout;
    this.#job = job;
    const listener = job.withSummary
      ? {
          accepted: (...given: Parameters<PartBuilder['accepted']>): void => this.#builder?.accepted(...given),
          refused: (): void => this.#builder?.refused(),
        }
      : null;
    this.blocks = new BlockScorer(layout, evidence, job.options, listener);
  }

  score(block: Block): ScoredBlock {
    const { by, withSummary, withRejects } = this.#job;
    if (withSummary) {
      const place = by === null ? null : this.layout.headings.indexOf(by);
      this.#builder = new PartBuilder({ scorer: this.blocks.scorer, by: place, kept: readColumns(this.layout) });
    }
    const result = this.blocks.process(block);
    return { ...result, rejects: withRejects ? result.rejects : '', part: this.#builder?.part() ?? null };
  }
}
