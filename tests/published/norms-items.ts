/** Every number of norms/tables, cutpoints, error and accuracy with the stretch of the file it stands in, for comparison with the printed cells. */

import { parseNorms } from '../../src/evidence/parse.ts';
import { readNormsFolder } from '../../src/evidence/read-folder.ts';
import type { CutPoint, FallRate, LikelihoodRatio, MeasurementError } from '../../src/evidence/schema/numbers.ts';
import type { Row, TableFile } from '../../src/evidence/schema/table.ts';
import { normsFolder } from '../support/evidence.ts';

export interface NormsItem {
  /** Where it stands, e.g. `tables/grip_strength/dodds-2014 peak_by_sex 1`. */
  readonly place: string;
  readonly kind: 'table' | 'table_file' | 'cutpoint' | 'error' | 'ratio' | 'rate';
  readonly source: string;
  readonly test: string | null;
  /** Undefined where the item is not of one sex or age. */
  readonly sex?: string | undefined;
  readonly age_min?: number | null | undefined;
  readonly age_max?: number | null | undefined;
  readonly status: string;
  readonly unit: string;
  /** Dotted key to number; pairs and lists get `.0`, `.1`. */
  readonly numbers: ReadonlyMap<string, number>;
  /** All prose of the item, where a printed number may stand in words. */
  readonly words: string;
  /** Strata by name: part, side, setting, group, heights. */
  readonly tags: Readonly<Record<string, string | number | null>>;
}

function flatten(value: unknown, prefix: string, into: Map<string, number>): void {
  if (typeof value === 'number') into.set(prefix, value);
  else if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) flatten(inner, prefix === '' ? key : `${prefix}.${key}`, into);
}

function proseOf(value: unknown): string {
  if (typeof value === 'string') return value;
  if (value === null || typeof value !== 'object') return '';
  return Object.values(value).map(proseOf).join(' | ');
}

const IDENTITY = ['sex', 'age_min', 'age_max', 'height_min_cm', 'height_max_cm'];

/** The numbers of an object without those that say which row it is. */
function numbersOf(value: object, leaveOut: readonly string[] = []): Map<string, number> {
  const numbers = new Map<string, number>();
  flatten(value, '', numbers);
  for (const key of numbers.keys()) if ([...IDENTITY, ...leaveOut].includes(key)) numbers.delete(key);
  if (numbers.get('shares.missing_to_worst') === 0) numbers.delete('shares.missing_to_worst');
  return numbers;
}

/** An equation as a list in the order in which sources print it: intercept, then the terms; the line of the SD slope first. */
function equationNumbers(row: Row): Map<string, number> {
  const numbers = new Map<string, number>();
  if (row.equation === undefined) return numbers;
  const coefficients = [row.equation.intercept, ...row.equation.terms.map((term) => term.coefficient)];
  for (const [index, each] of coefficients.entries()) numbers.set(`equation.${index}`, each);
  if (row.equation.residual_sd_by_age !== undefined) {
    numbers.set('sd_formula.0', row.equation.residual_sd_by_age.per_year);
    numbers.set('sd_formula.1', row.equation.residual_sd_by_age.intercept);
  }
  return numbers;
}

function itemsOfTable(table: TableFile): NormsItem[] {
  const file = `tables/${table.test}/${table.source}`;
  const common = { source: table.source, test: table.test, unit: table.unit };
  const { population, protocol, notes, remarks } = table;
  const whole: NormsItem = {
    ...common,
    place: file,
    kind: 'table_file',
    status: table.status,
    numbers: numbersOf({ n: table.n ?? undefined, protocol, sd_rounding: table.sd_rounding }),
    words: proseOf([population, notes, remarks]),
    tags: {},
  };
  const rows = table.parts.flatMap((part) =>
    part.rows.map((row, index): NormsItem => {
      const { equation: _equation, ...printed } = row;
      return {
        ...common,
        place: `${file} ${part.id} ${index + 1}`,
        kind: 'table',
        sex: row.sex,
        age_min: row.age_min,
        age_max: row.age_max,
        status: row.status ?? table.status,
        numbers: new Map([...numbersOf(printed), ...equationNumbers(row)]),
        words: proseOf([printed.note, printed.group, part, notes, remarks]),
        tags: {
          part: part.id,
          ...(row.side === undefined ? {} : { side: row.side }),
          ...(row.setting === undefined ? {} : { setting: row.setting }),
          ...(row.group === undefined ? {} : { group: row.group }),
          ...(row.height_min_cm === undefined ? {} : { height_min_cm: row.height_min_cm }),
          ...(row.height_max_cm === undefined ? {} : { height_max_cm: row.height_max_cm }),
        },
      };
    }),
  );
  return [whole, ...rows];
}

