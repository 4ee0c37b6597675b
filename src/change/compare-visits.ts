/** Two or more visits of one client -> what changed. Pure; the visits have been assessed already. */
import type { Assessment } from '../assessment.ts';
import { evaluate } from '../evidence/condition.ts';
import type { Evidence } from '../evidence/data.ts';
import type { Condition } from '../evidence/schema/condition.ts';
import { factsOf } from '../facts.ts';
import type { Side } from '../session.ts';
import { daysBetween } from './days.ts';
import { planChange } from './plan-change.ts';
import { doneTest, type Visit } from './readings.ts';
import { riskChange } from './risk-change.ts';
import { changeOfTest } from './test-change.ts';
import type { Change, TestChange } from './types.ts';

/** The visits belong to different clients, or are fewer than two. */
export class NotComparable extends Error {
  override readonly name = 'NotComparable';
}

export interface CompareOptions {
  /** The last visit assessed as if only falls since the one before had happened. */
  readonly newFallsOnly: Assessment | null;
}

/** Fields that say a client has the condition that a study population is named after. */
const CONDITION_FIELDS: Readonly<Record<string, string>> = {
  parkinson: 'health.parkinson_disease',
  vestibular: 'health.vestibular_disease',
};

/** Conditions recorded at either visit, so that the order of the visits makes no difference. */
function conditionsOf(visits: readonly Visit[], evidence: Evidence): Set<string> {
  const found = visits.flatMap((visit) => {
    const facts = factsOf(visit.session, [], evidence);
    const named = Object.entries(CONDITION_FIELDS).filter(([, field]) => evaluate({ field, is: 'yes' }, facts) === 'yes');
    const lung = visit.session.fields['health.lung_condition'];
    return [...named.map(([condition]) => condition), ...(typeof lung === 'string' ? [lung] : [])];
  });
  // "other" on a study means any other condition, which is not the same as another lung condition.
  return new Set(found.filter((condition) => condition !== 'other'));
}

interface Asked {
  readonly test: string;
  readonly side: Side | null;
}

/** Every test and side that any visit has a result for, in the order of the catalogue, right before left. */
function testsAsked(visits: readonly Visit[], evidence: Evidence): Asked[] {
  const sides: readonly (Side | null)[] = [null, 'right', 'left'];
  return evidence.tests.flatMap(({ id }) =>
    sides
      .filter((side) =>
        visits.some(({ assessment }) => assessment.tests.some((result) => result.test === id && result.side === side)),
      )
      .map((side) => ({ test: id, side })),
  );
}

/** A limit of 95 % lets 5 of 100 unchanged results through, in either direction. */
const CHANCE_SHARE = 0.05;
const MANY = 5;

function chanceWords(tests: readonly TestChange[]): string | null {
  const judged = tests.filter((test) => test.verdict !== 'cannot_tell' && test.change !== null);
  if (judged.length < MANY) return null;
  const beyond = judged.filter((test) => test.verdict !== 'within_error').length;
  const expected = (judged.length * CHANCE_SHARE).toFixed(1);
  return `${judged.length} results were held against a 95 % limit: about ${expected} would pass it by chance alone; ${beyond} did`;
}

interface Ends {
  readonly first: Visit;
  /** The visit before the last; the first one where there are two. */
  readonly previous: Visit;
  readonly last: Visit;
}

function endsOf(visits: readonly Visit[]): Ends {
  const [first, previous, last] = [visits[0], visits.at(-2), visits.at(-1)];
  if (first === undefined || previous === undefined || last === undefined)
    throw new NotComparable('two visits are needed to see a change');
  const refs = [...new Set(visits.map(({ session }) => session.client.ref))];
  if (refs.length > 1) throw new NotComparable(`the visits are of different clients: ${refs.join(', ')}`);
  return { first, previous, last };
}

