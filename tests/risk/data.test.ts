import { expect, test } from 'vitest';
import type { Condition } from '../../src/evidence/schema/condition.ts';
import type { Pathway } from '../../src/evidence/schema/pathway.ts';
import { withVariants } from '../../src/risk/variants.ts';
import { cdc, factors, redFlags, worldGuidelines } from './support.ts';

function leaves(condition: Condition): Condition[] {
  if ('not' in condition) return leaves(condition.not);
  if ('any' in condition) return condition.any.flatMap(leaves);
  if ('all' in condition) return condition.all.flatMap(leaves);
  if ('any_recorded' in condition) return condition.any_recorded.flatMap(leaves);
  return [condition];
}

const both: readonly [string, Pathway][] = [
  [worldGuidelines.id, worldGuidelines],
  [cdc.id, cdc],
  ...worldGuidelines.variants.map((variant): [string, Pathway] => [
    `with ${variant.id}`,
    withVariants(worldGuidelines, [variant.id]),
  ]),
];

test.each(both)('%s: every reference leads somewhere', (_, pathway) => {
  const levels = new Set(pathway.levels.map((level) => level.id));
  const steps = new Set(pathway.steps.map((step) => step.id));
  const items = new Map(pathway.items.map((item) => [item.id, item.values]));
  for (const step of pathway.steps) {
    for (const next of [step.yes, step.no]) expect('level' in next ? levels.has(next.level) : steps.has(next.step)).toBe(true);
    for (const leaf of leaves(step.condition)) {
      if (!('item' in leaf)) throw new Error(`${step.id}: a step asks about items only`);
      expect(items.get(leaf.item)).toEqual(expect.arrayContaining([leaf.is ?? 'yes'].flat()));
    }
  }
  for (const item of pathway.items)
    for (const rule of item.from) expect(item.values).toEqual(expect.arrayContaining(rule.values));
  for (const caveat of pathway.caveats)
    for (const level of caveat.levels ?? []) expect([...levels, 'undetermined']).toContain(level);
});

test('an option replaces items and steps that are there', () => {
  for (const variant of worldGuidelines.variants) {
    for (const item of variant.items) expect(worldGuidelines.items.map((each) => each.id)).toContain(item.id);
    for (const step of variant.steps) expect(worldGuidelines.steps.map((each) => each.id)).toContain(step.id);
  }
});

test('what is recalled says so: the follow-up intervals, two or more falls, the frailty cut-off', () => {
  const recalled = [
    ...worldGuidelines.levels.map((level) => level.follow_up.basis),
    worldGuidelines.steps.find((step) => step.id === 'recurrent_falls')?.basis,
    cdc.levels.find((level) => level.id === 'at_risk')?.follow_up.basis,
  ];
  for (const basis of recalled) expect(basis).toMatchObject({ status: 'memory' });
  expect(worldGuidelines.items.find((item) => item.id === 'frailty')?.basis).toMatchObject({ own_rule: true });
});

test('the words kept out of texts for people', () => {
  const texts = JSON.stringify([worldGuidelines, cdc, redFlags, factors]);
  expect(texts).not.toMatch(/\bdiagnos/i);
  expect(texts).not.toMatch(/\bsafe\b/i);
});
