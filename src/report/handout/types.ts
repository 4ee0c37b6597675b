/** What the page for the client says, in words and in order; the formats only lay it out. No risk, no probability, no sources. */
import type { Exercise } from '../../evidence/schema/exercise.ts';

export interface HandoutSectionView {
  readonly title: string;
  readonly lines: readonly string[];
}

export interface HandoutExercise {
  readonly number: number;
  readonly name: string;
  /** Description of the rung; null for a seated variant, whose name says it. */
  readonly rung: string | null;
  readonly exercise: Exercise;
  readonly level: number;
  /** What a screen reader says of the drawing. */
  readonly drawing: string;
  readonly setUp: string | null;
  readonly steps: readonly string[];
  readonly howMany: readonly string[];
  readonly care: readonly string[];
  /** Who is there; null where it is the same for all and said at the top. */
  readonly withWhom: string | null;
}

export interface HandoutGroup {
  readonly title: string;
  readonly exercises: readonly HandoutExercise[];
}

export interface TickRow {
  readonly number: number;
  readonly name: string;
  /** Monday first: days on which it is planned. */
  readonly days: readonly boolean[];
}

export interface HandoutView {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly letterhead: readonly string[];
  readonly title: string;
  readonly forClient: string;
  readonly date: string;
  /** The boxes "stop and call" and "stop and ask". */
  readonly stop: readonly HandoutSectionView[];
  readonly call: string;
  readonly phone: string;
  readonly before: readonly HandoutSectionView[];
  readonly withWhom: string | null;
  readonly week: readonly string[];
  readonly groups: readonly HandoutGroup[];
  readonly change: HandoutSectionView;
  readonly after: readonly HandoutSectionView[];
  readonly tick: {
    readonly title: string;
    readonly intro: string;
    readonly weeks: readonly [string, string];
    readonly exercise: string;
    readonly days: readonly string[];
    readonly rows: readonly TickRow[];
  };
  readonly labels: {
    readonly exercises: string;
    readonly howMany: string;
    readonly takeCare: string;
    readonly tried: string;
    readonly writtenBy: string;
    readonly registration: string;
  };
}
