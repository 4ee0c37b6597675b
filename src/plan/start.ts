/** Where an exercise would start by the tests alone: the lowest of what each test allows. Caps come afterwards. */
import { evaluate, type Facts, type TestFact } from '../evidence/condition.ts';
import type { Exercise, StartByTest } from '../evidence/schema/exercise.ts';

export interface StartRung {
  /** 1 = most support; 0 = the seated variant. */
  readonly rung: number;
  readonly because: readonly string[];
}

interface Allowed {
  readonly rung: number;
  readonly because: string;
}

type TestName = (test: string) => string;

/** Printed decimals compare as printed: 0.85 - 0.05 must reach a mark of 0.8 in spite of binary dust. */
const asPrinted = (value: number): number => Number(value.toPrecision(12));

/**
 * Steps run from worst to best; a value must pass a mark by the margin, so that one near a mark takes the lower rung. A time
 * stopped at its ceiling (`atLeast`) may have gone on past any mark that it should stay under.
 */
function rungForValue(
  rule: StartByTest,
  worst: number,
  atLeast: boolean,
): { readonly rung: number; readonly because: string | null } {
  const reached = rule.steps.filter((step) =>
    step.at_least !== undefined
      ? asPrinted(worst - rule.margin) >= step.at_least
      : !atLeast && asPrinted(worst + rule.margin) <= (step.at_most ?? Number.NEGATIVE_INFINITY),
  );
  const best = reached.at(-1);
  return best === undefined ? { rung: rule.below_all, because: null } : { rung: best.rung, because: best.because };
}

/** Highest rung that one test allows (1 = most support, 0 = seated) with its reason; null where it limits nothing. `name` is the test's. */
export function allowedBy(rule: StartByTest, fact: TestFact | undefined, name: string): Allowed | null {
  if (fact?.outcome === 'unable') return { rung: rule.unable, because: `${name}: unable` };
  if (fact?.outcome === 'measured' && fact.worst !== null) {
    const { rung, because } = rungForValue(rule, fact.worst, fact.atLeast);
    if (rule.required && fact.otherSide !== undefined && rule.untested < rung)
      return { rung: rule.untested, because: `${name}: only one side tested, so the other decides: start with the most support` };
    const value = `${name} ${fact.atLeast ? 'at least ' : ''}${fact.worst}`;
    return { rung, because: because === null ? `${value}: below the first mark of the start rule` : `${value}: ${because}` };
  }
  if (!rule.required) return null;
  return {
    rung: rule.untested,
    because: `${name} not tested: start with the most support${rule.untested === 0 ? ', seated' : ''}`,
  };
}

const NO_TEST = 'no test that the start goes by was recorded: start with the most support';

/** The lower of disagreeing tests wins, and the reason names it. Without any test the start is rung 1: untested is never "fine". */
export function startRung(exercise: Exercise, facts: Facts, testName: TestName): StartRung {
  const byTest = exercise.start.by_test.flatMap((rule) => allowedBy(rule, facts.test(rule.test), testName(rule.test)) ?? []);
  const byCondition = exercise.start.also
    .filter((rule) => evaluate(rule.when, facts) === 'yes')
    .map((rule): Allowed => ({ rung: rule.rung, because: rule.because }));
  const all = [...byTest, ...byCondition];
  const untested = byTest.length === 0;
  const rung = Math.min(...all.map((each) => each.rung), untested ? 1 : exercise.ladder.length);
  const deciding = all.filter((each) => each.rung === rung).map((each) => each.because);
  if (untested && deciding.length === 0) return { rung, because: [NO_TEST] };
  const higher = byTest.filter((each) => each.rung > rung);
  const disagreement = deciding.length > 0 && higher.length > 0 ? ['other tests would allow more; the lowest counts'] : [];
  return { rung, because: [...new Set([...deciding, ...disagreement])] };
}
