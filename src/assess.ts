/** The one composition: a session and the evidence -> the whole assessment. Pure: the same input gives the same output. */
import type { Assessment, Caution, RiskResult } from './assessment.ts';
import { citedSources } from './cited-sources.ts';
import { basedOn } from './evidence/basis.ts';
import { evaluate, type Facts, type Truth } from './evidence/condition.ts';
import type { Evidence } from './evidence/data.ts';
import type { Labels } from './evidence/describe.ts';
import type { Basis } from './evidence/schema/common.ts';
import { factsOf, rawFactsOf, subjectOf } from './facts.ts';
import { appliedCaps } from './plan/caps.ts';
import { adaptationsFor } from './plan/dose.ts';
import { planExercises } from './plan/plan.ts';
import { planWeek, weekBases } from './plan/week.ts';
import { assessRisk } from './risk/assess-risk.ts';
import { isOpen } from './risk/clearance.ts';
import { readItem } from './risk/items.ts';
import { levelInForce } from './risk/override.ts';
import { scoreSession } from './scoring/score-session.ts';
import type { Session } from './session.ts';
import { toolName, toolVersion } from './version.ts';

export interface AssessOptions {
  /** Pathway that decides; the World Falls Guidelines 2022 where absent. */
  readonly pathway?: string | undefined;
  /** Ids of options of that pathway that are on. */
  readonly pathwayOptions?: readonly string[] | undefined;
  /** Work out the probability of a fall in 12 months. */
  readonly probability?: boolean | undefined;
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
export type RiskInForce = Pick<RiskResult, 'level' | 'at_least' | 'at_most' | 'override' | 'red_flags'>;
export function riskFields(risk: RiskInForce, evidence: Evidence, facts: Facts): (path: string) => string | undefined {
  const inForce = levelInForce(risk);
  const open = new Set(risk.red_flags.filter(isOpen).map((flag) => flag.id));
  const fields: Record<string, string> = {
    'risk.level': inForce.level,
    'risk.at_least': inForce.at_least,
    'risk.at_most': inForce.at_most,
    'risk.gait_impaired': itemAnswer(evidence, facts, 'gait_impaired'),
    'risk.frail': itemAnswer(evidence, facts, 'frailty'),
    'risk.red_flag': open.size > 0 ? 'yes' : 'no',
  };
  // a cap may hold on for one flag alone: yes while it is open
  for (const flag of evidence.redFlags) fields[`risk.open.${flag.id}`] = open.has(flag.id) ? 'yes' : 'no';
  return (path) => fields[path];
}

/** Names and units as people read them, for the "because" lines. */
export function labelsOf(evidence: Evidence): Labels {
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

function riskOf(
  session: Session,
  evidence: Evidence,
  options: AssessOptions,
  facts: Facts,
  lungCondition: string | null,
): RiskResult {
  return assessRisk({
    facts,
    pathways: evidence.pathways,
    pathway: options.pathway ?? DEFAULT_PATHWAY,
    variants: options.pathwayOptions ?? [],
    redFlags: evidence.redFlags,
    factors: evidence.factors,
    labels: labelsOf(evidence),
    assessed: session.assessed,
    clearances: session.clearances ?? [],
    override: session.riskOverride,
    assessor: session.assessor,
    figures: {
      person: { client: session.client, lungCondition },
      rates: evidence.fallRates,
      ratios: evidence.likelihoodRatios,
      cautions: evidence.accuracyCautions,
      probability: options.probability === true,
    },
  });
}

/** An override that names no level of the pathway that decides is not applied, and that is said. */
function overrideNotes({ riskOverride }: Session, risk: RiskResult): string[] {
  if (riskOverride === undefined || risk.override !== null) return [];
  return [`The level "${riskOverride.level}" set in the file is none of ${risk.name}, which decides here: it is not applied`];
}

/** Score, stratify, plan. Throws only where `options` name a pathway, or an option of it, that the evidence does not have. */
export function assess(session: Session, evidence: Evidence, options: AssessOptions = {}): Assessment {
  const lung = session.fields['health.lung_condition'];
  const subject = subjectOf(session, options.population);
  const rawFacts = rawFactsOf(session, evidence);
  const scored = scoreSession(session, {
    evidence,
    subject,
    applies: (condition) => evaluate(condition, rawFacts) === 'yes',
  });
  const facts = factsOf(session, scored.tests, evidence);
  const risk = riskOf(session, evidence, options, facts, subject.lungCondition);
  const planFacts = factsOf(session, scored.tests, evidence, riskFields(risk, evidence, facts));
  const plan = planExercises({
    exercises: evidence.exercises,
    caps: evidence.caps,
    facts: planFacts,
    testName: (id) => evidence.testById.get(id)?.name ?? id,
    dose: evidence.dose,
    wishes: session.planWishes,
    assessor: session.assessor,
  });
  const week = planWeek(
    plan.filter((exercise) => exercise.goes_home),
    evidence.dose.week,
    session.planWishes,
  );
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
    assessor: session.assessor ?? null,
    goals: session.goals ?? [],
    consent_to_share: session.consentToShare ?? null,
    tests: scored.tests,
    risk,
    plan,
    week,
    cautions: general.map((caution) => ({ ...cautionOf(caution.text, caution.basis), specific: caution.when !== undefined })),
    stop_signs: evidence.general.stop_signs.map((sign) => cautionOf(sign.text, sign.basis)),
    recorded: session.fields,
    notes: [...session.notes, ...overrideNotes(session, risk), ...scored.notes],
    sources: citedSources(evidence, scored.tests, risk, [
      ...planBases,
      ...appliedCaps(evidence.caps, planFacts).map(({ cap }) => cap.basis),
      ...adaptationsFor(evidence.dose, planFacts).map((adaptation) => adaptation.basis),
      ...weekBases(evidence.dose.week),
      ...general.map((each) => each.basis),
      ...evidence.general.stop_signs.map((each) => each.basis),
    ]),
  };
}
