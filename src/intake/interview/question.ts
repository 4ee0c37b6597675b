/** What a question of `footing new` is. */
import type { Key, Keys, Leaf } from '../../session-keys.ts';
import type { Path } from '../problems.ts';

/** Texts as typed, by the id of their question; an empty text means not recorded. */
export type Answers = Readonly<Record<string, string>>;

export type Form =
  | { readonly kind: 'leaf'; readonly leaf: Leaf }
  /** Completed years, or a date of birth. */
  | { readonly kind: 'age' }
  | { readonly kind: 'tests' }
  /** A number, trials, or an outcome with its reason. */
  | { readonly kind: 'result' };

export interface Question {
  readonly id: string;
  readonly section: string;
  readonly ask: string;
  /** What can be typed; shown under the line. */
  readonly hint: string;
  readonly form: Form;
  /** Where the value stands in the visit. */
  readonly path: Path;
  readonly required: boolean;
  /** Id of the test whose protocol `?` shows. */
  readonly card?: string;
  /** The protocol in a line. */
  readonly detail?: string;
  /** Taken where nothing is typed. */
  readonly usual?: string;
}

/** The entry of a key; one that a table lacks would be a plain text. */
export const keyOf = (keys: Keys, name: string): Key => keys[name] ?? { leaf: { kind: 'text' }, about: name };