function itemOfCut(cut: CutPoint, unit: string): NormsItem {
  const numbers = numbersOf({ accuracy: cut.accuracy, population: { n: cut.population.n ?? undefined } });
  const [side, mark] = Object.entries(cut.met_when).find(([, value]) => value !== undefined) ?? [];
  if (mark !== undefined) numbers.set('cut', mark);
  const tags = side === undefined ? {} : { met_when: side };
  return {
    ...bandOf(cut),
    place: `cutpoints ${cut.id}`,
    kind: 'cutpoint',
    test: cut.test,
    unit,
    numbers,
    words: proseOf(cut),
    tags,
  };
}

/** Error that depends on the score is one item a band of scores. */
function itemsOfError(error: MeasurementError, unit: string): NormsItem[] {
  const { by_score, ...rest } = error;
  const common = {
    kind: 'error',
    source: error.source,
    status: error.status,
    test: error.test,
    unit,
    words: proseOf(error),
    tags: {},
  } as const;
  const bands = (by_score ?? []).map((band, index) => ({
    ...common,
    place: `error ${error.id} by_score ${index + 1}`,
    numbers: new Map([
      ['initial_min', band.min],
      ['initial_max', band.max],
      ['mdc95', band.mdc95],
    ]),
  }));
  return [{ ...common, place: `error ${error.id}`, numbers: numbersOf(rest, ['interval_days']) }, ...bands];
}

function bandOf(item: { source: string; status: string; sex: string; age_min: number | null; age_max: number | null }) {
  const { source, status, sex, age_min, age_max } = item;
  return { source, status, sex, age_min, age_max };
}

const itemOfRatio = ({ when: _when, ...ratio }: LikelihoodRatio): NormsItem => ({
  ...bandOf(ratio),
  place: `accuracy ${ratio.id}`,
  kind: 'ratio',
  test: ratio.test ?? null,
  unit: '1',
  numbers: numbersOf(ratio),
  words: proseOf(ratio),
  tags: {},
});

const itemOfRate = (rate: FallRate): NormsItem => ({
  ...bandOf(rate),
  place: `accuracy ${rate.id}`,
  kind: 'rate',
  test: null,
  unit: '1',
  numbers: numbersOf(rate),
  words: proseOf(rate),
  tags: {},
});

/** Read afresh from the folder, so that what is compared is what is shipped. */
function gather(): ReturnType<typeof parseNorms>['gathered'] {
  const numeric = readNormsFolder(normsFolder).filter((file) =>
    /^(tests\.yaml|sources\.yaml|(tables|cutpoints|error|accuracy)\/)/.test(file.path),
  );
  const { gathered, problems } = parseNorms(numeric, { partial: true });
  if (problems.length > 0) throw new Error(`norms/ is not valid: ${JSON.stringify(problems.slice(0, 3))}`);
  return gathered;
}

export function loadNormsItems(): readonly NormsItem[] {
  const gathered = gather();
  const unitOf = (test: string): string => gathered.tests.find((each) => each.id === test)?.unit ?? '';
  return [
    ...gathered.tables.flatMap(itemsOfTable),
    ...gathered.cutPoints.map((cut) => itemOfCut(cut, unitOf(cut.test))),
    ...gathered.errors.flatMap((error) => itemsOfError(error, unitOf(error.test))),
    ...gathered.likelihoodRatios.map(itemOfRatio),
    ...gathered.fallRates.map(itemOfRate),
  ];
}

export const loadTables = (): readonly TableFile[] => gather().tables;
export const loadSources = (): ReadonlySet<string> => new Set(Object.keys(gather().sources));
export const loadCutPoints = (): readonly CutPoint[] => gather().cutPoints;
