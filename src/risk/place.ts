/** One client on one pathway: level, bounds, steps with their reasons, what is missing, what to do. */
import type { ActionResult, CaveatResult, FollowUp, MissingItem, PathwayResult, StepResult } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import { describe, type Labels } from '../evidence/describe.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import type { Level, Pathway } from '../evidence/schema/pathway.ts';
import { type ItemReading, itemFacts, readItems } from './items.ts';
import { type Solution, solve } from './solve.ts';
import { fill, OWN_RULE } from './text.ts';
import { withVariants } from './variants.ts';

const UNDETERMINED = 'undetermined';

/** Level and bounds alone, without any text: what a row of a cohort needs. */
export interface Placement {
  readonly level: string;
  readonly at_least: string;
  readonly at_most: string;
  /** Ids of the items that would settle the level, cheapest first. */
  readonly missing: readonly string[];
}

interface Placed {
  readonly pathway: Pathway;
  readonly readings: readonly ItemReading[];
  readonly solution: Solution;
  readonly lowest: Level;
  readonly highest: Level;
  readonly level: string;
}

function locate(pathway: Pathway, facts: Facts): Placed {
  const readings = readItems(pathway, facts);
  const solution = solve(pathway, readings);
  const lowest = pathway.levels[solution.levels[0] ?? -1];
  const highest = pathway.levels[solution.levels.at(-1) ?? -1];
  if (lowest === undefined || highest === undefined) throw new Error(`pathway "${pathway.id}" reaches no level`);
  return { pathway, readings, solution, lowest, highest, level: lowest === highest ? lowest.id : UNDETERMINED };
}

/**
 * Level of one client by enumeration of all completions of what is not known: given when every completion agrees, else
 * `undetermined` with the lowest and highest level that any answer could give. `variants` are ids of options of the pathway.
 */
export function placement(pathway: Pathway, facts: Facts, variants: readonly string[] = []): Placement {
  const placed = locate(withVariants(pathway, variants), facts);
  return {
    level: placed.level,
    at_least: placed.lowest.id,
    at_most: placed.highest.id,
    missing: placed.solution.missing.flatMap((index) => placed.readings[index]?.item.id ?? []),
  };
}

/** As `placement`, with everything a person needs to follow and check it. */
export function place(pathway: Pathway, facts: Facts, labels: Labels, variants: readonly string[] = []): PathwayResult {
  const placed = locate(withVariants(pathway, variants), facts);
  const missing = missingItems(placed);
  return {
    pathway: pathway.id,
    name: pathway.name,
    options: pathway.variants.filter((variant) => variants.includes(variant.id)).map(({ id, name }) => ({ id, name })),
    level: placed.level,
    label:
      placed.level === UNDETERMINED ? `Undetermined: ${placed.lowest.label} to ${placed.highest.label}` : placed.lowest.label,
    at_least: placed.lowest.id,
    at_most: placed.highest.id,
    steps: stepResults(placed, facts, labels),
    missing,
    caveats: [...variantsInUse(pathway, variants), ...caveats(placed, facts)],
    actions: actions(placed, missing),
    follow_up: followUp(placed),
  };
}

function missingItems({ readings, solution }: Placed): MissingItem[] {
  return solution.missing.flatMap((index) => {
    const item = readings[index]?.item;
    return item === undefined ? [] : [{ item: item.id, question: item.question, kind: item.kind }];
  });
}

/** What is known of an item in words; a recalled border or a reading of our own is marked where it stands. */
function itemBecause({ item, possible, rule }: ItemReading, facts: Facts, labels: Labels): string {
  if (rule === null) return `${item.label} ${item.kind === 'test' ? 'not tested' : 'not recorded'}`;
  const text = rule.because === undefined ? describe(rule.when, facts, labels).join(', ') : fill(rule.because, facts, labels);
  if (possible.length > 1) return `${text}, not settled`;
  if ('own_rule' in item.basis) return `${text} (the program's own reading)`;
  return item.basis.status === 'memory' ? `${text} (recalled, not checked against the paper)` : text;
}

function stepResults({ pathway, readings, solution }: Placed, facts: Facts, labels: Labels): StepResult[] {
  const becauseOf = new Map(readings.map((reading) => [reading.item.id, itemBecause(reading, facts, labels)]));
  const known = itemFacts(readings);
  const itemLabels: Labels = { item: (id) => becauseOf.get(id) };
  return pathway.steps.map((step, index) => ({
    id: step.id,
    question: step.question,
    answer: solution.steps[index]?.answer ?? 'unknown',
    because: describe(step.condition, known, itemLabels).join('; '),
    reached: solution.steps[index]?.reached ?? 'perhaps',
    ...basedOn(step.basis),
  }));
}

function variantsInUse(pathway: Pathway, ids: readonly string[]): CaveatResult[] {
  return pathway.variants
    .filter((variant) => ids.includes(variant.id))
    .map((variant) => ({ id: variant.id, text: variant.text, ...basedOn(variant.basis) }));
}

function caveats({ pathway, level }: Placed, facts: Facts): CaveatResult[] {
  return pathway.caveats
    .filter((caveat) => caveat.levels === undefined || caveat.levels.includes(level))
    .filter((caveat) => evaluate(caveat.when, facts) === 'yes')
    .map((caveat) => ({
      id: caveat.id,
      text: fill(caveat.text, facts),
      ...basedOn(caveat.basis),
      specific: !ofEverybody(caveat.when),
    }));
}

/** Every client has an age, so a condition that asks for nothing else holds for all. */
const ofEverybody = (when: Condition): boolean => 'field' in when && when.field === 'client.age' && 'recorded' in when;

/** An open level is first of all to be settled; until then the client is owed what the lowest possible level is owed. */
function actions({ level, lowest, highest }: Placed, missing: readonly MissingItem[]): ActionResult[] {
  const ofLevel = lowest.actions.map((action) => ({
    text: action.text,
    request: action.request ?? null,
    ...basedOn(action.basis),
  }));
  if (level !== UNDETERMINED) return ofLevel;
  return [
    { text: `Settle the level: ${missing.map((item) => item.question).join(' ')}`, ...OWN_RULE },
    { text: `Until then plan with care, as for the highest level still possible (${highest.label}).`, ...OWN_RULE },
    ...ofLevel,
  ];
}

function followUp({ level, highest }: Placed): FollowUp {
  const { text, within_days, basis } = highest.follow_up;
  return {
    text: level === UNDETERMINED ? `${text} (as for ${highest.label} until the level is settled)` : text,
    within_days,
    ...basedOn(basis),
  };
}
