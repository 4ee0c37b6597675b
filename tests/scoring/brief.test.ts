/** What a row of a cohort shows of a test is what the full result says, without its words. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TestDefinition } from '../../src/evidence/schema/catalogue.ts';
import { fittingFor, isJudged, scoreBriefly } from '../../src/scoring/brief.ts';
import { isFlagged, type ScoringContext, scoreTest } from '../../src/scoring/score-test.ts';
import type { Reading, RecordedTest } from '../../src/session.ts';
import { client, measured, recorded, unable } from '../support/client.ts';
import { testEvidence } from '../support/evidence.ts';
import { cut, evidence as invented, table, tenSeconds, walk, women } from './invented.ts';

const evidence = testEvidence();

function briefly(each: RecordedTest, test: TestDefinition, context: ScoringContext) {
  return scoreBriefly(each, test, context, fittingFor(each, null, context));
}

/** The full result, cut down to what the brief one holds. */
function cutDown(each: RecordedTest, test: TestDefinition, context: ScoringContext) {
  const full = scoreTest(each, test, context);
  const primary = full.comparisons.find((comparison) => comparison.primary);
  return {
    outcome: full.outcome,
    value: full.value,
    at_least: full.at_least,
    why: full.why,
    percentile: primary?.percentile ?? null,
    bound: primary?.percentile_bound ?? null,
    standing: primary?.standing ?? null,
    flagged: isFlagged(full),
    source: primary?.source ?? null,
    judged: isJudged(each, test, null, context),
  };
}

const readingOf = (test: TestDefinition): fc.Arbitrary<Reading> => {
  const [low, high] = [test.impossible.below ?? 0, test.impossible.above ?? 100];
  const value = fc
    .double({ min: 0, max: 1, noNaN: true })
    .map((share) => (test.whole ? Math.round(low + share * (high - low)) : low + share * (high - low)));
  return fc.oneof(
    { weight: 6, arbitrary: fc.array(value, { minLength: 1, maxLength: 3 }).map((trials) => measured(trials)) },
    { weight: 3, arbitrary: value.map((seconds) => measured(seconds, { ceiling: seconds })) },
    fc.constantFrom<Reading>(
      unable,
      { outcome: 'declined', reason: 'x' },
      { outcome: 'unsafe', reason: 'x', why: 'balance' },
      { outcome: 'unsafe', reason: 'x', why: 'medical' },
    ),
  );
};

describe('a brief result', () => {
  it.each(evidence.tests.map((test) => [test.id, test] as const))('%s: says what the full one says', (_id, test) => {
    fc.assert(
      fc.property(
        readingOf(test),
        fc.integer({ min: 55, max: 99 }),
        fc.constantFrom('female', 'male', 'not recorded' as const),
        fc.constantFrom('community', 'residential_care' as const),
        fc.constantFrom(null, 'copd'),
        (reading, age, sex, setting, lungCondition) => {
          const context = { evidence, subject: { client: client({ age, sex, setting }), lungCondition }, applies: () => false };
          const each = recorded(test.id, reading, test.sided ? 'right' : null);
          expect(briefly(each, test, context)).toEqual(cutDown(each, test, context));
        },
      ),
      { numRuns: 40 },
    );
  });

  it('of a test that was not done is nothing but that', () => {
    const context = { evidence, subject: { client: client(), lungCondition: null }, applies: () => false };
    const declined = recorded('grip_strength', { outcome: 'declined', reason: 'x' }, 'left');
    const test = evidence.testById.get('grip_strength') ?? walk;
    expect(briefly(declined, test, context)).toEqual({
      outcome: 'declined',
      value: null,
      at_least: false,
      why: null,
      percentile: null,
      bound: null,
      standing: null,
      flagged: null,
      source: null,
      judged: false,
    });
    const unsafe = recorded('grip_strength', { outcome: 'unsafe', reason: 'x', why: 'medical' }, 'left');
    expect(briefly(unsafe, test, context)).toMatchObject({ outcome: 'unsafe', why: 'medical', judged: false, flagged: null });
  });

  it('of a client who was unable, or whose watch was stopped, says so as the full one does', () => {
    const context = { evidence, subject: { client: client(), lungCondition: null }, applies: () => false };
    const test = evidence.testById.get('timed_up_and_go') ?? walk;
    for (const reading of [unable, measured(14, { ceiling: 14 }), measured(14)]) {
      const each = recorded(test.id, reading);
      expect(briefly(each, test, context)).toEqual(cutDown(each, test, context));
    }
    expect(briefly(recorded(test.id, unable), test, context)).toMatchObject({ at_least: false, flagged: true });
    expect(briefly(recorded(test.id, measured(14, { ceiling: 14 })), test, context)).toMatchObject({
      at_least: true,
      flagged: true,
    });
  });

  it('is flagged by a mark that counts and is met', () => {
    const held = invented({ cutPoints: [cut({})] });
    const context = { evidence: held, subject: { client: client(), lungCondition: null }, applies: () => false };
    expect(briefly(recorded('walk', 12), walk, context).flagged).toBe(true);
    expect(briefly(recorded('walk', 11.9), walk, context).flagged).toBe(false);
    expect(briefly(recorded('walk', unable), walk, context).flagged).toBe(true);
  });
});

