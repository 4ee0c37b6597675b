/** Random visits, the same for the same seed. Plain objects; as JSON they are valid visit files. */
import { norms } from './norms.mjs';

/** Numbers of 0 to 1 from a seed (a 32-bit mixing generator). */
function numbersFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Usual stretch of each test: from, to. Values on and beside printed marks come from the cut-points and rows themselves. */
const STRETCH = {
  timed_up_and_go: [5, 30],
  timed_up_and_go_cognitive: [6, 40],
  timed_up_and_go_manual: [6, 40],
  gait_speed_usual: [0.2, 1.8],
  gait_speed_fast: [0.4, 2.5],
  five_times_sit_to_stand: [5, 65],
  thirty_second_chair_stand: [0, 25],
  one_minute_sit_to_stand: [5, 50],
  single_leg_stance_eyes_open: [0, 60],
  single_leg_stance_eyes_closed: [0, 30],
  side_by_side_stance: [0, 10],
  semi_tandem_stance: [0, 10],
  tandem_stance: [0, 10],
  functional_reach: [0, 45],
  step_test: [0, 25],
  four_square_step: [5, 30],
  heel_raise: [0, 35],
  grip_strength: [5, 60],
  balance_confidence: [10, 100],
  falls_efficacy_short: [7, 28],
  berg_balance: [10, 56],
  mini_bestest: [3, 28],
  four_stage_balance: [0, 4],
  short_physical_performance_battery: [0, 12],
};

function tools(seed) {
  const next = numbersFrom(seed);
  const chance = (share) => next() < share;
  const pick = (list) => list[Math.floor(next() * list.length)];
  const between = (from, to, decimals) => Number((from + next() * (to - from)).toFixed(decimals));
  return { chance, pick, between };
}

const marksOf = {};
for (const test of Object.keys(STRETCH)) {
  const marks = (norms.cuts[test] ?? []).flatMap((cut) => Object.values(cut.met_when));
  for (const table of norms.tables[test] ?? [])
    for (const part of table.parts)
      for (const row of part.rows)
        marks.push(
          ...(row.shares?.marks ?? []),
          ...Object.values(row.percentiles ?? {}),
          ...(row.mean === undefined ? [] : [row.mean]),
        );
  const [from, to] = STRETCH[test];
  marksOf[test] = marks.filter((mark) => mark >= from && mark <= to);
}

function oneValue(test, { chance, pick, between }, ceiling) {
  const definition = norms.catalogue[test];
  const [from, to] = STRETCH[test];
  const decimals = definition.whole ? 0 : pick([definition.decimals, definition.decimals, 2]);
  let value = between(from, to, decimals);
  if (marksOf[test].length > 0 && chance(0.25)) value = pick(marksOf[test]);
  if (definition.whole) value = Math.round(value);
  const stop = ceiling ?? definition.ceiling;
  if (stop !== undefined && stop !== null && (value > stop || chance(0.3))) return stop;
  return value;
}

function oneReading(test, dice) {
  const { chance, pick, between } = dice;
  const definition = norms.catalogue[test];
  const luck = between(0, 1, 4);
  if (luck < 0.06) return { unable: 'could not' };
  if (luck < 0.09) return { declined: 'did not want to' };
  if (luck < 0.14) return { unsafe: 'stopped', why: pick(['balance', 'medical', 'other']) };
  if (definition.course && chance(0.5)) {
    const distance = pick([2.4, 3, 4, 4, 4.57, 6, 6.1, 10]);
    const time = chance(0.2) ? [between(2, 12, 1), between(2, 12, 1)] : between(2, 12, pick([1, 2]));
    const walk = { time, distance };
    return chance(0.7) ? { ...walk, start: pick(['standing', 'moving']) } : walk;
  }
  const stance = definition.kind === 'time' && definition.better === 'higher';
  let ceiling;
  if (stance && definition.sided && chance(0.6)) ceiling = pick([5, 10, 30, 45, 60]);
  else if (stance && chance(0.15)) ceiling = pick([2, 5, 10, 30]);
  else if (definition.kind === 'time' && chance(0.05)) ceiling = pick([20, 60]);
  const value = () => oneValue(test, dice, ceiling);
  const trials = () => Array.from({ length: pick([2, 3]) }, value);
  if (ceiling !== undefined) return chance(0.5) ? { value: value(), ceiling } : { trials: trials(), ceiling };
  return chance(0.7) ? value() : trials();
}

function someTests(dice) {
  const share = dice.pick([0.1, 0.35, 0.6, 0.9]);
  const tests = {};
  for (const test of Object.keys(STRETCH)) {
    const derived = norms.catalogue[test].derived_from !== undefined;
    if (!dice.chance(derived ? 0.06 : share)) continue;
    if (!norms.catalogue[test].sided || dice.chance(0.1)) tests[test] = oneReading(test, dice);
    else {
      const sides = dice.pick([['right', 'left'], ['right', 'left'], ['right', 'left'], ['right'], ['left']]);
      tests[test] = Object.fromEntries(sides.map((side) => [side, oneReading(test, dice)]));
    }
  }
  return tests;
}

/** Keys answered yes, no or unknown; each with a share of how often it is recorded and how often yes. */
function answers(dice, keys, recorded, yes) {
  const found = {};
  for (const key of keys) if (dice.chance(recorded)) found[key] = dice.chance(0.08) ? 'unknown' : dice.chance(yes) ? 'yes' : 'no';
  return found;
}

