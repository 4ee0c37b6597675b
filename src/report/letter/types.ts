/** A letter before it is laid out: plain texts, in the order in which they are read. */

export type Receiver = 'gp' | 'specialist' | 'client-file';

/** Names and addresses: from flags or a separate file, never from the session, which stays pseudonymous. */
export interface People {
  readonly client: { readonly name: string | null; readonly born: string | null; readonly address: readonly string[] };
  readonly to: { readonly name: string | null; readonly address: readonly string[] };
  readonly from: {
    readonly name: string | null;
    readonly role: string | null;
    readonly registration: string | null;
    readonly telephone: string | null;
  };
  readonly copies: readonly string[];
}

export interface LetterRequest {
  readonly what: string;
  readonly why: string;
  /** "Today", "Before the next exercise", "By 21 July 2026". */
  readonly when: string;
}

export interface LetterResult {
  readonly test: string;
  /** What the test looks at, in a few words. */
  readonly about: string;
  readonly result: string;
  readonly forAgeAndSex: string;
  readonly falls: string;
}

export interface Letter {
  readonly letterhead: readonly string[];
  readonly date: string;
  readonly to: readonly string[];
  readonly salutation: string;
  /** "Re: ...", with who, when seen and by whom. */
  readonly subject: string;
  /** Level by a named pathway and the main reason. */
  readonly summary: string;
  readonly urgency: string;
  readonly requests: readonly LetterRequest[];
  /** Said where there is no request. */
  readonly noRequest: string;
  readonly doing: readonly string[];
  readonly results: readonly LetterResult[];
  readonly resultsNote: string;
  readonly facts: readonly string[];
  readonly notDone: string;
  readonly wishes: readonly string[];
  readonly next: readonly string[];
  readonly closing: string;
  readonly signature: readonly string[];
  readonly copies: string;
  /** Where the comparisons come from, first author and year. */
  readonly sources: string;
}
