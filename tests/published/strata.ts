/** How the strata that sources print are named in norms/, so that a row of one stratum is never matched with another's. */
export interface StratumName {
  /** Only for this entry; absent: for all. */
  readonly entry?: string;
  readonly key: string;
  /** Absent: the printed value itself must stand in norms/. */
  readonly value?: string | number;
  readonly tag: string;
  readonly tagValue?: string;
}

const part = (entry: string, key: string, value: string, tagValue: string): StratumName => ({
  entry,
  key,
  value,
  tag: 'part',
  tagValue,
});

export const STRATA_IN_NORMS: readonly StratumName[] = [
  { key: 'height_min_cm', tag: 'height_min_cm' },
  { key: 'height_max_cm', tag: 'height_max_cm' },
  { key: 'leg', value: 'dominant', tag: 'side', tagValue: 'dominant' },
  { key: 'leg', value: 'non-dominant', tag: 'side', tagValue: 'non_dominant' },
  { key: 'hand', value: 'right', tag: 'side', tagValue: 'right' },
  { key: 'hand', value: 'left', tag: 'side', tagValue: 'left' },
  { key: 'hand', value: 'stronger', tag: 'side', tagValue: 'stronger' },
  { key: 'column', value: 'first', tag: 'side', tagValue: 'dominant' },
  { key: 'column', value: 'second', tag: 'side', tagValue: 'non_dominant' },
  { key: 'setting', value: 'community', tag: 'setting', tagValue: 'community' },
  { key: 'setting', value: 'institution', tag: 'setting', tagValue: 'residential_care' },
  { key: 'setting', value: 'community-dwelling', tag: 'setting', tagValue: 'community' },
  part('halcyon-hertfordshire-gait', 'study', 'HCS', 'cohort_study'),
  part('halcyon-hertfordshire-gait', 'study', 'HAS', 'ageing_study'),
  part('keevil-2013-walking-speed-compilation', 'study', 'HCS', 'cohort_study'),
  part('keevil-2013-walking-speed-compilation', 'study', 'HAS', 'ageing_study'),
  part('copd-preprint-sls', 'group', 'COPD subgroup A (n 44)', 'subgroup_a'),
  part('copd-preprint-sls', 'group', 'COPD subgroup B (n 27)', 'subgroup_b'),
  part('copd-preprint-fsst', 'group', 'COPD subgroup A (n 44)', 'subgroup_a'),
  part('copd-preprint-fsst', 'group', 'COPD subgroup B (n 27)', 'subgroup_b'),
];
