/**
 * Scores rows. A row is taken apart into client, fields and tests; each part is read by the intake and scored by the scoring
 * room the first time it turns up, and remembered. What the intake refuses is read whole, so that every reason is given.
 */
import { assess, DEFAULT_PATHWAY } from '../assess.ts';
import type { Facts, TestFact } from '../evidence/condition.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { fieldsOf } from '../facts.ts';
import { parseDate } from '../intake/dates.ts';
import { fits } from '../intake/explain.ts';
import { type Finding, isRefusal } from '../intake/problems.ts';
import type { Session, Side } from '../session.ts';
import { Bounded, PairNumbers, TextNumbers } from './bounded.ts';
import { type Decided, decide, flagNotes } from './decide.ts';
import type { FieldPart, Layout } from './layout.ts';
import type { Slot } from './output.ts';
import { bareSession, PartReader } from './part-reader.ts';
import type { FieldCell, FieldSet, Person, ScoredTest } from './parts.ts';
import { Signatures } from './signature.ts';
import { TestScorer } from './test-scorer.ts';
import { keyOf, type Row, refOf } from './tree.ts';
import { fromAssessment } from './whole.ts';

export interface ScorerOptions {
  readonly pathway?: string | undefined;
  readonly pathwayOptions?: readonly string[] | undefined;
  /** Country whose tables are preferred. */
  readonly population?: string | undefined;
  /** ISO date. */
  readonly today: string;
  /** Work out starting levels as well, for the summary. */
  readonly withPlan: boolean;
  /** How the results of one test stand in an output row. */
  readonly render: (test: TestDefinition, results: ScoredTest['results']) => string;
}

export interface Accepted {
  readonly kind: 'accepted';
  readonly ref: string;
  /** ISO date as recorded; null where the row has none. */
  readonly assessed: string | null;
  readonly age: number;
  readonly sex: string;
  /** One entry for each test of `outputTests`, in that order. */
  readonly tests: readonly ScoredTest[];
  readonly decided: Decided;
  readonly notes: string;
}
export interface Refused {
  readonly kind: 'refused';
  readonly findings: readonly Finding[];
}

interface Day {
  readonly holds: boolean;
  /** ISO date; null where none is recorded. */
  readonly assessed: string | null;
}
const NO_DAY: Day = { holds: true, assessed: null };

const MOST_CELLS = 20_000;
const MOST_PEOPLE = 5_000;
const MOST_DECISIONS = 20_000;
const MOST_KINDS = 100_000;

/** A field with the cells that are remembered of it. */
interface FieldPlace {
  readonly part: FieldPart;
  readonly columns: readonly { readonly index: number }[];
  readonly cells: Bounded<string, FieldCell>;
}

const fieldPlace = (part: FieldPart): FieldPlace => ({
  part,
  columns: [...(part.whole === null ? [] : [part.whole]), ...part.pieces.map((piece) => piece.column)],
  cells: new Bounded(MOST_CELLS),
});

export class RowScorer {
  readonly layout: Layout;
  /** Tests in the output: those of the columns in catalogue order, then the derived ones. */
  readonly outputTests: readonly TestDefinition[];
  readonly #evidence: Evidence;
  readonly #options: ScorerOptions;
  readonly #reader: PartReader;
  readonly #signatures: Signatures;
  readonly #tests: TestScorer;
  readonly #kinds = new TextNumbers(MOST_KINDS);
  readonly #people = new Bounded<string, Person>(MOST_PEOPLE);
  readonly #personColumns: readonly { readonly index: number }[];
  readonly #fieldPlaces: readonly FieldPlace[];
  readonly #fieldSets = new Bounded<number, FieldSet>(MOST_CELLS);
  readonly #fieldPairs = new PairNumbers(MOST_CELLS);
  #fieldCells = 0;
  readonly #pairs = new PairNumbers(MOST_KINDS);
  readonly #decisions = new Bounded<number, Decided>(MOST_DECISIONS);
  readonly #days = new Bounded<string, Day>(MOST_CELLS);

