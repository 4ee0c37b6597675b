/** Every source that a result rests on, own rules' sources among them, with citation, where it stands and how it was read. */
import type { Assessment, Based, CitedSource, RiskResult, TestResult } from './assessment.ts';
import { citationsOf } from './evidence/basis.ts';
import type { Evidence } from './evidence/data.ts';
import type { Basis, Status } from './evidence/schema/common.ts';
import type { Pathway } from './evidence/schema/pathway.ts';

interface Cited {
  readonly source: string | null;
  readonly location: string | null;
  readonly status: Based['basis'];
}

const ofBased = (based: Based): Cited => ({ source: based.source, location: based.location, status: based.basis });

function ofTests(tests: readonly TestResult[]): Cited[] {
  return tests.flatMap((test) => [
    ...test.comparisons,
    ...test.cut_points,
    ...test.cut_points.flatMap((cut) => cut.in_copd ?? []),
    ...(test.measurement_error === null ? [] : [test.measurement_error, test.measurement_error.larger ?? []].flat()),
  ]);
}

function ofRisk(risk: RiskResult): Cited[] {
  const pathways = [risk, ...risk.other_pathways].flatMap((pathway) => [
    ...pathway.steps,
    ...pathway.actions,
    ...pathway.caveats,
    ...(pathway.follow_up === null ? [] : [pathway.follow_up]),
  ]);
  const set = risk.override === null ? [] : [...risk.override.actions, risk.override.follow_up];
  const probability = risk.probability === null ? [] : [...risk.probability.parts, ...risk.probability.warnings];
  return [...pathways, ...set, ...risk.red_flags, ...risk.factors, ...risk.fall_rates, ...probability].map(ofBased);
}

/** Own rules are shown without a source of their own; what informed them is found again by their ids. */
function basesBehind(evidence: Evidence, risk: RiskResult): Basis[] {
  const raised = new Set(risk.red_flags.map((flag) => flag.id));
  const found = new Set(risk.factors.map((factor) => factor.id));
  const shown = new Map([risk, ...risk.other_pathways].map((result) => [result.pathway, result]));
  return [
    ...evidence.redFlags.filter((flag) => raised.has(flag.id)).map((flag) => flag.basis),
    ...evidence.factors.filter((factor) => found.has(factor.id)).map((factor) => factor.basis),
    ...evidence.pathways.flatMap((pathway) => basesOfPathway(pathway, shown.get(pathway.id))),
  ];
}

function basesOfPathway(pathway: Pathway, result: Pick<RiskResult, 'caveats' | 'options'> | undefined): Basis[] {
  if (result === undefined) return [];
  const caveats = new Set(result.caveats.map((caveat) => caveat.id));
  const options = new Set(result.options.map((option) => option.id));
  return [
    ...[...pathway.items, ...pathway.steps].map((part) => part.basis),
    ...pathway.caveats.filter((caveat) => caveats.has(caveat.id)).map((caveat) => caveat.basis),
    ...pathway.variants
      .filter((variant) => options.has(variant.id))
      .flatMap((variant) => [variant.basis, ...[...variant.items, ...variant.steps].map((part) => part.basis)]),
  ];
}

const isRead = (status: Based['basis']): status is Status => status !== 'own-rule';

/** `rest` are the bases of what stands in the result beside tests and risk: exercises, caps, cautions. Keyed by id, in order. */
export function citedSources(
  evidence: Evidence,
  tests: readonly TestResult[],
  risk: RiskResult,
  rest: readonly Basis[],
): Assessment['sources'] {
  const cited = new Map<string, Pick<CitedSource, 'location' | 'status'>>();
  const bases = [...basesBehind(evidence, risk), ...rest];
  for (const { source, location, status } of [...ofTests(tests), ...ofRisk(risk), ...bases.flatMap(citationsOf)])
    if (source !== null && isRead(status) && !cited.has(source)) cited.set(source, { location: location ?? '', status });
  const entries = [...cited].sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(
    entries.map(([id, where]) => {
      const source = evidence.sources[id];
      return [id, { citation: source?.citation ?? id, doi: source?.doi ?? null, ...where }];
    }),
  );
}
