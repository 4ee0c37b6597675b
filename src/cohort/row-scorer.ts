/**
 * Scores rows. A row is taken apart into client, fields and tests; each part is read by the intake and scored by the scoring
 * room the first time it turns up, and remembered. What the intake refuses is read whole, so that every reason is given.
 */
import { assess, DEFAULT_PATHWAY } from '../assess.ts';
import type { Facts, TestFact } from '../evidence/condition.ts';
import type { Evidence } from '../evidence/data.ts';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { fieldsOf } from '../facts.ts';
import { buildSession } from '../intake/build.ts';
import { parseDate } from '../intake/dates.ts';
import { fits } from '../intake/explain.ts';
import { type Finding, isRefusal } from '../intake/problems.ts';
import { checkContradictions } from '../intake/values.ts';
import { asRecorded, missingNote } from '../scoring/score-session.ts';
import type { Fields, RecordedTest, Session, Side } from '../session.ts';
import { Bounded, PairNumbers, TextNumbers } from './bounded.ts';
import { type Decided, decide, flagNotes } from './decide.ts';
import { derivableTests, deriveFor } from './derived.ts';
import type { FieldPart, Layout, TestPart } from './layout.ts';
import {
  type FieldCell,
  type FieldSet,
  Numbering,
  type Person,
  type ScoredTest,
  scoreCell,
  stratumOf,
  type TestCell,
  testCell,
} from './parts.ts';
import { Signatures } from './signature.ts';
import { assessedOf, clientTree, fieldValue, type Row, refOf, testValue, treeOf } from './tree.ts';
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

const MOST_CELLS = 20_000;
const MOST_PEOPLE = 5_000;
const MOST_DECISIONS = 20_000;
const MOST_SCORED = 60_000;
const BETWEEN = '\u0001';

/** Text of several cells as one key; of a single cell its own text. */
function keyOf(row: Row, columns: readonly { readonly index: number }[]): string {
  const [first] = columns;
  if (columns.length === 1 && first !== undefined) return row[first.index] ?? '';
  let key = '';
  for (const column of columns) key += `${row[column.index] ?? ''}${BETWEEN}`;
  return key;
}

const columnsOfField = (part: FieldPart) => [
  ...(part.whole === null ? [] : [part.whole]),
  ...part.pieces.map((piece) => piece.column),
];
const columnsOfTest = (part: TestPart) => part.sides.flatMap((side) => side.columns);

