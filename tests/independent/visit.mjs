/** A visit file (as a plain object) -> what was recorded, flat, and one entry a test and side. */
import { rounded } from './normal.mjs';
import { norms } from './norms.mjs';

const ANSWERS = { true: 'yes', false: 'no', yes: 'yes', no: 'no' };
const answer = (value) => ANSWERS[String(value)] ?? value;

function pressure(fields, key, text) {
  const [systolic, diastolic] = text.split('/').map(Number);
  fields[`${key}_systolic`] = systolic;
  fields[`${key}_diastolic`] = diastolic;
}

/** Keys that are more than an answer or a number; each writes its own fields. */
const SPECIAL = {
  spo2_target(fields, key, value) {
    const [low, high] = String(value).split('-').map(Number);
    fields[`${key}_low`] = low;
    if (high !== undefined) fields[`${key}_high`] = high;
  },
  oral_steroid(fields, key, value) {
    fields[key] = typeof value === 'object' ? 'yes' : answer(value);
    if (typeof value === 'object') for (const [part, number] of Object.entries(value)) fields[`${key}.${part}`] = number;
  },
  falls_past_year(fields, key, value) {
    fields[key] = value === 'several' ? 2 : value;
  },
};

/** Every recorded finding under its full name; `unknown` stays the word. */
function recordedFields(visit) {
  const fields = {};
  for (const group of ['history', 'health', 'vitals', 'redflags', 'medicines'])
    for (const [name, value] of Object.entries(visit[group] ?? {})) {
      const key = `${group}.${name}`;
      if (name.startsWith('bp_')) pressure(fields, key, value);
      else if (SPECIAL[name] !== undefined) SPECIAL[name](fields, key, value);
      else fields[key] = answer(value);
    }
  return fields;
}

function completedYears(born, day) {
  const [year, month, date] = born.split('-').map(Number);
  const [thisYear, thisMonth, thisDate] = day.split('-').map(Number);
  const had = thisMonth > month || (thisMonth === month && thisDate >= date);
  return thisYear - year - (had ? 0 : 1);
}

/** Fields that follow from recorded ones by subtraction. */
function addDerived(fields, client) {
  fields['client.age'] = client.age;
  fields['client.sex'] = client.sex;
  fields['client.setting'] = client.setting;
  for (const part of ['systolic', 'diastolic']) {
    const standing = ['bp_standing', 'bp_standing_1min', 'bp_standing_3min']
      .map((name) => fields[`vitals.${name}_${part}`])
      .filter((value) => value !== undefined);
    if (standing.length === 0) continue;
    const lowest = Math.min(...standing);
    fields[`vitals.bp_standing_lowest_${part}`] = lowest;
    const lying = fields[`vitals.bp_lying_${part}`];
    const sitting = fields[`vitals.bp_sitting_${part}`];
    if (lying !== undefined) fields[`vitals.${part}_drop`] = lying - lowest;
    if (sitting !== undefined) fields[`vitals.sitting_${part}_drop`] = sitting - lowest;
  }
  const rest = fields['vitals.spo2_rest'];
  const lowest = fields['vitals.spo2_lowest'];
  const target = fields['vitals.spo2_target_low'];
  if (rest !== undefined && lowest !== undefined) fields['vitals.spo2_fall'] = rest - lowest;
  if (rest !== undefined && target !== undefined) fields['vitals.spo2_within_target'] = rest >= target ? 'yes' : 'no';
}

/** One reading. `state`: value, unable, medical (unsafe for another reason than balance) or none (declined). */
function reading(test, side, form) {
  const definition = norms.catalogue[test];
  const record = { test, side, outcome: 'measured', state: 'value', trials: [], ceiling: definition.ceiling ?? null, why: null };
  if (typeof form === 'number') return { ...record, trials: [form] };
  if (Array.isArray(form)) return { ...record, trials: form };
  if (form.unable !== undefined) return { ...record, outcome: 'unable', state: 'unable' };
  if (form.declined !== undefined) return { ...record, outcome: 'declined', state: 'none' };
  if (form.unsafe !== undefined)
    return { ...record, outcome: 'unsafe', state: form.why === 'balance' ? 'unable' : 'medical', why: form.why };
  if (form.ceiling !== undefined) record.ceiling = form.ceiling;
  if (form.distance !== undefined || form.start !== undefined)
    record.course = { distance: form.distance, start: form.start, time: form.time };
  if (form.time !== undefined) record.trials = [form.time].flat().map((time) => rounded(form.distance / time, 6));
  else record.trials = form.trials ?? [form.value];
  return record;
}

/** { client, fields, records } of a visit file given as an object. */
export function readVisit(visit) {
  const client = { setting: 'community', ...visit.client };
  if (client.born !== undefined) client.age = completedYears(client.born, visit.assessed);
  const fields = recordedFields(visit);
  addDerived(fields, client);
  const records = [];
  for (const test of norms.testIds) {
    const form = visit.tests?.[test];
    if (form === undefined) continue;
    if (form.right === undefined && form.left === undefined) records.push(reading(test, null, form));
    for (const side of ['right', 'left']) {
      if (form[side] === undefined) continue;
      const record = reading(test, side, form[side]);
      if (form.ceiling !== undefined && record.state === 'value') record.ceiling = form.ceiling;
      records.push(record);
    }
  }
  return { client, fields, records };
}

/** The number that a rule makes of the trials, and whether the stopwatch was stopped on the way to it. */
export function valueBy(rule, record) {
  if (record.state !== 'value') return { value: null, atLeast: false };
  const { trials, ceiling } = record;
  const better = norms.catalogue[record.test].better;
  const stopped = (trial) => ceiling !== null && trial >= ceiling;
  if (rule === 'first') return { value: trials[0], atLeast: stopped(trials[0]) };
  if (rule === 'best') {
    const value = better === 'higher' ? Math.max(...trials) : Math.min(...trials);
    return { value, atLeast: stopped(value) };
  }
  const value = rounded(trials.reduce((sum, trial) => sum + trial, 0) / trials.length, 6);
  return { value, atLeast: trials.some(stopped) };
}
