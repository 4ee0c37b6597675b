/** Numbers of norms/ that were worked out here, worked out again from the printed cells. */
import { expect, test } from 'vitest';
import { printedEntries } from './extract.ts';
import { loadNormsItems } from './norms-items.ts';

const items = loadNormsItems();

function held(place: string, key: string): number {
  const value = items.find((item) => item.place === place)?.numbers.get(key);
  if (value === undefined) throw new Error(`norms/ has no ${place} ${key}`);
  return value;
}

/** One printed cell, by area/id, row and name. */
function cell(name: string, row: number, key: string, index?: number): number {
  const entry = printedEntries.find(({ file, id }) => `${file}/${id}` === name);
  const value = entry?.rows.find((each) => each.row === row)?.cells[key];
  const number = Array.isArray(value) ? value[index ?? 0] : value;
  if (typeof number !== 'number') throw new Error(`no printed cell ${name} ${row} ${key}`);
  return number;
}

/** MDC95 = 1.96 x root 2 x SEM. */
const TO_MDC95 = 1.96 * Math.SQRT2;
const MDC90_TO_MDC95 = 1.96 / 1.645;
const workers = 'static-balance/japan-workers-ec-2025';
const frail = 'mobility/mangione-2010-change';
const canada = 'risk-round-2/beauchamp-2021-clsa-mobility';
const heel = 'sit-to-stand/hebert-losier-2017';
const thailand = 'fall-risk/loonlawong-2022-steadi';
const halfWidth = (cell(heel, 3, 'loa95_right', 1) - cell(heel, 3, 'loa95_right', 0)) / 2;
const sensitivity = cell(thailand, 1, 'sensitivity') / 100;
const specificity = cell(thailand, 1, 'specificity') / 100;

const worked: readonly (readonly [place: string, key: string, value: number])[] = [
  ['error timed_up_and_go_mangione', 'mdc95', cell(frail, 2, 'sem') * TO_MDC95],
  ['error gait_speed_usual_mangione', 'mdc95', cell(frail, 3, 'sem') * TO_MDC95],
  ['error gait_speed_fast_mangione', 'mdc95', cell(frail, 4, 'sem') * TO_MDC95],
  ['error short_physical_performance_battery_mangione', 'mdc95', cell(frail, 1, 'sem') * TO_MDC95],
  ['error timed_up_and_go_beauchamp_clsa', 'mdc95', cell(canada, 2, 'mdc90') * MDC90_TO_MDC95],
  ['error gait_speed_usual_beauchamp_clsa', 'mdc95', cell(canada, 3, 'mdc90') * MDC90_TO_MDC95],
  ['error five_times_sit_to_stand_beauchamp_clsa', 'mdc95', cell(canada, 4, 'mdc90') * MDC90_TO_MDC95],
  ['error hebert_losier_2017_heel_raise', 'mdc95', halfWidth],
  ['error hebert_losier_2017_heel_raise', 'sem', halfWidth / TO_MDC95],
  ['error ross_fontenot_2000_heel_raise', 'mdc95', cell('sit-to-stand/ross-fontenot-2000', 1, 'sem') * TO_MDC95],
  ['error timed_up_and_go_donoghue_tilda', 'sem', cell('risk-round-2/donoghue-2019-tilda-mdc', 1, 'mdc') / TO_MDC95],
  ['error timed_up_and_go_marques_copd_single', 'sem', cell('mobility/marques-2016-copd-change', 1, 'mdc95') / TO_MDC95],
  ['error timed_up_and_go_marques_copd_mean_of_two', 'sem', cell('mobility/marques-2016-copd-change', 2, 'mdc95') / TO_MDC95],
  ['error mellaerts_2024_one_minute', 'sem', cell('sit-to-stand/mellaerts-2024', 1, 'sd_difference') / Math.SQRT2],
  ['error mellaerts_2024_one_minute', 'mdc95', cell('sit-to-stand/mellaerts-2024', 1, 'sd_difference') * 1.96],
  ['error timed_up_and_go_mesquita_copd_important', 'mcid', cell('risk-round-2/mesquita-2016-tug-copd', 1, 'mcid_range', 1)],
  ['error vaidya_2016_one_minute', 'mcid_range.0', cell('sit-to-stand/vaidya-2016', 2, 'mcid')],
  ['error vaidya_2016_one_minute', 'mcid_range.1', cell('sit-to-stand/vaidya-2016', 3, 'mcid')],
  ['accuracy three_key_questions_thailand', 'lr_positive', sensitivity / (1 - specificity)],
  ['accuracy three_key_questions_thailand', 'lr_negative', (1 - sensitivity) / specificity],
  ['accuracy fall_past_year_ganz', 'lr_positive', cell('fall-risk/ganz-2007-pretest-lr', 3, 'lr_pos_range', 0)],
  ['accuracy fall_past_year_ganz_summary', 'lr_positive', cell('risk-round-2/ganz-2007-cmaj-table', 9, 'lr_pos_range', 0)],
  ['accuracy gait_or_balance_abnormality_ganz', 'lr_positive', cell('fall-risk/ganz-2007-pretest-lr', 4, 'lr_pos_range', 0)],
  ['accuracy dementia_or_stroke_ganz', 'lr_positive', cell('fall-risk/ganz-2007-pretest-lr', 5, 'lr_pos_range', 0)],
  ['cutpoints blodgett_2023_single_leg_27_to_29_s', 'cut', cell('static-balance/blodgett-2023', 1, 'cut_range', 1)],
  ...[1, 2, 3, 4, 5].map(
    (row) =>
      [
        `tables/single_leg_stance_eyes_closed/japan-workers-ec-2025 by_age ${row}`,
        'percent_at_ceiling',
        (100 * cell(workers, row, 'n_at_ceiling')) / cell(workers, row, 'n'),
      ] as const,
  ),
  ...[1, 2, 3, 4, 5].map(
    (row) =>
      [
        `tables/single_leg_stance_eyes_open/araujo-2022 share_holding_10_s ${row}`,
        'shares.percents.1',
        100 - cell('static-balance/araujo-2022-fail-by-age', row, 'percent_unable'),
      ] as const,
  ),
  ...[1, 2].map(
    (row) =>
      [
        `tables/gait_speed_usual/melsaeter-2022-hunt-sppb by_age ${row}`,
        'shares.percents.1',
        100 - cell('norms-round-2/melsaeter-2022-hunt-sppb', row, 'percent_gait_under_0_8'),
      ] as const,
  ),
];

test.each(worked)('%s %s', (place, key, value) => {
  const kept = held(place, key);
  const decimals = (String(kept).split('.')[1] ?? '').length;
  expect(Math.abs(kept - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
});

/** Bergland 2019, Table 2: means of balance, walk and chair stands of a band add up to its total. */
test('totals of the battery are the sums of the printed means of its parts', () => {
  const rows =
    printedEntries.find(({ file, id }) => file === 'norms-round-2' && id === 'bergland-2019-sppb-subtests')?.rows ?? [];
  const totals = items.filter((item) =>
    item.place.startsWith('tables/short_physical_performance_battery/bergland-2019-sppb-total by_sex_and_age'),
  );
  expect(totals).toHaveLength(7);
  for (const total of totals) {
    const parts = rows.filter((row) => row.sex === total.sex && row.age_min === total.age_min && row.age_max === total.age_max);
    expect(parts).toHaveLength(3);
    const mean = parts.reduce((sum, part) => sum + Number(part.cells.mean), 0);
    expect(total.numbers.get('mean')).toBeCloseTo(mean, 2);
    expect(total.numbers.get('n')).toBe(parts[0]?.cells.n);
  }
});
