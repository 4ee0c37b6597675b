/** A map file proposed for a header: what is certain, what is likely and to be checked, and what would not be guessed. */
import { stringify } from 'yaml';
import type { Evidence } from '../evidence/data.ts';
import { recognise } from './headings.ts';
import type { Targets } from './targets.ts';

const asKey = (heading: string): string => stringify(heading).trim();

/** YAML that `--columns` reads: lines that need a decision are comments, so that nothing is taken by accident. */
export function suggestMap(headings: readonly string[], targets: Targets, evidence: Evidence): string {
  const seen = new Map<string, string>();
  const lines = headings.map((heading) => {
    const found = recognise(heading, targets, evidence.testById);
    if (found.kind === 'unknown') return `  # ${asKey(heading)}: not guessed; write a name after the colon, or pass`;
    const name = found.name;
    if (found.kind === 'near') return `  # ${asKey(heading)}: ${name}   # not taken: ${found.why}`;
    const before = seen.get(name);
    if (before !== undefined) return `  # ${asKey(heading)}: ${name}   # not taken: "${before}" is read as this already`;
    seen.set(name, heading);
    return `  ${asKey(heading)}: ${name}   # ${found.by === 'certain' ? 'certain' : 'a usual heading; check it'}`;
  });
  const missing = ['age', 'sex', 'ref', 'assessed'].filter((name) => !seen.has(name) && !(name === 'age' && seen.has('born')));
  return [
    '# What each column of the cohort means. Check every line, then use it with --columns.',
    'format: 1',
    'decimal: point   # or comma: 12,8',
    'dates: ymd       # 2026-05-11; or dmy, or mdy',
    'columns:',
    ...(seen.size === 0 ? ['  {}'] : []),
    ...lines,
    ...(missing.length === 0 ? [] : [`# No column was found for: ${missing.join(', ')}.`]),
    '',
  ].join('\n');
}
