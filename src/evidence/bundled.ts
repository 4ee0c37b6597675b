/** The evidence that ships with the program. */
import { compiledJson } from './compiled.ts';
import { type Evidence, type EvidenceData, indexEvidence } from './data.ts';

let bundled: Evidence | undefined;

/** Parsed once a process. The build validated it, so it is taken at its word here. */
export function bundledEvidence(): Evidence {
  bundled ??= indexEvidence(JSON.parse(compiledJson) as EvidenceData);
  return bundled;
}