function someHistory(dice) {
  const often = dice.pick([0.4, 0.85, 1]);
  const history = answers(dice, ['fall_injury', 'unable_to_rise', 'loss_of_consciousness'], often, 0.12);
  Object.assign(history, answers(dice, ['feels_unsteady', 'worries_about_falling'], often, 0.4));
  Object.assign(history, answers(dice, ['dizzy_on_standing', 'unexplained_fall', 'lives_alone'], 0.3, 0.15));
  if (dice.chance(often)) history.falls_past_year = dice.pick([0, 0, 0, 1, 1, 2, 3, 'several']);
  if (history.falls_past_year === 0)
    for (const key of ['fall_injury', 'unable_to_rise', 'unexplained_fall']) if (history[key] === 'yes') history[key] = 'no';
  if (dice.chance(0.1)) history.stay_independent = dice.between(0, 14, 0);
  return history;
}

function someHealth(dice) {
  const health = answers(dice, ['osteoporosis', 'vertebral_fracture', 'home_oxygen'], 0.5, 0.2);
  const rare = ['cognitive_impairment', 'recent_exacerbation', 'recent_surgery', 'new_back_pain', 'height_loss'];
  Object.assign(health, answers(dice, rare, 0.2, 0.12));
  const more = ['vestibular_disease', 'parkinson_disease', 'poor_vision', 'foot_problems', 'unsuitable_footwear'];
  Object.assign(health, answers(dice, [...more, 'alcohol_concern', 'urgency_or_incontinence', 'home_hazards'], 0.15, 0.3));
  if (dice.chance(0.7))
    health.lung_condition = dice.pick(['none', 'copd', 'copd', 'asthma', 'bronchiectasis', 'interstitial', 'other']);
  if (dice.chance(0.4)) {
    const dose = { daily_mg: dice.pick([1, 2.4, 2.5, 5, 7.5, 20]), months: dice.pick([1, 3, 4, 14]) };
    health.oral_steroid = dice.pick(['yes', 'no', 'unknown', dose, dose, { daily_mg: dose.daily_mg }, { months: dose.months }]);
  }
  if (dice.chance(0.6)) health.clinical_frailty_scale = dice.pick([1, 2, 3, 3, 4, 4, 5, 6, 7]);
  if (dice.chance(0.15)) health.frailty_phenotype = dice.between(0, 5, 0);
  if (dice.chance(0.6)) health.walking_aid = dice.pick(['none', 'none', 'stick', 'frame', 'other']);
  if (dice.chance(0.05)) health.steroid_courses_past_year = dice.between(0, 4, 0);
  return health;
}

function someVitals(dice) {
  const vitals = {};
  if (dice.chance(0.6)) vitals.spo2_rest = dice.chance(0.3) ? dice.between(82, 91, 0) : dice.between(91, 99, 0);
  if (dice.chance(0.4)) vitals.spo2_lowest = dice.between(76, vitals.spo2_rest ?? 97, 0);
  if (dice.chance(0.1)) vitals.spo2_target = dice.pick(['88-92', '94-98', '84-88']);
  if (dice.chance(0.5)) vitals.heart_rate_rest = dice.chance(0.2) ? dice.between(45, 130, 0) : dice.between(60, 100, 0);
  const pressure = () => `${dice.between(105, 165, 0)}/${dice.between(60, 95, 0)}`;
  if (dice.chance(0.5)) vitals.bp_lying = dice.chance(0.1) ? '184/101' : pressure();
  if (dice.chance(0.1)) vitals.bp_sitting = pressure();
  if (dice.chance(0.5)) vitals.bp_standing = dice.chance(0.05) ? '88/58' : pressure();
  if (dice.chance(0.1)) vitals.bp_standing_1min = pressure();
  if (dice.chance(0.1)) vitals.bp_standing_3min = pressure();
  Object.assign(vitals, answers(dice, ['standing_symptoms'], 0.2, 0.2));
  return vitals;
}

const RED = ['chest_pain', 'new_stroke_signs', 'head_injury_on_blood_thinner', 'severe_breathlessness_at_rest'];
const RED_TODAY = ['collapse_in_session', 'new_confusion', 'suspected_fracture', 'acute_heart_or_lung_condition'];

/** The visit of this seed. */
export function visitOf(seed) {
  const dice = tools(seed * 7919 + 13);
  const { chance, pick, between } = dice;
  const age = chance(0.06)
    ? between(19, 59, 0)
    : chance(0.3)
      ? pick([60, 64, 65, 69, 70, 74, 75, 79, 80, 85, 90, 99])
      : between(60, 98, 0);
  const client = { ref: `I-${seed}`, sex: chance(0.05) ? 'not recorded' : pick(['female', 'male']), age };
  if (chance(0.15)) {
    client.born = `${2026 - age - (chance(0.5) ? 1 : 0)}-${pick(['01-31', '05-10', '05-11', '05-12', '11-30'])}`;
    delete client.age;
  }
  if (chance(0.7)) client.setting = chance(0.85) ? 'community' : pick(['residential_care', 'hospital']);
  if (chance(0.3)) client.height_cm = between(145, 190, pick([0, 0, 1]));
  if (chance(0.2)) client.weight_kg = between(45, 110, 0);
  const visit = { format: 1, client, assessed: '2026-05-11', history: someHistory(dice), health: someHealth(dice) };
  visit.vitals = someVitals(dice);
  visit.redflags = answers(dice, [...RED, ...RED_TODAY], pick([0, 0.5, 1]), 0.03);
  visit.medicines = answers(dice, ['sedating', 'blood_thinner'], 0.3, 0.3);
  if (chance(0.3)) visit.medicines.count = between(0, 12, 0);
  visit.tests = someTests(dice);
  for (const group of ['history', 'health', 'vitals', 'redflags', 'medicines', 'tests'])
    if (Object.keys(visit[group]).length === 0) delete visit[group];
  return visit;
}
