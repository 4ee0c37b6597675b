/** The same fields of an assessment as of a recomputation, and where the two differ. */

const pickFrom = (object, keys) => Object.fromEntries(keys.map((key) => [key, object[key] ?? null]));

const LINE = ['status', 'primary', 'value', 'trials_rule', 'method', 'percentile', 'percentile_bound'];
const LINE_MORE = ['approximate', 'z', 'standing', 'against_mean', 'expected'];
const CUT = ['id', 'met', 'near', 'counts', 'sensitivity', 'specificity'];

const STRATA = ['sex', 'age_min', 'age_max', 'setting', 'side', 'height_min_cm'];
const nameOf = (line) =>
  [line.source, line.part, ...STRATA.map((key) => (line.band ?? line)[key] ?? '-')].join(' ').replaceAll('/', ' ');

function test(result) {
  return {
    ...pickFrom(result, ['test', 'side', 'outcome', 'value', 'at_least', 'category']),
    order: result.comparisons.map(nameOf),
    comparisons: Object.fromEntries(result.comparisons.map((line) => [nameOf(line), pickFrom(line, [...LINE, ...LINE_MORE])])),
    cut_points: Object.fromEntries(result.cut_points.map((cut) => [cut.id, pickFrom(cut, CUT)])),
    measurement_error:
      result.measurement_error === null ? null : pickFrom(result.measurement_error, ['id', 'sem', 'mdc95', 'low', 'high']),
  };
}

const idOf = (entry) => (typeof entry === 'string' ? entry : (entry.id ?? entry.item));

function pathway(result) {
  const follow = result.follow_up;
  return {
    ...pickFrom(result, ['pathway', 'level', 'at_least', 'at_most']),
    steps: result.steps.map((step) => pickFrom(step, ['id', 'answer', 'reached'])),
    missing: result.missing.map(idOf),
    caveats: result.caveats.map(idOf),
    follow_up: follow === null || typeof follow === 'number' ? follow : follow.within_days,
  };
}

/** What is compared, of an assessment and of a recomputation alike. */
export function view(assessment) {
  const { risk } = assessment;
  return {
    tests: Object.fromEntries(assessment.tests.map((result) => [`${result.test} ${result.side ?? '-'}`, test(result)])),
    order: assessment.tests.map((result) => result.test),
    risk: {
      ...pathway(risk),
      red_flags: risk.red_flags.map(idOf),
      not_asked: risk.not_asked,
      factors: risk.factors.map(idOf),
      other_pathways: risk.other_pathways.map(pathway),
    },
    plan: assessment.plan.map((exercise) => ({
      ...pickFrom(exercise, ['exercise', 'held', 'supervision']),
      level: exercise.start?.level ?? exercise.level,
      of: exercise.start?.of ?? exercise.of,
    })),
  };
}

/** Half the last shown digit, where a number is shown rounded. */
const SHOWN = { value: 0.0005, sem: 0.0005, mdc95: 0.005, low: 0.05, high: 0.05, expected: 0.0005 };

function same(one, other, path) {
  if (one === other) return true;
  if (typeof one !== 'number' || typeof other !== 'number') return false;
  return Math.abs(one - other) <= (SHOWN[path.slice(path.lastIndexOf('/') + 1)] ?? 0) + 1e-9;
}

/** Every place where the two differ, as { path, project, independent }. */
export function differences(project, independent, path = '') {
  if (project !== null && independent !== null && typeof project === 'object' && typeof independent === 'object') {
    const keys = [...new Set([...Object.keys(project), ...Object.keys(independent)])];
    return keys.flatMap((key) => differences(project[key] ?? null, independent[key] ?? null, `${path}/${key}`));
  }
  return same(project, independent, path) ? [] : [{ path, project, independent }];
}
