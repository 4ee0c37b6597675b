/** Options of a pathway that the data holds: off unless asked for, and visible when on. */
import type { Pathway } from '../evidence/schema/pathway.ts';

const applied = new WeakMap<Pathway, Map<string, Pathway>>();

/**
 * The pathway with these options on, in the order given: items and steps of an option replace those of the same id.
 * The same object comes back for the same options, so that what was worked out for it is kept.
 * Throws when the pathway has no option of that id.
 */
export function withVariants(pathway: Pathway, ids: readonly string[]): Pathway {
  if (ids.length === 0) return pathway;
  const key = ids.join(' ');
  const forPathway = applied.get(pathway) ?? new Map<string, Pathway>();
  applied.set(pathway, forPathway);
  const known = forPathway.get(key);
  if (known !== undefined) return known;
  const changed = ids.reduce((current, id) => withVariant(current, id), pathway);
  forPathway.set(key, changed);
  return changed;
}

function withVariant(pathway: Pathway, id: string): Pathway {
  const variant = pathway.variants.find((candidate) => candidate.id === id);
  if (variant === undefined) throw new RangeError(`pathway "${pathway.id}" has no option "${id}"`);
  return { ...pathway, items: replaced(pathway.items, variant.items), steps: replaced(pathway.steps, variant.steps) };
}

function replaced<Part extends { readonly id: string }>(parts: readonly Part[], by: readonly Part[]): Part[] {
  return parts.map((part) => by.find((candidate) => candidate.id === part.id) ?? part);
}
