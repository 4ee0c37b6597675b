/** Fall risk before and after, in words; falls already counted at the visit before are never counted as new. */
import type { RiskChange, SinceLast } from '../../change/types.ts';
import { boundsWords } from '../view/words.ts';

const labelOf = (level: string, label: string, bounds: RiskChange['before_bounds']): string =>
  level === 'undetermined' ? boundsWords(bounds.at_least, bounds.at_most) : label.toLowerCase();

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
  const before = labelOf(risk.before, risk.before_label, risk.before_bounds);
  const after = labelOf(risk.after, risk.after_label, risk.after_bounds);
  const only =
    risk.on_new_falls_only === null
      ? []
      : [
          `The pathway looks back a year, so falls known at the visit before still count. Counting only falls since then the level would be: ${risk.on_new_falls_only.label.toLowerCase()}.`,
        ];
  const gone = risk.red_flags.no_longer_found.map((finding) => `warning sign of the first visit not found now: ${finding}`);
  return {
    headline: `Before: ${before}. Now: ${after} (${DIRECTIONS[risk.direction]}).`,
    lines: [
      `Falls: ${risk.falls}.`,
      ...only,
      ...risk.because.map((line) => `Changed: ${line}`),
      ...(risk.since_last === null ? [] : sinceWords(risk.since_last)),
      ...gone,
    ],
  };
}
