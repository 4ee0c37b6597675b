/** Small helpers for reading what was written: numbers, texts, and the forms of a test result. */
import type { Finding, Path } from './problems.ts';

/** A mapping as read from the file, its values not yet judged. */
export type Form = Readonly<Record<string, unknown>>;

/** Keys of which exactly one holds a measured result. */
export const RESULTS = ['value', 'trials', 'time'] as const;

/** A finite number; undefined for anything else. */
export const asNumber = (value: unknown): number | undefined =>
  typeof value === 'number' && Number.isFinite(value) ? value : undefined;
/** A text without blanks at its ends; undefined where nothing is left of it. */
export const asText = (value: unknown): string | undefined =>
  typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;
export const present = (form: Form, key: string): boolean => Object.hasOwn(form, key) && form[key] !== null;

export function badForm(path: Path, message: string, hint: string, at: Finding['at'] = 'value'): Finding {
  return { code: 'bad_test_form', path, at, message, hint };
}
