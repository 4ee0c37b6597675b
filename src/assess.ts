/** The one composition: a session and the evidence -> the whole assessment. Pure: the same input gives the same output. */
import type { Assessment, Caution, CitedSource, RiskResult, TestResult } from './assessment.ts';
import { basedOn, citationsOf } from './evidence/basis.ts';
import { evaluate, type Facts, type Truth } from './evidence/condition.ts';
import type { Evidence } from './evidence/data.ts';
import type { Labels } from './evidence/describe.ts';
import type { Basis } from './evidence/schema/common.ts';
import { factsOf, rawFactsOf } from './facts.ts';
import { planExercises } from './plan/plan.ts';
import { assessRisk } from './risk/assess-risk.ts';
import { readItem } from './risk/items.ts';
import { scoreSession } from './scoring/score-session.ts';
import type { Session } from './session.ts';
import { toolName, toolVersion } from './version.ts';

export interface AssessOptions {
  /** Pathway that decides; the World Falls Guidelines 2022 where absent. */
  readonly pathway?: string | undefined;
  /** Prefer tables from this country (ISO 3166, two letters). */
  readonly population?: string | undefined;
}

export const DEFAULT_PATHWAY = 'world_falls_guidelines_2022';

/** Answer to a pathway item that has just yes and no; unknown where it is not settled or no pathway has it. */
function itemAnswer(evidence: Evidence, facts: Facts, id: string): Truth {
  const item = evidence.pathways.flatMap((pathway) => pathway.items).find((each) => each.id === id);
  if (item === undefined) return 'unknown';
  const [only, ...others] = readItem(item, facts).possible;
  return others.length === 0 && (only === 'yes' || only === 'no') ? only : 'unknown';
}

/** What the caps may ask of the risk result, as derived fields of the facts. */
function riskFields(risk: RiskResult, evidence: Evidence, facts: Facts): (path: string) => string | undefined {
  const fields: Readonly<Record<string, string>> = {
    'risk.level': risk.level,
    'risk.at_least': risk.at_least,
    'risk.at_most': risk.at_most,
    'risk.gait_impaired': itemAnswer(evidence, facts, 'gait_impaired'),
    'risk.frail': itemAnswer(evidence, facts, 'frailty'),
    'risk.red_flag': risk.red_flags.length > 0 ? 'yes' : 'no',
  };
  return (path) => fields[path];
}

/** Names and units as people read them, for the "because" lines. */
function labelsOf(evidence: Evidence): Labels {
  const fields = new Map(evidence.fields.map((field) => [field.field, { name: field.name, unit: field.unit_text }]));
  return {
    field: (path) => fields.get(path),
    test: (id) => {
      const test = evidence.testById.get(id);
      return test === undefined ? undefined : { name: test.name, unit: test.unit_text };
    },
  };
}

const cautionOf = (text: string, basis: Basis): Caution => ({ text, ...basedOn(basis) });

/** Every source that this result rests on, with citation, where and how it was read. */
function citedSources(
  evidence: Evidence,
  tests: readonly TestResult[],
  risk: RiskResult,
  rest: readonly Basis[],
): Assessment['sources'] {
  const cited = new Map<string, { location: string; status: CitedSource['status'] }>();
  const cite = (source: string | null, location: string | null, status: string): void => {
    if (source !== null && !cited.has(source))
      cited.set(source, { location: location ?? '', status: status as CitedSource['status'] });
  };
  for (const test of tests) {
    for (const each of [...test.comparisons, ...test.cut_points]) cite(each.source, each.location, each.status);
    if (test.measurement_error !== null)
      cite(test.measurement_error.source, test.measurement_error.location, test.measurement_error.status);
  }
  for (const pathway of [risk, ...risk.other_pathways]) {
    const follow = pathway.follow_up === null ? [] : [pathway.follow_up];
    for (const each of [...pathway.steps, ...pathway.actions, ...pathway.caveats, ...follow])
      cite(each.source, each.location, each.basis);
  }
  for (const each of [...risk.red_flags, ...risk.factors]) cite(each.source, each.location, each.basis);
  for (const basis of rest) for (const each of citationsOf(basis)) cite(each.source, each.location, each.status);
  const entries = [...cited].sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(
    entries.map(([id, { location, status }]) => {
      const source = evidence.sources[id];
      return [id, { citation: source?.citation ?? id, doi: source?.doi ?? null, location, status }];
    }),
  );
}

/** Score, stratify, plan. Throws only where `options.pathway` names no pathway of the evidence. */
export function assess(session: Session, evidence: Evidence, options: AssessOptions = {}): Assessment {
  const lung = session.fields['health.lung_condition'];
  const lungCondition = typeof lung === 'string' && !['none', 'unknown', 'no'].includes(lung) ? lung : null;
  const rawFacts = rawFactsOf(session, evidence);
  const scored = scoreSession(session, {
    evidence,
    subject: { client: session.client, lungCondition, preferredCountry: options.population },
    applies: (condition) => evaluate(condition, rawFacts) === 'yes',
  });
  const facts = factsOf(session, scored.tests, evidence);
  const risk = assessRisk({
    facts,
    pathways: evidence.pathways,
    pathway: options.pathway ?? DEFAULT_PATHWAY,
    redFlags: evidence.redFlags,
    factors: evidence.factors,
    labels: labelsOf(evidence),
  });
  const planFacts = factsOf(session, scored.tests, evidence, riskFields(risk, evidence, facts));
  const plan = planExercises({
    exercises: evidence.exercises,
    caps: evidence.caps,
    facts: planFacts,
    testName: (id) => evidence.testById.get(id)?.name ?? id,
  });
  const general = evidence.general.cautions.filter(
    (caution) => caution.when === undefined || evaluate(caution.when, planFacts) === 'yes',
  );
  const planBases = evidence.exercises.flatMap((exercise) => [exercise.ladder_basis, exercise.start.basis, exercise.dose.basis]);
  return {
    format: 1,
    tool: { name: toolName, version: toolVersion },
    evidence: { version: evidence.version, digest: evidence.digest, folders: evidence.folders },
    client: {
      ref: session.client.ref,
      sex: session.client.sex,
      age: session.client.age,
      setting: session.client.setting,
      setting_assumed: session.client.settingAssumed,
      lung_condition: typeof lung === 'string' ? lung : null,
    },
    assessed: session.assessed,
    tests: scored.tests,
    risk,
    plan,
    cautions: general.map((caution) => cautionOf(caution.text, caution.basis)),
    stop_signs: evidence.general.stop_signs.map((sign) => cautionOf(sign.text, sign.basis)),
    notes: [...session.notes, ...scored.notes],
    sources: citedSources(evidence, scored.tests, risk, [
      ...planBases,
      ...general.map((each) => each.basis),
      ...evidence.general.stop_signs.map((each) => each.basis),
    ]),
  };
}
