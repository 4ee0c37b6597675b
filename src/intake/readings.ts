/** One test of a session: every form a result may be written in -> recorded readings, with what is wrong on the way. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Reading, RecordedTest, Side } from '../session.ts';
import { MEASURED_KEYS } from '../session-keys.ts';
import { badForm } from './forms.ts';
import { readMeasured } from './measured.ts';
import { nearest } from './near.ts';
import { explainWord, OUTCOMES, readNotMeasured } from './not-measured.ts';
import { type Finding, MOST_PROBLEMS, type Path, shown } from './problems.ts';
import { checkKeys, explainList, isMapping, unknownKey } from './shape.ts';

const SIDES: readonly Side[] = ['right', 'left'];
/** One result without sides. `shared` are keys written beside right and left. */
function readReading(
  value: unknown,
  test: TestDefinition,
  path: Path,
  shared: Readonly<Record<string, unknown>>,
  findings: Finding[],
): Reading | null {
  if (value === null || value === undefined) return null;
  if (typeof value === 'string') {
    findings.push(explainWord(value, test, path));
    return null;
  }
  if (Array.isArray(value)) {
    findings.push(...explainList(value, path));
    return listed({ ...shared, trials: value }, test, path, findings);
  }
  if (typeof value === 'number') return listed({ ...shared, value }, test, path, findings);
  if (!isMapping(value)) {
    findings.push(
      badForm(path, `\`${shown(value)}\` is no result`, 'write a number, a list of trials or {unable: the reason} instead'),
    );
    return null;
  }
  const outcomes = OUTCOMES.filter((outcome) => Object.hasOwn(value, outcome));
  if (outcomes.length > 0) return readNotMeasured(value, outcomes, path, findings);
  return readMeasured({ ...shared, ...value }, test, path, findings);
}

/** A number or list that stands where the form could stand: its problems are reported where it was written. */
function listed(form: Readonly<Record<string, unknown>>, test: TestDefinition, path: Path, findings: Finding[]): Reading | null {
  const inner: Finding[] = [];
  const reading = readMeasured(form, test, path, inner);
  const written = inner.map((finding) => ({
    ...finding,
    path: finding.path.filter((key, index) => index !== path.length || (key !== 'value' && key !== 'trials')),
  }));
  const known = new Set(findings.map((finding) => JSON.stringify(finding.path)));
  findings.push(...written.filter((finding) => !known.has(JSON.stringify(finding.path))));
  return reading;
}

function readSided(
  form: Readonly<Record<string, unknown>>,
  test: TestDefinition,
  path: Path,
  findings: Finding[],
): RecordedTest[] {
  if (!test.sided) {
    findings.push({
      code: 'not_sided',
      path,
      at: 'value',
      message: `${test.name} has no sides`,
      hint: 'write one number or a list of trials instead',
    });
    return [];
  }
  const { right, left, ...shared } = form;
  const known = Object.keys(MEASURED_KEYS).filter((key) => key !== 'value' && key !== 'trials');
  const strange = Object.keys(shared).filter((key) => !known.includes(key));
  findings.push(...strange.map((key) => unknownKey(key, path, [...SIDES, ...known], shared[key])));
  const written = Object.fromEntries(Object.entries(shared).filter(([key]) => known.includes(key)));
  const wrong = checkKeys(MEASURED_KEYS, written, path);
  findings.push(...wrong);
  // What is wrong beside the sides is reported once, not once a side.
  const usable = Object.fromEntries(
    Object.entries(written).filter(([key]) => !wrong.some((finding) => finding.path[path.length] === key)),
  );
  return SIDES.flatMap((side) => {
    const reading = readReading(side === 'right' ? right : left, test, [...path, side], usable, findings);
    return reading === null ? [] : [{ test: test.id, side, reading }];
  });
}

/** Every reading of one test as written at `path`; what is wrong goes to `findings`, and what is right is kept. */
export function readTest(value: unknown, test: TestDefinition, path: Path, findings: Finding[]): RecordedTest[] {
  if (isMapping(value) && SIDES.some((side) => Object.hasOwn(value, side))) return readSided(value, test, path, findings);
  const reading = readReading(value, test, path, {}, findings);
  return reading === null ? [] : [{ test: test.id, side: null, reading }];
}

function suggestTest(key: string, tests: readonly TestDefinition[]): string | undefined {
  const names = tests.flatMap((test) => [test.id, ...test.headings].map((name) => ({ name, id: test.id })));
  const found = nearest(
    key,
    names.map(({ name }) => name),
  );
  return names.find(({ name }) => name === found)?.id;
}

function unknownTest(key: string, value: unknown, tests: readonly TestDefinition[]): Finding {
  // `{timed_up_and_go: 12,8}` is two keys to YAML, the second without a value.
  const general = unknownKey(key, ['tests'], [], value);
  if (general.code === 'decimal_comma') return general;
  const suggestion = suggestTest(key, tests);
  const hint = suggestion === undefined ? 'write the id of a test of the catalogue instead' : `write ${suggestion} instead`;
  return { ...general, message: `unknown test \`${shown(key)}\``, hint };
}

/** All tests of a session, in the order of the catalogue whatever the order in the file. */
export function readTests(value: unknown, tests: readonly TestDefinition[], findings: Finding[]): RecordedTest[] {
  if (!isMapping(value)) return [];
  const unknown = Object.keys(value).filter((key) => !tests.some((test) => test.id === key));
  for (const key of unknown.slice(0, MOST_PROBLEMS)) findings.push(unknownTest(key, value[key], tests));
  return tests.flatMap((test) =>
    Object.hasOwn(value, test.id) ? readTest(value[test.id], test, ['tests', test.id], findings) : [],
  );
}
