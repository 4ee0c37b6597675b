/** Random rows for the tests of the cohort: ordinary, odd and wrong cells of every kind of column. */
import fc from 'fast-check';
import { compileLayout, type Layout } from '../../src/cohort/layout.ts';
import { type ColumnSettings, DEFAULT_SETTINGS } from '../../src/cohort/settings.ts';
import { targetsOf } from '../../src/cohort/targets.ts';
import { testEvidence } from '../support/evidence.ts';

export const TODAY = '2026-05-20';

export function layoutFor(headings: readonly string[], settings: ColumnSettings = DEFAULT_SETTINGS): Layout {
  const evidence = testEvidence();
  const { layout, problems } = compileLayout(headings, settings, targetsOf(evidence), evidence);
  if (layout === null) throw new Error(problems.join('\n'));
  return layout;
}

const answers = fc.constantFrom('yes', 'no', 'unknown', '', 'Y', 'n', 'TRUE', 'n/a', 'perhaps');
const number = (low: number, high: number, decimals: number): fc.Arbitrary<string> =>
  fc
    .integer({ min: low * 10 ** decimals, max: high * 10 ** decimals })
    .map((value) => (value / 10 ** decimals).toFixed(decimals));
const mostly = (usual: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 20, arbitrary: usual },
    { weight: 3, arbitrary: fc.constantFrom('', 'n/a', '-') },
    { weight: 1, arbitrary: fc.constantFrom('unable', 'declined', '12,8', '12.8 s', '<5', '30+', 'abc', '-3', '1e3', '999999') },
  );

/** A column of each kind, by the name that the contract gives it. */
export const COLUMNS: Readonly<Record<string, fc.Arbitrary<string>>> = {
  ref: fc.string({ minLength: 1, maxLength: 8 }).filter((text) => !/[\u0000-\u001f\u007f-\u009f]/.test(text)),
  sex: fc.constantFrom('female', 'male', 'F', 'm', 'Female', '', 'unknown', 'x'),
  age: mostly(number(45, 100, 0)),
  assessed: fc.constantFrom('2026-01-05', '2026-05-20', '2025-11-30', '', '2026-13-01', '2027-01-01'),
  setting: fc.constantFrom('community', 'community', 'residential_care', 'hospital', '', 'Residential care', 'moon'),
  height_cm: mostly(number(140, 195, 0)),
  falls_past_year: mostly(fc.constantFrom('0', '0', '1', '2', '3', 'several')),
  fall_injury: answers,
  loss_of_consciousness: answers,
  feels_unsteady: answers,
  worries_about_falling: answers,
  lung_condition: fc.constantFrom('none', 'copd', 'COPD', 'asthma', '', 'unknown', 'flu'),
  oral_steroid: answers,
  oral_steroid_daily_mg: mostly(number(0, 20, 1)),
  clinical_frailty_scale: mostly(number(1, 9, 0)),
  spo2_rest: mostly(number(85, 99, 0)),
  spo2_lowest: mostly(number(75, 99, 0)),
  bp_lying: fc.constantFrom('138/78', '120/80', '', '80/120', '150'),
  bp_standing: fc.constantFrom('121/70', '118/78', '', '90/60'),
  timed_up_and_go: mostly(number(5, 40, 1)),
  timed_up_and_go_cognitive: mostly(number(6, 50, 1)),
  gait_speed_usual: mostly(number(0, 2, 2)),
  five_times_sit_to_stand: mostly(number(6, 40, 1)),
  thirty_second_chair_stand: mostly(number(0, 25, 0)),
  side_by_side_stance: mostly(number(0, 10, 1)),
  semi_tandem_stance: mostly(number(0, 10, 1)),
  tandem_stance_trial1: mostly(number(0, 10, 1)),
  tandem_stance_trial2: mostly(number(0, 10, 1)),
  single_leg_stance_eyes_open_right: mostly(number(0, 45, 1)),
  single_leg_stance_eyes_open_left: mostly(number(0, 45, 1)),
  grip_strength_right: mostly(number(5, 60, 0)),
  grip_strength_left: mostly(number(5, 60, 0)),
  berg_balance: mostly(number(0, 56, 0)),
  balance_confidence: mostly(number(0, 100, 0)),
};

