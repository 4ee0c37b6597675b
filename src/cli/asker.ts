/** What `footing new` needs of a terminal, so that a test can answer in its place. */
import type { Judgement } from '../intake/interview/visit.ts';

export interface Line {
  /** "History, 2 of 6". */
  readonly place: string;
  readonly ask: string;
  /** The protocol of a test in a line; empty for other questions. */
  readonly detail: string;
  /** What can be typed and which keys do what. */
  readonly hint: string;
  /** Put into the line to begin with: the answer given before. */
  readonly before: string;
  /** How the answer is read, shown once it is given: `f` is female. */
  readonly echo: (text: string) => string;
  /** Shown under the line while typing; decides on Enter. */
  readonly judge: (text: string) => Judgement;
}

export type Reply =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'back' }
  | { readonly kind: 'explain' }
  /** Ctrl+C. */
  | { readonly kind: 'stop' };

export interface Asker {
  readonly ask: (line: Line) => Promise<Reply>;
  /** y or n; `usual` on Enter. Stopping counts as no. */
  readonly confirm: (question: string, usual: boolean) => Promise<boolean>;
  readonly tell: (text: string) => void;
}
