/**
 * Reads the parts of a row through the intake, each in a visit that has nothing else to complain of: the client, a field, a
 * test. What the intake refuses in a part it refuses in the whole row too, so a row of good parts need not be read whole.
 */
import type { Evidence } from '../evidence/data.ts';
import { subjectOf } from '../facts.ts';
import { buildSession } from '../intake/build.ts';
import { isRefusal } from '../intake/problems.ts';
import { checkContradictions } from '../intake/values.ts';
import type { Subject } from '../scoring/select.ts';
import type { Client, Fields, RecordedTest, Session } from '../session.ts';
import type { FieldPart, Layout, TestPart } from './layout.ts';
import { assessedOf, clientTree, fieldValue, type Row, testValue, treeOf } from './tree.ts';

/** How a part reads: what is remarked about it, and whether the row has to be refused for it. */
export interface Read {
  readonly notes: readonly string[];
  readonly refused: boolean;
}

/** Stands in where no client can be read; nothing of it reaches a result. */
const NOBODY: Client = { ref: 'a', sex: 'not recorded', age: 0, setting: 'community', settingAssumed: true };
/** An age at which the intake has nothing to remark. */
const UNREMARKED_AGE = 75;

/** A visit in which nothing is recorded but what is given. */
export const bareSession = (given: Partial<Session>): Session => ({
  format: 1,
  client: NOBODY,
  assessed: '',
  fields: {},
  tests: [],
  notes: [],
  ...given,
});

export class PartReader {
  readonly #layout: Layout;
  readonly #evidence: Evidence;
  readonly #today: string;
  readonly #preferredCountry: string | undefined;
  readonly #lung: FieldPart | undefined;

  /** `today` as ISO date; tables of `preferredCountry` come first. */
  constructor(layout: Layout, evidence: Evidence, today: string, preferredCountry?: string) {
    this.#layout = layout;
    this.#evidence = evidence;
    this.#today = today;
    this.#preferredCountry = preferredCountry;
    this.#lung = layout.fields.find((part) => part.group === 'health' && part.key === 'lung_condition');
  }

  /** The whole visit; `number` names a row without a reference. */
  visit(row: Row, number: number): ReturnType<typeof buildSession> {
    return this.#build(treeOf(this.#layout, row, { number, today: this.#today }));
  }

  /** The client with the lung condition, on which the choice of a table hangs as well. */
  client(row: Row): Read & { readonly subject: Subject } {
    const client = clientTree(this.#layout, row, NOBODY.ref);
    const lung = this.#lung === undefined ? undefined : fieldValue(this.#lung, row);
    const health = lung === undefined ? {} : { health: { lung_condition: lung } };
    const assessed = client.born === undefined ? this.#today : assessedOf(this.#layout, row, client, this.#today);
    const { session, ...read } = this.#part({ client, assessed, ...health });
    return { ...read, subject: subjectOf(session ?? bareSession({}), this.#preferredCountry) };
  }

  field(part: FieldPart, row: Row): Read & { readonly fields: Fields } {
    const value = fieldValue(part, row);
    if (value === undefined) return { fields: {}, notes: [], refused: false };
    const { session, ...read } = this.#part({ [part.group]: { [part.key]: value } });
    return { ...read, fields: session?.fields ?? {} };
  }

  /** All fields together: each may be well by itself and gainsay another. */
  together(cells: readonly (Read & { readonly fields: Fields })[]): Read & { readonly fields: Fields } {
    const fields: Fields = Object.assign({}, ...cells.map((cell) => cell.fields));
    const against = checkContradictions(fields);
    const words = against.map(({ message, hint }) => (hint === '' ? message : `${message}; ${hint}`));
    return {
      fields,
      notes: [...cells.flatMap((cell) => cell.notes), ...words],
      refused: cells.some((cell) => cell.refused) || against.some(isRefusal),
    };
  }

  test(part: TestPart, row: Row): Read & { readonly recorded: readonly RecordedTest[] } {
    const value = testValue(part, row);
    if (value === undefined) return { recorded: [], notes: [], refused: false };
    const { session, ...read } = this.#part({ tests: { [part.test.id]: value } });
    return { ...read, recorded: session?.tests ?? [] };
  }

  #part(part: Record<string, unknown>): Read & { readonly session: Session | null } {
    const client = { ref: NOBODY.ref, sex: NOBODY.sex, age: UNREMARKED_AGE };
    const { session, findings } = this.#build({ format: 1, client, assessed: this.#today, ...part });
    return { session, notes: session?.notes ?? [], refused: session === null || findings.some(isRefusal) };
  }

  #build(tree: unknown): ReturnType<typeof buildSession> {
    return buildSession(tree, { catalogue: this.#evidence, today: this.#today });
  }
}
