// The norm join and the flags as SQL in DuckDB: `node sql.mjs THREADS FILE OUTPUT`. One table a test (the one that footing
// compares with first), the marks that count for a flag, no falls pathway, no caution: for scale, not the same work.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'yaml';

const [threads, file, output] = process.argv.slice(2);
const norms = (path) => parse(readFileSync(fileURLToPath(new URL(`../../norms/${path}.yaml`, import.meta.url)), 'utf8'));

const TESTS = [
  { id: 'timed_up_and_go', table: 'pondal-2008-tug', part: 'by_age' },
  { id: 'gait_speed_usual', table: 'nhanes-1999-2002-walk', part: 'by_sex_and_age' },
  { id: 'five_times_sit_to_stand', table: 'bergland-2019-sppb-subtests', part: 'by_sex_and_age' },
  { id: 'balance_confidence' },
];
const SHARES = [0.05, 0.25, 0.75];
/** Standard normal deviates of those shares. */
const DEVIATES = [-1.645, -0.674, 0.674];

/** Values at which a share of people do worse. */
function marksOf(row, better) {
  if (row.percentiles !== undefined) return [row.percentiles.p5, row.percentiles.p25, row.percentiles.p75];
  const sign = better === 'higher' ? 1 : -1;
  if (row.sd !== undefined) return DEVIATES.map((deviate) => row.mean + sign * deviate * row.sd);
  const { marks, counts, unable_first = false } = row.shares;
  const total = counts.reduce((sum, count) => sum + count, 0);
  const known = marks.map((mark, index) => {
    const worse = counts.slice(0, index + (unable_first ? 2 : 1)).reduce((sum, count) => sum + count, 0);
    return { mark, share: worse / total };
  });
  return SHARES.map((share) => {
    const above = known.findIndex((each) => each.share >= share);
    if (above < 1) return null;
    const [low, high] = [known[above - 1], known[above]];
    return low.mark + ((high.mark - low.mark) * (share - low.share)) / (high.share - low.share);
  });
}

const OPERATORS = { at_least: '>=', above: '>', at_most: '<=', below: '<' };
const byId = new Map(norms('tests').tests.map((test) => [test.id, test]));
const cutsOf = (id) =>
  norms(`cutpoints/${id}`).cut_points.filter((cut) => cut.counts && cut.group === undefined && cut.met_when !== undefined);
const value = (id) => `try_cast(cohort.${id} AS DOUBLE)`;

function flag(id) {
  const met = cutsOf(id).flatMap(({ met_when }) =>
    Object.entries(met_when).flatMap(([kind, mark]) => (kind in OPERATORS ? [`${value(id)} ${OPERATORS[kind]} ${mark}`] : [])),
  );
  return met.length === 0 ? `NULL AS ${id}_flag` : `(${met.join(' OR ')}) AS ${id}_flag`;
}

function standing(id) {
  const worse = byId.get(id).better === 'higher' ? '<' : '>';
  return `CASE WHEN ${value(id)} ${worse} n_${id}.v5 THEN 'well_below' WHEN ${value(id)} ${worse} n_${id}.v25 THEN 'below'
    WHEN ${value(id)} ${worse} n_${id}.v75 THEN 'expected' ELSE 'above' END AS ${id}_standing`;
}

const database = await DuckDBInstance.create(':memory:', { threads });
const connection = await database.connect();
const withTable = TESTS.filter(({ table }) => table !== undefined);
for (const { id, table, part } of withTable) {
  const rows = norms(`tables/${id}/${table}`).parts.find((each) => each.id === part).rows;
  const values = rows.map((row) => {
    const marks = marksOf(row, byId.get(id).better).map((mark) => mark ?? 'NULL');
    return `('${row.sex}', ${row.age_min}, ${row.age_max ?? 120}, ${marks.join(', ')})`;
  });
  await connection.run(
    `CREATE TABLE n_${id} AS SELECT * FROM (VALUES ${values.join(', ')}) AS rows(sex, age_min, age_max, v5, v25, v75)`,
  );
}
const joins = withTable.map(
  ({ id }) =>
    `LEFT JOIN n_${id} ON n_${id}.sex IN ('all', cohort.sex) AND try_cast(cohort.age AS INTEGER) BETWEEN n_${id}.age_min AND n_${id}.age_max`,
);
const columns = [...withTable.map(({ id }) => standing(id)), ...TESTS.map(({ id }) => flag(id))];
await connection.run(
  `COPY (SELECT cohort.*, ${columns.join(', ')} FROM read_csv('${file}', all_varchar = true, header = true) AS cohort ${joins.join(' ')})
   TO '${output}' (FORMAT csv, HEADER)`,
);
const counted = await connection.runAndReadAll(`SELECT count(*) FROM read_csv('${output}', all_varchar = true)`);
console.log(String(counted.getRows()[0]?.[0]));
