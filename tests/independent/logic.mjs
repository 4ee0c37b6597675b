/** Conditions of norms/ in three-valued logic: true, false or null (unknown). */

export const all = (values) => (values.includes(false) ? false : values.includes(null) ? null : true);
export const any = (values) => (values.includes(true) ? true : values.includes(null) ? null : false);
export const not = (value) => (value === null ? null : !value);

const MARKS = {
  at_least: (value, mark) => value >= mark,
  above: (value, mark) => value > mark,
  at_most: (value, mark) => value <= mark,
  below: (value, mark) => value < mark,
};

function ofField(condition, facts) {
  const value = facts.fields[condition.field];
  const known = value !== undefined && value !== 'unknown';
  const parts = [];
  if (condition.recorded !== undefined) parts.push(known === condition.recorded);
  if (condition.is !== undefined) parts.push(known ? [condition.is].flat().map(String).includes(String(value)) : null);
  for (const [name, holds] of Object.entries(MARKS))
    if (condition[name] !== undefined) parts.push(known ? holds(value, condition[name]) : null);
  return all(parts);
}

/** A mark against a result; a stopped watch says "this or better", an impossible test is worse than every mark. */
export function markMet(name, mark, result, better) {
  if (result === null || result.state === 'none' || result.state === 'medical') return null;
  if (result.state === 'unable')
    return better === 'higher' ? name === 'below' || name === 'at_most' : name === 'above' || name === 'at_least';
  const holds = MARKS[name](result.value, mark);
  if (!result.at_least) return holds;
  const upward = name === 'at_least' || name === 'above';
  return holds === upward ? holds : null;
}

/** Is one of these marks not met, yet inside the error? */
function anyNear(cuts, ids) {
  const named = cuts.filter((cut) => ids.includes(cut.id));
  return named.length === 0 ? null : any(named.map((cut) => all([not(cut.met), cut.near])));
}

const ofFlag = ({ flagged }, tested, result) => {
  if (!tested) return null;
  return flagged ? result.flagged : not(result.flagged);
};

/** facts.tests[id] is the worse side: { state, value, at_least, standing, flagged, cuts }; absent where not recorded. */
function ofTest(condition, facts) {
  const result = facts.tests[condition.test] ?? null;
  const better = facts.betterOf(condition.test);
  const state = result === null ? 'none' : result.state;
  const parts = [];
  if (condition.outcome === 'unsafe_medical') parts.push(result?.any_medical === true);
  else if (condition.outcome !== undefined)
    parts.push({ unable: 'unable', measured: 'value', not_tested: 'none' }[condition.outcome] === state);
  for (const name of Object.keys(MARKS))
    if (condition[name] !== undefined) parts.push(markMet(name, condition[name], result, better));
  const tested = state === 'value' || state === 'unable';
  if (condition.standing !== undefined)
    parts.push(!tested || result.standing === null ? null : condition.standing.includes(result.standing));
  if (condition.flagged !== undefined) parts.push(ofFlag(condition, tested, result));
  if (condition.near !== undefined) parts.push(tested ? anyNear(result.cuts, condition.near) : null);
  return all(parts);
}

/** `items` gives the value of every item where a step is worked out, else nothing. */
export function holds(condition, facts, items) {
  if (condition.field !== undefined) return ofField(condition, facts);
  if (condition.test !== undefined) return ofTest(condition, facts);
  if (condition.any !== undefined) return any(condition.any.map((part) => holds(part, facts, items)));
  if (condition.all !== undefined) return all(condition.all.map((part) => holds(part, facts, items)));
  if (condition.not !== undefined) return not(holds(condition.not, facts, items));
  if (condition.any_recorded !== undefined) {
    const parts = condition.any_recorded.map((part) => holds(part, facts, items));
    if (parts.includes(true)) return true;
    return parts.includes(false) ? false : null;
  }
  return [condition.is ?? 'yes'].flat().includes(items[condition.item]);
}
