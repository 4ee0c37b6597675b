/** A part of a normative table as headers and cells, in the order in which papers print them: for `norms show` and the book. */
import { percentOf } from '../../evidence/percent.ts';
import type { Equation, Row, TablePart } from '../../evidence/schema/table.ts';

export interface Grid {
  readonly headers: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A column: its header and the cell of each row; a column without any cell is left out. */
interface Column {
  readonly header: string;
  readonly cell: (row: Row) => string;
}

const WHO = { female: 'women', male: 'men', all: 'both' } as const;

function ages({ age_min, age_max }: Row): string {
  if (age_min === null && age_max === null) return 'all ages';
  if (age_max === null) return `${age_min} and over`;
  if (age_min === null) return `up to ${age_max}`;
  return age_min === age_max ? `${age_min}` : `${age_min}-${age_max}`;
}

const decimalsOf = (value: number): number => String(value).split('.')[1]?.length ?? 0;

/** Numbers of one kind with the same number of decimals, as a printed table has them: 9 beside 8.1 is 9.0. */
function printer(values: readonly (number | undefined)[]): (value: number | undefined) => string {
  const decimals = Math.max(0, ...values.map((value) => (value === undefined ? 0 : decimalsOf(value))));
  return (value) => (value === undefined ? '' : value.toFixed(decimals));
}

function strataColumns(): Column[] {
  const plain = (header: string, key: 'setting' | 'side' | 'stance' | 'language' | 'group'): Column => ({
    header,
    cell: (row) => (row[key] ?? '').replaceAll('_', ' '),
  });
  const height = ({ height_min_cm: low, height_max_cm: high }: Row): string => {
    if (low === undefined && high === undefined) return '';
    return `${low ?? 'up'} to ${high ?? 'over'}`;
  };
  return [
    plain('Setting', 'setting'),
    plain('Side', 'side'),
    plain('Stance', 'stance'),
    plain('Language', 'language'),
    plain('Group', 'group'),
    { header: 'Height (cm)', cell: height },
  ];
}

function pointColumns(rows: readonly Row[], key: 'percentiles' | 'performance_percentiles', prefix: string): Column[] {
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row[key] ?? {})))].sort((a, b) => percentOf(a) - percentOf(b));
  const print = printer(rows.flatMap((row) => Object.values(row[key] ?? {})));
  const printLimit = printer(rows.flatMap((row) => Object.values(row.percentile_ci95 ?? {}).flat()));
  return keys.map((point) => ({
    header: `${prefix}P${percentOf(point)}`,
    cell: (row) => {
      const value = print(row[key]?.[point]);
      const interval = row.percentile_ci95?.[point];
      return interval === undefined || value === '' ? value : `${value} (${interval.map((each) => printLimit(each)).join('-')})`;
    },
  }));
}

type Shares = NonNullable<Row['shares']>;

/** "worse than 16.7", "16.7 to 13.7", "better than 11.2": worst first, as the marks stand in the file. */
function groupNames({ marks, unable_first }: Pick<Shares, 'marks' | 'unable_first'>): string[] {
  const between = marks.slice(1).map((mark, index) => `${marks[index]} to ${mark}`);
  return [...(unable_first ? ['unable'] : []), `worse than ${marks[0]}`, ...between, `better than ${marks.at(-1)}`];
}

/** Counts by group; groups that one row prints apart (the unable) stay empty in the others. */
function shareColumns(rows: readonly Row[]): Column[] {
  const all = rows.flatMap((row) => (row.shares === undefined ? [] : [row.shares]));
  const names = [...new Set(all.flatMap(groupNames))].sort((a, b) => Number(b === 'unable') - Number(a === 'unable'));
  const columns = names.map((name) => ({
    header: name,
    cell: ({ shares }: Row): string => {
      if (shares === undefined) return '';
      const place = groupNames(shares).indexOf(name);
      const cell = (shares.counts ?? shares.percents ?? [])[place];
      return cell === undefined || place === -1 ? '' : `${cell}${shares.percents === undefined ? '' : ' %'}`;
    },
  }));
  const missing: Column = {
    header: 'not printed, counted as worst',
    cell: ({ shares }) => (shares === undefined || shares.missing_to_worst === 0 ? '' : String(shares.missing_to_worst)),
  };
  return [...columns, missing];
}

