/** A small folder of a clinic's own norms, and ways to break it. All values are invented. */
import type { NormsFile } from '../../src/evidence/parse.ts';

export const CLINIC_SOURCES = `sources:
  own-clinic-2026: {citation: "Invented clinic. Times of 400 clients. 2026.", doi: null}
`;
export const CLINIC_DEFAULTS = `tests:
  timed_up_and_go:
    tables:
      - {source: own-clinic-2026, why: own clients}
`;
export const CLINIC_TABLE = `source: own-clinic-2026
test: timed_up_and_go
unit: s
status: full-text
location: Table 1
population: {description: Clients of an invented clinic, kind: general, country: [NO]}
n: 400
protocol: {}
parts:
  - id: by_age
    location: Table 1
    rows:
      - {sex: all, age_min: 60, age_max: 79, percentiles: {p5: 6, p25: 8, p50: 10, p75: 12, p95: 16}}
      - {sex: all, age_min: 80, age_max: null, percentiles: {p5: 8, p25: 10, p50: 12, p75: 15, p95: 20}}
`;
export const TABLE_PATH = 'tables/timed_up_and_go/own-clinic-2026.yaml';

/** The folder as files by path; `change` replaces texts or adds files (null takes one away). */
export function clinicFiles(change: Readonly<Record<string, string | null>> = {}): NormsFile[] {
  const files: Record<string, string | null> = {
    'defaults.yaml': CLINIC_DEFAULTS,
    'sources.yaml': CLINIC_SOURCES,
    [TABLE_PATH]: CLINIC_TABLE,
    ...change,
  };
  return Object.entries(files).flatMap(([path, text]) => (text === null ? [] : [{ path, text }]));
}

/** The same below a folder, as `footing()` of run.ts takes files. */
export const clinicFolder = (name: string, change: Readonly<Record<string, string | null>> = {}): Record<string, string> =>
  Object.fromEntries(clinicFiles(change).map(({ path, text }) => [`${name}/${path}`, text]));
