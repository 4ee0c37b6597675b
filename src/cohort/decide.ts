/** Level, flags, factors and starting levels of one client from the facts, by the functions that assess a single visit. */
import { DEFAULT_PATHWAY, labelsOf, riskFields } from '../assess.ts';
import type { Facts } from '../evidence/condition.ts';
import type { Evidence } from '../evidence/data.ts';
import type { RedFlag } from '../evidence/schema/pathway.ts';
import { planExercises } from '../plan/plan.ts';
import { factorsOf, redFlagsOf } from '../risk/findings.ts';
import { placement } from '../risk/place.ts';
import { fill } from '../risk/text.ts';

export interface DecideOptions {
  readonly pathway?: string | undefined;
  /** Ids of variants of that pathway that are on. */
  readonly pathwayOptions?: readonly string[] | undefined;
  readonly withPlan: boolean;
}

export interface Decided {
  readonly level: string;
  /** Ids of the items that would settle an open level. */
  readonly missing: readonly string[];
  readonly redFlags: readonly RedFlag[];
  /** Ids of contributing factors that were found; empty without the plan. */
  readonly factors: readonly string[];
  /** Starting level of each exercise, by id; empty without the plan. 0 = held or the seated variant. */
  readonly starts: Readonly<Record<string, number>>;
}

/** `facts` see the fields of the client and the scored tests. Throws where the pathway is not in the evidence. */
export function decide(
  facts: Facts,
  evidence: Evidence,
  { pathway: id = DEFAULT_PATHWAY, pathwayOptions = [], withPlan }: DecideOptions,
): Decided {
  const pathway = evidence.pathways.find((candidate) => candidate.id === id);
  if (pathway === undefined) throw new RangeError(`there is no pathway "${id}"`);
  const placed = placement(pathway, facts, pathwayOptions);
  const flags = redFlagsOf(evidence.redFlags, facts, {});
  return {
    level: placed.level,
    missing: placed.missing,
    redFlags: flags.flatMap((flag) => evidence.redFlags.find((each) => each.id === flag.id) ?? []),
    factors: withPlan ? factorsOf(evidence.factors, facts, {}).map((factor) => factor.id) : [],
    starts: withPlan ? startsOf(facts, evidence, { ...placed, override: null, red_flags: flags }) : {},
  };
}

function startsOf(facts: Facts, evidence: Evidence, risk: Parameters<typeof riskFields>[0]): Record<string, number> {
  const more = riskFields(risk, evidence, facts);
  const planFacts: Facts = { field: (path) => more(path) ?? facts.field(path), test: (test) => facts.test(test) };
  const plan = planExercises({
    exercises: evidence.exercises,
    caps: evidence.caps,
    facts: planFacts,
    testName: (test) => test,
    dose: evidence.dose,
  });
  return Object.fromEntries(plan.map(({ exercise, start }) => [exercise, start.level]));
}

export const TIER_WORDS: Readonly<Record<RedFlag['tier'], string>> = {
  emergency: 'emergency',
  same_day: 'same day',
  clear_first: 'clear first',
};

/** "red flag (same day): ..." for the notes of a row, in this client's numbers. */
export function flagNotes(flags: readonly RedFlag[], facts: () => Facts, evidence: Evidence): string[] {
  if (flags.length === 0) return [];
  const [labels, known] = [labelsOf(evidence), facts()];
  return flags.map((flag) => `red flag (${TIER_WORDS[flag.tier]}): ${fill(flag.finding, known, labels)}`);
}
