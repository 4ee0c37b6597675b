/** What every part of `footing cohort` is handed, and how a visit that was kept for the change is read again. */
import { type Job, type JobScorer, readColumns } from '../cohort/job.ts';
import type { ReadVisit } from '../cohort/summary/between-visits.ts';
import { BETWEEN, type KeptVisit } from '../cohort/summary/part.ts';
import { treeOf } from '../cohort/tree.ts';
import type { Evidence } from '../evidence/data.ts';
import { buildSession } from '../intake/build.ts';
import type { CohortOptions } from './cohort.ts';
import type { Streams } from './io.ts';
import type { Invocation } from './main.ts';

export interface CohortContext {
  readonly invocation: Invocation;
  readonly options: CohortOptions;
  readonly evidence: Evidence;
  readonly streams: Streams;
}

/** Reads a kept visit again; null where it can no longer be read. */
export function visitReader(scorer: JobScorer, job: Job, evidence: Evidence): (visit: KeptVisit) => ReadVisit | null {
  const places = readColumns(scorer.layout);
  return ({ cells }) => {
    const row = scorer.layout.headings.map(() => '');
    cells.split(BETWEEN).forEach((cell, index) => {
      const place = places[index];
      if (place !== undefined) row[place] = cell;
    });
    const tree = treeOf(scorer.layout, row, { number: 0, today: job.options.today });
    const { session } = buildSession(tree, { catalogue: evidence, today: job.options.today });
    const scored = scorer.blocks.scorer.score(row, 0);
    return session === null || scored.kind === 'refused' ? null : { session, level: scored.decided.level };
  };
}