export class RowScorer {
  readonly layout: Layout;
  /** Tests in the output: those of the columns in catalogue order, then the derived ones. */
  readonly outputTests: readonly TestDefinition[];
  readonly #evidence: Evidence;
  readonly #options: ScorerOptions;
  readonly #derived: readonly TestDefinition[];
  readonly #signatures: Signatures;
  readonly #rows = new Numbering<object>();
  readonly #numbers: readonly { readonly manners: TextNumbers; readonly strata: TextNumbers }[];
  readonly #kinds = new TextNumbers(100_000);
  readonly #people = new Bounded<string, Person>(MOST_PEOPLE);
  readonly #fieldSets = new Bounded<number, FieldSet>(MOST_CELLS);
  readonly #fieldPairs = new PairNumbers(MOST_CELLS);
  #fieldCells = 0;
  readonly #pairs = new PairNumbers(100_000);
  readonly #decisions = new Bounded<number, Decided>(MOST_DECISIONS);
  readonly #days = new Bounded<string, Day>(MOST_CELLS);
  readonly #fieldParts: readonly {
    part: FieldPart;
    columns: ReturnType<typeof columnsOfField>;
    cells: Bounded<string, FieldCell>;
  }[];
  readonly #testParts: readonly { part: TestPart; columns: ReturnType<typeof columnsOfTest>; cells: Bounded<string, TestCell> }[];
  readonly #derivedCells = new Bounded<string, TestCell>(MOST_CELLS);
  readonly #personColumns: readonly { readonly index: number }[];
  #scoredHeld = 0;

  constructor(layout: Layout, evidence: Evidence, options: ScorerOptions) {
    this.layout = layout;
    this.#evidence = evidence;
    this.#options = options;
    this.#derived = derivableTests(layout, evidence);
    this.outputTests = [...layout.tests.map((part) => part.test), ...this.#derived];
    this.#numbers = this.outputTests.map(() => ({ manners: new TextNumbers(MOST_CELLS), strata: new TextNumbers(MOST_CELLS) }));
    this.#signatures = new Signatures(evidence, { ...options, pathway: options.pathway ?? DEFAULT_PATHWAY });
    this.#fieldParts = layout.fields.map((part) => ({ part, columns: columnsOfField(part), cells: new Bounded(MOST_CELLS) }));
    this.#testParts = layout.tests.map((part) => ({ part, columns: columnsOfTest(part), cells: new Bounded(MOST_CELLS) }));
    const lung = this.#fieldParts.filter(({ part }) => part.group === 'health' && part.key === 'lung_condition');
    const bornNeedsDay = layout.client.born !== undefined && layout.assessed !== null ? [layout.assessed] : [];
    this.#personColumns = [...Object.values(layout.client), ...lung.flatMap(({ columns }) => columns), ...bornNeedsDay];
  }

  /** Sides of a test in the output. */
  sidesOf(test: string): readonly (Side | null)[] {
    return this.layout.tests.find((part) => part.test.id === test)?.sides.map((side) => side.side) ?? [null];
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
    for (let index = 0; index < this.#testParts.length; index += 1) {
      const cell = this.#cell(index, row);
      if (cell.refused) return this.#whole(row, number);
      const scored = this.#scored(cell, index, person);
      tests.push(scored);
      noted += scored.noted;
      key = this.#pairs.of(key, scored.signature);
    }
    if (this.#derived.length > 0)
      for (const scored of this.#derive(tests, person)) {
        tests.push(scored);
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
    return fromAssessment(assessment, session, { evidence: this.#evidence, tests: this.outputTests, render });
  }

  #whole(row: Row, number: number): Accepted | Refused {
    const tree = treeOf(this.layout, row, { number, today: this.#options.today });
    const { session, findings } = this.#build(tree);
    if (session === null) return { kind: 'refused', findings: findings.filter(isRefusal) };
    return { ...this.scoreSession(session), assessed: this.#day(row).assessed };
  }

  #build(tree: unknown) {
    return buildSession(tree, { catalogue: this.#evidence, today: this.#options.today });
  }

  /** A part on its own, in a visit that has nothing else to complain of. */
  #buildPart(part: Record<string, unknown>) {
    const { today } = this.#options;
    const { session, findings } = this.#build({
      format: 1,
      client: { ref: 'a', sex: 'not recorded', age: 75 },
      assessed: today,
      ...part,
    });
    return { session, notes: session?.notes ?? [], refused: session === null || findings.some(isRefusal) };
  }

  #readPerson(row: Row): Person {
    const { today, population } = this.#options;
    const client = clientTree(this.layout, row, 'a');
    const lungPart = this.layout.fields.find((part) => part.group === 'health' && part.key === 'lung_condition');
    const lung = lungPart === undefined ? undefined : fieldValue(lungPart, row);
    const health = lung === undefined ? {} : { health: { lung_condition: lung } };
    const assessed = client.born === undefined ? today : assessedOf(this.layout, row, client, today);
    const { session, notes, refused } = this.#buildPart({ client, assessed, ...health });
    const known = session?.client ?? { ref: 'a', sex: 'not recorded', age: 0, setting: 'community', settingAssumed: true };
    const condition = session?.fields['health.lung_condition'];
    const lungCondition = typeof condition === 'string' && !['none', 'unknown', 'no'].includes(condition) ? condition : null;
    const field = fieldsOf({ format: 1, client: known, assessed: today, fields: {}, tests: [], notes: [] });
    const paths = this.#signatures.fields.filter((path) => path.startsWith('client.'));
    const signature = paths.map((path) => this.#signatures.ofField(path, field(path))).join('|');
    return {
      client: known,
      context: {
        evidence: this.#evidence,
        subject: { client: known, lungCondition, preferredCountry: population },
        applies: () => false,
      },
      signature: this.#kinds.of(`p${signature}`),
      notes,
      noted: notes.length,
      refused,
      strata: this.outputTests.map(() => new Map()),
    };
  }

  /** All fields of the row together. */
  #fields(row: Row): FieldSet {
    let key = 0;
    for (let index = 0; index < this.#fieldParts.length; index += 1)
      key = this.#fieldPairs.of(key, this.#fieldCell(index, row).number);
    return this.#fieldSets.get(key) ?? this.#fieldSets.keep(key, this.#readFields(row));
  }

  #fieldCell(index: number, row: Row): FieldCell {
    const place = this.#fieldParts[index];
    if (place === undefined) throw new RangeError(`there is no field column ${index}`);
    const key = keyOf(row, place.columns);
    return place.cells.get(key) ?? place.cells.keep(key, this.#readField(place.part, row));
  }

  #readField(part: FieldPart, row: Row): FieldCell {
    this.#fieldCells += 1;
    const number = this.#fieldCells;
    const value = fieldValue(part, row);
    if (value === undefined) return { number, fields: {}, notes: [], refused: false };
    const { session, notes, refused } = this.#buildPart({ [part.group]: { [part.key]: value } });
    return { number, fields: session?.fields ?? {}, notes, refused };
  }

  #readFields(row: Row): FieldSet {
    const cells = this.#fieldParts.map((_, index) => this.#fieldCell(index, row));
    const fields: Fields = Object.assign({}, ...cells.map((cell) => cell.fields));
    const against = checkContradictions(fields);
    const field = fieldsOf({
      format: 1,
      client: { ref: '', sex: 'not recorded', age: 0, setting: 'community', settingAssumed: true },
      assessed: '',
      fields,
      tests: [],
      notes: [],
    });
    const paths = this.#signatures.fields.filter((path) => !path.startsWith('client.'));
    const signature = paths.map((path) => this.#signatures.ofField(path, field(path))).join('|');
    const notes = [
      ...cells.flatMap((cell) => cell.notes),
      ...against.map(({ message, hint }) => (hint === '' ? message : `${message}; ${hint}`)),
    ];
    return {
      fields,
      notes,
      noted: notes.length,
      refused: cells.some((cell) => cell.refused) || against.some(isRefusal),
      signature: this.#kinds.of(`f${signature}`),
    };
  }

  #cell(index: number, row: Row): TestCell {
    const place = this.#testParts[index];
    if (place === undefined) throw new RangeError(`there is no test column ${index}`);
    const key = keyOf(row, place.columns);
    return place.cells.get(key) ?? place.cells.keep(key, this.#readTest(place.part, index, row));
  }

  #readTest(part: TestPart, index: number, row: Row): TestCell {
    const value = testValue(part, row);
    if (value === undefined) return testCell([], part.test, { notes: [], refused: false }, this.#textsOf(index).manners);
    const { session, notes, refused } = this.#buildPart({ tests: { [part.test.id]: value } });
    return testCell(session?.tests ?? [], part.test, { notes, refused }, this.#textsOf(index).manners);
  }

  /** Numbers of manners and strata of one test: small, so that they are places in a list. */
  #textsOf(index: number): { readonly manners: TextNumbers; readonly strata: TextNumbers } {
    const numbers = this.#numbers[index];
    if (numbers === undefined) throw new RangeError(`there is no test ${index} in the output`);
    return numbers;
  }

  /** `index` is the place of the test in the output. */
  #scored(cell: TestCell, index: number, person: Person): ScoredTest {
    const stratum = person.strata[index]?.get(cell.manner);
    const known = stratum === undefined ? undefined : cell.scored[stratum.number];
    return known ?? this.#scoreAfresh(cell, index, person);
  }

  #scoreAfresh(cell: TestCell, index: number, person: Person): ScoredTest {
    const test = this.outputTests[index];
    if (test === undefined) throw new RangeError(`there is no test ${index} in the output`);
    const numbers = this.#textsOf(index);
    const stratum = stratumOf(cell, test, person, this.#evidence, this.#rows, numbers.strata);
    person.strata[index]?.set(cell.manner, stratum);
    const known = cell.scored[stratum.number];
    if (known !== undefined) return known;
    const { results, fact } = scoreCell(cell, test, person.context, stratum.fittings);
    const signature = this.#kinds.of(`t${test.id}${this.#signatures.ofTest(test.id, fact)}`);
    const { recorded, notes } = cell;
    const scored = {
      recorded,
      notes,
      noted: notes.length,
      results,
      fact,
      signature,
      rendered: this.#options.render(test, results),
    };
    this.#makeRoom();
    cell.scored[stratum.number] = scored;
    return scored;
  }

  #makeRoom(): void {
    this.#scoredHeld += 1;
    if (this.#scoredHeld < MOST_SCORED) return;
    this.#scoredHeld = 0;
    for (const { cells } of this.#testParts) cells.clear();
    this.#derivedCells.clear();
  }

  #derive(tests: readonly ScoredTest[], person: Person): ScoredTest[] {
    const recorded = tests.flatMap((test) => test.recorded);
    const derived = deriveFor(recorded, this.#derived, this.#evidence);
    return this.#derived.map((test, index) => {
      const result = derived.get(test.id);
      const notes = result?.kind === 'cannot_be_formed' ? [missingNote(result, this.#evidence)] : [];
      const key = result?.kind === 'formed' ? `${test.id}=${result.value}` : `${test.id}:${notes.join('')}`;
      const recordings: RecordedTest[] = result?.kind === 'formed' ? [asRecorded(result)] : [];
      const place = this.#testParts.length + index;
      const { manners } = this.#textsOf(place);
      const cell =
        this.#derivedCells.get(key) ??
        this.#derivedCells.keep(key, testCell(recordings, test, { notes, refused: false }, manners));
      return this.#scored(cell, place, person);
    });
  }

  #facts({ client }: Person, { fields }: FieldSet, tests: readonly ScoredTest[]): Facts {
    const recorded = tests.slice(0, this.#testParts.length).flatMap((test) => test.recorded);
    const session: Session = { format: 1, client, assessed: this.#options.today, fields, tests: recorded, notes: [] };
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
    return [...flags, ...person.notes, ...fields.notes, ...tests.flatMap((test) => test.notes)].join('; ');
  }
}

interface Day {
  readonly holds: boolean;
  /** ISO date; null where none is recorded. */
  readonly assessed: string | null;
}
const NO_DAY: Day = { holds: true, assessed: null };
