/** One block of rows -> its output, its refused rows and its share of the summary. The same on one core and in a worker. */
import type { Evidence } from '../evidence/data.ts';
import type { Layout } from './layout.ts';
import { csvLine, type Format, type RowWriter, rowWriter } from './output.ts';
import { readBlock, type ReadRow } from './read-block.ts';
import { reasonsOf } from './reasons.ts';
import { type Accepted, RowScorer } from './row-scorer.ts';
import type { Block } from './splitter.ts';
import type { Row } from './tree.ts';

export interface BlockOptions {
  readonly delimiter: string;
  readonly format: Format;
  readonly pathway: string | undefined;
  readonly population: string | undefined;
  /** ISO date. */
  readonly today: string;
  readonly withPlan: boolean;
}

export interface RefusedRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly row: number;
  readonly reasons: readonly string[];
}

export interface BlockResult {
  readonly output: string;
  /** Refused rows as CSV: row, reasons, the original cells. */
  readonly rejects: string;
  readonly refused: readonly RefusedRow[];
  readonly accepted: number;
}

/** Takes note of every accepted row, for the summary. */
export interface RowListener {
  accepted(scored: Accepted, row: Row): void;
  refused(): void;
}

const quantity = (count: number): string => `${count} ${count === 1 ? 'cell' : 'cells'}`;

export class BlockScorer {
  readonly scorer: RowScorer;
  readonly writer: RowWriter;
  readonly #options: BlockOptions;
  readonly #layout: Layout;
  readonly #listener: RowListener | null;

  constructor(layout: Layout, evidence: Evidence, options: BlockOptions, listener: RowListener | null) {
    this.#layout = layout;
    this.#options = options;
    this.#listener = listener;
    const scorerOptions = {
      ...options,
      render: (...given: Parameters<RowWriter['render']>): string => this.writer.render(...given),
    };
    this.scorer = new RowScorer(layout, evidence, scorerOptions);
    const slots = this.scorer.outputTests.flatMap((test) => this.scorer.sidesOf(test.id).map((side) => ({ test: test.id, side })));
    this.writer = rowWriter(options.format, { headings: layout.headings, slots, slotsOf: (test) => this.scorer.sidesOf(test.id), delimiter: options.delimiter });
  }

  get rejectsHeading(): string {
    return csvLine(['row', 'reasons', ...this.#layout.headings], this.#options.delimiter);
  }

  process(block: Block): BlockResult {
    let [output, rejects, accepted] = ['', '', 0];
    const refused: RefusedRow[] = [];
    const rows = readBlock(block, this.#options.delimiter);
    for (let index = 0; index < rows.length; index += 1) {
      const read = rows[index];
      if (read === undefined || this.#isBlank(read)) continue;
      const number = block.first + index;
      const result = this.#one(read, number);
      if (typeof result === 'string') {
        output += result;
        accepted += 1;
        continue;
      }
      this.#listener?.refused();
      refused.push({ row: number, reasons: result });
      const cells = read.kind === 'row' ? read.cells : [read.raw];
      rejects += csvLine([String(number), result.join(' | '), ...cells], this.#options.delimiter);
    }
    return { output, rejects, refused, accepted };
  }

  /** A line without anything in it is no row, unless the cohort has one column. */
  #isBlank(read: ReadRow): boolean {
    return read.kind === 'row' && read.cells.length === 1 && read.cells[0] === '' && this.#layout.headings.length > 1;
  }

  /** The output row, or the reasons against it. */
  #one(read: ReadRow, number: number): string | readonly string[] {
    if (read.kind === 'unreadable') return [read.because];
    const { cells, raw } = read;
    const wanted = this.#layout.headings.length;
    if (cells.length !== wanted)
      return [`it has ${quantity(cells.length)}, the header has ${wanted}; fill in or take out a cell, and put cells with ${this.#delimiterInWords()} in quotes`];
    const scored = this.scorer.score(cells, `row ${number}`);
    if (scored.kind === 'refused') return reasonsOf(scored.findings, this.#layout, cells);
    this.#listener?.accepted(scored, cells);
    return this.writer.row(cells, scored, raw);
  }

  #delimiterInWords(): string {
    const words: Readonly<Record<string, string>> = { ',': 'a comma', ';': 'a semicolon', '\t': 'a tab', '|': 'a |' };
    return words[this.#options.delimiter] ?? `"${this.#options.delimiter}"`;
  }
}
