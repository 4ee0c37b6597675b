/** Fall risk before and after, in words; falls already counted at the visit before are never counted as new. */
import type { LevelSet, RiskChange, SinceLast } from '../../change/types.ts';
import { boundsWords } from '../view/words.ts';

const labelOf = (level: string, label: string, bounds: RiskChange['before_bounds']): string =>
  level === 'undetermined' ? boundsWords(bounds.at_least, bounds.at_most) : label.toLowerCase();

/** A level set by hand counts and stands first; the pathway's own is never hidden behind it. */
export const withLevelSet = (own: string, set: LevelSet | null): string =>
  set === null
    ? own
    : `${set.label.toLowerCase()}, set by ${set.by ?? 'the professional'} (${set.reason}; the pathway itself gives: ${own})`;

const DIRECTIONS: Readonly<Record<RiskChange['direction'], string>> = {
  higher: 'higher than before',
  lower: 'lower than before',
  same: 'as before',
  unclear: 'whether it moved cannot be told until the level is settled',
};

function sinceWords(since: SinceLast): string[] {
  const sessions = since.sessions_done === null ? [] : [`${since.sessions_done} exercise sessions done since the last visit`];
  return sessions;
}

export function riskWords(risk: RiskChange): { readonly headline: string; readonly lines: readonly string[] } {
  const before = withLevelSet(labelOf(risk.before, risk.before_label, risk.before_bounds), risk.before_override);
  const after = withLevelSet(labelOf(risk.after, risk.after_label, risk.after_bounds), risk.after_override);
  const isSet = risk.before_override !== null || risk.after_override !== null;
  const moved = `${isSet ? 'the pathway itself: ' : ''}${DIRECTIONS[risk.direction]}`;
  const only =
    risk.on_new_falls_only === null
      ? []
      : [
          `The pathway looks back a year, so falls known at the visit before still count. Counting only falls since then the level would be: ${risk.on_new_falls_only.label.toLowerCase()}.`,
        ];
  const gone = risk.red_flags.no_longer_found.map((finding) => `warning sign of the first visit not found now: ${finding}`);
  return {
    headline: `Before: ${before}. Now: ${after} (${moved}).`,
    lines: [
      `Falls: ${risk.falls}.`,
      ...only,
      ...risk.because.map((line) => `Changed: ${line}`),
      ...(risk.since_last === null ? [] : sinceWords(risk.since_last)),
      ...gone,
    ],
  };
}