/** A random choice of columns, always with an age, and some rows for it. */
export const cohort = (rows: {
  readonly min: number;
  readonly max: number;
}): fc.Arbitrary<{ headings: string[]; rows: string[][] }> =>
  fc
    .shuffledSubarray(Object.keys(COLUMNS), { minLength: 3 })
    .map((names) => [...new Set(['age', ...names])])
    .chain((headings) =>
      fc.record({
        headings: fc.constant(headings),
        rows: fc.array(fc.tuple(...headings.map((name) => COLUMNS[name] ?? fc.constant(''))), {
          minLength: rows.min,
          maxLength: rows.max,
        }),
      }),
    );

const ages = ['50', '59', '60', '64', '65', '69', '70', '74', '75', '79', '80', '84', '85', '90', '99'];

/**
 * Few values a column and many rows: what is remembered of one client turns up again with others. Values lie on both sides of
 * what tells clients apart (age bands, sexes, marks, ceilings, sides, outcomes).
 */
const FEW: Readonly<Record<string, readonly string[]>> = {
  ref: ['a', 'b'],
  sex: ['female', 'male', ''],
  age: ages,
  setting: ['community', 'residential_care', 'hospital'],
  height_cm: ['', '150', '165', '180'],
  weight_kg: ['', '60', '95'],
  falls_past_year: ['', '0', '1', 'several'],
  fall_injury: ['', 'no', 'yes'],
  loss_of_consciousness: ['', 'no', 'yes'],
  feels_unsteady: ['', 'no', 'yes'],
  worries_about_falling: ['', 'no', 'yes'],
  lung_condition: ['', 'none', 'copd', 'asthma'],
  oral_steroid: ['', 'no', 'yes'],
  osteoporosis: ['', 'no', 'yes'],
  clinical_frailty_scale: ['', '2', '4', '5', '6'],
  spo2_rest: ['', '95', '90', '86'],
  spo2_lowest: ['', '93', '88', '80'],
  bp_lying: ['', '138/78', '150/90'],
  bp_standing: ['', '136/78', '112/70', '88/60'],
  chest_pain: ['', 'no', 'yes'],
  timed_up_and_go: ['', '8.4', '12', '12.1', '15', '15.1', '31', 'unable', 'declined'],
  timed_up_and_go_cognitive: ['', '9', '16.5', 'unable'],
  gait_speed_usual: ['', '0.4', '0.79', '0.8', '0.81', '1.2', 'unable'],
  five_times_sit_to_stand: ['', '10.2', '11.2', '13.7', '15.1', '17', 'unable'],
  thirty_second_chair_stand: ['', '0', '8', '9', '14', 'unable'],
  side_by_side_stance: ['', '10', '7', 'unable'],
  semi_tandem_stance: ['', '10', '7', 'unable'],
  tandem_stance_trial1: ['', '10', '2.9', '3', 'unable'],
  tandem_stance_trial2: ['', '10', '9.5'],
  single_leg_stance_eyes_open_right: ['', '3', '10', '30', '45', 'unable'],
  single_leg_stance_eyes_open_left: ['', '4', '10', '30', 'unable'],
  grip_strength_right: ['', '16', '27', '35', 'unable'],
  grip_strength_left: ['', '15', '27', '40'],
  berg_balance: ['', '44', '45', '56'],
  mini_bestest: ['', '16', '24', '28'],
  balance_confidence: ['', '49', '67', '90'],
  falls_efficacy_short: ['', '7', '11', '20'],
};
const ALWAYS = ['ref', 'sex', 'age'];

export const repetitive = (rows: number): fc.Arbitrary<{ headings: string[]; rows: string[][] }> =>
  fc
    .shuffledSubarray(
      Object.keys(FEW).filter((name) => !ALWAYS.includes(name)),
      { minLength: 4, maxLength: 14 },
    )
    .map((names) => [...ALWAYS, ...names])
    .chain((headings) =>
      fc.record({
        headings: fc.constant(headings),
        rows: fc.array(fc.tuple(...headings.map((name) => fc.constantFrom(...(FEW[name] ?? [''])))), {
          minLength: rows,
          maxLength: rows,
        }),
      }),
    );
