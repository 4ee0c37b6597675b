/** What a column of a cohort can mean: every name that the contract gives a column, made from the catalogue and the session keys. */
import type { Catalogue } from '../intake/build.ts';

import { normalised } from '../intake/near.ts';
import type { Side } from '../session.ts';
import { CLIENT_KEYS, FIELD_GROUPS, type Keys, type Leaf, STEROID_KEYS } from '../session-keys.ts';

export type Target =
  | { readonly kind: 'ref' }
  | { readonly kind: 'assessed' }
  | { readonly kind: 'client'; readonly key: string; readonly leaf: Leaf }
  /** `part` names one of several columns that make up one key: the dose of a steroid, the systolic pressure. */
  | { readonly kind: 'field'; readonly group: string; readonly key: string; readonly part: string | null; readonly leaf: Leaf }
  | { readonly kind: 'test'; readonly test: string; readonly side: Side | null; readonly trial: number | null };

export interface Targets {
  /** By the name that maps and messages use. */
  readonly byName: ReadonlyMap<string, Target>;
  /** By heading in lower case, letters and digits only. */
  readonly byHeading: ReadonlyMap<string, string>;
}

/** Groups whose keys are too general to stand alone as a heading ("count", "falls", "injury"). */
const PREFIXED = new Set(['since_last', 'medicines']);
const MOST_TRIALS = 9;

/** Usual headings of the columns that are no test. */
const ALIASES: Readonly<Record<string, readonly string[]>> = {
  ref: ['client_ref', 'client', 'client_id', 'patient_id', 'participant_id', 'subject_id', 'id'],
  sex: ['gender', 'client_sex'],
  age: ['age_years', 'age_in_years', 'client_age'],
  born: ['dob', 'date_of_birth', 'birth_date'],
  assessed: ['assessment_date', 'date_of_assessment', 'visit_date', 'date_of_visit', 'test_date'],
  height_cm: ['height'],
  weight_kg: ['weight'],
};

function fieldTargets(group: string, keys: Keys): [string, Target][] {
  return Object.entries(keys).flatMap(([key, { leaf }]): [string, Target][] => {
    const name = PREFIXED.has(group) ? `${group}_${key}` : key;
    const parts = leaf.kind === 'steroid' ? Object.keys(STEROID_KEYS) : leaf.kind === 'pressure' ? ['systolic', 'diastolic'] : [];
    const number: Leaf = { kind: 'number' };
    return [
      [name, { kind: 'field', group, key, part: null, leaf }],
      ...parts.map((part): [string, Target] => [`${name}_${part}`, { kind: 'field', group, key, part, leaf: number }]),
    ];
  });
}

function testTargets(test: string, sided: boolean): [string, Target][] {
  const sides: (Side | null)[] = sided ? [null, 'right', 'left'] : [null];
  return sides.flatMap((side): [string, Target][] => {
    const base = side === null ? test : `${test}_${side}`;
    const trials = Array.from({ length: MOST_TRIALS }, (_, index) => index + 1);
    return [
      [base, { kind: 'test', test, side, trial: null }],
      ...trials.map((trial): [string, Target] => [`${base}_trial${trial}`, { kind: 'test', test, side, trial }]),
    ];
  });
}

const made = new WeakMap<Catalogue['tests'], Targets>();

/** Made once for a catalogue: every scorer asks for them. */
export function targetsOf({ tests }: Pick<Catalogue, 'tests'>): Targets {
  const known = made.get(tests);
  if (known !== undefined) return known;
  const targets = makeTargets({ tests });
  made.set(tests, targets);
  return targets;
}

/** Names first, so that no heading of one test can take the id of another. */
function makeTargets({ tests }: Pick<Catalogue, 'tests'>): Targets {
  const byName = new Map<string, Target>([
    ['ref', { kind: 'ref' }],
    ['assessed', { kind: 'assessed' }],
    ...Object.entries(CLIENT_KEYS)
      .filter(([key]) => key !== 'ref')
      .map(([key, { leaf }]): [string, Target] => [key, { kind: 'client', key, leaf }]),
    ...Object.entries(FIELD_GROUPS).flatMap(([group, keys]) => fieldTargets(group, keys)),
    ...tests.flatMap((test) => testTargets(test.id, test.sided)),
  ]);
  const headings: [string, string][] = [
    ...[...byName.keys()].map((name): [string, string] => [name, name]),
    ...[...byName].flatMap(([name, target]): [string, string][] =>
      target.kind === 'field' ? [[`${target.group}_${target.key}${target.part === null ? '' : `_${target.part}`}`, name]] : [],
    ),
    ...Object.entries(ALIASES).flatMap(([name, others]) => others.map((other): [string, string] => [other, name])),
    ...tests.flatMap((test) => [test.name, test.short_name, ...test.headings].map((other): [string, string] => [other, test.id])),
  ];
  const byHeading = new Map<string, string>();
  for (const [heading, name] of headings) if (!byHeading.has(normalised(heading))) byHeading.set(normalised(heading), name);
  return { byName, byHeading };
}
