/** A result that was measured: value, trials, or a walk given as time and distance. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Course, Reading } from '../session.ts';
import { COURSE_KEYS, type Keys, MEASURED_KEYS } from '../session-keys.ts';
import { asNumber, asText, badForm, type Form, present, RESULTS } from './forms.ts';
import type { Finding, Path } from './problems.ts';
import { checkKeys } from './shape.ts';
import { checkTrials } from './values.ts';

/** A speed from a walk, to a millionth of a m/s: enough that 2.4 m in 3 s is 0.8 m/s and not a hair less. */
function speedOf(distanceM: number, timeS: number): number {
  return Number((distanceM / timeS).toFixed(6));
}

interface Walk {
  readonly trials: readonly number[];
  readonly course: Course;
}

function readWalk(form: Form, path: Path, findings: Finding[]): Walk | null {
  const distanceM = asNumber(form.distance);
  if (distanceM === undefined) {
    if (!present(form, 'distance'))
      findings.push(
        badForm(
          [...path, 'time'],
          'a time without the distance walked',
          'write {time: 4.6, distance: 4, start: standing} with your own numbers',
          'key',
        ),
      );
    return null;
  }
  const times = (Array.isArray(form.time) ? form.time : [form.time]).filter((time) => asNumber(time) !== undefined) as number[];
  if (distanceM <= 0 || times.length === 0 || times.some((time) => time <= 0)) {
    if (distanceM <= 0 || times.length > 0)
      findings.push(
        badForm(path, 'time and distance of a walk are above 0', 'write seconds and metres, or {unable: the reason} instead'),
      );
    return null;
  }
  const only = times.length === 1 ? times[0] : undefined;
  const course = { distanceM, ...(only === undefined ? {} : { timeS: only }), ...startOf(form) };
  return { trials: times.map((time) => speedOf(distanceM, time)), course };
}

function startOf(form: Form): Pick<Course, 'start'> {
  return form.start === 'standing' || form.start === 'moving' ? { start: form.start } : {};
}

/** The course of a speed that was given as such. */
function courseOf(form: Form, path: Path, findings: Finding[]): Course | undefined {
  const distanceM = asNumber(form.distance);
  if (distanceM !== undefined && distanceM <= 0)
    findings.push(badForm([...path, 'distance'], 'the distance of a walk is above 0', 'write metres'));
  const course = { ...(distanceM === undefined ? {} : { distanceM }), ...startOf(form) };
  return Object.keys(course).length === 0 ? undefined : course;
}

/** Trials as written, each with where it stands; numbers only, since what is no number has been reported already. */
function writtenTrials(form: Form, path: Path): { readonly trials: number[]; readonly paths: Path[] } {
  const key = present(form, 'trials') ? 'trials' : 'value';
  const given = form[key];
  const entries = Array.isArray(given)
    ? given.map((entry, index) => ({ entry, at: [...path, key, index] }))
    : [{ entry: given, at: [...path, key] }];
  const numbers = entries.filter(({ entry }) => asNumber(entry) !== undefined);
  return { trials: numbers.map(({ entry }) => Number(entry)), paths: numbers.map(({ at }) => at) };
}

/** `form` is all that was written for one side; null where no usable number is in it. */
export function readMeasured(form: Form, test: TestDefinition, path: Path, findings: Finding[]): Reading | null {
  const keys: Keys = test.course ? { ...MEASURED_KEYS, ...COURSE_KEYS } : MEASURED_KEYS;
  findings.push(...checkKeys(keys, form, path));
  const given = RESULTS.filter((key) => Object.hasOwn(keys, key) && present(form, key));
  if (given.length !== 1) {
    const message = given.length === 0 ? 'no result in it' : `${given.join(' and ')} are given together`;
    findings.push(badForm(path, message, 'write one of value or trials, or {unable: the reason}'));
    return null;
  }
  const walk = given[0] === 'time' ? readWalk(form, path, findings) : null;
  if (given[0] === 'time' && walk === null) return null;
  const { trials, paths } =
    walk === null ? writtenTrials(form, path) : { trials: walk.trials, paths: walk.trials.map(() => [...path, 'time']) };
  const ceiling = asNumber(form.ceiling);
  if (ceiling !== undefined && (test.kind !== 'time' || ceiling <= 0))
    findings.push(
      badForm(
        [...path, 'ceiling'],
        `${test.name} has no ceiling of ${ceiling}`,
        'write a ceiling above 0 s for timed tests only',
      ),
    );
  findings.push(...checkTrials(test, trials, paths, ceiling));
  if (trials.length === 0) return null;
  const course = walk?.course ?? (test.course ? courseOf(form, path, findings) : undefined);
  const aid = asText(form.aid);
  const chairCm = asNumber(form.chair_cm);
  const note = asText(form.note);
  return {
    outcome: 'measured',
    trials,
    ...(ceiling === undefined ? {} : { ceiling }),
    ...(aid === undefined ? {} : { aid }),
    ...(chairCm === undefined ? {} : { chairCm }),
    ...(note === undefined ? {} : { note }),
    ...(course === undefined ? {} : { course }),
  };
}
