/** A visit as the formats on paper need it: the words of the report, the pictures and what was typed in. */
import type { Assessment } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { Session } from '../../session.ts';
import { viewOf } from './build.ts';
import { type Picture, picturesOf } from './pictures.ts';
import { howToMeasure } from './purpose.ts';
import { howDone, type RecordedGroup, recordedGroups } from './recorded.ts';
import { sanitised, sanitisedDeep } from './sanitise.ts';
import type { ReportView } from './types.ts';
import { plainId } from './words.ts';

export interface Visit {
  readonly assessment: Assessment;
  readonly session: Session;
}

export interface TypedTest {
  readonly name: string;
  readonly side: string;
  readonly unit: string;
  readonly how: string;
  /** The command that prints how the test is done. */
  readonly protocol: string;
}

export interface VisitView extends ReportView {
  readonly recorded: readonly RecordedGroup[];
  readonly typed: readonly TypedTest[];
  readonly pictures: readonly Picture[];
}

/** In the order typed. */
function typedTests(session: Session, evidence: Evidence): TypedTest[] {
  return session.tests.map((test) => ({
    name: evidence.testById.get(test.test)?.name ?? plainId(test.test),
    side: test.side ?? '',
    unit: evidence.testById.get(test.test)?.unit_text ?? '',
    how: howDone(test),
    protocol: howToMeasure(test.test),
  }));
}

export function visitView({ assessment, session }: Visit, evidence: Evidence): VisitView {
  const clean = sanitisedDeep(session);
  return {
    ...viewOf(assessment),
    recorded: recordedGroups(sanitisedDeep(assessment.recorded ?? {}), evidence),
    typed: typedTests(clean, evidence),
    pictures: picturesOf(sanitised(assessment), session.client, evidence),
  };
}
