/** A heading as somebody's spreadsheet has it -> what the column means, how sure that is, or why nothing was guessed. */
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { nearest, normalised } from '../intake/near.ts';
import { own } from '../own.ts';
import type { Targets } from './targets.ts';

export type Recognised =
  /** `certain`: the contract's own name; `heading`: a usual heading of it. */
  | { readonly kind: 'known'; readonly name: string; readonly by: 'certain' | 'heading' }
  /** Close to a known name, but not taken. */
  | { readonly kind: 'near'; readonly name: string; readonly why: string }
  | { readonly kind: 'unknown' };

const SIDE_WORDS: Readonly<Record<string, 'right' | 'left'>> = {
  right: 'right',
  r: 'right',
  rt: 'right',
  left: 'left',
  l: 'left',
  lt: 'left',
};

/** Ways to write the unit of a column; the catalogue's own word is added. */
const UNIT_WORDS: Readonly<Record<string, readonly string[]>> = {
  s: ['s', 'sec', 'secs', 'second', 'seconds'],
  'm/s': ['m/s', 'mps', 'm s-1', 'm.s-1', 'metres per second', 'meters per second'],
  kg: ['kg', 'kgs', 'kilogram', 'kilograms'],
  cm: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  years: ['years', 'year', 'yrs', 'yr', 'y'],
  '%': ['%', 'percent', 'per cent'],
  mmHg: ['mmhg'],
  stands: ['stands', 'n', 'no', 'count', 'reps', 'repetitions'],
};
const COUNT_WORDS = ['n', 'no', 'count', 'reps', 'repetitions', 'total', 'points', 'score'];

interface Parts {
  readonly base: string;
  readonly unit: string | null;
}

/** `TUG (s)` -> `TUG` and `s`. */
function splitUnit(heading: string): Parts {
  const match = /^(.*\S)\s*[([]\s*([^()[\]]*?)\s*[)\]]\s*$/.exec(heading);
  return match === null ? { base: heading, unit: null } : { base: match[1] ?? heading, unit: match[2] ?? '' };
}

interface Sided {
  readonly base: string;
  readonly suffix: string;
}

/** Words for side and trial taken out: `Right SLS trial 2` -> `SLS` and `_right_trial2`. */
function splitSide(text: string): Sided {
  let side = '';
  let trial = '';
  const words = text
    .replace(/\b(trial|attempt)[\s_-]*(\d)\b/gi, 'trial$2')
    .split(/[^A-Za-z0-9+&-]+/)
    .filter((word) => {
      const asSide = own(SIDE_WORDS, word.toLowerCase());
      const asTrial = /^(?:trial|attempt)(\d)$/i.exec(word)?.[1];
      if (asSide !== undefined && side === '') side = `_${asSide}`;
      else if (asTrial !== undefined && trial === '') trial = `_trial${asTrial}`;
      else return true;
      return false;
    });
  return { base: words.join(' '), suffix: `${side}${trial}` };
}

function unitFits(unit: string, wanted: string): boolean {
  const word = unit.toLowerCase();
  return word === wanted.toLowerCase() || (UNIT_WORDS[wanted] ?? COUNT_WORDS).includes(word);
}

/** The unit that people read for a target; null where none can be told. */
function unitOf(name: string, targets: Targets, tests: ReadonlyMap<string, TestDefinition>): string | null {
  const target = targets.byName.get(name);
  if (target?.kind === 'test') return tests.get(target.test)?.unit_text ?? null;
  const units: Readonly<Record<string, string>> = { age: 'years', height_cm: 'cm', weight_kg: 'kg' };
  return units[name] ?? null;
}

function found(heading: string, targets: Targets): string | undefined {
  const whole = targets.byHeading.get(normalised(heading));
  if (whole !== undefined) return whole;
  const { base, suffix } = splitSide(heading);
  const test = suffix === '' ? undefined : targets.byHeading.get(normalised(base));
  return test !== undefined && targets.byName.has(`${test}${suffix}`) ? `${test}${suffix}` : undefined;
}

/** Names long enough that a slip of typing can be told from another word. */
const SHORTEST_NEAR = 5;

function nearName(heading: string, targets: Targets): string | undefined {
  if (normalised(heading).length < SHORTEST_NEAR) return undefined;
  const names = [...targets.byName.keys()].filter((name) => !/_trial[2-9]$/.test(name));
  return nearest(heading, names);
}

/** `TUG T2`: the second trial of a visit for one person, the second visit for another. */
const TIME_POINT = /^(.*\S)[\s_-]+t\d$/i;

/** Never guesses: a heading that only comes near a known name, or states another unit, is left alone and said. */
export function recognise(heading: string, targets: Targets, tests: ReadonlyMap<string, TestDefinition>): Recognised {
  const trimmed = heading.trim();
  if (targets.byName.has(trimmed)) return { kind: 'known', name: trimmed, by: 'certain' };
  const whole = found(trimmed, targets);
  const { base, unit } = splitUnit(trimmed);
  const name = unit === null ? whole : (found(base, targets) ?? whole);
  if (name !== undefined) {
    const wanted = unitOf(name, targets, tests);
    if (unit === null || unit === '' || wanted === null || unitFits(unit, wanted)) return { kind: 'known', name, by: 'heading' };
    return { kind: 'near', name, why: `its unit is "${unit}", and ${name} is in ${wanted === '' ? 'points' : wanted}` };
  }
  const [, timed] = TIME_POINT.exec(base) ?? [];
  const at = timed === undefined ? undefined : found(timed, targets);
  if (at !== undefined) return { kind: 'near', name: at, why: 'its number may be that of a trial or of a visit' };
  const near = nearName(base, targets);
  return near === undefined ? { kind: 'unknown' } : { kind: 'near', name: near, why: `it looks like ${near}` };
}
