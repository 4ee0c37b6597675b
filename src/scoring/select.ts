/**
 * Which rows of which tables fit a client, and in which order. Only tables named in `norms/defaults.yaml` may be primary,
 * in its order; then come the others by protocol, age band, sex, population, status and size. There is no nearest band:
 * a client outside every band has no comparison.
 */
import type { Evidence } from '../evidence/data.ts';
import type { Row, TableFile, TablePart } from '../evidence/schema/table.ts';
import type { Client, Course, Side } from '../session.ts';
import { ORDER_OF_FIT } from './order-of-fit.ts';

export interface Subject {
  readonly client: Client;
  /** `health.lung_condition`, where recorded and not none. */
  readonly lungCondition: string | null;
  /** Prefer tables from this country (ISO 3166), where given. */
  readonly preferredCountry?: string | undefined;
}

export interface Candidate {
  readonly table: TableFile;
  readonly part: TablePart;
  readonly row: Row;
  /** Years between the ends of the age band. */
  readonly bandWidth: number;
  /** Place in the defaults; Infinity where it is not among them. */
  readonly defaultRank: number;
  /** Shown for orientation, never a standing: clinical and at-risk samples, athletes. */
  readonly orientationOnly: boolean;
  /** The row's sex is not the client's because the client's is not recorded. */
  readonly sexUncertain: boolean;
  readonly mismatches: readonly string[];
  readonly protocolConflicts: number;
}

/** Only default tables of the general population, of a known sex, may give the standing. */
export const mayBePrimary = ({ defaultRank, orientationOnly, sexUncertain }: Candidate): boolean =>
  Number.isFinite(defaultRank) && !orientationOnly && !sexUncertain;

/** `age` in completed years; both ends of a band belong to it, and an end that is null is open. */
export const holdsAge = (row: Row, age: number): boolean =>
  age >= (row.age_min ?? 0) && age <= (row.age_max ?? Number.POSITIVE_INFINITY);
const bandWidth = (row: Row): number => (row.age_max ?? 130) - (row.age_min ?? 0);

/** A client whose sex is not recorded is held by rows of either sex; what such rows may decide is settled elsewhere. */
export const holdsSexAndSetting = (row: Row, client: Client): boolean =>
  (row.sex === 'all' || client.sex === 'not recorded' || row.sex === client.sex) &&
  (row.setting === undefined || row.setting === 'mixed' || row.setting === client.setting);

/** Which hand or leg is dominant is not recorded, so rows of the dominant side hold nobody. */
export function holdsSide(row: Row, side: Side | null, strongerSide: Side | null): boolean {
  if (row.side === undefined) return true;
  if (row.side === 'stronger') return side !== null && side === strongerSide;
  return row.side === side;
}

/** Both ends belong to a band of height (cm); a row with one holds nobody whose height is not recorded. */
export function holdsHeight(row: Row, heightCm: number | undefined): boolean {
  if (row.height_min_cm === undefined && row.height_max_cm === undefined) return true;
  const height = heightCm ?? Number.NaN;
  return height >= (row.height_min_cm ?? 0) && height <= (row.height_max_cm ?? Number.POSITIVE_INFINITY);
}

/** Strata of other kinds (fallers and non-fallers, stances of other widths) are printed by `norms show`, not compared with. */
function holdsStrata(row: Row, client: Client, side: Side | null, strongerSide: Side | null): boolean {
  if (row.group !== undefined || row.stance !== undefined) return false;
  return holdsSexAndSetting(row, client) && holdsSide(row, side, strongerSide) && holdsHeight(row, client.heightCm);
}

const isOrientation = (table: TableFile): boolean => !['general', 'healthy'].includes(table.population.kind);

/** A clinical sample is of use only to a client with that condition; an at-risk one only in the same setting. */
export function concernsClient(table: TableFile, subject: Subject): boolean {
  const { kind, condition, setting } = table.population;
  if (condition !== undefined) return condition === subject.lungCondition;
  if (kind === 'at_risk' || kind === 'clinical') return setting === 'mixed' || setting === subject.client.setting;
  return true;
}

/** Courses in feet are written in metres with one or two decimals: 2.4 and 2.44 m are the same walk. */
const sameCourse = (a: number, b: number): boolean => Math.abs(a - b) < 0.1;

interface ProtocolMismatch {
  readonly words: string;
  /** It makes the table fit worse than one without; fewer trials than the table's are only mentioned. */
  readonly conflict: boolean;
}

