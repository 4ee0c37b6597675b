/**
 * Places a client on a pathway by trying every completion of what is not known. Exact, because a pathway has few items with
 * few values each; remembered by the vector of possible values, so that a cohort asks each question once.
 */
import { evaluate, type Facts } from '../evidence/condition.ts';
import type { Item, Pathway, Step } from '../evidence/schema/pathway.ts';
import type { ItemReading } from './items.ts';

export interface StepAnswer {
  readonly answer: 'yes' | 'no' | 'unknown';
  readonly reached: 'yes' | 'no' | 'perhaps';
}

export interface Solution {
  /** Indexes into the pathway's levels that some completion reaches, ascending; never empty. */
  readonly levels: readonly number[];
  /** One for each step, in file order. */
  readonly steps: readonly StepAnswer[];
  /** Indexes of the items that would settle the level, cheapest first; empty when one level is left. */
  readonly missing: readonly number[];
}

type Solutions = Map<string, Solution>;
const remembered = new WeakMap<Pathway, Solutions>();

const COST: Readonly<Record<Item['kind'], number>> = { record: 0, question: 1, test: 2 };

/** Solution for these readings, which must be those of all items of the pathway in file order. */
export function solve(pathway: Pathway, readings: readonly ItemReading[]): Solution {
  let solutions = remembered.get(pathway);
  if (solutions === undefined) {
    solutions = new Map();
    remembered.set(pathway, solutions);
  }
  const key = readings.map((reading) => reading.possible.join('|')).join(';');
  const known = solutions.get(key);
  if (known !== undefined) return known;
  const solution = solveAfresh(pathway, readings);
  solutions.set(key, solution);
  return solution;
}

/** One way the unknown items could turn out: the level, and the steps answered yes and passed through. */
interface Completion {
  readonly level: number;
  readonly yes: readonly boolean[];
  readonly passed: ReadonlySet<number>;
}

function solveAfresh(pathway: Pathway, readings: readonly ItemReading[]): Solution {
  const count = readings.reduce((product, reading) => product * reading.possible.length, 1);
  const completions = Array.from({ length: count }, (_, index) => complete(pathway, readings, index));
  const levels = [...new Set(completions.map((completion) => completion.level))].sort((a, b) => a - b);
  return {
    levels,
    steps: pathway.steps.map((_, step) => summarise(completions, step)),
    missing: levels.length === 1 ? [] : decisiveItems(readings, completions),
  };
}

/** The completion with this number, counting through the possible values like the digits of a number, first item fastest. */
function complete(pathway: Pathway, readings: readonly ItemReading[], index: number): Completion {
  const chosen = new Map<string, readonly string[]>();
  let rest = index;
  for (const { item, possible } of readings) {
    chosen.set(item.id, possible.slice(rest % possible.length, (rest % possible.length) + 1));
    rest = Math.floor(rest / possible.length);
  }
  const facts: Facts = { field: () => undefined, test: () => undefined, item: (id) => chosen.get(id) ?? [] };
  const yes = pathway.steps.map((step) => isYes(pathway, step, facts));
  return { yes, ...walk(pathway, yes) };
}

function isYes(pathway: Pathway, step: Step, facts: Facts): boolean {
  const truth = evaluate(step.condition, facts);
  if (truth === 'unknown')
    throw new Error(`pathway "${pathway.id}", step "${step.id}": its condition speaks of something that is not an item`);
  return truth === 'yes';
}

/** Follows the steps from the first to a level. */
function walk(pathway: Pathway, yes: readonly boolean[]): { level: number; passed: ReadonlySet<number> } {
  const passed = new Set<number>();
  let at = 0;
  while (!passed.has(at)) {
    const step = pathway.steps[at];
    if (step === undefined) break;
    passed.add(at);
    const next = yes[at] === true ? step.yes : step.no;
    if ('level' in next) {
      const level = pathway.levels.findIndex((candidate) => candidate.id === next.level);
      if (level < 0) throw new Error(`pathway "${pathway.id}": step "${step.id}" leads to the unknown level "${next.level}"`);
      return { level, passed };
    }
    at = pathway.steps.findIndex((candidate) => candidate.id === next.step);
  }
  throw new Error(`pathway "${pathway.id}": its steps run in a circle or lead to a step that is not there`);
}

function summarise(completions: readonly Completion[], step: number): StepAnswer {
  const yes = completions.filter((completion) => completion.yes[step] === true).length;
  const passed = completions.filter((completion) => completion.passed.has(step)).length;
  return {
    answer: yes === completions.length ? 'yes' : yes === 0 ? 'no' : 'unknown',
    reached: passed === completions.length ? 'yes' : passed === 0 ? 'no' : 'perhaps',
  };
}

/**
 * The smallest set of items whose answers settle the level whatever they are. It is the set of items that can each, alone,
 * change the level in some completion: such an item must be in every settling set (leave it out and that completion stays
 * open), and together they settle it (changing the others one by one never changes the level). So it is unique, and no
 * search over subsets is needed. Cheapest first (record, question, test), then in file order.
 */
function decisiveItems(readings: readonly ItemReading[], completions: readonly Completion[]): number[] {
  const decisive: number[] = [];
  let stride = 1;
  readings.forEach(({ possible }, item) => {
    const changes = completions.some((completion, index) => {
      const first = index - (Math.floor(index / stride) % possible.length) * stride;
      return completions[first]?.level !== completion.level;
    });
    if (changes) decisive.push(item);
    stride *= possible.length;
  });
  const costOf = (index: number): number => COST[readings[index]?.item.kind ?? 'test'];
  return decisive.sort((a, b) => costOf(a) - costOf(b) || a - b);
}
