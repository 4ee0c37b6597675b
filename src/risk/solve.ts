/**
 * Places a client on a pathway by trying every completion of what is not known. Exact, because a pathway has few items with
 * few values each; remembered by the vector of possible values, so that a cohort asks each question once.
 */
import type { Condition } from '../evidence/schema/condition.ts';
import type { Item, Pathway } from '../evidence/schema/pathway.ts';
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
  const steps = pathway.steps.map((step) => stepTest(pathway, step.condition));
  const completions = Array.from({ length: count }, (_, index) => complete(pathway, steps, readings, index));
  const levels = [...new Set(completions.map((completion) => completion.level))].sort((a, b) => a - b);
  return {
    levels,
    steps: pathway.steps.map((_, step) => summarise(completions, step)),
    missing: decisiveItems(readings, completions),
  };
}

/** The completion with this number, counting through the possible values like the digits of a number, first item fastest. */
function complete(pathway: Pathway, steps: readonly StepTest[], readings: readonly ItemReading[], index: number): Completion {
  const chosen: string[] = [];
  let rest = index;
  for (const { possible } of readings) {
    chosen.push(possible[rest % possible.length] ?? '');
    rest = Math.floor(rest / possible.length);
  }
  const yes = steps.map((step) => step(chosen));
  return { yes, ...walk(pathway, yes) };
}

/** Answers a step from one value for each item, in file order. */
type StepTest = (chosen: readonly string[]) => boolean;

/** With every item known a condition is plain yes or no, so steps are turned into two-valued tests before the counting. */
function stepTest(pathway: Pathway, condition: Condition): StepTest {
  const each = (parts: readonly Condition[]): StepTest[] => parts.map((part) => stepTest(pathway, part));
  if ('item' in condition) {
    const at = pathway.items.findIndex((item) => item.id === condition.item);
    if (at < 0) throw new Error(`pathway "${pathway.id}": a step asks for the unknown item "${condition.item}"`);
    const wanted = [condition.is ?? 'yes'].flat();
    return (chosen) => wanted.includes(chosen[at] ?? '');
  }
  if ('not' in condition) {
    const inner = stepTest(pathway, condition.not);
    return (chosen) => !inner(chosen);
  }
  if ('all' in condition) {
    const parts = each(condition.all);
    return (chosen) => parts.every((part) => part(chosen));
  }
  if ('any' in condition || 'any_recorded' in condition) {
    const parts = each('any' in condition ? condition.any : condition.any_recorded);
    return (chosen) => parts.some((part) => part(chosen));
  }
  throw new Error(`pathway "${pathway.id}": a step may ask about items only`);
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
  return decisive.sort((a, b) => costOf(a) - costOf(b));
}
