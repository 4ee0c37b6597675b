/** Reads the items of a pathway: which values each may still have, given what is recorded. */
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { Item, Pathway } from '../evidence/schema/pathway.ts';

export type ItemRule = Item['from'][number];

export interface ItemReading {
  readonly item: Item;
  /** Values still possible, from best to worst; never empty. */
  readonly possible: readonly string[];
  /** The rule whose condition is true; null when none is. */
  readonly rule: ItemRule | null;
}

/**
 * The first rule whose condition is true gives the values. A rule that cannot be decided adds its values to what the later
 * rules give, since it may turn out true; where no rule is true every value of the item stays possible.
 */
export function readItem(item: Item, facts: Facts): ItemReading {
  const values = new Set<string>();
  let rule: ItemRule | null = null;
  for (const candidate of item.from) {
    const truth = evaluate(candidate.when, facts);
    if (truth === 'no') continue;
    for (const value of candidate.values) values.add(value);
    if (truth === 'yes') {
      rule = candidate;
      break;
    }
  }
  const possible = rule === null ? item.values : item.values.filter((value) => values.has(value));
  if (possible.length === 0) throw new Error(`pathway item "${item.id}": a rule gives values that the item does not have`);
  return { item, possible, rule };
}

/** Every item of the pathway, in file order. */
export function readItems(pathway: Pathway, facts: Facts): readonly ItemReading[] {
  return pathway.items.map((item) => readItem(item, facts));
}

/** The readings as facts, for conditions that speak of items only. */
export function itemFacts(readings: readonly ItemReading[]): Facts {
  const byId = new Map(readings.map((reading) => [reading.item.id, reading.possible]));
  return { field: () => undefined, test: () => undefined, item: (id) => byId.get(id) ?? [] };
}
