/** One block of rows -> its output, its refused rows and its share of the summary. The same on one core and in a worker. */
import type { Evidence } from '../evidence/data.ts';
import type { Layout } from './layout.ts';
import { csvLine, type Format, type RowWriter, rowWriter } from './output.ts';
import { type RowVisitor, readBlock } from './read-block.ts';
import { quantity, reasonsOf } from './reasons.ts';
import { type Accepted, RowScorer } from './row-scorer.ts';
import type { Block } from './splitter.ts';
import { TextBuffer } from './text-buffer.ts';
import type { Row } from './tree.ts';

export interface BlockOptions {
  readonly delimiter: string;
  readonly format: Format;
  readonly pathway: string | undefined;
  readonly pathwayOptions: readonly string[] | undefined;
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
  /** UTF-8; holds until the next block is processed. */
  readonly output: Uint8Array;
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

export class BlockScorer implements RowVisitor {
  readonly scorer: RowScorer;
  readonly writer: RowWriter;
  readonly #options: BlockOptions;
  readonly #layout: Layout;
  readonly #listener: RowListener | null;
  readonly output = new TextBuffer();
  #refused: RefusedRow[] = [];
  #rejects = '';
  #accepted = 0;
  /** Of the row being read. */
  #number = 0;

  constructor(layout: Layout, evidence: Evidence, options: BlockOptions, listener: RowListener | null) {
    this.#layout = layout;
    this.#options = options;
    this.#listener = listener;
    const scorerOptions = {
      ...options,
      render: (...given: Parameters<RowWriter['render']>): string => this.writer.render(...given),
    };
    this.scorer = new RowScorer(layout, evidence, scorerOptions);
    this.writer = rowWriter(options.format, {
      headings: layout.headings,
      slots: this.scorer.slots,
      slotsOf: (test) => this.scorer.sidesOf(test.id),
      delimiter: options.delimiter,
    });
  }

  get rejectsHeading(): string {
    return csvLine(['row', 'reasons', ...this.#layout.headings], this.#options.delimiter);
  }

  process(block: Block): BlockResult {
    this.output.clear();
    this.#refused = [];
    this.#rejects = '';
    this.#accepted = 0;
    this.#number = block.first - 1;
    readBlock(block, this.#options.delimiter, this);
    return { output: this.output.bytes(), rejects: this.#rejects, refused: this.#refused, accepted: this.#accepted };
  }

  row(cells: Row, raw?: string): void {
    this.#number += 1;
    if (this.#isBlank(cells)) return;
    const result = this.#one(cells, raw);
    if (typeof result === 'string') {
      this.output.add(result);
      this.#accepted += 1;
    } else this.#refuse(result, cells);
  }

  unreadable(raw: string, because: string): void {
    this.#number += 1;
    this.#refuse([because], [raw]);
  }

  #refuse(reasons: readonly string[], cells: Row): void {
    this.#listener?.refused();
    this.#refused.push({ row: this.#number, reasons });
    this.#rejects += csvLine([String(this.#number), reasons.join(' | '), ...cells], this.#options.delimiter);
  }

  /** A line without anything in it is no row, unless the cohort has one column. */
  #isBlank(cells: Row): boolean {
    return cells.length === 1 && cells[0] === '' && this.#layout.headings.length > 1;
  }

  /** The output row, or the reasons against it. */
  #one(cells: Row, raw: string | undefined): string | readonly string[] {
    const wanted = this.#layout.headings.length;
    if (cells.length !== wanted)
      return [
        `it has ${quantity(cells.length, 'cell')}, the header has ${wanted}; fill in or take out a cell, and put cells with ${this.#delimiterInWords()} in quotes`,
      ];
    const scored = this.scorer.score(cells, this.#number);
    if (scored.kind === 'refused') return reasonsOf(scored.findings, this.#layout, cells);
    this.#listener?.accepted(scored, cells);
    return this.writer.row(cells, scored, raw);
  }

  #delimiterInWords(): string {
    const words: Readonly<Record<string, string>> = { ',': 'a comma', ';': 'a semicolon', '\t': 'a tab', '|': 'a |' };
    return words[this.#options.delimiter] ?? `"${this.#options.delimiter}"`;
  }
}