function protocolMismatches({ protocol }: TableFile, asked: Asked): ProtocolMismatch[] {
  const { course, ceiling } = asked;
  const found: ProtocolMismatch[] = [];
  if (protocol.distance_m !== undefined && course?.distanceM !== undefined && !sameCourse(course.distanceM, protocol.distance_m))
    found.push({ words: `table walked ${protocol.distance_m} m, this client ${course.distanceM} m`, conflict: true });
  if (protocol.start !== undefined && course?.start !== undefined && protocol.start !== course.start)
    found.push({ words: `table used a ${protocol.start} start, this client a ${course.start} start`, conflict: true });
  if ((ceiling ?? Number.POSITIVE_INFINITY) < (protocol.ceiling ?? 0))
    found.push({
      words: `watch stopped at ${ceiling} s, the table goes on to ${protocol.ceiling} s`,
      conflict: asked.ceilingReached,
    });
  if (protocol.chair_cm !== undefined && asked.chairCm !== undefined && protocol.chair_cm !== asked.chairCm)
    found.push({
      words: `table used a seat of ${protocol.chair_cm} cm, this client one of ${asked.chairCm} cm`,
      conflict: false,
    });
  if (protocol.trials_rule !== 'unknown' && asked.trials > 0 && asked.trials < (protocol.trials ?? 0))
    found.push({
      words: `table takes the ${protocol.trials_rule} of ${protocol.trials}, recorded here: ${asked.trials}`,
      conflict: false,
    });
  return found;
}

function populationMismatches(table: TableFile, row: Row, subject: Subject): string[] {
  const { client, lungCondition, preferredCountry } = subject;
  const { population } = table;
  const found: string[] = [];
  if (client.sex === 'not recorded' && row.sex !== 'all')
    found.push(`sex not recorded; this row is of ${row.sex === 'female' ? 'women' : 'men'}`);
  if (client.sex !== 'not recorded' && row.sex === 'all') found.push('both sexes together');
  if (row.age_min === null && row.age_max === null) found.push('the source states no age limits');
  if (lungCondition !== null && population.condition !== lungCondition) found.push('not a sample of people with lung disease');
  if (population.setting !== 'mixed' && row.setting === undefined && population.setting !== client.setting)
    found.push(`sample: ${population.setting.replace('_', ' ')}; client: ${client.setting.replace('_', ' ')}`);
  const wanted = preferredCountry ?? client.country;
  if (wanted !== undefined && population.country.length > 0 && !population.country.includes(wanted))
    found.push(`sample from ${population.country.join(', ')}, not ${wanted}`);
  return found;
}

function defaultRank(evidence: Evidence, table: TableFile, part: TablePart, age: number, course: Course | undefined): number {
  const entries = evidence.defaults.tests[table.test]?.tables;
  const rank = entries?.findIndex(
    (entry) =>
      entry.source === table.source &&
      (entry.part === undefined || entry.part === part.id) &&
      age >= (entry.age_min ?? 0) &&
      (entry.distance_m === undefined || (course?.distanceM !== undefined && sameCourse(entry.distance_m, course.distanceM))),
  );
  return rank === undefined || rank === -1 ? Number.POSITIVE_INFINITY : rank;
}

export interface Asked {
  readonly test: string;
  readonly side: Side | null;
  /** The better of two measured sides, for tables of "the stronger hand". */
  readonly strongerSide: Side | null;
  readonly trials: number;
  readonly ceiling: number | undefined;
  /** A trial was stopped at the ceiling. */
  readonly ceilingReached: boolean;
  readonly course: Course | undefined;
  /** Height of the seat used, in cm, where recorded. */
  readonly chairCm?: number | undefined;
}

/** The best fitting row of each part of each table that holds this client, best fit first. */
export function candidatesFor(evidence: Evidence, subject: Subject, asked: Asked): Candidate[] {
  const found: Candidate[] = [];
  for (const table of evidence.tablesByTest.get(asked.test) ?? []) {
    if (!concernsClient(table, subject)) continue;
    for (const part of table.parts) {
      for (const row of fittingRows(part, subject, asked)) {
        const protocol = protocolMismatches(table, asked);
        found.push({
          table,
          part,
          row,
          bandWidth: bandWidth(row),
          defaultRank: defaultRank(evidence, table, part, subject.client.age, asked.course),
          orientationOnly: isOrientation(table),
          sexUncertain: subject.client.sex === 'not recorded' && row.sex !== 'all',
          mismatches: [...protocol.map((each) => each.words), ...populationMismatches(table, row, subject)],
          protocolConflicts: protocol.filter((each) => each.conflict).length,
        });
      }
    }
  }
  return found.sort((a, b) => compareFit(a, b, subject));
}

/** Of the rows that hold the client the most particular one; with sex not recorded, both sexes' rows. */
function fittingRows(part: TablePart, subject: Subject, asked: Asked): Row[] {
  const rows = part.rows.filter(
    (row) => holdsAge(row, subject.client.age) && holdsStrata(row, subject.client, asked.side, asked.strongerSide),
  );
  const narrowest = Math.min(...rows.map(bandWidth));
  const narrow = rows.filter((row) => bandWidth(row) === narrowest);
  const ofOwnSex = narrow.filter((row) => row.sex !== 'all');
  return ofOwnSex.length > 0 && subject.client.sex !== 'not recorded' ? ofOwnSex.slice(0, 1) : dedupeBySex(narrow);
}

const dedupeBySex = (rows: readonly Row[]): Row[] =>
  rows.filter((row, index) => rows.findIndex((other) => other.sex === row.sex) === index);

function compareFit(a: Candidate, b: Candidate, subject: Subject): number {
  for (const { compare } of ORDER_OF_FIT) {
    const order = compare(a, b, subject);
    if (order !== 0) return order;
  }
  return 0;
}
