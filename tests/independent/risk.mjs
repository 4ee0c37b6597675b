/** Red flags, factors and pathways; a level is what every completion of the unknown items agrees on. */
import { holds } from './logic.mjs';
import { norms } from './norms.mjs';

const COST = { record: 1, question: 2, test: 3 };

function possibleValues(item, facts) {
  for (const rule of item.from) if (holds(rule.when, facts) === true) return rule.values;
  return item.values ?? ['no', 'yes'];
}

/** Every way in which the items can be. */
function completions(items, possible) {
  let ways = [{}];
  for (const item of items) ways = ways.flatMap((way) => possible[item.id].map((value) => ({ ...way, [item.id]: value })));
  return ways;
}

/** The walk through the flow chart of one completion. */
function walk(pathway, way) {
  const reached = [];
  let step = pathway.steps[0];
  for (;;) {
    reached.push(step.id);
    const next = holds(step.condition, null, way) ? step.yes : step.no;
    if (next.level !== undefined) return { level: next.level, reached };
    step = pathway.steps.find((other) => other.id === next.step);
  }
}

function subsets(list) {
  let found = [[]];
  for (const entry of list) found = found.concat(found.map((set) => [...set, entry]));
  return found;
}

/** Smallest set of open items whose answers, whatever they are, leave one level; the cheapest of these. */
function missingOf(open, ways) {
  const settles = (set) => {
    const seen = {};
    return ways.every(({ way, level }) => {
      const key = set.map((item) => way[item.id]).join('|');
      seen[key] ??= level;
      return seen[key] === level;
    });
  };
  const cost = (set) => set.reduce((sum, item) => sum + COST[item.kind], 0);
  const good = subsets(open).filter(settles);
  good.sort((one, other) => one.length - other.length || cost(one) - cost(other));
  return good[0].sort((one, other) => COST[one.kind] - COST[other.kind]).map((item) => item.id);
}

export function pathwayOf(pathway, facts) {
  const possible = {};
  for (const item of pathway.items) possible[item.id] = possibleValues(item, facts);
  const ways = completions(pathway.items, possible).map((way) => ({ way, ...walk(pathway, way) }));
  const order = pathway.levels.map((level) => level.id);
  const seen = order.filter((level) => ways.some((way) => way.level === level));
  const level = seen.length === 1 ? seen[0] : 'undetermined';
  const open = pathway.items.filter((item) => possible[item.id].length > 1);
  const steps = pathway.steps.map((step) => {
    const answers = new Set(ways.map(({ way }) => holds(step.condition, null, way)));
    const times = ways.filter(({ reached }) => reached.includes(step.id)).length;
    return {
      id: step.id,
      answer: answers.size > 1 ? 'unknown' : answers.has(true) ? 'yes' : 'no',
      reached: times === 0 ? 'no' : times === ways.length ? 'yes' : 'perhaps',
    };
  });
  return {
    pathway: pathway.id,
    level,
    at_least: seen[0],
    at_most: seen[seen.length - 1],
    steps,
    missing: seen.length === 1 ? [] : missingOf(open, ways),
    caveats: (pathway.caveats ?? [])
      .filter((caveat) => (caveat.levels === undefined || caveat.levels.includes(level)) && holds(caveat.when, facts) === true)
      .map((caveat) => caveat.id),
    follow_up: pathway.levels.find((entry) => entry.id === seen[seen.length - 1]).follow_up.within_days,
    possible,
  };
}

const only = (values) => (values !== undefined && values.length === 1 ? values[0] : undefined);

/** The whole of `risk`, and the fields that caps may ask for. */
export function riskOf(facts) {
  const found = norms.redFlags.map((flag) => ({ flag, value: holds(flag.when, facts) }));
  const main = norms.pathways.find((pathway) => pathway.id === 'world_falls_guidelines_2022');
  const { possible, ...decides } = pathwayOf(main, facts);
  const others = norms.pathways.filter((pathway) => pathway !== main).map((pathway) => pathwayOf(pathway, facts));
  const red = found.filter((entry) => entry.value === true).map((entry) => entry.flag.id);
  const asks = found.filter((entry) => entry.value === null).map((entry) => entry.flag.ask);
  const fields = {
    'risk.level': decides.level,
    'risk.at_most': decides.at_most,
    'risk.at_least': decides.at_least,
    'risk.red_flag': red.length > 0 ? 'yes' : 'no',
  };
  for (const { flag } of found) fields[`risk.open.${flag.id}`] = red.includes(flag.id) ? 'yes' : 'no';
  if (only(possible.frailty) !== undefined) fields['risk.frail'] = only(possible.frailty);
  if (only(possible.gait_impaired) !== undefined) fields['risk.gait_impaired'] = only(possible.gait_impaired);
  const risk = {
    ...decides,
    red_flags: red,
    not_asked: [...new Set(asks)],
    factors: norms.factors.filter((factor) => holds(factor.when, facts) === true).map((factor) => factor.id),
    other_pathways: others.map(({ possible: _, ...other }) => other),
  };
  return { risk, fields };
}
