/**
 * Compares printed rows with the items of norms/. A row belongs to the items of its source, test, sex, ages and strata that
 * hold most of its cells; a cell is found where an item has the same number under the key that the cell's name stands for.
 */
import { account, exceptions, nameOf, type PrintedEntry, type PrintedRow, printedEntries, sourcesOf } from './extract.ts';
import type { NormsItem } from './norms-items.ts';
import { STRATA_IN_NORMS } from './strata.ts';

/** A printed cell of one number: `ci95.0`, `p25`, `counts.2`. */
export interface Cell {
  readonly key: string;
  readonly value: number;
}

export function cellsOf(row: PrintedRow): readonly Cell[] {
  return Object.entries(row.cells).flatMap(([key, value]) =>
    typeof value === 'number'
      ? [{ key, value }]
      : value.flatMap((each, index) => (each === null ? [] : [{ key: `${key}.${index}`, value: each }])),
  );
}

/** Printed name of a cell -> the keys under which norms/ may hold it. Names that are not here are looked for under their own. */
const KEYS: Readonly<Record<string, readonly string[]>> = {
  n: ['n', 'population.n'],
  p50: ['percentiles.p50', 'median'],
  worse_than_average_above: ['worse_than_average.above'],
  risk_threshold: ['worse_than_average.below'],
  'middle_grade.0': ['worse_than_average.below'],
  'counts.0': ['shares.counts.0'],
  'counts.1': ['shares.counts.1'],
  'counts.2': ['shares.counts.2'],
  percent_gait_under_0_8: ['shares.percents.0'],
  threshold_percent: ['shares.percents.0'],
  percent_unable: ['shares.percents.0', 'percent_unable'],
  mean_formula: ['equation'],
  limit_of_normal: ['cut'],
  lln: ['cut'],
  sensitivity: ['accuracy.sensitivity'],
  specificity: ['accuracy.specificity'],
  'specificity_range.0': ['accuracy.specificity'],
  auc: ['accuracy.auc'],
  or: ['accuracy.odds_ratio'],
  odds_ratio: ['accuracy.odds_ratio'],
  irr: ['accuracy.rate_ratio'],
  mdc: ['mdc95', 'mdc_level_unstated'],
  mdc_individual: ['mdc_level_unstated'],
  'mdc90_range.1': ['mdc90'],
  mcid: ['mcid', 'mcid_substantial'],
  substantial: ['mcid_substantial'],
  lr_pos: ['lr_positive'],
  lr_neg: ['lr_negative'],
  mdc95: ['mdc95', 'mdc_percent'],
  icc_between_visit: ['icc'],
  percent_below: ['shares.percents.0'],
  fell_past_year: ['probability'],
  value: ['rate_per_person_year'],
};
/** The same for pairs: the part before `.0` and `.1`. */
const PAIRS: Readonly<Record<string, readonly string[]>> = {
  ci95: [
    'mean_ci95',
    'accuracy.odds_ratio_ci95',
    'accuracy.rate_ratio_ci95',
    'probability_ci95',
    'rate_ci95',
    'lr_positive_ci95',
  ],
  range: ['range', 'mcid_range'],
  sens_ci95: ['accuracy.sensitivity_ci95'],
  sensitivity_ci95: ['accuracy.sensitivity_ci95'],
  spec_ci95: ['accuracy.specificity_ci95'],
  specificity_ci95: ['accuracy.specificity_ci95'],
  irr_ci95: ['accuracy.rate_ratio_ci95'],
  or_ci95: ['accuracy.odds_ratio_ci95'],
  lr_pos_ci95: ['lr_positive_ci95'],
  lr_neg_ci95: ['lr_negative_ci95'],
  lr_pos_range: ['lr_positive_range'],
  mean_formula: ['equation'],
  rule_numbers: [],
};

function keysOf(cell: string): readonly string[] {
  const direct = KEYS[cell];
  if (direct !== undefined) return direct;
  const pair = /^(\w+)\.(\d+)$/.exec(cell);
  if (pair?.[1] === 'rule_numbers') return ['cut'];
  const names = pair?.[1] === undefined ? undefined : PAIRS[pair[1]];
  if (names !== undefined) return names.map((name) => `${name}.${pair?.[2]}`);
  const interval = /^(p\d+(?:_\d)?)_ci95\.(\d)$/.exec(cell);
  if (interval !== null) return [`percentile_ci95.${interval[1]}.${interval[2]}`];
  const performance = /^perf_(p\d+(?:_\d)?)$/.exec(cell);
  if (performance !== null) return [`performance_percentiles.${performance[1]}`];
  return /^p\d+(_\d)?$/.test(cell) ? [`percentiles.${cell}`] : [cell];
}

