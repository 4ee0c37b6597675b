/** Values against the limits of the catalogue, and entries against each other. Knows nothing of files: YAML and CSV both end here. */
import type { FieldLimits, TestDefinition } from '../evidence/schema/catalogue.ts';
import type { Fields } from '../session.ts';
import { checkLimits } from './limits.ts';
import type { Finding, Path } from './problems.ts';

const CHECK_AGAIN = 'write what was measured, or leave it out';

/** A number of the session against the limits of its field; none where the catalogue sets no limits for it. */
export function checkField(field: string, value: number, path: Path, limits: readonly FieldLimits[]): Finding[] {
  const limited = limits.find((each) => each.field === field);
  if (limited === undefined) return [];
  const result = checkLimits(value, limited);
  if (result.verdict === 'ok') return [];
  const hint = result.verdict === 'unusual' ? '' : CHECK_AGAIN;
  return [{ code: result.verdict, path, at: 'value', message: result.message, hint }];
}

/**
 * Trials of one side against the limits of the test and the point where the watch is stopped: the stated ceiling (in the
 * test's unit), else the catalogue's. `paths` says where each trial was written.
 */
export function checkTrials(
  test: TestDefinition,
  trials: readonly number[],
  paths: readonly Path[],
  stated: number | undefined,
): Finding[] {
  const ceiling = stated ?? test.ceiling ?? undefined;
  return trials.flatMap((value, index): Finding[] => {
    const place = { path: paths[index] ?? [], at: 'value' as const };
    const result = checkLimits(value, test);
    if (result.verdict === 'impossible' || result.verdict === 'not_whole')
      return [{ ...place, code: result.verdict, message: result.message, hint: CHECK_AGAIN }];
    if (ceiling !== undefined && value > ceiling)
      return [
        {
          ...place,
          code: 'above_ceiling',
          message: `${value} ${test.unit_text} is beyond the ceiling of ${ceiling} ${test.unit_text} for ${test.name}`,
          hint: `write ${ceiling} where the watch was stopped at ${ceiling}, or state the ceiling used, as in {value: ${value}, ceiling: ${Math.ceil(value)}}`,
        },
      ];
    const found: Finding[] = [];
    if (result.verdict === 'unusual') found.push({ ...place, code: 'unusual', message: result.message, hint: '' });
    if (ceiling === undefined && test.common_ceilings.includes(value))
      found.push({
        ...place,
        code: 'ceiling_not_stated',
        message: `${test.name} of exactly ${value} ${test.unit_text} and no ceiling stated: read as the time held`,
        hint: `write ceiling: ${value} where the watch was stopped there`,
      });
    return found;
  });
}

interface Contradiction {
  readonly code: 'contradiction' | 'doubtful';
  /** The entry at which the message stands. */
  readonly path: Path;
  readonly applies: (fields: Fields) => boolean;
  readonly message: string;
  readonly hint: string;
}

/** Findings that cannot be where there was no fall in the year. */
const FALL_BOUND: Readonly<Record<string, string>> = {
  fall_injury: 'an injury from a fall',
  unable_to_rise: 'lying on the floor after a fall',
  unexplained_fall: 'an unexplained fall',
};

function bothNumbers(fields: Fields, one: string, other: string, wrong: (a: number, b: number) => boolean): boolean {
  const [a, b] = [fields[one], fields[other]];
  return typeof a === 'number' && typeof b === 'number' && wrong(a, b);
}

const CONTRADICTIONS: readonly Contradiction[] = [
  ...Object.entries(FALL_BOUND).map(
    ([key, what]): Contradiction => ({
      code: 'contradiction',
      path: ['history', key],
      applies: (fields) => fields['history.falls_past_year'] === 0 && fields[`history.${key}`] === 'yes',
      message: `${what}, but no falls in the past year`,
      hint: 'write the number of falls in falls_past_year, or no here',
    }),
  ),
  ...(['bp_lying', 'bp_sitting', 'bp_standing', 'bp_standing_1min', 'bp_standing_3min'] as const).map(
    (key): Contradiction => ({
      code: 'contradiction',
      path: ['vitals', key],
      applies: (fields) =>
        bothNumbers(fields, `vitals.${key}_systolic`, `vitals.${key}_diastolic`, (systolic, diastolic) => diastolic >= systolic),
      message: 'the diastolic pressure is not below the systolic one',
      hint: 'write systolic/diastolic, such as 138/78, instead',
    }),
  ),
  {
    code: 'contradiction',
    path: ['vitals', 'spo2_target'],
    applies: (fields) => bothNumbers(fields, 'vitals.spo2_target_low', 'vitals.spo2_target_high', (low, high) => low > high),
    message: 'the lower end of the target is above the upper one',
    hint: 'write the lower end first, such as 88-92',
  },
  {
    code: 'contradiction',
    path: ['vitals', 'oxygen_flow'],
    applies: (fields) => fields['vitals.spo2_on'] === 'air' && Number(fields['vitals.oxygen_flow'] ?? 0) > 0,
    message: 'an oxygen flow, but saturation measured on air',
    hint: 'write spo2_on: oxygen, or leave the flow out',
  },
  {
    code: 'contradiction',
    path: ['since_last', 'injury'],
    applies: (fields) => fields['since_last.falls'] === 0 && fields['since_last.injury'] === 'yes',
    message: 'an injury from a fall since the last visit, but no falls since then',
    hint: 'write the number of falls in falls, or no here',
  },
  {
    code: 'doubtful',
    path: ['vitals', 'spo2_lowest'],
    applies: (fields) => bothNumbers(fields, 'vitals.spo2_lowest', 'vitals.spo2_rest', (lowest, rest) => lowest > rest),
    message: 'the lowest saturation is above the one at rest',
    hint: 'check that both are in their place',
  },
];

/** Entries that cannot both be true, or seldom are. */
export function checkContradictions(fields: Fields): Finding[] {
  return CONTRADICTIONS.filter(({ applies }) => applies(fields)).map(({ code, path, message, hint }) => ({
    code,
    path,
    at: 'value',
    message,
    hint,
  }));
}
