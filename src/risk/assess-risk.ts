/** The risk room: what is known about a client -> red flags, pathway level with its bounds and reasons, other pathways, factors. */
import type { RiskResult } from '../assessment.ts';
import type { Facts } from '../evidence/condition.ts';
import type { Labels } from '../evidence/describe.ts';
import type { AccuracyCaution, FallRate, LikelihoodRatio } from '../evidence/schema/numbers.ts';
import type { Factor, Pathway, RedFlag } from '../evidence/schema/pathway.ts';
import type { Clearance, RiskOverride } from '../session.ts';
import { whyDifferent } from './differences.ts';
import { fallRatesFor, type RatePerson } from './fall-rates.ts';
import { factorsOf, notAsked, redFlagsOf } from './findings.ts';
import { overrideOf } from './override.ts';
import { place } from './place.ts';
import { fallProbability } from './probability.ts';

/** What fall rates and the probability rest on. */
export interface FallFigures {
  readonly person: RatePerson;
  readonly rates: readonly FallRate[];
  readonly ratios: readonly LikelihoodRatio[];
  readonly cautions: readonly AccuracyCaution[];
  /** Whether a probability was asked for. */
  readonly probability: boolean;
}

export interface RiskInput {
  readonly facts: Facts;
  readonly pathways: readonly Pathway[];
  /** Id of the pathway that decides; the others are shown beside it. */
  readonly pathway: string;
  readonly redFlags: readonly RedFlag[];
  readonly factors: readonly Factor[];
  /** Names and units for the reasons; without them ids are written in words. */
  readonly labels?: Labels;
  /** Ids of options of the deciding pathway that are on. */
  readonly variants?: readonly string[];
  /** Day of the visit (ISO date), against which clearances are held; without it none counts for an emergency. */
  readonly assessed?: string;
  readonly clearances?: readonly Clearance[];
  readonly override?: RiskOverride | undefined;
  readonly assessor?: string | undefined;
  readonly figures?: FallFigures;
}

const NEVER = '9999-12-31';

/**
 * Sorts one client into the chosen pathway. Pure. Missing answers never count as no: where they could change the level it is
 * `undetermined`, with `at_least`, `at_most` and what would settle it. `probability` is null unless `figures` asks for it.
 * Throws RangeError when the pathway or an option of it is not in the data.
 */
export function assessRisk(input: RiskInput): RiskResult {
  const { facts, pathways, redFlags, factors, labels = {}, variants = [] } = input;
  const chosen = pathways.find((candidate) => candidate.id === input.pathway);
  if (chosen === undefined) throw new RangeError(`there is no pathway "${input.pathway}"`);
  const result = place(chosen, facts, labels, variants);
  const others = pathways
    .filter((candidate) => candidate !== chosen)
    .map((candidate) => {
      const other = place(candidate, facts, labels);
      return { ...other, differs_because: whyDifferent(result, chosen, other, candidate) };
    });
  const cleared = { clearances: input.clearances ?? [], assessed: input.assessed ?? NEVER };
  return {
    ...result,
    red_flags: redFlagsOf(redFlags, facts, labels, cleared),
    not_asked: notAsked(redFlags, facts),
    other_pathways: others,
    factors: factorsOf(factors, facts, labels),
    fall_rates: input.figures === undefined ? [] : fallRatesFor(input.figures.rates, input.figures.person),
    override: overrideOf(chosen, input.override, input.assessor),
    ...probabilityOf(input),
  };
}

function probabilityOf({ figures, facts }: RiskInput): Pick<RiskResult, 'probability' | 'no_probability_because'> {
  if (figures?.probability !== true) return { probability: null, no_probability_because: null };
  const answer = fallProbability({ ...figures, facts });
  return answer.kind === 'worked_out'
    ? { probability: answer.probability, no_probability_because: null }
    : { probability: null, no_probability_because: answer.because };
}