/** What a printed unit is multiplied by to give the unit of norms/. Accuracy of over 1 is printed in per cent. */
function factorOf(cell: Cell, printedUnit: string, item: NormsItem): number {
  if (/^(sens|spec)/.test(cell.key) && cell.value > 1) return 0.01;
  if (/^(icc|auc|odds|n$|mdc_percent)/.test(cell.key)) return 1;
  if (printedUnit === 'in' && item.unit === 'cm' && !/ci95/.test(cell.key)) return 2.54;
  if (printedUnit === 'cm/s' && item.unit === 'm/s') return 0.01;
  if (printedUnit === 'm/min' && item.unit === 'm/s') return 1 / 60;
  if (printedUnit === 'falls/person-month') return 12;
  return 1;
}

const decimalsOf = (value: number): number => (String(value).split('.')[1] ?? '').length;

/** Equal as printed; after a conversion, equal to the decimals that norms/ keeps (at least two). */
export function sameNumber(printed: number, factor: number, held: number): boolean {
  const converted = printed * factor;
  if (factor === 1) return printed === held;
  return Math.abs(converted - held) <= 0.5 * 10 ** -Math.max(2, decimalsOf(held)) + 1e-9;
}

/** Marks are printed in inches too, but odds are not: only lengths convert. */
export function keysHeld(cell: Cell, unit: string, item: NormsItem): readonly string[] {
  const factor = factorOf(cell, unit, item);
  return keysOf(cell.key).filter((key) => {
    const held = item.numbers.get(key);
    return held !== undefined && sameNumber(cell.value, factor, held);
  });
}

/** A number in the prose of an item: as it is, or as a percentage of it. */
function inWords(cell: Cell, item: NormsItem): boolean {
  const forms = [cell.value, Number((cell.value * 100).toFixed(6)), Number((cell.value / 100).toFixed(6))];
  return forms.some((form) => {
    const digits = String(form).replace('.', '\\.');
    return new RegExp(`(?<![\\d.])-?${digits}${decimalsOf(form) === 0 ? '(?:\\.0+)?' : '0*'}(?![\\d]|\\.\\d)`).test(item.words);
  });
}

/** Cells that must be numbers of their item; others may stand in its words. */
function mustBeNumber(cell: Cell, kind: string): boolean {
  if (kind === 'norm') return /^(mean|sd|p\d|perf_p|ci95|range)/.test(cell.key);
  return /^(cut$|sensitivity$|specificity$|lr_(pos|neg)$|probability)/.test(cell.key);
}

export interface RowResult {
  readonly entry: PrintedEntry;
  readonly row: PrintedRow;
  readonly best: readonly NormsItem[];
  readonly missing: readonly Cell[];
}

const sameBand = (row: PrintedRow, item: NormsItem): boolean =>
  (item.sex === undefined || row.sex === undefined || item.sex === row.sex) &&
  (row.age_min === undefined || item.age_min === undefined || item.age_min === row.age_min) &&
  (row.age_max === undefined || item.age_max === undefined || item.age_max === row.age_max);

function sameStrata(entry: PrintedEntry, row: PrintedRow, item: NormsItem): boolean {
  return STRATA_IN_NORMS.every(({ entry: id, key, value, tag, tagValue }) => {
    if (id !== undefined && id !== entry.id) return true;
    const printed = row.strata[key];
    if (printed === undefined && !(key in row.strata)) return true;
    if (value === undefined) return !(tag in item.tags) || item.tags[tag] === (printed ?? null);
    return printed !== value || !(tag in item.tags) || item.tags[tag] === tagValue;
  });
}