const TERMS: Readonly<Record<Equation['terms'][number]['term'], string>> = {
  age_years: 'age (years)',
  age_years_squared: 'age (years) squared',
  male: '1 if male',
  female: '1 if female',
  height_cm: 'height (cm)',
  weight_kg: 'weight (kg)',
  bmi: 'body mass index',
};

/** The equation with its numbers, readable beside the paper. */
export function equationInWords(equation: Equation): string {
  const terms = equation.terms.map(
    ({ term, coefficient }) => `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} x ${TERMS[term]}`,
  );
  const spread =
    equation.residual_sd !== null
      ? `; SD ${equation.residual_sd}`
      : equation.residual_sd_by_age === undefined
        ? ''
        : `; SD ${equation.residual_sd_by_age.intercept} + ${equation.residual_sd_by_age.per_year} x age`;
  const limit = equation.lower_limit === null ? '' : `; lower limit of normal: predicted - ${equation.lower_limit}`;
  return `${[equation.intercept, ...terms].join(' ')}${spread}${limit}`;
}

const interval = (pair: readonly [number, number] | undefined, print: (value: number | undefined) => string): string =>
  pair === undefined ? '' : `${print(pair[0])} to ${print(pair[1])}`;

function summaryColumns(rows: readonly Row[]): Column[] {
  const mean = printer(rows.flatMap((row) => [row.mean, ...(row.mean_ci95 ?? [])]));
  const sd = printer(rows.map((row) => row.sd));
  const median = printer(rows.map((row) => row.median));
  const range = printer(rows.flatMap((row) => row.range ?? []));
  const worse = printer(rows.flatMap((row) => [row.worse_than_average?.above, row.worse_than_average?.below]));
  const percent = (value: number | undefined): string => (value === undefined ? '' : `${value} %`);
  return [
    { header: 'Mean', cell: (row) => mean(row.mean) },
    { header: 'SD', cell: (row) => sd(row.sd) },
    { header: '95 % interval of the mean', cell: (row) => interval(row.mean_ci95, mean) },
    { header: 'Median', cell: (row) => median(row.median) },
    { header: 'Range', cell: (row) => interval(row.range, range) },
    {
      header: 'Worse than average',
      cell: ({ worse_than_average: limit }) =>
        limit === undefined ? '' : limit.above !== undefined ? `over ${worse(limit.above)}` : `under ${worse(limit.below)}`,
    },
    { header: 'Reach the ceiling', cell: (row) => percent(row.percent_at_ceiling) },
    { header: 'Unable', cell: (row) => percent(row.percent_unable) },
    { header: 'Equation', cell: (row) => (row.equation === undefined ? '' : equationInWords(row.equation)) },
  ];
}

/** Only columns that say something; sex and age always. */
export function gridOf(part: TablePart): Grid {
  const { rows } = part;
  const possible: Column[] = [
    ...strataColumns(),
    { header: 'n', cell: (row) => (row.n === undefined || row.n === null ? '' : String(row.n)) },
    { header: 'effective n', cell: (row) => (row.n_effective === undefined ? '' : String(Math.round(row.n_effective))) },
    ...pointColumns(rows, 'percentiles', ''),
    ...pointColumns(rows, 'performance_percentiles', 'performance '),
    ...shareColumns(rows),
    ...summaryColumns(rows),
    { header: 'Read', cell: (row) => row.status ?? '' },
    { header: 'Note', cell: (row) => row.note ?? '' },
  ];
  const columns = possible.filter((column) => rows.some((row) => column.cell(row) !== ''));
  const all: Column[] = [{ header: 'Sex', cell: (row) => WHO[row.sex] }, { header: 'Age', cell: ages }, ...columns];
  return { headers: all.map(({ header }) => header), rows: rows.map((row) => all.map(({ cell }) => cell(row))) };
}