describe('a share of a group may count only clients whose every possible result gets a standing', () => {
  const limited = { ...walk, impossible: { ...walk.impossible, below: 1, above: 60 } };
  const one = { sex: 'female', age_min: 70, age_max: 79 };
  const rows: Record<string, [object, boolean]> = {
    'printed percentiles place everybody': [women, true],
    'a mean with its spread places everybody': [{ ...one, mean: 10, sd: 2 }, true],
    'a mean alone places nobody': [{ ...one, mean: 10 }, false],
    'a mark that few fail is silent on those who pass it': [{ ...one, shares: { marks: [20], percents: [2, 98] } }, false],
    'a mark that most fail is silent on those who fail it': [{ ...one, shares: { marks: [20], percents: [60, 40] } }, false],
  };
  const contextOf = (row: object, more: object[] = []): ScoringContext => ({
    evidence: invented(
      { tests: [limited], tables: [table({}, [row]), ...more.map((other) => table({ source: 'beta-2021' }, [other]))] },
      { walk: [{ source: 'alpha-2020' }, { source: 'beta-2021' }] },
    ),
    subject: { client: client(), lungCondition: null },
    applies: () => false,
  });
  it.each(Object.entries(rows))('%s', (_words, [row, judged]) => {
    expect(isJudged(recorded('walk', 10), limited, null, contextOf(row))).toBe(judged);
    expect(isJudged(recorded('walk', unable), limited, null, contextOf(row))).toBe(judged);
  });

  it('one table may place the worst and another the best', () => {
    const worst = { ...one, shares: { marks: [20], percents: [2, 98] } };
    const best = { ...one, shares: { marks: [20], percents: [60, 40] } };
    expect(isJudged(recorded('walk', 10), limited, null, contextOf(worst, [best]))).toBe(true);
    expect(isJudged(recorded('walk', 10), limited, null, contextOf(worst, [worst]))).toBe(false);
  });

  it('an equation is asked anew for every client: one may lack what it needs', () => {
    const terms = [{ term: 'height_cm', coefficient: 0.1 }];
    const context = contextOf({ ...one, equation: { intercept: 4, terms, residual_sd: 2, lower_limit: null } });
    const judged = (heightCm?: number) =>
      isJudged(recorded('walk', 10), limited, null, {
        ...context,
        subject: { client: client(heightCm === undefined ? {} : { heightCm }), lungCondition: null },
      });
    expect([judged(160), judged(), judged(160)]).toEqual([true, false, true]);
  });

  it('a table of other people places nobody, and a test that was not done is not judged', () => {
    expect(isJudged(recorded('walk', 10), limited, null, contextOf({ ...women, age_min: 80, age_max: 89 }))).toBe(false);
    expect(isJudged(recorded('walk', { outcome: 'declined', reason: 'x' }), limited, null, contextOf(women))).toBe(false);
  });

  it('where a limit of what is possible is not known, nothing is said of that end', () => {
    const open = { ...walk, impossible: { why: 'x', below: 1 } };
    expect(isJudged(recorded('walk', 10), open, null, contextOf({ ...women, age_max: 78 }))).toBe(false);
    const higher = { ...tenSeconds, impossible: { why: 'x', above: 60 } };
    const context = contextOf(women);
    expect(isJudged(recorded('ten', 10), higher, null, context)).toBe(false);
  });
});