export function matchRow(entry: PrintedEntry, row: PrintedRow, items: readonly NormsItem[]): RowResult {
  const sources = sourcesOf(entry.file, entry.id);
  const test = row.test === undefined ? entry.test : row.test;
  const unit = String(row.strata.unit ?? entry.unit);
  const candidates = items.filter(
    (item) =>
      sources.includes(item.source) &&
      item.kind !== 'table_file' &&
      (item.test === test || item.kind === 'rate' || (item.kind === 'ratio' && test === null) || isFourStage(item, entry)) &&
      sameBand(row, item) &&
      sameStrata(entry, row, item),
  );
  const best = bestOfEachKind(candidates, row, unit);
  const inAny = best.length > 0 ? best : candidates;
  const missing = cellsOf(row).filter(
    (cell) =>
      !inAny.some((item) => keysHeld(cell, unit, item).length > 0) &&
      (mustBeNumber(cell, entry.kind) || !candidates.some((item) => inWords(cell, item))),
  );
  return { entry, row, best, missing };
}

/** One row may stand both as a mark and as a likelihood ratio: the items that hold most of its cells, kind by kind. */
function bestOfEachKind(candidates: readonly NormsItem[], row: PrintedRow, unit: string): readonly NormsItem[] {
  const heldBy = (item: NormsItem): number => cellsOf(row).filter((cell) => keysHeld(cell, unit, item).length > 0).length;
  return [...new Set(candidates.map((item) => item.kind))].flatMap((kind) => {
    const scored = candidates.filter((item) => item.kind === kind).map((item) => ({ item, held: heldBy(item) }));
    const most = Math.max(1, ...scored.map((each) => each.held));
    return scored.filter((each) => each.held === most).map((each) => each.item);
  });
}

/** The tandem rule of a handout is carried twice: as a mark in seconds and as a mark in stages. */
const isFourStage = (item: NormsItem, entry: PrintedEntry): boolean =>
  entry.test === 'four_stage_balance' && ['tandem_stance', 'four_stage_balance'].includes(item.test ?? '');

/** Keys of the items that a matched row accounts for. */
export function coveredBy(result: RowResult): readonly string[] {
  const unit = String(result.row.strata.unit ?? result.entry.unit);
  return result.best.flatMap((item) =>
    cellsOf(result.row).flatMap((cell) => keysHeld(cell, unit, item).map((key) => `${item.place} ${key}`)),
  );
}

const NUMBER_WORDS: Readonly<Record<string, number>> = { once: 1, Two: 2, two: 2, three: 3 };

/** A group's size, a protocol, or a coefficient printed as "above 0.90", may stand in the words of the printed entry only. */
export function printedInWords(item: NormsItem, key: string, value: number): boolean {
  if (!/^(population\.n|n|icc|rate_per_person_year|protocol\.\w+)$/.test(key)) return false;
  return printedEntries
    .filter((entry) => sourcesOf(entry.file, entry.id).includes(item.source))
    .some(({ n, population, protocol, rows }) => {
      const ofRows = rows.flatMap((row) => Object.values(row.strata));
      const words = [population, ...ofRows, ...(key.startsWith('protocol.') ? [protocol] : [])].join(' | ').replaceAll(',', '');
      const spelt = Object.entries(NUMBER_WORDS).some(
        ([word, number]) => number === value && key === 'protocol.trials' && words.includes(word),
      );
      const asDigits = new RegExp(`(?<![\\d.])${value}0*(?![\\d]|\\.\\d)`).test(words);
      return spelt || asDigits || (!key.startsWith('protocol.') && (n === value || rows.some((row) => row.cells.n === value)));
    });
}

export const matchAll = (items: readonly NormsItem[]): readonly RowResult[] =>
  printedEntries.flatMap((entry) => entry.rows.map((row) => matchRow(entry, row, items)));

/** The first exception that covers the cell (or `status`), or undefined. */
export function excuseOf(result: RowResult, key: string): (typeof exceptions.not_carried)[number] | undefined {
  const { entry, row } = result;
  return exceptions.not_carried.find(
    (each) =>
      (each.entry === nameOf(entry) || each.entry === '*') &&
      (each.kind === undefined || each.kind === entry.kind) &&
      (each.rows?.includes(row.row) ?? true) &&
      (each.keys?.some((name) => key === name || key.startsWith(`${name}.`)) ?? key !== 'status'),
  );
}

const CARRIERS = /^norms\/(tables|cutpoints|error|accuracy)\//;
/** Entries that the accounting says stand among the numbers of norms/. */
const carried = new Set(account.filter((line) => line.carried.some((path) => CARRIERS.test(path))).map(nameOf));
export const isCarriedInNumbers = (entry: PrintedEntry): boolean => carried.has(nameOf(entry));
