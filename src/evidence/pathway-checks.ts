/**
 * References inside pathways, and what conditions ask about: a step that leads nowhere, or a red flag over a misspelt field,
 * would be silent for ever.
 */
import { DERIVED_FIELDS, RISK_FIELDS, SESSION_FIELDS } from '../session-keys.ts';
import { type Check, problemAt } from './check.ts';
import { leavesOf } from './condition-fields.ts';
import type { Gathered, NormsProblem } from './parse.ts';
import { perhaps } from './perhaps.ts';
import type { Condition } from './schema/condition.ts';
import type { Item, Pathway, Step } from './schema/pathway.ts';

const idsOf = (entries: readonly { readonly id: string }[]): string[] => entries.map((entry) => entry.id);

/** Items and steps of the pathway with those that its options put in their place. */
const everyItem = (pathway: Pathway): Item[] => [...pathway.items, ...pathway.variants.flatMap((variant) => variant.items)];
const everyStep = (pathway: Pathway): Step[] => [...pathway.steps, ...pathway.variants.flatMap((variant) => variant.steps)];

function stepProblems(norms: Gathered, pathway: Pathway, step: Step): NormsProblem[] {
  const where = `${pathway.id}, step "${step.id}"`;
  const [steps, levels] = [idsOf(pathway.steps), idsOf(pathway.levels)];
  const leads = [step.yes, step.no].flatMap((next) => {
    const [kind, id, known] = 'level' in next ? (['level', next.level, levels] as const) : (['step', next.step, steps] as const);
    return known.includes(id)
      ? []
      : [problemAt(norms, next, kind, `${where} leads to ${kind} "${id}", which is not there${perhaps(id, known)}`)];
  });
  const asked = leavesOf(step.condition).flatMap((leaf) => {
    if (!('item' in leaf)) return [problemAt(norms, leaf, undefined, `${where} asks about something that is not an item`)];
    return itemProblems(norms, pathway, leaf, where);
  });
  return [...leads, ...asked];
}

function itemProblems(
  norms: Gathered,
  pathway: Pathway,
  leaf: { readonly item: string; readonly is?: string | string[] | undefined },
  where: string,
): NormsProblem[] {
  const items = everyItem(pathway).filter((item) => item.id === leaf.item);
  if (items.length === 0)
    return [
      problemAt(
        norms,
        leaf,
        'item',
        `${where} asks for item "${leaf.item}", which is not there${perhaps(leaf.item, idsOf(pathway.items))}`,
      ),
    ];
  const values = items.flatMap((item) => item.values);
  return [leaf.is ?? 'yes']
    .flat()
    .filter((value) => !values.includes(value))
    .map((value) =>
      problemAt(norms, leaf, 'is', `${where}: item "${leaf.item}" has no value "${value}"${perhaps(value, values)}`),
    );
}

/** Steps lead to steps and levels that exist, and ask for items and values that exist; items give only values of their own. */
export const pathwaysHoldTogether: Check = (norms) =>
  norms.pathways.flatMap((pathway) => [
    ...everyStep(pathway).flatMap((step) => stepProblems(norms, pathway, step)),
    ...everyItem(pathway).flatMap((item) =>
      item.from.flatMap((rule) =>
        rule.values
          .filter((value) => !item.values.includes(value))
          .map((value) =>
            problemAt(
              norms,
              rule,
              'values',
              `${pathway.id}, item "${item.id}": a rule gives "${value}", which is none of its values`,
            ),
          ),
      ),
    ),
    ...pathway.variants.flatMap((variant) => [
      ...replacing(norms, `${pathway.id}, option "${variant.id}"`, 'item', variant.items, idsOf(pathway.items)),
      ...replacing(norms, `${pathway.id}, option "${variant.id}"`, 'step', variant.steps, idsOf(pathway.steps)),
    ]),
    ...pathway.caveats.flatMap((caveat) =>
      (caveat.levels ?? [])
        .filter((level) => ![...idsOf(pathway.levels), 'undetermined'].includes(level))
        .map((level) =>
          problemAt(
            norms,
            caveat,
            'levels',
            `${pathway.id}, caveat "${caveat.id}": level "${level}" is not there${perhaps(level, idsOf(pathway.levels))}`,
          ),
        ),
    ),
  ]);

/** An option puts items and steps in the place of others: one that replaces nothing would be lost. */
function replacing(
  norms: Gathered,
  where: string,
  kind: 'item' | 'step',
  entries: readonly { readonly id: string }[],
  known: readonly string[],
): NormsProblem[] {
  return entries
    .filter(({ id }) => !known.includes(id))
    .map((entry) =>
      problemAt(norms, entry, 'id', `${where}: there is no ${kind} "${entry.id}" to replace${perhaps(entry.id, known)}`),
    );
}

/** Every condition anywhere below a value. `when` and `condition` are the only keys that hold one. */
function conditionsIn(value: unknown): Condition[] {
  if (Array.isArray(value)) return value.flatMap(conditionsIn);
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === 'when' || key === 'condition' ? [inner as Condition] : conditionsIn(inner),
  );
}

/** `tests.<test>.aid` is the aid used in a test. */
function isKnownField(field: string, norms: Gathered, alsoRisk: boolean): boolean {
  const aid = /^tests\.([a-z0-9_]+)\.aid$/.exec(field)?.[1];
  if (aid !== undefined) return norms.tests.some((test) => test.id === aid);
  if (SESSION_FIELDS.includes(field) || (DERIVED_FIELDS as readonly string[]).includes(field)) return true;
  if (!alsoRisk) return false;
  const open = /^risk\.open\.([a-z0-9_]+)$/.exec(field)?.[1];
  return open === undefined
    ? (RISK_FIELDS as readonly string[]).includes(field)
    : norms.redFlags.some((flag) => flag.id === open);
}

/** Conditions ask only about fields that a visit can hold or that are worked out from it; those of the risk result only in the plan. */
export const fieldsExist: Check = (norms) => {
  const { pathways, redFlags, factors, likelihoodRatios, defaults } = norms;
  const inPlan = [norms.caps, norms.exercises, norms.general];
  const before = [pathways, redFlags, factors, likelihoodRatios, defaults];
  const known: readonly string[] = [...SESSION_FIELDS, ...DERIVED_FIELDS, ...RISK_FIELDS];
  const check = (lists: readonly unknown[], alsoRisk: boolean): NormsProblem[] =>
    lists
      .flatMap(conditionsIn)
      .flatMap(leavesOf)
      .flatMap((leaf) => ('field' in leaf ? [leaf] : []))
      .filter(({ field }) => !isKnownField(field, norms, alsoRisk))
      .map((leaf) => problemAt(norms, leaf, 'field', `no visit holds the field "${leaf.field}"${perhaps(leaf.field, known)}`));
  return [...check(before, false), ...check(inPlan, true)];
};

/** A figure that a probability starts from must stand for itself: one year, with its interval, not chosen by the answers. */
export const pretestRatesStand: Check = (norms) =>
  norms.fallRates
    .filter((rate) => rate.pretest_for !== undefined)
    .filter((rate) => rate.probability === undefined || rate.probability_ci95 === undefined)
    .map((rate) =>
      problemAt(
        norms,
        rate,
        'pretest_for',
        `fall rate "${rate.id}": a probability cannot start from a figure without its interval`,
      ),
    );

export const PATHWAY_CHECKS: readonly Check[] = [pathwaysHoldTogether, fieldsExist, pretestRatesStand];
