/** The pathway's level before and after, which answers changed it, and whether it rests on falls already counted. */
import type { Assessment, StepResult } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import { isOpen } from '../risk/clearance.ts';
import type { Visit } from './readings.ts';
import { fallsInWords, sinceLastOf } from './since-last.ts';
import type { LevelSet, RiskChange } from './types.ts';

type Bounds = RiskChange['before_bounds'];

/** `higher` and `lower` only where the whole range of levels still possible has moved. */
function directionOf(before: Bounds, after: Bounds, levels: readonly string[]): RiskChange['direction'] {
  const place = (level: string): number => levels.indexOf(level);
  if (before.at_least === before.at_most && after.at_least === after.at_most && before.at_least === after.at_least) return 'same';
  if (place(after.at_least) > place(before.at_most)) return 'higher';
  return place(after.at_most) < place(before.at_least) ? 'lower' : 'unclear';
}

const said = (step: StepResult): string => (step.because === '' ? step.answer : `${step.answer}: ${step.because}`);

function changedSteps(before: readonly StepResult[], after: readonly StepResult[]): string[] {
  return after.flatMap((step) => {
    const earlier = before.find((each) => each.id === step.id);
    const notReached = step.reached === 'no' && earlier?.reached === 'no';
    if (earlier === undefined || notReached || earlier.answer === step.answer) return [];
    return [`${step.question} before ${said(earlier)}; now ${said(step)}`];
  });
}

function redFlags(before: Assessment, after: Assessment): RiskChange['red_flags'] {
  const had = new Set(before.risk.red_flags.map((flag) => flag.id));
  const has = new Set(after.risk.red_flags.map((flag) => flag.id));
  const findings = (flags: Assessment['risk']['red_flags'], keep: (id: string) => boolean): string[] =>
    flags.filter((flag) => keep(flag.id)).map((flag) => flag.finding);
  return {
    new: findings(after.risk.red_flags.filter(isOpen), (id) => !had.has(id)),
    still: findings(after.risk.red_flags.filter(isOpen), (id) => had.has(id)),
    no_longer_found: findings(before.risk.red_flags, (id) => !has.has(id)),
  };
}

const boundsOf = ({ risk }: Assessment): Bounds => ({ at_least: risk.at_least, at_most: risk.at_most });

const levelSet = ({ risk: { override } }: Assessment): LevelSet | null =>
  override === null ? null : { level: override.level, label: override.label, reason: override.reason, by: override.by };

export interface RiskVisits {
  readonly before: Visit;
  /** The visit before the last: what `since_last` counts from. The first one where there are two. */
  readonly previous: Visit;
  readonly after: Visit;
}

/** `newFallsOnly`: the last visit assessed as if only falls since the one before had happened; null where that is not known. */
export function riskChange(
  { before, previous, after }: RiskVisits,
  newFallsOnly: Assessment | null,
  evidence: Evidence,
): RiskChange {
  const [first, last] = [before.assessment.risk, after.assessment.risk];
  const levels = evidence.pathways.find((pathway) => pathway.id === last.pathway)?.levels.map((level) => level.id) ?? [];
  const only = newFallsOnly === null || newFallsOnly.risk.level === last.level ? null : newFallsOnly.risk;
  return {
    before: first.level,
    after: last.level,
    before_label: first.label,
    after_label: last.label,
    before_bounds: boundsOf(before.assessment),
    after_bounds: boundsOf(after.assessment),
    before_override: levelSet(before.assessment),
    after_override: levelSet(after.assessment),
    direction: directionOf(boundsOf(before.assessment), boundsOf(after.assessment), levels),
    pathway: last.name,
    because: changedSteps(first.steps, last.steps),
    red_flags: redFlags(before.assessment, after.assessment),
    since_last: sinceLastOf(after.session),
    on_new_falls_only: only === null ? null : { level: only.level, label: only.label },
    falls: fallsInWords(previous.session, after.session),
  };
}
