/** Small readers that the records of a visit share: texts, words that must be known, mappings that must be whole. */
import type { FieldLimits } from '../evidence/schema/catalogue.ts';
import type { Exercise } from '../evidence/schema/exercise.ts';
import type { Pathway, RedFlag } from '../evidence/schema/pathway.ts';
import type { Keys } from '../session-keys.ts';
import { asText } from './forms.ts';
import { nearest } from './near.ts';
import { type Finding, type Path, shown } from './problems.ts';
import { checkKeys, isMapping } from './shape.ts';

/** Words that may stand at `clearance.for` and `risk.level`; without them any word is taken. */
export interface Known {
  readonly redFlags?: readonly Pick<RedFlag, 'id' | 'when'>[];
  readonly pathways?: readonly Pick<Pathway, 'levels'>[];
  readonly exercises?: readonly Pick<Exercise, 'id' | 'ladder'>[];
  readonly fields?: readonly FieldLimits[];
}

/** A text or a list of texts, as a list. */
export const textsOf = (value: unknown): string[] =>
  (Array.isArray(value) ? value : [value]).flatMap((each) => asText(each) ?? []);

export const unknownWord = (word: string, words: readonly string[], path: Path): Finding => {
  const near = nearest(word, words);
  return {
    code: 'not_a_choice',
    path,
    at: 'value',
    message: `\`${shown(word)}\` cannot stand here`,
    hint: `write ${near ?? words.join(' or ')} instead`,
  };
};

export const wellFormed = (
  keys: Keys,
  value: unknown,
  path: Path,
  findings: Finding[],
): value is Readonly<Record<string, unknown>> => {
  const faults = checkKeys(keys, value, path);
  findings.push(...faults);
  return faults.length === 0 && isMapping(value);
};
