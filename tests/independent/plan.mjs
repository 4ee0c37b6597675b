/** The rung on which every exercise starts: the lowest that a test allows, then down to the first that no cap forbids. */
import { holds } from './logic.mjs';
import { norms } from './norms.mjs';

const SUPPORTS = ['seated', 'both_hands_firm', 'one_hand_firm', 'light_touch', 'fingertip', 'hands_ready', 'hands_free'];
const SUPERVISIONS = ['on_own', 'someone_nearby', 'someone_beside', 'professional'];

/** Rung that one test allows; null where it says nothing. */
function rungByTest(rule, facts) {
  const result = facts.tests[rule.test] ?? null;
  if (result === null || result.state === 'none' || result.state === 'medical')
    return rule.required ? (rule.untested ?? 1) : null;
  if (result.state === 'unable') return rule.unable;
  const oneSide = result.one_side && rule.required ? (rule.untested ?? 1) : Number.POSITIVE_INFINITY;
  const margin = rule.margin ?? 0;
  let rung = rule.below_all;
  for (const step of rule.steps) {
    const up = step.at_least !== undefined && result.value >= step.at_least + margin - 1e-9;
    const down = step.at_most !== undefined && !result.at_least && result.value <= step.at_most - margin + 1e-9;
    if (up || down) rung = step.rung;
  }
  return Math.min(rung, oneSide);
}

function startOf(exercise, facts) {
  const rungs = exercise.start.by_test.map((rule) => rungByTest(rule, facts)).filter((rung) => rung !== null);
  for (const rule of exercise.start.also ?? []) if (holds(rule.when, facts) === true) rungs.push(rule.rung);
  return rungs.length === 0 ? 1 : Math.min(...rungs);
}

function capsOn(exercise, facts) {
  return norms.caps.filter((cap) => {
    if (cap.exercises !== undefined && !cap.exercises.includes(exercise.id)) return false;
    if (cap.purposes !== undefined && !cap.purposes.includes(exercise.purpose)) return false;
    const value = holds(cap.when, facts);
    return value === true || (value === null && cap.when_unknown === 'apply');
  });
}

const allowed = (rung, caps) =>
  caps.every(({ effect }) => {
    const least = effect.least_support;
    if (least !== undefined && SUPPORTS.indexOf(rung.support) > SUPPORTS.indexOf(least)) return false;
    return !(effect.forbid ?? []).some((feature) => (rung.features ?? []).includes(feature));
  });

export function planOf(facts) {
  return norms.exercises.map((exercise) => {
    const caps = capsOn(exercise, facts);
    const held = caps.some((cap) => cap.effect.hold === true);
    let level = startOf(exercise, facts);
    if (held || caps.some((cap) => cap.effect.seated === true)) level = 0;
    while (level > 0 && !allowed(exercise.ladder[level - 1], caps)) level -= 1;
    const seated = level === 0 && !held ? SUPERVISIONS.indexOf('someone_beside') : 0;
    const supervision = Math.max(seated, ...caps.map((cap) => SUPERVISIONS.indexOf(cap.effect.supervision ?? 'on_own')));
    return { exercise: exercise.id, level, of: exercise.ladder.length, held, supervision: SUPERVISIONS[supervision] };
  });
}
