/** Published marks that lie between two results. Listed whatever the verdict: a mark linked with falls is worth a look. */
import type { CutPointResult, TestResult } from '../assessment.ts';
import type { CutPoint } from '../evidence/schema/numbers.ts';
import type { ChartMark, CrossedMark } from './types.ts';

function crossing(before: CutPointResult, after: CutPointResult): CrossedMark[] {
  if (before.met === null || after.met === null || before.met === after.met) return [];
  return [
    {
      id: after.id,
      source: after.source,
      location: after.location,
      status: after.status,
      rule: after.rule,
      outcome: after.outcome,
      counts: after.counts,
      way: after.met ? 'into' : 'out_of',
      near: after.near,
    },
  ];
}

/** Marks that count come first. A mark that no longer concerns the client (another age band) is not crossed. */
export function crossedMarks(before: TestResult, after: TestResult): CrossedMark[] {
  const found = after.cut_points.flatMap((cut) => {
    const earlier = before.cut_points.find((each) => each.id === cut.id);
    return earlier === undefined ? [] : crossing(earlier, cut);
  });
  return found.sort((a, b) => Number(b.counts) - Number(a.counts));
}

const markValue = ({ met_when }: CutPoint): number | undefined =>
  met_when.at_least ?? met_when.above ?? met_when.at_most ?? met_when.below;

/** Marks that count for this client, as lines of a chart. */
export function chartMarks(result: TestResult | null, cuts: readonly CutPoint[]): ChartMark[] {
  const counting = result?.cut_points.filter((cut) => cut.counts) ?? [];
  return counting.flatMap((cut) => {
    const definition = cuts.find((each) => each.id === cut.id);
    const value = definition === undefined ? undefined : markValue(definition);
    return value === undefined ? [] : [{ value, rule: cut.rule, source: cut.source }];
  });
}
