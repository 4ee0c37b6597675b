/** Which rows of a table hold a client, and by which numbers one row goes before another. */
import { norms } from './norms.mjs';
import { valueBy } from './visit.mjs';

const ORDER = ['full-text', 'computed', 'abstract', 'secondary', 'memory', 'common-practice'];
/** A course of 6 m and one of 20 ft (6.1 m) are taken as one: nothing written says how far apart two may be. */
const SAME_COURSE_M = 0.1;
export const ORDINARY = ['general', 'healthy'];

/** Of two hands with a value the one with the higher; of two alike the right one. */
function isStronger(record, records) {
  const both = records.filter((other) => other.test === record.test && other.state === 'value');
  if (both.length !== 2 || record.state !== 'value') return false;
  const of = (one) => valueBy(norms.catalogue[one.test].trials, one).value;
  return both.find((other) => both.every((one) => of(other) >= of(one))) === record;
}

/** Years of a band; open ends are taken to 0 and 130, the limits of an age in norms/. */
export const widthOf = (row) => (row.age_max ?? 130) - (row.age_min ?? 0);

/** Does this row hold this client? */
export function holds(row, record, client, records) {
  if (row.group !== undefined || row.stance !== undefined) return false;
  if (client.sex !== 'not recorded' && row.sex !== 'all' && row.sex !== client.sex) return false;
  if (row.age_min !== null && client.age < row.age_min) return false;
  if (row.age_max !== null && client.age > row.age_max) return false;
  if (row.setting !== undefined && row.setting !== 'mixed' && row.setting !== client.setting) return false;
  if (row.side === 'stronger' && !isStronger(record, records)) return false;
  if (row.side !== undefined && row.side !== 'stronger' && row.side !== record.side) return false;
  for (const [key, outside] of [
    ['height_min_cm', (mark) => client.height_cm < mark],
    ['height_max_cm', (mark) => client.height_cm > mark],
  ]) {
    const mark = row[key];
    if (mark !== undefined && mark !== null && (client.height_cm === undefined || outside(mark))) return false;
  }
  return true;
}

/** Numbers by which two rows are told apart, the first that differs decides; lower goes first. */
export function fitOf(table, part, row, record, client) {
  const named = norms.defaults.tests[record.test]?.tables ?? [];
  const course = record.course ?? {};
  const place = named.findIndex(
    (entry) =>
      entry.source === table.source &&
      (entry.part === undefined || entry.part === part.id) &&
      (entry.distance_m === undefined || entry.distance_m === course.distance) &&
      (entry.age_min === undefined || client.age >= entry.age_min),
  );
  const { distance_m, start, ceiling } = table.protocol;
  const against = [
    course.distance !== undefined && distance_m !== undefined && Math.abs(course.distance - distance_m) > SAME_COURSE_M + 1e-9,
    course.start !== undefined && start !== undefined && course.start !== start,
    ceiling !== undefined &&
      record.ceiling !== null &&
      record.ceiling < ceiling &&
      record.trials.some((trial) => trial >= record.ceiling),
  ].filter(Boolean).length;
  return {
    isDefault: place >= 0,
    keys: [
      ORDINARY.includes(table.population.kind) ? 0 : 1,
      client.sex === 'not recorded' && row.sex !== 'all' ? 1 : 0,
      place >= 0 ? 0 : 1,
      against,
      place,
      widthOf(row),
      row.sex === client.sex ? 0 : 1,
      table.population.kind === 'general' ? 0 : 1,
      ORDER.indexOf(row.status ?? table.status),
      -(row.n ?? table.n ?? 0),
    ],
  };
}
