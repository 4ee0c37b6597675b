/**
 * What can be wrong with an input, as data. Codes are the contract (messages may be reworded); each has one line of meaning,
 * and a fixture in tests/fixtures/bad that produces it.
 */

export type Severity = 'error' | 'warning';

interface CodeDescription {
  readonly severity: Severity;
  readonly meaning: string;
}

export const PROBLEM_CODES = {
  // The text itself
  too_large: { severity: 'error', meaning: 'The file is larger than a session can be' },
  empty_file: { severity: 'error', meaning: 'The file holds nothing' },
  yaml_syntax: { severity: 'error', meaning: 'The text cannot be read as YAML' },
  tab: { severity: 'error', meaning: 'A tab stands where YAML wants blanks' },
  duplicate_key: { severity: 'error', meaning: 'A key is written twice' },
  two_documents: { severity: 'error', meaning: 'The file holds more than one document; one file is one visit' },
  alias: { severity: 'error', meaning: 'Anchors and aliases (&name, *name) are not used in session files' },
  merge_key: { severity: 'error', meaning: 'Merge keys (<<) are not used in session files' },
  tag: { severity: 'error', meaning: 'Tags (!name) are not used in session files' },
  directive: { severity: 'error', meaning: 'Directives (%YAML, %TAG) are not used in session files' },
  // The shape
  not_a_mapping: { severity: 'error', meaning: 'Lines of `key: value` are wanted here' },
  unknown_key: { severity: 'error', meaning: 'No such key; the nearest known one is suggested' },
  missing_key: { severity: 'error', meaning: 'A key that every session needs is missing' },
  wrong_format: { severity: 'error', meaning: 'The format number is not one this program reads' },
  not_yes_no: { severity: 'error', meaning: 'The answer is not yes, no or unknown' },
  not_a_choice: { severity: 'error', meaning: 'The word is none of those that can stand here' },
  bad_text: { severity: 'error', meaning: 'A short text is wanted here' },
  bad_date: { severity: 'error', meaning: 'The date is not a real one written year-month-day' },
  bad_pressure: { severity: 'error', meaning: 'The blood pressure is not written systolic/diastolic' },
  // Numbers as typed
  decimal_comma: { severity: 'error', meaning: 'A decimal comma instead of a point' },
  unit_in_number: { severity: 'error', meaning: 'A unit behind the number' },
  inexact_number: { severity: 'error', meaning: 'A bound, a range or an "about" instead of the number measured' },
  clock_time: { severity: 'error', meaning: 'Minutes and seconds with a colon instead of seconds' },
  number_format: { severity: 'error', meaning: 'A number in a form that may be read in more than one way' },
  quoted_number: { severity: 'error', meaning: 'A number in quotes' },
  not_a_number: { severity: 'error', meaning: 'No number where one is wanted' },
  // Test results
  bare_outcome: { severity: 'error', meaning: 'A word such as "unable" without its reason' },
  bad_test_form: { severity: 'error', meaning: 'The result of a test is not in a form that can be read' },
  not_sided: { severity: 'error', meaning: 'Right and left for a test that has no sides' },
  above_ceiling: { severity: 'error', meaning: 'A time beyond the point where the watch is stopped' },
  ceiling_not_stated: { severity: 'warning', meaning: 'A time of exactly a usual ceiling, and no ceiling stated' },
  // Values
  impossible: { severity: 'error', meaning: 'The value cannot be' },
  not_whole: { severity: 'error', meaning: 'Only whole numbers can stand here' },
  unusual: { severity: 'warning', meaning: 'The value is possible but rare: kept, and noted in the report' },
  future_date: { severity: 'error', meaning: 'The visit lies in the future' },
  born_after_visit: { severity: 'error', meaning: 'The date of birth is after the visit' },
  contradiction: { severity: 'error', meaning: 'Two entries cannot both be true' },
  doubtful: { severity: 'warning', meaning: 'Two entries seldom go together: kept, and noted in the report' },
} as const satisfies Readonly<Record<string, CodeDescription>>;

export type ProblemCode = keyof typeof PROBLEM_CODES;

/** Keys and list positions from the top of the session down, e.g. `['tests', 'timed_up_and_go', 0]`. */
export type Path = readonly (string | number)[];

/** A problem before it has a place in a file: the same for YAML and for a row of a CSV. */
export interface Finding {
  readonly code: ProblemCode;
  readonly path: Path;
  /** Whether the key or its value is at fault. */
  readonly at: 'key' | 'value';
  readonly message: string;
  readonly hint: string;
}

export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** From 1, in UTF-16 units. */
  readonly column: number;
  /** Exclusive; absent where the fault spans lines. */
  readonly endColumn?: number;
  /** Dotted, e.g. `tests.timed_up_and_go`; empty for the whole file. */
  readonly path: string;
  readonly message: string;
  /** What to write instead; empty where the message says it all. */
  readonly hint: string;
}

export function severityOf(code: ProblemCode): Severity {
  return PROBLEM_CODES[code].severity;
}

export function isRefusal(finding: Finding): boolean {
  return severityOf(finding.code) === 'error';
}

/** A file with more problems than this is not a session, and nobody reads on. */
export const MOST_PROBLEMS = 200;

const LONGEST_QUOTE = 40;

/** A value from the file as it may be printed on a terminal: short, on one line, without control characters. */
export function shown(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value));
  const plain = text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ');
  return plain.length > LONGEST_QUOTE ? `${plain.slice(0, LONGEST_QUOTE)}…` : plain;
}

/** One line for people: `file:line:column: what; write ... instead`. Warnings say `note:` first. */
export function formatProblem(problem: Problem): string {
  const label = problem.severity === 'warning' ? 'note: ' : '';
  const hint = problem.hint === '' ? '' : `; ${problem.hint}`;
  return `${problem.file}:${problem.line}:${problem.column}: ${label}${problem.message}${hint}`;
}
