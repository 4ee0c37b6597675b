/**
 * Scores the tests of rows. A reading is scored once for each kind of client and remembered: cells of one text share a reading,
 * clients whom the tables do not tell apart share a stratum.
 */
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { asRecorded, missingNote } from '../scoring/score-session.ts';
import type { RecordedTest } from '../session.ts';
import { Bounded, TextNumbers } from './bounded.ts';
import { derivableTests, deriveFor } from './derived.ts';
import type { Layout, TestPart } from './layout.ts';
import type { PartReader } from './part-reader.ts';
import { Numbering, type Person, type ScoredTest, scoreCell, stratumOf, type TestCell, testCell, triedInWords } from './parts.ts';
import type { Signatures } from './signature.ts';
import { keyOf, type Row } from './tree.ts';

const MOST_CELLS = 20_000;
const MOST_SCORED = 60_000;

/** What is remembered of one test of the output. */
interface Place {
  readonly test: TestDefinition;
  /** null for a derived test. */
  readonly part: TestPart | null;
  readonly columns: readonly { readonly index: number }[];
  readonly cells: Bounded<string, TestCell>;
  /** Numbers of manners and strata of this test: small, so that they are places in a list. */
  readonly manners: TextNumbers;
  readonly strata: TextNumbers;
}

const placeOf = (test: TestDefinition, part: TestPart | null): Place => ({
  test,
  part,
  columns: part === null ? [] : part.sides.flatMap((side) => side.columns),
  cells: new Bounded(MOST_CELLS),
  manners: new TextNumbers(MOST_CELLS),
  strata: new TextNumbers(MOST_CELLS),
});

export interface TestScorerOptions {
  readonly reader: PartReader;
  readonly signatures: Signatures;
  /** A number for each text. */
  readonly kinds: TextNumbers;
  readonly render: (test: TestDefinition, results: ScoredTest['results']) => string;
}

export class TestScorer {
  /** Tests in the output: those of the columns in catalogue order, then the derived ones. */
  readonly tests: readonly TestDefinition[];
  /** How many of them have columns. */
  readonly read: number;
  readonly #evidence: Evidence;
  readonly #options: TestScorerOptions;
  readonly #derived: readonly TestDefinition[];
  readonly #places: readonly Place[];
  readonly #rows = new Numbering<object>();
  #held = 0;

  constructor(layout: Layout, evidence: Evidence, options: TestScorerOptions) {
    this.#evidence = evidence;
    this.#options = options;
    this.#derived = derivableTests(layout, evidence);
    this.#places = [...layout.tests.map((part) => placeOf(part.test, part)), ...this.#derived.map((test) => placeOf(test, null))];
    this.tests = this.#places.map(({ test }) => test);
    this.read = layout.tests.length;
  }

  /** How the test at `index` of the output was filled in; that of a column, not a derived one. */
  cell(index: number, row: Row): TestCell {
    const place = this.#place(index);
    const key = keyOf(row, place.columns);
    return place.cells.get(key) ?? place.cells.keep(key, this.#readCell(place, row));
  }

  #readCell({ test, part, manners }: Place, row: Row): TestCell {
    if (part === null) throw new RangeError(`${test.id} has no column`);
    const { recorded, ...read } = this.#options.reader.test(part, row);
    return testCell(recorded, test, read, manners);
  }

  #place(index: number): Place {
    const place = this.#places[index];
    if (place === undefined) throw new RangeError(`there is no test ${index} in the output`);
    return place;
  }

  scored(cell: TestCell, index: number, person: Person): ScoredTest {
    const stratum = person.strata[index]?.get(cell.manner);
    const known = stratum === undefined ? undefined : cell.scored[stratum.number];
    return known ?? this.#scoreAfresh(cell, index, person);
  }

  #scoreAfresh(cell: TestCell, index: number, person: Person): ScoredTest {
    const { test, strata: numbers } = this.#place(index);
    const strata = person.strata[index];
    const met = strata?.get(cell.manner);
    const stratum = met ?? stratumOf(cell, test, person, this.#evidence, this.#rows, numbers);
    if (met === undefined) {
      strata?.set(cell.manner, stratum);
      const known = cell.scored[stratum.number];
      if (known !== undefined) return known;
    }
    const { signatures, kinds, render } = this.#options;
    const { results, fact } = scoreCell(cell, test, person.context, stratum.fittings);
    const tried = triedInWords(test, results);
    const scored = {
      recorded: cell.recorded,
      notes: cell.notes,
      tried,
      noted: cell.notes.length + tried.length,
      results,
      fact,
      signature: kinds.of(`t${test.id}${signatures.ofTest(test.id, fact)}`),
      rendered: render(test, results),
    };
    this.#makeRoom();
    cell.scored[stratum.number] = scored;
    return scored;
  }

  #makeRoom(): void {
    this.#held += 1;
    if (this.#held < MOST_SCORED) return;
    this.#held = 0;
    for (const { cells } of this.#places) cells.clear();
  }

  /** What the tests of the row form together, of one or none for each derived test of the output. */
  derive(tests: readonly ScoredTest[], person: Person): ScoredTest[] {
    if (this.#derived.length === 0) return [];
    const recorded = tests.flatMap((test) => test.recorded);
    const derived = deriveFor(recorded, this.#derived, this.#evidence);
    return this.#derived.map((test, at) => {
      const result = derived.get(test.id);
      const notes = result?.kind === 'cannot_be_formed' ? [missingNote(result, this.#evidence)] : [];
      const key = result?.kind === 'formed' ? `${test.id}=${result.value}` : `${test.id}:${notes.join('')}`;
      const recordings: RecordedTest[] = result?.kind === 'formed' ? [asRecorded(result)] : [];
      const index = this.read + at;
      const { cells, manners } = this.#place(index);
      const cell = cells.get(key) ?? cells.keep(key, testCell(recordings, test, { notes, refused: false }, manners));
      return this.scored(cell, index, person);
    });
  }
}
