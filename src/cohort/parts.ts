/** Parts of a row that are read and scored once for each way they are filled in: a field, the client, a test. */
import type { TestFact } from '../evidence/condition.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { factFrom, factOfSides } from '../facts.ts';
import { type BriefResult, type Fitting, fittingFor, scoreBriefly } from '../scoring/brief.ts';
import { countedCuts } from '../scoring/cut-points.ts';
import { strongerSide } from '../scoring/score-session.ts';
import type { ScoringContext } from '../scoring/score-test.ts';
import type { Client, Fields, RecordedTest, Side } from '../session.ts';
import type { TextNumbers } from './bounded.ts';

/** How a test was filled in, whoever the client is. */
export interface TestCell {
  readonly recorded: readonly RecordedTest[];
  readonly stronger: Side | null;
  readonly notes: readonly string[];
  /** The intake refuses it: the row is read whole, to say why. */
  readonly refused: boolean;
  /** Number of what the choice of a table depends on: how many trials, stopped where, over which course. */
  readonly manner: number;
  /** By number of the stratum. */
  readonly scored: (ScoredTest | undefined)[];
}

/** The results of one test for one kind of client. */
export interface ScoredTest {
  readonly recorded: readonly RecordedTest[];
  /** Of the reading, such as an unusual value. */
  readonly notes: readonly string[];
  /** In words, where the result columns may all be empty though the test was tried: unable is the worst result and no blank. */
  readonly tried: readonly string[];
  /** How many notes of both kinds there are: in most rows none, and then the lists are not looked at. */
  readonly noted: number;
  readonly results: readonly { readonly side: Side | null; readonly brief: BriefResult }[];
  readonly fact: TestFact | undefined;
  /** Number of its signature. */
  readonly signature: number;
  /** As the output has it, made once. */
  readonly rendered: string;
}

/** One field, or all of them together, as filled in. */
export interface FieldCell {
  /** The same for the same cells, and never given twice. */
  readonly number: number;
  readonly fields: Fields;
  readonly notes: readonly string[];
  readonly refused: boolean;
}
export interface FieldSet extends Omit<FieldCell, 'number'> {
  readonly noted: number;
  readonly signature: number;
}

export interface Person {
  readonly client: Client;
  readonly context: ScoringContext;
  readonly signature: number;
  readonly notes: readonly string[];
  readonly noted: number;
  readonly refused: boolean;
  /** For each test of the output: stratum by manner. */
  readonly strata: readonly Map<number, Stratum>[];
}

export interface Stratum {
  readonly number: number;
  readonly fittings: readonly Fitting[];
}

/** What stands in the notes of a row for a test that was tried and not done. */
export function triedInWords(test: TestDefinition, results: ScoredTest['results']): string[] {
  return results.flatMap(({ side, brief: { outcome } }) => {
    const name = `${test.name}${side === null ? '' : `, ${side}`}`;
    if (outcome === 'unable') return [`${name}: unable`];
    return outcome === 'unsafe' ? [`${name}: stopped as unsafe`] : [];
  });
}

const mannerOf = (recorded: readonly RecordedTest[], stronger: Side | null): string =>
  recorded
    .map(({ side, reading }) => {
      if (reading.outcome !== 'measured') return `${side}:${reading.outcome}`;
      const { trials, ceiling, course, chairCm } = reading;
      const reached = ceiling !== undefined && Math.max(...trials) >= ceiling;
      return `${side}:${trials.length}:${ceiling}:${reached}:${course?.distanceM}:${course?.start}:${chairCm}`;
    })
    .join(';')
    .concat(`|${stronger}`);

export function testCell(
  recorded: readonly RecordedTest[],
  test: TestDefinition,
  read: Pick<TestCell, 'notes' | 'refused'>,
  texts: TextNumbers,
): TestCell {
  const stronger = strongerSide(recorded, test);
  const { notes, refused } = read;
  return { recorded, stronger, notes, refused, manner: texts.of(`m${mannerOf(recorded, stronger)}`), scored: [] };
}

/** Numbers for things that are told apart by identity. */
export class Numbering<Thing extends object> {
  readonly #numbers = new WeakMap<Thing, number>();
  #next = 0;

  of(thing: Thing): number {
    const known = this.#numbers.get(thing);
    if (known !== undefined) return known;
    this.#next += 1;
    this.#numbers.set(thing, this.#next);
    return this.#next;
  }
}

/**
 * Clients of one stratum get the same result for the same reading: the same rows may give the standing and the same
 * cut-points count. Where a row holds an equation, its terms belong to the stratum.
 */
export function stratumOf(
  cell: TestCell,
  test: TestDefinition,
  person: Person,
  evidence: Evidence,
  rows: Numbering<object>,
  texts: TextNumbers,
): Stratum {
  const fittings = cell.recorded.map((each) => fittingFor(each, cell.stronger, person.context));
  const { age, sex, heightCm, weightKg } = person.client;
  const byEquation = fittings.flat().some(({ row }) => row.equation !== undefined);
  const cuts = countedCuts(evidence.cutPointsByTest.get(test.id) ?? [], person.context.subject).map((cut) => rows.of(cut));
  const rowIds = fittings.map((fitting) => fitting.map(({ row, part }) => `${rows.of(row)}.${rows.of(part)}`).join(','));
  const text = `s${rowIds.join(';')}|${byEquation ? `${age}|${sex}|${heightCm}|${weightKg}` : ''}|${cuts.join(',')}`;
  return { number: texts.of(text), fittings };
}

export function scoreCell(
  cell: TestCell,
  test: TestDefinition,
  context: ScoringContext,
  fittings: readonly Fitting[],
): Pick<ScoredTest, 'results' | 'fact'> {
  const results = cell.recorded.map((each, index) => ({
    side: each.side,
    brief: scoreBriefly(each, test, context, fittings[index] ?? []),
  }));
  return { results, fact: factOfSides(results.map(({ side, brief }) => ({ side, fact: factFrom(brief, test.better) }))) };
}
