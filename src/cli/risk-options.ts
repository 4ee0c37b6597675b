/** The options of every command that places a client on a pathway: which one decides, its variants, and the probability. */
import { type Command, Option } from 'commander';
import { type AssessOptions, DEFAULT_PATHWAY } from '../assess.ts';
import type { Evidence } from '../evidence/data.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';

export interface RiskOptions {
  readonly pathway: string;
  readonly pathwayOption?: readonly string[];
  readonly probability?: boolean;
}

const collect = (id: string, before: readonly string[] | undefined): readonly string[] => [...(before ?? []), id];

/** For commands that need the level and no probability. */
export function withPathwayOptions(command: Command): Command {
  return command
    .addOption(new Option('--pathway <id>', 'the fall-risk pathway that decides').default(DEFAULT_PATHWAY))
    .addOption(new Option('--pathway-option <id>', 'a variant of that pathway; may be given several times').argParser(collect));
}

export function withRiskOptions(command: Command): Command {
  return withPathwayOptions(command).option(
    '--probability',
    'also work out the probability of a fall in 12 months (some guidelines advise against it)',
  );
}

function checkPathway(evidence: Evidence, id: string): void {
  if (evidence.pathways.some((pathway) => pathway.id === id)) return;
  throw new CannotStart(`there is no pathway "${id}"; known: ${evidence.pathways.map((pathway) => pathway.id).join(', ')}`);
}

/** Throws CannotStart, naming what is known, where the evidence has no such pathway or option. */
export function assessOptions(evidence: Evidence, options: RiskOptions, { population }: Invocation): AssessOptions {
  checkPathway(evidence, options.pathway);
  const known = evidence.pathways.find((pathway) => pathway.id === options.pathway)?.variants.map((variant) => variant.id) ?? [];
  const strange = options.pathwayOption?.find((id) => !known.includes(id));
  if (strange !== undefined) {
    const listed = known.length === 0 ? 'it has none' : `known: ${known.join(', ')}`;
    throw new CannotStart(`the pathway "${options.pathway}" has no option "${strange}"; ${listed}`);
  }
  return {
    pathway: options.pathway,
    pathwayOptions: options.pathwayOption,
    probability: options.probability,
    population,
  };
}
