/**
 * A cohort that nobody here made up: 163 people of the public data set of human balance evaluations. Santos DA, Duarte M.
 * PeerJ. 2016;4:e2648. doi:10.7717/peerj.2648 (data doi:10.6084/m9.figshare.3394432). Every row is scored; the counts below
 * were taken from the file by hand (bands of the falls-efficacy total 7-8, 9-13, 14-28; ages in completed years).
 */
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessment } from '../../src/assessment.ts';
import { recorded, session } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';

interface Person {
  readonly subject: string;
  readonly sex: 'F' | 'M';
  readonly age_years: string;
  readonly date: string;
  readonly falls_12m: string;
  readonly short_fesi_total: string;
  readonly mini_bestest_total: string;
}

const file = new URL('../fixtures/open-cohort/human-balance-evaluation.csv', import.meta.url);
const people = parse(readFileSync(file), { columns: true }) as Person[];
const evidence = testEvidence();

function score(person: Person): Assessment {
  const tests = [
    recorded('falls_efficacy_short', Number(person.short_fesi_total)),
    recorded('mini_bestest', Number(person.mini_bestest_total)),
  ];
  const who = {
    ref: person.subject,
    sex: person.sex === 'F' ? 'female' : 'male',
    age: Math.floor(Number(person.age_years)),
  } as const;
  return assess(
    { ...session(tests, { 'history.falls_past_year': Number(person.falls_12m) }, who), assessed: person.date },
    evidence,
  );
}

const scored = people.map((person) => ({ person, result: score(person) }));
const test = (result: Assessment, id: string) => result.tests.find((each) => each.test === id);
const count = (of: (each: (typeof scored)[number]) => boolean): number => scored.filter(of).length;

describe('the open cohort', () => {
  it('has 163 people of 18 to 85 completed years, 76 of them 60 or older', () => {
    expect(people).toHaveLength(163);
    expect(count(({ person }) => Number(person.age_years) >= 60)).toBe(76);
  });

  it('falls-efficacy totals: 53 low, 77 moderate, 33 high concern', () => {
    const category = (wanted: string) => count(({ result }) => test(result, 'falls_efficacy_short')?.category === wanted);
    expect(['low', 'moderate', 'high'].map(category)).toEqual([53, 77, 33]);
  });

  it('Mini-BESTest: 76 of 60 and over by the Portuguese bands, 65 under 30 and nobody of 30 to 59 by another', () => {
    const compared = scored.map(({ person, result }) => ({
      age: Math.floor(Number(person.age_years)),
      mini: test(result, 'mini_bestest'),
    }));
    const from = (source: string) =>
      compared.filter(({ mini }) => mini?.comparisons.some((each) => each.source === source) === true).length;
    expect(from('portugal-bestest-norm')).toBe(76);
    expect(compared.filter(({ age, mini }) => age < 30 && (mini?.comparisons.length ?? 0) > 0)).toHaveLength(65);
    const without = compared.filter(({ mini }) => mini?.comparisons.length === 0);
    expect(without).toHaveLength(22);
    for (const { age, mini } of without) {
      expect(age).toBeGreaterThanOrEqual(30);
      expect(age).toBeLessThan(60);
      expect(mini?.no_comparison_because).toContain('no published norm for this');
    }
  });

  it('every person gets a level or bounds, a plan and no NaN', () => {
    for (const { result } of scored) {
      expect(result.risk.at_least).not.toBe('');
      expect(result.plan.length).toBeGreaterThanOrEqual(14);
      expect(
        JSON.stringify(result, (_key, value) => (typeof value === 'number' && Number.isNaN(value) ? 'not a number' : value)),
      ).not.toContain('not a number');
    }
  });

  it('fourteen people with two or more falls: high by the world guidelines', () => {
    // 3 x 2, 5 x 3, and one each of 4, 5, 6, 12, 20, 52 falls.
    const several = scored.filter(({ person }) => Number(person.falls_12m) >= 2);
    expect(several).toHaveLength(14);
    expect(several.every(({ result }) => result.risk.level === 'high')).toBe(true);
  });
});
