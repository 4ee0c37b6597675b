/** A clinic's own norms for programs: texts in, evidence or placed problems out. The merging itself is loaded only when asked for. */
import { type Evidence, indexEvidence } from './data.ts';
import type { ClinicFolder } from './merge.ts';
import type { NormsProblem } from './parse.ts';

export interface WithNorms {
  /** null where anything is wrong: a clinic's norms are taken whole or not at all. */
  readonly evidence: Evidence | null;
  readonly problems: readonly NormsProblem[];
}

/**
 * The evidence with these folders on top, a later one before an earlier one. A folder is a name, as results and problems shall
 * show it, and its YAML files: `path` relative to the folder with forward slashes (`tables/timed_up_and_go/own-2026.yaml`),
 * `text` as read. Reading them is the caller's: nothing here touches a disk. Rejects only on a fault of the program.
 */
export async function withNorms(evidence: Evidence, folders: readonly ClinicFolder[]): Promise<WithNorms> {
  const { withFolders } = await import('./merge.ts');
  const merged = withFolders(evidence, folders);
  return 'problems' in merged
    ? { evidence: null, problems: merged.problems }
    : { evidence: indexEvidence(merged.data), problems: [] };
}
