/** Results worked out from others: a total of points, the number of stages held, what a second task costs. */

import { rounded } from './normal.mjs';
import { norms } from './norms.mjs';
import { valueBy } from './visit.mjs';

/** Readings of a test that say something: a value, or unable. */
const readings = (records, test) =>
  records.filter((record) => record.test === test && (record.state === 'value' || record.state === 'unable'));

const catalogueValue = (record) => valueBy(norms.catalogue[record.test].trials, record);

function bandPoints(bands, value) {
  for (const band of bands) {
    if (band.at_least !== undefined && !(value >= band.at_least)) continue;
    if (band.above !== undefined && !(value > band.above)) continue;
    if (band.at_most !== undefined && !(value <= band.at_most)) continue;
    if (band.below !== undefined && !(value < band.below)) continue;
    return band.points;
  }
  return null;
}

/** Points of one item; undefined where there is no reading, null where the reading gives none. */
function itemPoints(item, records) {
  const [record] = readings(records, item.test);
  if (record === undefined) return undefined;
  if (record.state === 'unable') return 0;
  const { value: recorded, atLeast } = catalogueValue(record);
  let value = recorded;
  const reading = item.reading ?? { kind: 'value' };
  if (reading.kind === 'time_over_course') {
    const { distance, start } = record.course ?? {};
    if (distance !== undefined && distance !== reading.course_m) return null;
    if (start !== undefined && start !== reading.start) return null;
    value = reading.course_m / value;
  }
  if (item.round_to !== undefined) value = rounded(value, 2);
  const points = bandPoints(item.bands, value);
  const decided = norms.catalogue[item.test].better === 'higher' ? item.bands[0].points : 0;
  return atLeast && points !== decided ? null : points;
}

/** Fills steps without a record, or with a watch stopped too early to tell, by the two rules of a sequence. `held` has true, false, null or undefined a step. */
function fillSequence(held, tests, rules) {
  const filled = [...held];
  held.forEach((value, index) => {
    if (value === true || value === false) return;
    if (rules?.not_tried_after_failure !== undefined && held.slice(0, index).includes(false)) filled[index] = false;
    else if (held.some((other, at) => at > index && other === true && rules?.implied_by_harder?.by.includes(tests[at])))
      filled[index] = true;
  });
  return filled;
}

function pointTotal(total, records) {
  let sum = 0;
  for (const part of total.parts) {
    const points = part.items.map((item) => itemPoints(item, records));
    const best = part.items.map((item) => item.bands[0].points);
    const held = points.map((point, index) => (point === undefined || point === null ? point : point === best[index]));
    const filled = fillSequence(
      held,
      part.items.map((item) => item.test),
      part.sequence,
    );
    for (let index = 0; index < points.length; index += 1) {
      const implied = { true: best[index], false: 0 }[String(filled[index])];
      const point = points[index] ?? implied ?? null;
      if (point === null) return null;
      sum += point;
    }
  }
  return sum;
}

function stageHeld(stage, hold, records) {
  const found = readings(records, stage.test);
  if (found.length === 0) return undefined;
  const each = found.map((record) => {
    if (record.state === 'unable') return false;
    const { value, atLeast } = catalogueValue(record);
    if (value >= hold) return true;
    return atLeast ? null : false;
  });
  if (each.includes(false)) return false;
  return each.includes(null) ? null : true;
}

function stagesHeld(ladder, records) {
  const held = ladder.stages.map((stage) => stageHeld(stage, ladder.hold_s, records));
  const filled = fillSequence(
    held,
    ladder.stages.map((stage) => stage.test),
    ladder.sequence,
  );
  for (let index = 0; index < filled.length; index += 1) {
    if (filled[index] === false) return index;
    if (filled[index] !== true) return null;
  }
  return filled.length;
}

function relativeCost(cost, records) {
  const [single] = readings(records, cost.single);
  const [dual] = readings(records, cost.dual);
  if (single?.state !== 'value' || dual?.state !== 'value') return null;
  if (catalogueValue(single).atLeast || catalogueValue(dual).atLeast) return null;
  const alone = catalogueValue(single).value;
  return (100 * (catalogueValue(dual).value - alone)) / alone;
}

/** Records of derived tests that are not recorded as such and whose parts are all known. */
export function derivedRecords(records) {
  const { point_totals: totals = [], stage_ladders: ladders = [], relative_costs: costs = [] } = norms.derived;
  const worked = {};
  for (const total of totals) worked[total.test] = pointTotal(total, records);
  for (const ladder of ladders) worked[ladder.test] = stagesHeld(ladder, records);
  for (const cost of costs) worked[cost.test] = relativeCost(cost, records);
  const found = [];
  for (const test of norms.testIds) {
    const value = worked[test] ?? null;
    if (value === null || records.some((record) => record.test === test)) continue;
    found.push({
      test,
      side: null,
      outcome: 'measured',
      state: 'value',
      trials: [value],
      ceiling: null,
      why: null,
      derived: true,
    });
  }
  return found;
}
