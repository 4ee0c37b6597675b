/**
 * What the rules of `norms/` can tell apart in a client, as a short text. Every rule is made of bare conditions on one field or
 * one test; two clients for whom all of these come out the same get the same level, flags and starting levels. So a cohort
 * works out each kind of client once.
 */
import { evaluate, type Facts, type TestFact, type Truth } from '../evidence/condition.ts';
import { leavesOf } from '../evidence/condition-fields.ts';
import type { Evidence } from '../evidence/data.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import type { StartByTest } from '../evidence/schema/exercise.ts';
import { allowedBy } from '../plan/start.ts';
import type { FieldValue } from '../session.ts';
import { Bounded } from './bounded.ts';

const LETTER: Readonly<Record<Truth, string>> = { yes: 'y', no: 'n', unknown: 'u' };
/** Values remembered for one field. */
const MOST_VALUES = 2000;
const NOTHING = { field: () => undefined, test: () => undefined };

export interface SignatureOptions {
  /** Id of the pathway that decides. */
  readonly pathway: string;
  /** Factors and starting levels are shown as well. */
  readonly withPlan: boolean;
}

/** Every condition that decides something this cohort shows; the fewer, the fewer kinds of clients there are. */
function decidingConditions(evidence: Evidence, { pathway: id, withPlan }: SignatureOptions): Condition[] {
  const pathways = evidence.pathways.filter((pathway) => withPlan || pathway.id === id);
  const items = pathways.flatMap((pathway) => [...pathway.items, ...pathway.variants.flatMap((variant) => variant.items)]);
  return [
    ...items.flatMap((item) => item.from.map((rule) => rule.when)),
    ...evidence.redFlags.map((flag) => flag.when),
    ...(withPlan ? [...evidence.factors.map((factor) => factor.when), ...planConditions(evidence)] : []),
  ];
}

const planConditions = (evidence: Evidence): Condition[] => [
  ...evidence.caps.map((cap) => cap.when),
  ...evidence.exercises.flatMap((exercise) => exercise.start.also.map((rule) => rule.when)),
];

/** Without repeats: the same bare condition stands in many rules. */
const distinct = <Leaf>(leaves: readonly Leaf[]): Leaf[] => [
  ...new Map(leaves.map((leaf) => [JSON.stringify(leaf), leaf])).values(),
];

export class Signatures {
  readonly #byField = new Map<string, Condition[]>();
  readonly #byTest = new Map<string, Condition[]>();
  readonly #fieldTexts = new Map<string, Bounded<FieldValue | undefined, string>>();
  readonly #starts = new Map<string, StartByTest[]>();
  /** A rule asks whether a mark lies within the measurement error, which hangs on the whole visit: nothing can be remembered. */
  readonly asksForError: boolean;

  constructor(evidence: Evidence, options: SignatureOptions) {
    const { withPlan } = options;
    const leaves = distinct(decidingConditions(evidence, options).flatMap(leavesOf));
    for (const leaf of leaves) {
      if ('field' in leaf) add(this.#byField, leaf.field, leaf);
      else if ('test' in leaf) add(this.#byTest, leaf.test, leaf);
    }
    this.asksForError = leaves.some((leaf) => 'near' in leaf && leaf.near !== undefined);
    if (withPlan)
      for (const rule of distinct(evidence.exercises.flatMap((exercise) => exercise.start.by_test)))
        add(this.#starts, rule.test, rule);
  }

  /** What the rules make of the client; `field` sees that part of a visit. */
  ofClient(field: Facts['field']): string {
    return this.#ofPaths(field, (path) => path.startsWith('client.'));
  }

  /** What they make of all the rest. */
  ofFields(field: Facts['field']): string {
    return this.#ofPaths(field, (path) => !path.startsWith('client.'));
  }

  /** Paths that any rule asks about, in a fixed order. */
  #ofPaths(field: Facts['field'], wanted: (path: string) => boolean): string {
    return [...this.#byField.keys()]
      .filter(wanted)
      .map((path) => this.#ofField(path, field(path)))
      .join('|');
  }

  #ofField(path: string, value: FieldValue | undefined): string {
    const held = this.#fieldTexts.get(path) ?? new Bounded(MOST_VALUES);
    this.#fieldTexts.set(path, held);
    const known = held.get(value);
    if (known !== undefined) return known;
    const facts: Facts = { ...NOTHING, field: () => value };
    return held.keep(value, (this.#byField.get(path) ?? []).map((condition) => LETTER[evaluate(condition, facts)]).join(''));
  }

  ofTest(test: string, fact: TestFact | undefined): string {
    const facts: Facts = { ...NOTHING, test: () => fact };
    const truths = (this.#byTest.get(test) ?? []).map((condition) => LETTER[evaluate(condition, facts)]);
    const rungs = (this.#starts.get(test) ?? []).map((rule) => String(allowedBy(rule, fact, '')?.rung ?? '-'));
    return [...truths, ...rungs].join('');
  }
}

function add<Value>(into: Map<string, Value[]>, key: string, value: Value): void {
  const before = into.get(key);
  if (before === undefined) into.set(key, [value]);
  else before.push(value);
}
