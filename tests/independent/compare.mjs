/** A result beside every table of its test: what each row that holds the client says, the best fitting first. */
import { fitOf, holds, ORDINARY, widthOf } from './fit.mjs';
import { rounded } from './normal.mjs';
import { norms } from './norms.mjs';
import * as score from './score.mjs';

const NOTHING = { percentile: null, bound: null, z: null, standing: null, approximate: false };

/** What is usual by this row, and how people spread around it where that is known. */
function centreOf(method, row, client) {
  if (method === 'percentile_points') return { expected: row.percentiles?.p50 ?? row.performance_percentiles?.p50 ?? null };
  if (method === 'cumulative_share') return { expected: null };
  if (method !== 'equation') return { expected: row.mean ?? row.median ?? null, sd: method === 'mean_sd' ? row.sd : undefined };
  const expected = score.predicted(row.equation, client);
  const line = row.equation.residual_sd_by_age;
  const byAge = line === undefined ? undefined : line.intercept + line.per_year * client.age;
  return { expected, sd: expected === null ? undefined : (row.equation.residual_sd ?? byAge) };
}

/** Worse than everybody with a result. */
function ofUnable(knots, row, fits) {
  if (knots.length === 0) return { ...NOTHING, standing: fits ? 'well_below' : null };
  const percentile = knots[0][1];
  const oneMark = row.shares?.marks.length === 1;
  return { ...NOTHING, percentile, bound: 'at_most', standing: oneMark ? score.standingOf(percentile, 'at_most') : 'well_below' };
}

function byKnots(knots, row, { value, atLeast, own }, sign) {
  const found = score.among(knots, value, (one, other) => sign * (one - other), row.shares);
  if (own && row.shares !== undefined && found.bound === 'exact') found.bound = 'at_least';
  const { percentile, bound } = score.stoppedAt(found.percentile, found.bound, atLeast, sign);
  return { ...NOTHING, percentile, bound, standing: score.standingOf(percentile, bound) };
}

function byCurve({ expected, sd }, table, definition, { value, atLeast }, sign) {
  const share = (spread) => score.percentOfNormal(definition, value, expected, spread, sign);
  if (table.sd_rounding === undefined) {
    const { percentile, bound } = score.stoppedAt(share(sd), 'exact', atLeast, sign);
    const z = (sign * (value - expected)) / sd;
    return { percentile, bound, z, approximate: true, standing: score.standingOf(percentile, bound) };
  }
  // The SD is printed coarsely: a word only where it holds at both ends of what the SD may be.
  const [one, other] = [-1, 1].map((way) => {
    const spread = sd + way * table.sd_rounding;
    if (!score.shapeFits(definition, table.protocol.ceiling, expected, spread)) return null;
    return score.standingOf(share(spread), 'exact');
  });
  return { ...NOTHING, approximate: true, standing: one === other ? one : null };
}

function againstMean(row, expected, { value, atLeast }, sign) {
  if (value === null) return expected !== null || row.worse_than_average !== undefined ? 'worse' : null;
  const against = score.worseThanMean(row, expected, value, sign);
  return atLeast && against === (sign > 0 ? 'worse' : 'not_worse') ? null : against;
}

/** A hold that was stopped is never low; one stopped at the end of the table's own scale is usual at least. */
function heldBack(standing, knots, { atLeast, own }, sign) {
  const low = standing === 'below' || standing === 'well_below';
  const shown = sign > 0 && (atLeast || own) && low ? null : standing;
  return own && knots && shown === null ? 'expected' : shown;
}

function scored(table, row, record, client, taken) {
  const definition = norms.catalogue[record.test];
  const sign = definition.better === 'higher' ? 1 : -1;
  const method = score.methodOf(row);
  const centre = centreOf(method, row, client);
  const hasKnots = method === 'percentile_points' || method === 'cumulative_share';
  const knots = hasKnots ? score.knotsOf(row, definition.better) : [];
  const fits = centre.sd !== undefined && score.shapeFits(definition, table.protocol.ceiling, centre.expected, centre.sd);
  let result = NOTHING;
  if (taken.value === null) result = ofUnable(knots, row, fits);
  else if (hasKnots) result = byKnots(knots, row, taken, sign);
  else if (fits) result = byCurve(centre, table, definition, taken, sign);
  const standing = taken.value === null ? result.standing : heldBack(result.standing, hasKnots, taken, sign);
  const against = hasKnots ? null : againstMean(row, centre.expected, taken, sign);
  return { ...result, method, expected: centre.expected, standing, against };
}

/** Everything one row says about one result. */
function compareRow(table, part, row, record, client) {
  const definition = norms.catalogue[record.test];
  const stated = table.protocol.trials_rule ?? 'unknown';
  const rule = stated === 'unknown' ? definition.trials : stated;
  const taken = score.cutTo(table.protocol.ceiling ?? null, rule, record, definition);
  let found = scored(table, row, record, client, taken);
  if (part.no_standing_because !== undefined) found = { ...found, percentile: null, bound: null, z: null, standing: null };
  return {
    source: table.source,
    part: part.id,
    status: row.status ?? table.status,
    sex: row.sex,
    age_min: row.age_min,
    age_max: row.age_max,
    setting: row.setting,
    side: row.side,
    height_min_cm: row.height_min_cm,
    value: taken.value,
    trials_rule: rule,
    method: found.method,
    percentile: found.percentile === null ? null : rounded(found.percentile, 1),
    percentile_bound: found.bound,
    approximate: found.approximate,
    z: found.z === null ? null : rounded(found.z, 2),
    standing: ORDINARY.includes(table.population.kind) ? found.standing : null,
    against_mean: found.against,
    expected: found.expected,
  };
}

/** All comparisons of a result, the best fitting first, one of them marked as primary. */
export function comparisonsOf(record, client, records) {
  if (record.state === 'none' || record.state === 'medical') return [];
  const found = [];
  for (const table of norms.tables[record.test] ?? [])
    for (const part of table.parts) {
      const rows = part.rows.filter((row) => holds(row, record, client, records));
      const own = rows.filter((row) => row.sex === client.sex);
      const wanted = own.length > 0 ? own : rows;
      const narrowest = Math.min(...wanted.map(widthOf));
      for (const row of wanted.filter((one) => widthOf(one) === narrowest))
        found.push({ ...fitOf(table, part, row, record, client), line: compareRow(table, part, row, record, client) });
    }
  found.sort((one, other) => {
    const index = one.keys.findIndex((key, at) => key !== other.keys[at]);
    return index < 0 ? 0 : one.keys[index] - other.keys[index];
  });
  const may = found.filter((entry) => entry.isDefault && entry.keys[0] === 0 && entry.keys[1] === 0);
  const primary = may.find((entry) => entry.line.standing !== null) ?? may[0];
  return found.map((entry) => ({ ...entry.line, primary: entry === primary }));
}
