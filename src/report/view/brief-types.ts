/** The short report: what a professional needs in the room. Everything else is in the full report and the record. */
import type { ReportView, TestMark } from './types.ts';

export interface BriefTest {
  readonly mark: TestMark;
  readonly label: string;
  readonly result: string;
  readonly standing: string;
  readonly place: string;
  readonly marks: readonly string[];
  readonly notes: readonly string[];
}

export interface BriefExercise {
  readonly name: string;
  readonly held: boolean;
  readonly start: string;
  readonly detail: string;
}

export interface BriefGroup {
  readonly purpose: string;
  readonly exercises: readonly BriefExercise[];
}

export interface BriefView
  extends Pick<
    ReportView,
    'ref' | 'client' | 'visit' | 'about' | 'redFlags' | 'noRedFlags' | 'toClear' | 'clearedFlags' | 'risk' | 'check' | 'made'
  > {
  readonly tests: readonly BriefTest[];
  readonly shared: ReportView['plan']['shared'];
  readonly groups: readonly BriefGroup[];
  readonly factors: readonly { readonly heading: string; readonly lines: readonly string[] }[];
  /** null where everything was asked. */
  readonly notAsked: string | null;
  /** In what all rows used fit this client badly. */
  readonly misfits: readonly string[];
  /** On every use of the program. */
  readonly judgement: string;
  /** Said because of something recorded about this client. */
  readonly cautions: string;
  /** How many general remarks are left to the full report. */
  readonly furtherCautions: number;
  readonly stopSigns: string;
  readonly sources: readonly { readonly number: number; readonly text: string }[];
  readonly legend: string;
}
