/** The risk room: what is known about a client -> red flags, pathway level with its bounds and reasons, other pathways, factors. */
import type { RiskResult } from '../assessment.ts';
import type { Facts } from '../evidence/condition.ts';
import type { Labels } from '../evidence/describe.ts';
import type { Factor, Pathway, RedFlag } from '../evidence/schema/pathway.ts';
import { whyDifferent } from './differences.ts';
import { factorsOf, notAsked, redFlagsOf } from './findings.ts';
import { place } from './place.ts';

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
}

/**
 * Sorts one client into the chosen pathway. Pure. Missing answers never count as no: where they could change the level it is
 * `undetermined`, with `at_least`, `at_most` and what would settle it. `probability` is left null here.
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
  return {
    ...result,
    red_flags: redFlagsOf(redFlags, facts, labels),
    not_asked: notAsked(redFlags, facts),
    other_pathways: others,
    factors: factorsOf(factors, facts, labels),
    probability: null,
  };
}
