/** What was typed in, in words, so that a colleague can see what the result rests on and what was left out. */
import type { Assessment } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import type { RecordedTest } from '../../session.ts';
import { plainNumber } from './numbers.ts';
import { plainId } from './words.ts';

export interface RecordedGroup {
  readonly heading: string;
  readonly rows: readonly (readonly [string, string])[];
}

const HEADINGS: Readonly<Record<string, string>> = {
  history: 'History',
  health: 'Health',
  vitals: 'Vital signs',
  redflags: 'Warning signs asked about',
  medicines: 'Medicines',
};

const ownName = (path: string): string => plainId(path.split('.').slice(1).join(' '));

/** One group a part of the file, in the order of the file. */
export function recordedGroups(recorded: Assessment['recorded'], evidence: Evidence): RecordedGroup[] {
  const known = new Map(evidence.fields.map((field) => [field.field, field]));
  const entries = Object.entries(recorded ?? {});
  const groups = [...new Set(entries.map(([path]) => path.split('.')[0] ?? ''))];
  return groups.map((group) => ({
    heading: HEADINGS[group] ?? plainId(group),
    rows: entries
      .filter(([path]) => path.startsWith(`${group}.`))
      .map(([path, value]) => {
        const unit = known.get(path)?.unit_text ?? '';
        const shown = typeof value === 'number' ? `${plainNumber(value)} ${unit}`.trim() : plainId(value);
        return [known.get(path)?.name ?? ownName(path), shown] as const;
      }),
  }));
}

/** "trials 4.2, 6 and 5.1; watch stopped at 30; aid: stick": how a test was done, as far as the file says. */
export function howDone({ reading }: RecordedTest): string {
  if (reading.outcome !== 'measured') {
    const stopped = reading.outcome === 'unsafe' ? `stopped, ${reading.why ?? 'reason'}` : reading.outcome;
    return [stopped, reading.reason, reading.note].filter((part) => part !== undefined && part !== '').join('; ');
  }
  const { trials, ceiling, aid, chairCm, course, note } = reading;
  return [
    trials.length === 1
      ? plainNumber(trials[0] ?? 0, 'm/s')
      : `trials ${trials.map((trial) => plainNumber(trial, 'm/s')).join(', ')}`,
    ceiling === undefined ? null : `watch stopped at ${plainNumber(ceiling)}`,
    aid === undefined ? null : `aid: ${aid}`,
    chairCm === undefined ? null : `chair ${plainNumber(chairCm)} cm`,
    course?.distanceM === undefined ? null : `course ${plainNumber(course.distanceM)} m`,
    course?.timeS === undefined ? null : `time ${plainNumber(course.timeS)} s`,
    course?.start === undefined ? null : `${course.start} start`,
    note ?? null,
  ]
    .filter((part) => part !== null)
    .join('; ');
}
