/**
 * Text from a client's file or a clinic's own norms folder is shown to people on terminals and in documents. Nothing in it
 * may move the cursor, set colours, hide itself or turn the reading direction.
 */
import type { Assessment } from '../../assessment.ts';

/** Closed operating-system commands, then control sequences, then any other escape; 7-bit and 8-bit forms. */
const ESCAPES =
  /(?:\u001b[\]P^_X]|[\u009d\u0090\u009e\u009f\u0098])[^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)|(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]?|\u001b[ -/]*[0-~]?/g;

/** Breaks, tabs and odd blanks become one plain blank. */
const BLANKS = /[\t\n\v\f\r\u0085\u00a0\u2028\u2029]+/g;

/** Other control characters, direction marks and overrides, zero-width blanks, the invisible tag block, interlinear marks. */
const INVISIBLE =
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/** Nearly every text: nothing to clean. */
const PLAIN = /^[\x20-\x7e]*$/;

const LONE_SURROGATES = /\p{Surrogate}/gu;

/** The text without terminal escapes, control characters and direction overrides; blanks at both ends are dropped. */
export function sanitise(text: string): string {
  if (PLAIN.test(text)) return text.trim();
  return text.replace(ESCAPES, '').replace(BLANKS, ' ').replace(INVISIBLE, '').replace(LONE_SURROGATES, '\ufffd').trim();
}

function cleaned(value: unknown): unknown {
  if (typeof value === 'string') return sanitise(value);
  if (Array.isArray(value)) return value.map(cleaned);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [sanitise(key), cleaned(inner)]));
}

/** The same assessment with every text in it made harmless. */
export const sanitised = (assessment: Assessment): Assessment => cleaned(assessment) as Assessment;

/** Any plain value of texts, numbers, lists and records, with every text in it made harmless. */
export const sanitisedDeep = <Value>(value: Value): Value => cleaned(value) as Value;