/** Facts of the person that should not change between visits, or not backwards. */
function personNotes(first: Visit, last: Visit): string[] {
  const [before, after] = [first.session.client, last.session.client];
  const notes: string[] = [];
  if (before.sex !== after.sex)
    notes.push(`sex is ${before.sex} at the first visit and ${after.sex} at the last: norms of both were used`);
  if (before.born !== undefined && after.born !== undefined && before.born !== after.born)
    notes.push('the date of birth differs between the visits: check that this is one client');
  if (after.age < before.age) notes.push(`age ${before.age} at the first visit and ${after.age} at the last: check the ages`);
  if (before.setting !== after.setting)
    notes.push(`setting before: ${before.setting.replace('_', ' ')}; now: ${after.setting.replace('_', ' ')}`);
  if (daysBetween(first.session.assessed, last.session.assessed) === 0)
    notes.push('the first and the last visit are of the same day: the published errors are for days to months apart');
  return notes;
}

/** What happened between the visits and may itself explain a change. */
function eventNotes({ session }: Visit): string[] {
  const { fields } = session;
  const events = fields['since_last.adverse_events'];
  return [
    ...(fields['since_last.exacerbation'] === 'yes'
      ? ['a flare-up of the lung condition since the last visit may explain a worse result']
      : []),
    ...(typeof events === 'number' && events > 0
      ? [`${events} unwanted ${events === 1 ? 'event' : 'events'} in exercise since the last visit`]
      : []),
  ];
}

/** Sources of the comparison itself, then of both assessments. */
function sourcesOf(visits: readonly Visit[], tests: readonly TestChange[], evidence: Evidence): Change['sources'] {
  const cited = new Map<string, Change['sources'][string]>();
  const cite = (id: string, location: string, status: Change['sources'][string]['status']): void => {
    const source = evidence.sources[id];
    if (!cited.has(id)) cited.set(id, { citation: source?.citation ?? id, doi: source?.doi ?? null, location, status });
  };
  for (const test of tests) {
    const important = test.important === null ? [] : [test.important];
    const error = test.error === null ? [] : [test.error];
    for (const each of [...error, ...test.other_errors, ...important, ...test.other_important, ...test.crossed])
      cite(each.source, each.location, each.status);
  }
  for (const { assessment } of [...visits].reverse())
    for (const [id, source] of Object.entries(assessment.sources)) cite(id, source.location, source.status);
  return Object.fromEntries([...cited].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/**
 * Visits are put in order of date; those of one day stay as given. Throws NotComparable with fewer than two visits or with
 * visits of different clients.
 */
export function compareVisits(given: readonly Visit[], evidence: Evidence, { newFallsOnly }: CompareOptions): Change {
  const visits = [...given].sort((a, b) => daysBetween(b.session.assessed, a.session.assessed));
  const { first, previous, last } = endsOf(visits);
  const conditions = conditionsOf(visits, evidence);
  const facts = [first, last].map(({ session, assessment }) => factsOf(session, assessment.tests, evidence));
  const holds = (condition: Condition): boolean => facts.some((each) => evaluate(condition, each) === 'yes');
  const tests = testsAsked(visits, evidence).flatMap(({ test, side }): TestChange[] => {
    const definition = evidence.testById.get(test);
    if (definition === undefined) return [];
    const change = changeOfTest(
      visits.map((visit) => doneTest(visit, test, side)),
      { evidence, test: definition, conditions, holds, latest: last },
    );
    return change === null ? [] : [{ ...change, side }];
  });
  return {
    format: 1,
    tool: last.assessment.tool,
    evidence: last.assessment.evidence,
    client: last.assessment.client,
    from: first.session.assessed,
    to: last.session.assessed,
    days: daysBetween(first.session.assessed, last.session.assessed),
    visits: visits.map(({ session }) => session.assessed),
    tests,
    risk: riskChange({ before: first, previous, after: last }, newFallsOnly, evidence),
    plan: planChange({
      first: first.assessment.plan,
      previous: previous.assessment.plan,
      last: { plan: last.assessment.plan, session: last.session },
      ladders: evidence.exercises,
      rules: evidence.dose.between_visits,
    }),
    chance: chanceWords(tests),
    notes: [...personNotes(first, last), ...eventNotes(last)],
    sources: sourcesOf([first, last], tests, evidence),
  };
}
