/**
 * Probability of one or more falls in 12 months, by the odds form. Only where asked for: guidelines advise against such
 * numbers. At most one history item (or screen of questions) and one performance test are combined, since overlapping
 * measures are not independent of each other.
 */
import type { Probability, ProbabilityPart } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import { evaluate, type Facts } from '../evidence/condition.ts';
import { fieldsIn } from '../evidence/condition-fields.ts';
import type { AccuracyCaution, FallRate, LikelihoodRatio } from '../evidence/schema/numbers.ts';
import { fitsPerson, pretestRate, type RatePerson } from './fall-rates.ts';
import { afterRatios, type Estimate } from './odds.ts';

export interface ProbabilityInput {
  readonly ratios: readonly LikelihoodRatio[];
  readonly rates: readonly FallRate[];
  readonly cautions: readonly AccuracyCaution[];
  readonly facts: Facts;
  readonly person: RatePerson;
}

export type ProbabilityAnswer =
  | { readonly kind: 'worked_out'; readonly probability: Probability }
  | { readonly kind: 'none'; readonly because: string };

interface Usable {
  readonly ratio: LikelihoodRatio;
  readonly positive: boolean;
  readonly estimate: Estimate;
}
type Judged = { readonly use: Usable } | { readonly why: string } | null;

/** null where the ratio does not concern this client or what it asks for is not recorded. */
function judge(ratio: LikelihoodRatio, before: FallRate, { facts, person }: ProbabilityInput): Judged {
  if (ratio.when === undefined || !fitsPerson(ratio, person.client)) return null;
  const answer = evaluate(ratio.when, facts);
  if (answer === 'unknown') return null;
  if (ratio.test !== undefined && facts.test(ratio.test)?.outcome !== 'measured')
    return { why: `${ratio.finding}: the studies were of people who could do the test` };
  const asked = fieldsIn(ratio.when);
  if (before.conditioned_on.some((field) => asked.includes(field)))
    return { why: `${ratio.finding}: the figure before was found in people chosen by this very item` };
  const positive = answer === 'yes';
  const value = positive ? ratio.lr_positive : ratio.lr_negative;
  const interval = positive ? ratio.lr_positive_ci95 : ratio.lr_negative_ci95;
  if (value === undefined || interval === undefined)
    return { why: `${ratio.finding}: no ratio with an interval is published for ${positive ? 'this' : 'its absence'}` };
  return { use: { ratio, positive, estimate: { value, low: interval[0], high: interval[1] } } };
}

interface Chosen {
  readonly used: readonly Usable[];
  readonly notUsed: readonly string[];
}

/** The first usable ratio of the kinds, in the order of the data; what stands in the way of earlier ones is said. */
function choose(kinds: readonly LikelihoodRatio['kind'][], before: FallRate, input: ProbabilityInput): Chosen {
  const notUsed: string[] = [];
  for (const kind of kinds)
    for (const ratio of input.ratios.filter((candidate) => candidate.kind === kind)) {
      const judged = judge(ratio, before, input);
      if (judged === null) continue;
      if ('use' in judged) return { used: [judged.use], notUsed };
      notUsed.push(judged.why);
    }
  return { used: [], notUsed };
}

/** A pooled ratio whose interval includes 1 may mean nothing, and one found in other people may not fit: both are said. */
function ratioText({ ratio, positive, estimate }: Usable, { lungCondition }: RatePerson): string {
  const finding = `${ratio.finding} (mark: ${ratio.rule}): ${positive ? 'found' : 'not found'}; ${ratio.population.description}`;
  const doubts = [
    ...(estimate.low <= 1 && estimate.high >= 1 ? ['The interval includes 1, so this may not change the likelihood at all'] : []),
    ...(lungCondition === 'copd' && ratio.population.condition !== 'copd'
      ? ['Found in older people in general, not in people with COPD']
      : []),
  ];
  return [finding, ...doubts].join('. ');
}

function partsOf(before: FallRate, start: Estimate, used: readonly Usable[], person: RatePerson): ProbabilityPart[] {
  return [
    { id: before.id, kind: 'before', text: `${before.outcome}; ${before.population.description}`, ...start, ...basedOn(before) },
    ...used.map(
      (each): ProbabilityPart => ({
        id: each.ratio.id,
        kind: each.ratio.kind === 'test' ? 'test' : 'history',
        text: ratioText(each, person),
        ...each.estimate,
        ...basedOn(each.ratio),
      }),
    ),
  ];
}

const short = (value: number): string => String(Number(value.toPrecision(3)));

function formulaOf(before: number, used: readonly Usable[], after: number): string {
  const ratios = used.map((each) => ` x ${each.estimate.value}`).join('');
  const odds = after / (1 - after);
  return `odds ${before}/(1 - ${before})${ratios} = ${short(odds)}; probability ${short(odds)}/(1 + ${short(odds)}) = ${short(after)}`;
}

function noRateBecause({ person }: ProbabilityInput): string {
  if (person.client.setting !== 'community')
    return 'the published figures are of people who live at home, not in residential care or hospital';
  return `no figure of how many people of ${person.client.age} fall in a year, with its interval, is held`;
}

/**
 * `before`, `after`, `low` and `high` are probabilities of 0 to 1; `low` to `high` is a 95 % interval by the delta method. None
 * is given where no pre-test figure with an interval fits the client or nothing recorded has a ratio with an interval: a
 * range across studies is not an interval.
 */
export function fallProbability(input: ProbabilityInput): ProbabilityAnswer {
  const before = pretestRate(input.rates, input.person);
  if (before?.probability === undefined || before.probability_ci95 === undefined)
    return { kind: 'none', because: noRateBecause(input) };
  const [low, high] = before.probability_ci95;
  const start: Estimate = { value: before.probability, low, high };
  const history = choose(['history', 'screen'], before, input);
  const test = choose(['test'], before, input);
  const used = [...history.used, ...test.used];
  const notUsed = [...history.notUsed, ...test.notUsed];
  if (used.length === 0)
    return {
      kind: 'none',
      because: ['nothing recorded has a published likelihood ratio with an interval for this client', ...notUsed].join('; '),
    };
  const after = afterRatios(
    start,
    used.map((each) => each.estimate),
  );
  return {
    kind: 'worked_out',
    probability: {
      before: start.value,
      after: after.value,
      low: after.low,
      high: after.high,
      used: used.map((each) => each.ratio.id),
      parts: partsOf(before, start, used, input.person),
      formula: formulaOf(start.value, used, after.value),
      not_used: notUsed,
      warnings: input.cautions.map((caution) => ({ text: caution.text, ...basedOn(caution.basis) })),
    },
  };
}
