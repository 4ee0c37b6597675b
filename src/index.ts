/**
 * The library: read a visit, load the evidence, assess. No file of yours is read and nothing is printed; the same session and
 * evidence always give the same assessment. A clinic's own norms come as texts too (`withNorms`).
 *
 * @example
 * const evidence = loadEvidence();
 * const { session, problems } = parseSession(text, { file: 'visit.yaml', catalogue: evidence, today: '2026-05-20' });
 * if (session !== null) console.log(assess(session, evidence).risk.level);
 */
export { type AssessOptions, assess, DEFAULT_PATHWAY } from './assess.ts';
export type * from './assessment.ts';
export type * from './change/types.ts';
export { changeOf, NotComparable } from './change-visits.ts';
export { bundledEvidence as loadEvidence } from './evidence/bundled.ts';
export { type WithNorms, withNorms } from './evidence/clinic-norms.ts';
export type { Evidence } from './evidence/data.ts';
export type { ClinicFolder } from './evidence/merge.ts';
export type { NormsFile, NormsProblem } from './evidence/parse.ts';
export { formatProblem, type Problem, parseSession } from './intake/index.ts';
export type * from './session.ts';
