/** What a condition asks about, for whoever must name it: the fields, and the words by which a red flag may be cleared. */
import type { Condition } from './schema/condition.ts';
import type { RedFlag } from './schema/pathway.ts';

/** Parts that a condition is made of. */
export function partsOf(condition: Condition): readonly Condition[] {
  if ('not' in condition) return [condition.not];
  if ('any' in condition) return condition.any;
  if ('all' in condition) return condition.all;
  return 'any_recorded' in condition ? condition.any_recorded : [];
}

/** The conditions without parts, in order. */
export function leavesOf(condition: Condition): Condition[] {
  const parts = partsOf(condition);
  return parts.length === 0 ? [condition] : parts.flatMap(leavesOf);
}

/** Paths of the fields that a condition asks about, in its order. */
export function fieldsIn(condition: Condition): string[] {
  return leavesOf(condition).flatMap((leaf) => ('field' in leaf ? [leaf.field] : []));
}

const lastPart = (path: string): string => path.split('.').at(-1) ?? path;

/** Words by which a clearance may name the flag: its id, then the fields it asks about (`blackout`, `loss_of_consciousness`). */
export function clearanceNames(flag: Pick<RedFlag, 'id' | 'when'>): readonly string[] {
  return [...new Set([flag.id, ...fieldsIn(flag.when).map(lastPart)])];
}
