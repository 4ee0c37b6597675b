/** How many people like the client fall: the published figures beside each other, and the one a probability may start from. */
import type { FallRateResult } from '../assessment.ts';
import { basedOn } from '../evidence/basis.ts';
import type { FallRate } from '../evidence/schema/numbers.ts';
import type { Client } from '../session.ts';

export interface RatePerson {
  readonly client: Pick<Client, 'age' | 'sex' | 'setting'>;
  /** The recorded long-term lung condition, null for none or not recorded. */
  readonly lungCondition: string | null;
}

/** A row or ratio made for an age band or one sex fits only clients known to belong to it. */
export function fitsPerson(
  row: { readonly age_min: number | null; readonly age_max: number | null; readonly sex: 'female' | 'male' | 'all' },
  { age, sex }: RatePerson['client'],
): boolean {
  if (age < (row.age_min ?? 0) || age > (row.age_max ?? Number.POSITIVE_INFINITY)) return false;
  return row.sex === 'all' || row.sex === sex;
}

const groupOf = ({ lungCondition }: RatePerson): 'copd' | 'general' => (lungCondition === 'copd' ? 'copd' : 'general');

/** The figure that the data names as the one before any answer or test for people like the client; undefined where none fits. */
export function pretestRate(rates: readonly FallRate[], person: RatePerson): FallRate | undefined {
  if (person.client.setting !== 'community') return undefined;
  return rates.find((rate) => rate.pretest_for?.includes(groupOf(person)) === true && fitsPerson(rate, person.client));
}

function rateResult(rate: FallRate): FallRateResult {
  return {
    id: rate.id,
    outcome: rate.outcome,
    population: rate.population.description,
    condition: rate.population.condition ?? null,
    probability: rate.probability ?? null,
    low: rate.probability_ci95?.[0] ?? null,
    high: rate.probability_ci95?.[1] ?? null,
    rate_per_person_year: rate.rate_per_person_year ?? null,
    note: rate.note ?? null,
    ...basedOn(rate),
  };
}

/** The general figure and, for a client with COPD, every figure for people with COPD beside it. */
export function fallRatesFor(rates: readonly FallRate[], person: RatePerson): FallRateResult[] {
  const general = rates.filter((rate) => rate.pretest_for?.includes('general') === true && fitsPerson(rate, person.client));
  const inCopd = groupOf(person) === 'copd' ? rates.filter((rate) => rate.population.condition === 'copd') : [];
  return [...general, ...inCopd.filter((rate) => fitsPerson(rate, person.client))].map(rateResult);
}
