/** A visit -> the numbers and decisions of its assessment, worked out a second time from norms/ and the written methods alone. */
import { comparisonsOf } from './compare.mjs';
import { derivedRecords } from './derived.mjs';
import { categoryOf, cutPointsOf, errorOf, flaggedBy } from './marks.mjs';
import { rounded } from './normal.mjs';
import { norms } from './norms.mjs';
import { planOf } from './plan.mjs';
import { riskOf } from './risk.mjs';
import { readVisit, valueBy } from './visit.mjs';

const betterOf = (test) => norms.catalogue[test].better;

/** The worse of the sides of one test: unable, else the worse value, else a test not done. */
function worseOf(results) {
  const unable = results.find((result) => result.state === 'unable');
  if (unable !== undefined) return unable;
  const measured = results.filter((result) => result.state === 'value');
  if (measured.length === 0) return results.find((result) => result.state === 'medical') ?? results[0];
  const sign = betterOf(measured[0].test) === 'higher' ? 1 : -1;
  return measured.reduce((worst, result) => {
    const difference = sign * (result.value - worst.value);
    return difference < 0 || (difference === 0 && worst.at_least && !result.at_least) ? result : worst;
  });
}

function bare(record) {
  const { value, atLeast } = valueBy(norms.catalogue[record.test].trials, record);
  return {
    test: record.test,
    side: record.side,
    outcome: record.outcome,
    state: record.state,
    value: value === null ? null : rounded(value, 3),
    at_least: atLeast && record.derived !== true,
  };
}

function byTest(results) {
  const tests = {};
  for (const test of norms.testIds) {
    const sides = results.filter((result) => result.test === test);
    if (sides.length === 0) continue;
    tests[test] = worseOf(sides);
    tests[test].any_medical = sides.some((result) => result.state === 'medical');
    const done = sides.filter((result) => result.state === 'value' || result.state === 'unable');
    tests[test].one_side = tests[test].side !== null && done.length === 1;
  }
  return tests;
}

export function recompute(visit) {
  const { client, fields, records: recorded } = readVisit(visit);
  const records = [...recorded, ...derivedRecords(recorded)];
  const results = records.map((record) => {
    const comparisons = comparisonsOf(record, client, records);
    return { ...bare(record), comparisons };
  });
  const facts = { fields, tests: byTest(results), betterOf };
  for (const result of results) {
    const done = result.state === 'value' || result.state === 'unable';
    const error = done ? errorOf(result.test, result.value, result.at_least, facts) : null;
    result.category = categoryOf(result.test, result.value);
    result.cut_points = done ? cutPointsOf(result.test, result, client, facts, error) : [];
    result.measurement_error = error;
    result.cuts = result.cut_points;
    result.flagged = flaggedBy(result.cut_points, result.state);
    result.standing = result.comparisons.find((line) => line.primary)?.standing ?? null;
  }
  const { risk, fields: riskFields } = riskOf(facts);
  Object.assign(facts.fields, riskFields);
  return {
    tests: results.map(({ state, cuts, flagged, standing, one_side, any_medical, ...shown }) => shown),
    risk,
    plan: planOf(facts),
  };
}