  constructor(layout: Layout, evidence: Evidence, options: ScorerOptions) {
    this.layout = layout;
    this.#evidence = evidence;
    this.#options = options;
    this.#reader = new PartReader(layout, evidence, options.today, options.population);
    this.#signatures = new Signatures(evidence, { ...options, pathway: options.pathway ?? DEFAULT_PATHWAY });
    const shared = { reader: this.#reader, signatures: this.#signatures, kinds: this.#kinds, render: options.render };
    this.#tests = new TestScorer(layout, evidence, shared);
    this.outputTests = this.#tests.tests;
    this.#fieldPlaces = layout.fields.map(fieldPlace);
    const lung = this.#fieldPlaces.filter(({ part }) => part.group === 'health' && part.key === 'lung_condition');
    const bornNeedsDay = layout.client.born !== undefined && layout.assessed !== null ? [layout.assessed] : [];
    this.#personColumns = [...Object.values(layout.client), ...lung.flatMap(({ columns }) => columns), ...bornNeedsDay];
  }

  /** Sides of a test in the output. */
  sidesOf(test: string): readonly (Side | null)[] {
    return this.layout.tests.find((part) => part.test.id === test)?.sides.map((side) => side.side) ?? [null];
  }

  /** Every test of the output with each of its sides. */
  get slots(): Slot[] {
    return this.outputTests.flatMap((test) => this.sidesOf(test.id).map((side) => ({ test, side })));
  }

  /** `row` has as many cells as the header; `number` names a row without a reference. */
  score(row: Row, number: number): Accepted | Refused {
    const ref = refOf(this.layout, row, number);
    const personKey = keyOf(row, this.#personColumns);
    const person = this.#people.get(personKey) ?? this.#people.keep(personKey, this.#readPerson(row));
    const fields = this.#fields(row);
    const day = this.#day(row);
    if (person.refused || fields.refused || !day.holds || this.#signatures.asksForError) return this.#whole(row, number);
    if (!fits({ kind: 'reference' }, ref)) return this.#whole(row, number);
    const tests: ScoredTest[] = [];
    let noted = person.noted + fields.noted;
    let key = this.#pairs.of(person.signature, fields.signature);
    for (let index = 0; index < this.#tests.read; index += 1) {
      const cell = this.#tests.cell(index, row);
      if (cell.refused) return this.#whole(row, number);
      tests.push(this.#tests.scored(cell, index, person));
    }
    for (const derived of this.#tests.derive(tests, person)) tests.push(derived);
    for (const scored of tests) {
      noted += scored.noted;
      key = this.#pairs.of(key, scored.signature);
    }
    const decided =
      this.#decisions.get(key) ??
      this.#decisions.keep(key, decide(this.#facts(person, fields, tests), this.#evidence, this.#options));
    const quiet = noted === 0 && decided.redFlags.length === 0;
    const { age, sex } = person.client;
    const notes = quiet ? '' : this.#notes(decided, person, fields, tests);
    return { kind: 'accepted', ref, assessed: day.assessed, age, sex, tests, decided, notes };
  }

  /** A visit that did not come out of these columns, or that has to be seen whole. */
  scoreSession(session: Session): Accepted {
    const { pathway, pathwayOptions, population, render } = this.#options;
    const assessment = assess(session, this.#evidence, { pathway, pathwayOptions, population });
    return fromAssessment(assessment, session, { evidence: this.#evidence, tests: this.outputTests, render, population });
  }

  #whole(row: Row, number: number): Accepted | Refused {
    const { session, findings } = this.#reader.visit(row, number);
    if (session === null) return { kind: 'refused', findings: findings.filter(isRefusal) };
    return { ...this.scoreSession(session), assessed: this.#day(row).assessed };
  }

  #readPerson(row: Row): Person {
    const { subject, notes, refused } = this.#reader.client(row);
    const { client } = subject;
    return {
      client,
      context: { evidence: this.#evidence, subject, applies: () => false },
      signature: this.#kinds.of(`p${this.#signatures.ofClient(fieldsOf(bareSession({ client })))}`),
      notes,
      noted: notes.length,
      refused,
      strata: this.outputTests.map(() => new Map()),
    };
  }

  /** All fields of the row together. */
  #fields(row: Row): FieldSet {
    let key = 0;
    for (let index = 0; index < this.#fieldPlaces.length; index += 1)
      key = this.#fieldPairs.of(key, this.#fieldCell(index, row).number);
    return this.#fieldSets.get(key) ?? this.#fieldSets.keep(key, this.#readFields(row));
  }

  #fieldCell(index: number, row: Row): FieldCell {
    const place = this.#fieldPlaces[index];
    if (place === undefined) throw new RangeError(`there is no field column ${index}`);
    const key = keyOf(row, place.columns);
    return place.cells.get(key) ?? place.cells.keep(key, this.#readField(place.part, row));
  }

  #readField(part: FieldPart, row: Row): FieldCell {
    this.#fieldCells += 1;
    return { number: this.#fieldCells, ...this.#reader.field(part, row) };
  }

  #readFields(row: Row): FieldSet {
    const read = this.#reader.together(this.#fieldPlaces.map((_, index) => this.#fieldCell(index, row)));
    const signature = this.#signatures.ofFields(fieldsOf(bareSession({ fields: read.fields })));
    return { ...read, noted: read.notes.length, signature: this.#kinds.of(`f${signature}`) };
  }

  #facts({ client }: Person, { fields }: FieldSet, tests: readonly ScoredTest[]): Facts {
    const recorded = tests.slice(0, this.#tests.read).flatMap((test) => test.recorded);
    const session = bareSession({ client, assessed: this.#options.today, fields, tests: recorded });
    const byTest = new Map<string, TestFact | undefined>(this.outputTests.map((test, index) => [test.id, tests[index]?.fact]));
    return { field: fieldsOf(session), test: (id) => byTest.get(id) };
  }

  /** The day of the visit must be a day and not in the future; a visit without one is judged with the age. */
  #day(row: Row): Day {
    const { assessed } = this.layout;
    if (assessed === null) return NO_DAY;
    const text = row[assessed.index] ?? '';
    const known = this.#days.get(text);
    if (known !== undefined) return known;
    const day = assessed.read(text);
    if (day === undefined) return this.#days.keep(text, NO_DAY);
    const holds = typeof day === 'string' && parseDate(day) !== null && day <= this.#options.today;
    return this.#days.keep(text, { holds, assessed: typeof day === 'string' ? day : null });
  }

  /** Red flags first, then what the intake remarked, in the order of a visit. */
  #notes(decided: Decided, person: Person, fields: FieldSet, tests: readonly ScoredTest[]): string {
    const flags = flagNotes(decided.redFlags, () => this.#facts(person, fields, tests), this.#evidence);
    const tried = tests.flatMap((test) => test.tried);
    return [...flags, ...person.notes, ...fields.notes, ...tests.flatMap((test) => test.notes), ...tried].join('; ');
  }
}
